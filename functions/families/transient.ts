import type { Entry } from "../entry.js";

export const transientEntries: readonly Entry[] = [];
