import type { Entry } from "./entry.js";
import { aboutEntries } from "./families/about.js";
import { chainEntries } from "./families/chain.js";
import { conductorEntries } from "./families/conductor.js";
import { safetyEntries } from "./families/safety.js";

/** Every cell function, by family, in the order in which tables and help pages list them. */
export const catalogue: readonly Entry[] = [
  ...conductorEntries,
  ...chainEntries,
  ...safetyEntries,
  ...aboutEntries,
];
