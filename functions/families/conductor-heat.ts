import type { Entry } from "../entry.js";

export const conductorHeatEntries: readonly Entry[] = [];
