import type { Entry } from "../entry.js";

export const protectionEntries: readonly Entry[] = [];
