import type { Entry } from "./entry.js";
import { aboutEntries } from "./families/about.js";

/** Every cell function, by family, in the order in which tables and help pages list them. */
export const catalogue: readonly Entry[] = [...aboutEntries];
