import type { Entry } from "./entry.js";
import { aboutEntries } from "./families/about.js";
import { chainEntries } from "./families/chain.js";
import { conductorEntries } from "./families/conductor.js";
import { parallelEntries } from "./families/parallel.js";
import { ratioEntries } from "./families/ratio.js";
import { safetyEntries } from "./families/safety.js";
import { stageEntries } from "./families/stage.js";

/** Every cell function, by family, in the order in which tables and help pages list them. */
export const catalogue: readonly Entry[] = [
  ...conductorEntries,
  ...ratioEntries,
  ...stageEntries,
  ...chainEntries,
  ...parallelEntries,
  ...safetyEntries,
  ...aboutEntries,
];
