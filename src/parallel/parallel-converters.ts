/** How many like units a load needs so that the worst-placed one stays within its rating, none of them fed backwards. */
import { NoAnswerError, requireAbove, requireAtLeast, requireWhole } from "../quantities/errors.js";
import { figure } from "../quantities/figures.js";
import type { Caveat, StepsWith } from "../quantities/steps.js";
import type { Amperes } from "../quantities/units.js";
import {
  type LikeConverters,
  requireLikeConverters,
  type ConverterExtremes,
  converterExtremes,
  converterExtremesSteps,
} from "./like-converters.js";
import { parallelWorst } from "./parallel-worst.js";

export interface RatedConverters extends LikeConverters {
  readonly rating: Amperes;
  /** Units that may be lost. */
  readonly spareConverters: number;
}

export interface ParallelConverterCount extends ConverterExtremes {
  /** Number of units before it is rounded up. */
  readonly leastConverters: number;
  readonly neededConverters: number;
  /** Current of the worst-placed unit when only the needed ones run. */
  readonly worstCurrent: Amperes;
  /** Number of units, the spare ones included. */
  readonly converters: number;
  readonly caveats: readonly Caveat[];
}

/** A count that is whole but for rounding in the last digits is that count. */
const ROUNDING = 1e-12;

/** Beyond it a load in mA or a rating in kA is more likely than a bus. */
const MOST_CONVERTERS = 1_000_000;

/**
 * @throws {InputError}; {NoAnswerError} where what units differ by is more than a rating alone, and where the units that
 * the rating asks for leave no voltage on the bus.
 */
export function parallelConverters(rated: RatedConverters): ParallelConverterCount {
  const { load, rating, spareConverters } = rated;
  requireLikeConverters(rated);
  requireAbove("rating", rating, 0);
  requireAtLeast("spareConverters", spareConverters, 0);
  if (spareConverters > 0) requireWhole("spareConverters", spareConverters, 1);
  const ends = converterExtremes(rated);
  const leastConverters = leastConvertersOf(rated, ends);
  const neededConverters = Math.ceil(leastConverters * (1 - ROUNDING));
  if (neededConverters > MOST_CONVERTERS)
    throw new NoAnswerError(
      "load",
      `${figure(neededConverters)} units would be needed, more than the ${MOST_CONVERTERS} that are counted: are load and rating in A?`,
    );
  const worstCurrent = worstCurrentOf(neededConverters, rated, ends);
  const converters = neededConverters + spareConverters;
  const caveats = notesOn(load / neededConverters, rated);
  return { ...ends, leastConverters, neededConverters, worstCurrent, converters, caveats };
}

function worstCurrentOf(
  converters: number,
  rated: RatedConverters,
  { highestVoltage, lowestResistance }: ConverterExtremes,
): Amperes {
  try {
    return parallelWorst({ ...rated, converters, reverseFlow: "blocked" }).worstCurrent;
  } catch (error) {
    if (!(error instanceof NoAnswerError)) throw error;
    throw new NoAnswerError(
      "rating",
      `no operating point: rated for ${figure(rated.rating)} A the load asks for ${converters}, which leaves no voltage on the bus: ${figure(highestVoltage)} V through ${figure(lowestResistance)} Ω drive ${figure(highestVoltage / lowestResistance)} A at most`,
    );
  }
}

function leastConvertersOf({ load, rating }: RatedConverters, ends: ConverterExtremes): number {
  if (load <= rating) return 1;
  const { highestVoltage, lowestVoltage } = ends;
  const { lowestResistance, highestResistance } = ends;
  const driven = highestVoltage - lowestVoltage;
  // What each further unit takes off the worst-placed one; none, where the difference of voltages alone drives its rating.
  const relief = (rating * lowestResistance - driven) / highestResistance;
  if (!(relief > 0))
    throw new NoAnswerError(
      "mismatch",
      `no number of units is enough: set voltages that differ by ${figure(driven)} V drive ${figure(driven / lowestResistance)} A through ${figure(lowestResistance)} Ω, the unit's rating of ${figure(rating)} A or more`,
    );
  return 1 + (load - rating) / relief;
}

function notesOn(evenShare: Amperes, { rating, spareConverters }: RatedConverters): Caveat[] {
  const caveats: Caveat[] = [];
  if (spareConverters === 0)
    caveats.push({
      code: "no-spare",
      field: "converters",
      text: "none of them may be lost",
      cite: "definition",
    });
  if (evenShare < rating / 2)
    caveats.push({
      code: "poor-sharing",
      field: "converters",
      text: "an even share is below half of the rating: matching the units better would need fewer of them",
      cite: "common-practice",
    });
  return caveats;
}

export function parallelConvertersSteps({
  load,
  rating,
}: RatedConverters): StepsWith<"converters"> {
  return {
    ...converterExtremesSteps,
    leastConverters: {
      label: "Least number of units, not rounded",
      symbol: "x",
      unit: "1",
      kind: "formula",
      formula:
        load <= rating
          ? "1"
          : "1 + (load - rating) / ((rating * lowestResistance - (highestVoltage - lowestVoltage)) / highestResistance)",
      cite: "parallel-generators",
    },
    neededConverters: {
      label: "The next whole number",
      symbol: "n",
      unit: "1",
      kind: "solved",
      residual:
        "min(0, neededConverters - leastConverters) + max(0, neededConverters - leastConverters - 1)",
      cite: "definition",
    },
    worstCurrent: {
      label: "Current of the worst-placed one of these",
      symbol: "Iw",
      unit: "A",
      kind: "formula",
      formula:
        "min(load, (load + (neededConverters - 1) / highestResistance * (highestVoltage - lowestVoltage)) / (1 + (neededConverters - 1) / highestResistance * lowestResistance))",
      cite: "parallel-generators",
    },
    converters: {
      label: "Units with spare ones",
      symbol: "N",
      unit: "1",
      kind: "formula",
      formula: "neededConverters + spareConverters",
      cite: "definition",
    },
  };
}
