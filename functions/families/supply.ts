import type { Entry } from "../entry.js";

export const supplyEntries: readonly Entry[] = [];
