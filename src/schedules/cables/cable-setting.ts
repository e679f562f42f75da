/** What a row of cables is, as every figure of it is worked out from. */
import type { ConductorBuild } from "../../conductors/conductor-build.js";
import {
  type ConductorMaterial,
  conductorMaterials,
  materialNamed,
} from "../../conductors/conductor-materials.js";
import { type ConductorSize } from "../../conductors/conductor-section.js";
import { type InsulationName, insulations } from "../../conductors/insulations.js";
import type { Quantity, Step } from "../../quantities/steps.js";
import type { Celsius } from "../../quantities/units.js";
import { coresPerPole } from "../columns.js";
import { figureOf, isGiven, refused, type ScheduleRow, sizeOf, wordOf } from "../schedule-row.js";
import { Givens } from "../table-row.js";

/** The engine's names of a cable's figures, as the row has them. */
export const CABLE_FIELDS = {
  temperatureC: "conductorC",
  temperatureLimitC: "conductorC",
  ambientC: "locations",
  loadedCores: "cores",
  spacing: "coreSpacing",
  diameter: "size",
} as const;

export interface CableSetting {
  readonly row: ScheduleRow;
  readonly places: readonly ScheduleRow[];
  readonly material: ConductorMaterial;
  readonly build: ConductorBuild | undefined;
  readonly size: ConductorSize | undefined;
  readonly cores: number;
  /** Cables of the row, and loops that they make. */
  readonly cables: number;
  readonly loops: number;
  /** Cores side by side of one loop's pole. */
  readonly perPole: number;
  /** Hottest conductor; undefined where neither it nor an insulation is given. */
  readonly hotC: Celsius | undefined;
  readonly insulation: InsulationName | undefined;
}

export function settingOf(row: ScheduleRow, places: readonly ScheduleRow[]): CableSetting {
  const cores = figureOf(row, "cores") ?? 2;
  const cables = figureOf(row, "cables") ?? 1;
  const isOdd = cores % 2 === 1;
  if (isOdd && cables % 2 === 1)
    throw refused(
      row,
      isGiven(row, "cores") ? "cores" : "cables",
      `even, half out and half back, or Cables even (${cores} × ${cables} cores)`,
    );
  const insulation = wordOf(row, "insulation") as InsulationName | undefined;
  const build = wordOf(row, "build") as ConductorBuild | undefined;
  const material = wordOf(row, "material");
  return {
    row,
    places,
    cores,
    cables,
    loops: isOdd ? cables / 2 : cables,
    perPole: coresPerPole(cores),
    build,
    size: sizeOf(row),
    material: material === undefined ? conductorMaterials.copper : materialNamed(material),
    insulation,
    hotC: figureOf(row, "conductorC") ?? limitOf(insulation),
  };
}

export function limitOf(insulation: InsulationName | undefined): Celsius | undefined {
  return insulation === undefined || insulation === "none"
    ? undefined
    : insulations[insulation].usualLimitC;
}

/** As text: a bare number would be metal area. */
export function sizeInWords(size: ConductorSize): string {
  return size.sizing === "bare metal" ? String(size.areaMm2) : size.written;
}

export const LIMIT: Step = {
  label: "Hottest conductor, the usual limit of its insulation",
  symbol: "θ",
  unit: "°C",
  kind: "lookup",
  table: "Insulations",
  key: "insulation",
  cite: "insulation-limits",
};

export const CABLES: Quantity = {
  label: "Cables side by side",
  symbol: "n",
  unit: "1",
};

export const CORES: Quantity = {
  label: "Cores that carry current in each cable",
  symbol: "c",
  unit: "1",
};

/** Looked up, since an odd count goes one way as a whole: what was found for one count holds for no other. */
export const PER_POLE: Step = {
  label: "Cores of one pole: half of them, of an odd count all",
  symbol: "m",
  unit: "1",
  kind: "lookup",
  table: "Cores of one pole",
  key: "cores",
  cite: "definition",
};

/** As typed, which is then a given, or the limit of the insulation. */
export function hottestStep(
  givens: Givens,
  row: ScheduleRow,
  name: string,
): Readonly<Record<string, Step>> {
  if (isGiven(row, "conductorC")) {
    givens.link(name, row, "conductorC");
    return {};
  }
  delete givens.quantities[name];
  givens.add("insulation", INSULATION, row, "insulation");
  return { [name]: LIMIT };
}

export const INSULATION: Quantity = {
  label: "Insulation",
  symbol: "insulation",
  unit: "",
};
