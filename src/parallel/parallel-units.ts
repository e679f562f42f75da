/** How many like units a load needs so that the worst-placed one stays within its rating, none of them fed backwards. */
import { NoAnswerError, requireAbove, requireAtLeast, requireWhole } from "../quantities/errors.js";
import { figure } from "../quantities/figures.js";
import type { Note, StepsWith } from "../quantities/steps.js";
import type { Amperes } from "../quantities/units.js";
import {
  type LikeUnits,
  requireLikeUnits,
  type UnitExtremes,
  unitExtremes,
  unitExtremesSteps,
} from "./like-units.js";
import { parallelWorst } from "./parallel-worst.js";

export interface RatedUnits extends LikeUnits {
  readonly rating: Amperes;
  /** Units that may be lost. */
  readonly spareUnits: number;
}

export interface ParallelUnitCount extends UnitExtremes {
  /** Before it is rounded up. */
  readonly leastUnits: number;
  readonly neededUnits: number;
  /** Of the worst-placed unit among the needed ones alone. */
  readonly worstCurrent: Amperes;
  /** With the spare ones. */
  readonly units: number;
  readonly notes: readonly Note[];
}

/** A count that is whole but for rounding in the last digits is that count. */
const ROUNDING = 1e-12;

/** Beyond it a load in mA or a rating in kA is more likely than a bus. */
const MOST_UNITS = 1_000_000;

/**
 * @throws {InputError}; {NoAnswerError} where what units differ by is more than a rating alone, and where the units that
 * the rating asks for leave no voltage on the bus.
 */
export function parallelUnits(rated: RatedUnits): ParallelUnitCount {
  const { load, rating, spareUnits } = rated;
  requireLikeUnits(rated);
  requireAbove("rating", rating, 0);
  requireAtLeast("spareUnits", spareUnits, 0);
  if (spareUnits > 0) requireWhole("spareUnits", spareUnits, 1);
  const ends = unitExtremes(rated);
  const leastUnits = leastUnitsOf(rated, ends);
  const neededUnits = Math.ceil(leastUnits * (1 - ROUNDING));
  if (neededUnits > MOST_UNITS)
    throw new NoAnswerError(
      "load",
      `${figure(neededUnits)} units would be needed, more than the ${MOST_UNITS} that are counted: are load and rating in A?`,
    );
  const worstCurrent = worstCurrentOf(neededUnits, rated, ends);
  const units = neededUnits + spareUnits;
  const notes = notesOn(load / neededUnits, rated);
  return { ...ends, leastUnits, neededUnits, worstCurrent, units, notes };
}

function worstCurrentOf(
  units: number,
  rated: RatedUnits,
  { highestVoltage, lowestResistance }: UnitExtremes,
): Amperes {
  try {
    return parallelWorst({ ...rated, units, reverseFlow: "blocked" }).worstCurrent;
  } catch (error) {
    if (!(error instanceof NoAnswerError)) throw error;
    throw new NoAnswerError(
      "rating",
      `no operating point: rated for ${figure(rated.rating)} A the load asks for ${units}, which leaves no voltage on the bus: ${figure(highestVoltage)} V through ${figure(lowestResistance)} Ω drive ${figure(highestVoltage / lowestResistance)} A at most`,
    );
  }
}

function leastUnitsOf({ load, rating }: RatedUnits, ends: UnitExtremes): number {
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

function notesOn(evenShare: Amperes, { rating, spareUnits }: RatedUnits): Note[] {
  const notes: Note[] = [];
  if (spareUnits === 0)
    notes.push({
      code: "no-spare",
      field: "units",
      text: "none of them may be lost",
      cite: "definition",
    });
  if (evenShare < rating / 2)
    notes.push({
      code: "poor-sharing",
      field: "units",
      text: "an even share is below half of the rating: matching the units better would need fewer of them",
      cite: "common-practice",
    });
  return notes;
}

export function parallelUnitsSteps({ load, rating }: RatedUnits): StepsWith<"units"> {
  return {
    ...unitExtremesSteps,
    leastUnits: {
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
    neededUnits: {
      label: "The next whole number",
      symbol: "n",
      unit: "1",
      kind: "solved",
      residual: "min(0, neededUnits - leastUnits) + max(0, neededUnits - leastUnits - 1)",
      cite: "definition",
    },
    worstCurrent: {
      label: "Current of the worst-placed one of these",
      symbol: "Iw",
      unit: "A",
      kind: "formula",
      formula:
        "min(load, (load + (neededUnits - 1) / highestResistance * (highestVoltage - lowestVoltage)) / (1 + (neededUnits - 1) / highestResistance * lowestResistance))",
      cite: "parallel-generators",
    },
    units: {
      label: "Units with spare ones",
      symbol: "N",
      unit: "1",
      kind: "formula",
      formula: "neededUnits + spareUnits",
      cite: "definition",
    },
  };
}
