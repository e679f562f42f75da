import type { Entry } from "./entry.js";
import { aboutEntries } from "./families/about.js";
import { chainBandsEntries } from "./families/chain-bands.js";
import { chainCasesEntries } from "./families/chain-cases.js";
import { chainMeshesEntries } from "./families/chain-meshes.js";
import { chainChecksEntries } from "./families/chain-checks.js";
import { chainCompareEntries } from "./families/chain-compare.js";
import { chainLimitEntries } from "./families/chain-limits.js";
import { chainScheduleEntries } from "./families/chain-schedule.js";
import { chainTableEntries } from "./families/chain-table.js";
import { chainSpreadEntries } from "./families/chain-spread.js";
import { chainTornadoEntries } from "./families/chain-tornado.js";
import { chainEntries } from "./families/chain.js";
import { conductorChoiceEntries } from "./families/conductor-choice.js";
import { conductorGeometryEntries } from "./families/conductor-geometry.js";
import { conductorHeatEntries } from "./families/conductor-heat.js";
import { conductorEntries } from "./families/conductor.js";
import { economicsEntries } from "./families/economics.js";
import { parallelEntries } from "./families/parallel.js";
import { protectionEntries } from "./families/protection.js";
import { ratioChoiceEntries } from "./families/ratio-choice.js";
import { ratioEntries } from "./families/ratio.js";
import { safetyEntries } from "./families/safety.js";
import { stageEntries } from "./families/stage.js";
import { supplyEntries } from "./families/supply.js";
import { transientEntries } from "./families/transient.js";

/** Every cell function, by family, in the order in which tables and help pages list them. */
export const catalogue: readonly Entry[] = [
  ...conductorEntries,
  ...conductorChoiceEntries,
  ...conductorHeatEntries,
  ...conductorGeometryEntries,
  ...supplyEntries,
  ...ratioEntries,
  ...ratioChoiceEntries,
  ...stageEntries,
  ...chainTableEntries,
  ...chainEntries,
  ...chainLimitEntries,
  ...chainCasesEntries,
  ...chainMeshesEntries,
  ...chainTornadoEntries,
  ...chainSpreadEntries,
  ...chainBandsEntries,
  ...chainScheduleEntries,
  ...chainChecksEntries,
  ...chainCompareEntries,
  ...parallelEntries,
  ...safetyEntries,
  ...protectionEntries,
  ...transientEntries,
  ...economicsEntries,
  ...aboutEntries,
];
