/** The smallest standard size of conductor whose drop stays within a limit and that carries its current in free air. */
import { InputError, NoAnswerError, requireAbove } from "../quantities/errors.js";
import { figure } from "../quantities/figures.js";
import type { Caveat } from "../quantities/steps.js";
import type { Amperes, Volts, Watts } from "../quantities/units.js";
import { STANDARD_SIZES_MM2 } from "./conductor-classes.js";
import { type ConductorLoss, conductorLoss, type LoadedRun } from "./conductor-loss.js";
import { conductorSection, type ConductorSize } from "./conductor-section.js";
import { FREE_AIR_C, type FreeAirCurrent, freeAirCurrent } from "./free-air-current.js";

export type SizeSeries = "metric" | "AWG";
export const SIZE_SERIES = ["metric", "AWG"] as const satisfies readonly SizeSeries[];

export interface SizedRun extends Omit<LoadedRun, "size"> {
  readonly largestDrop: Volts;
  readonly series: SizeSeries;
}

export interface ConductorSizeChoice {
  readonly size: ConductorSize;
  readonly name: string;
  /** The number in the size's name: mm² of a metric size, the gauge of an AWG size, kcmil of a larger one. */
  readonly sizeNumber: number;
  /** The run with that size. */
  readonly loaded: ConductorLoss;
  readonly drop: Volts;
  readonly loss: Watts;
  /** Current that one core of that size carries in free air. */
  readonly freeAir: FreeAirCurrent;
  readonly caveats: readonly Caveat[];
}

const METRIC_SIZES: readonly ConductorSize[] = STANDARD_SIZES_MM2.map((nominalMm2) => ({
  sizing: "metric name",
  nominalMm2,
  written: `${nominalMm2} mm²`,
}));

/** As sold: even gauges, 3 and 1, then aught sizes and round figures of kcmil. */
const GAUGES = [30, 28, 26, 24, 22, 20, 18, 16, 14, 12, 10, 8, 6, 4, 3, 2, 1, 0, -1, -2, -3];
const KCMILS = [250, 300, 350, 400, 500, 600, 700, 750, 800, 900, 1000, 1250, 1500, 1750, 2000];

const AWG_SIZES: readonly ConductorSize[] = [
  ...GAUGES.map((gauge): ConductorSize => ({
    sizing: "AWG",
    gauge,
    written: gauge > 0 ? `${gauge} AWG` : `${1 - gauge}/0 AWG`,
  })),
  ...KCMILS.map((kcmil): ConductorSize => ({
    sizing: "kcmil",
    kcmil,
    written: `${kcmil} kcmil`,
  })),
];

/** From the least up. */
export const SERIES_SIZES: Readonly<Record<SizeSeries, readonly ConductorSize[]>> = {
  metric: METRIC_SIZES,
  AWG: AWG_SIZES,
};

/**
 * The least size of a series that keeps the drop and carries the current in free air.
 * @throws {InputError}; {NoAnswerError} where no size is enough, with what the largest comes to.
 */
export function conductorSizeChoice(run: SizedRun): ConductorSizeChoice {
  const { largestDrop, series, temperatureC } = run;
  requireAbove("largestDrop", largestDrop, 0);
  const coreCurrent = run.current / run.parallel;
  let dropping: { size: ConductorSize; drop: Volts } | undefined;
  const heating: Heated[] = [];
  for (const size of SERIES_SIZES[series]) {
    const loaded = loadedWith(size, run);
    if (!loaded) continue;
    const { drop, loss } = loaded;
    if (drop > largestDrop) {
      dropping = { size, drop };
      continue;
    }
    const freeAir = freeAirCurrent({ ...run, size }, temperatureC);
    const name = nameOf(size);
    if (freeAir.current < coreCurrent) {
      heating.push({ name, freeAir });
      continue;
    }
    const decided = decidingCaveat({ name, freeAir }, coreCurrent, heating[0]);
    const caveats = [...loaded.caveats, decided];
    const sizeNumber = numberOf(size);
    return { size, name, sizeNumber, loaded, drop, loss, freeAir, caveats };
  }
  const hottest = heating.at(-1);
  throw hottest ? noneCoolEnough(hottest, coreCurrent) : noneLargeEnough(run, dropping);
}

interface Heated {
  readonly name: string;
  readonly freeAir: FreeAirCurrent;
}

/** Undefined where the build has no row for the size. */
function loadedWith(size: ConductorSize, run: SizedRun): ConductorLoss | undefined {
  try {
    return conductorLoss({ ...run, size });
  } catch (error) {
    if (error instanceof NoAnswerError && error.field === "size") return undefined;
    throw error;
  }
}

/** Which of the two asked for the size; `byDrop` is the one that the drop alone would have taken, where it is another. */
function decidingCaveat(chosen: Heated, coreCurrent: Amperes, byDrop: Heated | undefined): Caveat {
  const [code, decides] =
    byDrop === undefined
      ? ["drop-decides", `the drop decides: ${heatText(chosen)}`]
      : [
          "heat-decides",
          `its own heat decides: ${byDrop.name} would meet the drop, but ${heatText(byDrop)}`,
        ];
  return {
    code,
    field: "freeAirCurrent",
    text: `${decides}, here ${figure(coreCurrent)} A; a group, a duct, hotter air, fault withstand and local code may ask for more`,
    cite: "iec-60364-5-52",
  };
}

function heatText({ name, freeAir }: Heated): string {
  const { current, temperatureLimitC } = freeAir;
  return `a core of ${name} alone in free air of ${FREE_AIR_C} °C reaches ${figure(temperatureLimitC)} °C at ${figure(current)} A`;
}

function nameOf(size: ConductorSize): string {
  return size.sizing === "bare metal" ? `${size.areaMm2}` : size.written;
}

function numberOf(size: ConductorSize): number {
  switch (size.sizing) {
    case "bare metal":
      return size.areaMm2;
    case "metric name":
      return size.nominalMm2;
    case "AWG":
      return size.gauge;
    case "kcmil":
      return size.kcmil;
  }
}

function noneCoolEnough(largest: Heated, coreCurrent: Amperes): NoAnswerError {
  return new NoAnswerError(
    "current",
    `no size is large enough: ${heatText(largest)}, here ${figure(coreCurrent)} A: use cores in parallel`,
  );
}

function noneLargeEnough(
  { largestDrop, series }: SizedRun,
  largest: { size: ConductorSize; drop: Volts } | undefined,
): NoAnswerError | InputError {
  if (!largest) return new InputError("build", null, `one that has sizes of the ${series} series`);
  const areaMm2 = conductorSection(largest.size).area * 1e6;
  const needed = (areaMm2 * largest.drop) / largestDrop;
  return new NoAnswerError(
    "largestDrop",
    `no size is large enough: ${nameOf(largest.size)} drops ${figure(largest.drop)} V; about ${figure(needed)} mm² would drop ${figure(largestDrop)} V: use cores in parallel`,
  );
}
