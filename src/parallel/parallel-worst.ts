/**
 * The worst-placed of like units on one bus with a load of constant current: its voltage at the top of what units differ
 * by and its resistance at the bottom, all others the opposite way. No other placement gives a unit more, with one
 * exception: where it drives current back into the others, it drives most where their resistance is lowest too. Its
 * current rises or falls steadily with the others' conductance, so the greater of the two ends is the worst.
 *
 * The unit that is fed most, where reverse flow is allowed, is the mirror of it: its voltage lowest, all others' highest,
 * and every resistance lowest.
 */
import { NoAnswerError, requireWhole } from "../quantities/errors.js";
import { figure } from "../quantities/figures.js";
import type { Caveat, StepsWith } from "../quantities/steps.js";
import type { Amperes, Ohms } from "../quantities/units.js";
import {
  type LikeConverters,
  requireLikeConverters,
  type ConverterExtremes,
  converterExtremes,
  converterExtremesSteps,
} from "./like-converters.js";
import type { ReverseFlow } from "./parallel-share.js";

export interface LikeConvertersInParallel extends LikeConverters {
  readonly converters: number;
  readonly reverseFlow: ReverseFlow;
}

export interface ParallelWorst extends ConverterExtremes {
  readonly evenShare: Amperes;
  /** Current beside units of the highest resistance, if currents could flow back into them. */
  readonly besideHighest: Amperes;
  /** Current beside units of the lowest resistance. */
  readonly besideLowest: Amperes;
  readonly worstCurrent: Amperes;
  /** Current that the others can drive back into one unit; undefined where reverse flow is blocked. */
  readonly mostFed: Amperes | undefined;
  readonly caveats: readonly Caveat[];
}

/** @throws {InputError}; {NoAnswerError} where the load leaves no voltage on the bus. */
export function parallelWorst(parallel: LikeConvertersInParallel): ParallelWorst {
  const { load, converters, reverseFlow } = parallel;
  requireLikeConverters(parallel);
  requireWhole("converters", converters, 1);
  const extremes = converterExtremes(parallel);
  const { highestVoltage, lowestResistance, highestResistance } = extremes;
  const besideHighest = currentBeside(highestResistance, parallel, extremes);
  const besideLowest = currentBeside(lowestResistance, parallel, extremes);
  const freeCurrent = Math.max(besideHighest, besideLowest);
  const worstCurrent = reverseFlow === "blocked" ? Math.min(freeCurrent, load) : freeCurrent;
  const mostFed = reverseFlow === "blocked" ? undefined : mostFedOf(parallel, extremes);
  if (!(highestVoltage - worstCurrent * lowestResistance > 0))
    throw new NoAnswerError(
      "load",
      `no operating point: ${load} A leave no voltage on the bus of ${converters} ${converters === 1 ? "unit" : "units"}`,
    );
  return {
    ...extremes,
    evenShare: load / converters,
    besideHighest,
    besideLowest,
    worstCurrent,
    mostFed,
    caveats: notesOn(freeCurrent, mostFed, parallel),
  };
}

function mostFedOf(
  { converters, load }: LikeConvertersInParallel,
  { highestVoltage, lowestVoltage, lowestResistance }: ConverterExtremes,
): Amperes {
  const driven = highestVoltage - lowestVoltage;
  return Math.max(0, ((converters - 1) * (driven / lowestResistance) - load) / converters);
}

/** Current of the worst-placed unit where all others have the same resistance. */
function currentBeside(
  othersResistance: Ohms,
  { converters, load }: LikeConvertersInParallel,
  { highestVoltage, lowestVoltage, lowestResistance }: ConverterExtremes,
): Amperes {
  const others = (converters - 1) / othersResistance;
  return (load + others * (highestVoltage - lowestVoltage)) / (1 + others * lowestResistance);
}

/** What the sum of currents leaves over is rounding up to this part of the load. */
const ROUNDING = 1e-9;

function notesOn(
  freeCurrent: Amperes,
  mostFed: Amperes | undefined,
  { load, reverseFlow }: LikeConvertersInParallel,
): Caveat[] {
  const about = (code: string, field: string, text: string): Caveat => ({
    code,
    field,
    text,
    cite: "parallel-generators",
  });
  const caveats: Caveat[] = [];
  const beyond = freeCurrent - load;
  if (beyond > ROUNDING * load)
    caveats.push(
      reverseFlow === "blocked"
        ? about(
            "carries-all",
            "worstCurrent",
            "the worst-placed unit carries the whole load, the others nothing: the mismatch outweighs it",
          )
        : about(
            "fed-backwards",
            "worstCurrent",
            `the worst-placed unit feeds the others backwards with ${figure(beyond)} A beside the load`,
          ),
    );
  if (mostFed !== undefined && mostFed > ROUNDING * load)
    caveats.push(
      about(
        "takes-back",
        "mostFed",
        `the unit placed the other way is fed backwards with up to ${figure(mostFed)} A, which it has to stand`,
      ),
    );
  return caveats;
}

export function parallelWorstSteps({
  reverseFlow,
}: LikeConvertersInParallel): StepsWith<"worstCurrent"> {
  return {
    ...converterExtremesSteps,
    evenShare: {
      label: "Even share",
      symbol: "I/n",
      unit: "A",
      kind: "formula",
      formula: "load / converters",
      cite: "definition",
    },
    besideHighest: {
      label: "Worst-placed unit, flow back allowed, others of highest resistance",
      symbol: "Ia",
      unit: "A",
      kind: "formula",
      formula: currentFormula("highestResistance"),
      cite: "parallel-generators",
    },
    besideLowest: {
      label: "Worst-placed unit, flow back allowed, others of lowest resistance",
      symbol: "Ib",
      unit: "A",
      kind: "formula",
      formula: currentFormula("lowestResistance"),
      cite: "parallel-generators",
    },
    worstCurrent: {
      label: "Current of the worst-placed unit",
      symbol: "Iw",
      unit: "A",
      kind: "formula",
      formula:
        reverseFlow === "blocked"
          ? "min(load, max(besideHighest, besideLowest))"
          : "max(besideHighest, besideLowest)",
      cite: "parallel-generators",
    },
    ...(reverseFlow === "blocked" ? {} : MOST_FED),
  };
}

const MOST_FED: StepsWith<"mostFed"> = {
  mostFed: {
    label: "Most that one unit is fed backwards, all resistances lowest",
    symbol: "Ib₀",
    unit: "A",
    kind: "formula",
    formula:
      "max(0, ((converters - 1) * ((highestVoltage - lowestVoltage) / lowestResistance) - load) / converters)",
    cite: "parallel-generators",
  },
};

function currentFormula(others: keyof ConverterExtremes): string {
  return `(load + (converters - 1) / ${others} * (highestVoltage - lowestVoltage)) / (1 + (converters - 1) / ${others} * lowestResistance)`;
}
