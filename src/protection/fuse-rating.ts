/** The next standard fuse rating at or above a load current with a factor on it. */
import { NoAnswerError, requireAbove, requireAtLeast } from "../quantities/errors.js";
import type { CitationId } from "../quantities/citations.js";
import { figure } from "../quantities/figures.js";
import type { Caveat, QuantitiesOf, StepsWith } from "../quantities/steps.js";
import type { Amperes } from "../quantities/units.js";

/** `as made`: miniature fuses follow R10, power fuses IEC 60269-1, which has no 31.5 A but 32 A. */
export const FUSE_SERIES = ["R10", "low voltage", "as made"] as const;
export type FuseSeries = (typeof FUSE_SERIES)[number];

export interface FusedLoad {
  readonly loadCurrent: Amperes;
  /** Factor on the load current, 1 or more. */
  readonly factor: number;
  readonly series: FuseSeries;
}

export interface FuseRating {
  readonly leastRating: Amperes;
  readonly rating: Amperes;
  readonly caveats: readonly Caveat[];
}

/** Typed as printed, never made by rounding powers of ten. [iso-3] */
const R10 = [1, 1.25, 1.6, 2, 2.5, 3.15, 4, 5, 6.3, 8] as const;

/** From 0.1 A; up to 20 A the ratings of miniature fuses [iec-60127-7], above that preferred numbers to where low-voltage fuses end. */
const R10_RATINGS: readonly Amperes[] = [
  ...[0.1, 0.125, 0.16, 0.2, 0.25, 0.315, 0.4, 0.5, 0.63, 0.8],
  ...R10,
  ...[10, 12.5, 16, 20, 25, 31.5, 40, 50, 63, 80],
  ...[100, 125, 160, 200, 250, 315, 400, 500, 630, 800],
  ...[1000, 1250],
];

/** [iec-60269-1] */
const LOW_VOLTAGE_RATINGS: readonly Amperes[] = [
  2, 4, 6, 8, 10, 12, 16, 20, 25, 32, 40, 50, 63, 80, 100, 125, 160, 200, 250, 315, 400, 500, 630,
  800, 1000, 1250,
];

/** Where miniature fuses end. [iec-60127-7] */
const LARGEST_MINIATURE: Amperes = 20;

export const FUSE_RATINGS: Readonly<Record<FuseSeries, readonly Amperes[]>> = {
  R10: R10_RATINGS,
  "low voltage": LOW_VOLTAGE_RATINGS,
  "as made": [
    ...R10_RATINGS.filter((rating) => rating <= LARGEST_MINIATURE),
    ...LOW_VOLTAGE_RATINGS.filter((rating) => rating > LARGEST_MINIATURE),
  ],
};

const PRINTED: Readonly<Record<FuseSeries, { readonly table: string; readonly cite: CitationId }>> =
  {
    R10: { table: "ISO 3, series R10", cite: "iso-3" },
    "low voltage": {
      table: "IEC 60269-1, preferred rated currents",
      cite: "iec-60269-1",
    },
    "as made": {
      table: `ISO 3, series R10, up to ${LARGEST_MINIATURE} A, IEC 60269-1, preferred rated currents, above`,
      cite: "iec-60269-1",
    },
  };

/** A product that meets a step but for rounding in the last digits is that step. */
const ROUNDING = 1e-12;

/**
 * The least rating of a series that is at or above the load current times the factor.
 * @throws {InputError | NoAnswerError}
 */
export function fuseRating({ loadCurrent, factor, series }: FusedLoad): FuseRating {
  requireAbove("loadCurrent", loadCurrent, 0);
  requireAtLeast("factor", factor, 1);
  const leastRating = loadCurrent * factor;
  const ratings = FUSE_RATINGS[series];
  const rating = ratings.find((step) => step >= leastRating * (1 - ROUNDING));
  if (rating === undefined)
    throw new NoAnswerError(
      "loadCurrent",
      `no rating of the series "${series}" is ${figure(leastRating)} A or more: it ends at ${ratings.at(-1)} A`,
    );
  return { leastRating, rating, caveats: [VOLTAGE_NOTE] };
}

const VOLTAGE_NOTE: Caveat = {
  code: "dc-voltage",
  field: "rating",
  text: "the fuse's dc voltage rating must cover the supply's highest voltage; its breaking capacity the greatest fault current (FAULT_CURRENT, case greatest) and what capacitors add to it",
  cite: "common-practice",
};

export const fusedLoadGivens: QuantitiesOf<FusedLoad> = {
  loadCurrent: { label: "Load current", symbol: "I", unit: "A" },
  factor: { label: "Factor on the load current", symbol: "k", unit: "1" },
};

export function fuseRatingSteps({ series }: FusedLoad): StepsWith<"rating"> {
  return {
    leastRating: {
      label: "Least rating",
      symbol: "I₁",
      unit: "A",
      kind: "formula",
      formula: "loadCurrent * factor",
      cite: "common-practice",
    },
    rating: {
      label: "Next rating in the series",
      symbol: "In",
      unit: "A",
      kind: "lookup",
      table: PRINTED[series].table,
      key: "leastRating",
      cite: PRINTED[series].cite,
    },
  };
}
