import type { Entry } from "../entry.js";

export const economicsEntries: readonly Entry[] = [];
