import type { Entry } from "../entry.js";

export const ratioChoiceEntries: readonly Entry[] = [];
