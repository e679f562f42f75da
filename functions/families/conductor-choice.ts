import type { Entry } from "../entry.js";

export const conductorChoiceEntries: readonly Entry[] = [];
