import type { Entry } from "../entry.js";

export const conductorGeometryEntries: readonly Entry[] = [];
