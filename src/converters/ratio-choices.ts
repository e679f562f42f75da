/** The whole-number ratios that bring all of an input range into a load's window. */
import {
  InputError,
  NoAnswerError,
  requireAbove,
  requireAtLeast,
} from "../quantities/errors.js";
import { figure } from "../quantities/figures.js";
import type { Note, Quantities, Step, StepsOf } from "../quantities/steps.js";
import type { Amperes, Fraction, Ohms, Volts } from "../quantities/units.js";

export interface RatioWindows {
  /** At the stage's input: the supply's lowest less the drop at full load. */
  readonly inputLowest: Volts;
  /** At the stage's input, without any drop. */
  readonly inputHighest: Volts;
  readonly loadLowest: Volts;
  readonly loadHighest: Volts;
  /** ± part of the ratio. */
  readonly tolerance: Fraction;
  readonly outputCurrent: Amperes;
  readonly outputResistance: Ohms;
}

export interface RatioChoice {
  /** As people write it: `1/8`, `4/1`. */
  readonly name: string;
  readonly ratio: number;
  /** At the lowest input, the lower end of the ratio and the output current. */
  readonly lowestOutput: Volts;
  /** At the highest input, the upper end of the ratio and no load. */
  readonly highestOutput: Volts;
  /** (lowest output − load lowest) / load lowest. */
  readonly lowerMargin: Fraction;
  /** (load highest − highest output) / load highest. */
  readonly upperMargin: Fraction;
}

export interface RatioChoices {
  /** From the highest output down. */
  readonly choices: readonly RatioChoice[];
  readonly notes: readonly Note[];
}

/** A stage of a larger whole ratio than this is not built. */
const MOST_STEPS = 1000;

/** @throws {InputError}; {NoAnswerError} where no whole ratio fits, with the one that misses by least. */
export function ratioChoices(windows: RatioWindows): RatioChoices {
  requireWindows(windows);
  const candidates = wholeRatios().map(([name, ratio]) =>
    ratioChoice(name, ratio, windows),
  );
  const choices = candidates.filter(
    ({ lowerMargin, upperMargin }) => lowerMargin >= 0 && upperMargin >= 0,
  );
  if (choices.length === 0) throw noneFits(candidates, windows);
  return { choices, notes: notesOn(windows) };
}

function requireWindows(windows: RatioWindows): void {
  const { inputLowest, inputHighest, loadLowest, loadHighest } = windows;
  requireAbove("inputLowest", inputLowest, 0);
  requireAtLeast("inputHighest", inputHighest, inputLowest);
  requireAbove("loadLowest", loadLowest, 0);
  requireAbove("loadHighest", loadHighest, loadLowest);
  requireAtLeast("outputCurrent", windows.outputCurrent, 0);
  requireAtLeast("outputResistance", windows.outputResistance, 0);
  if (!(windows.tolerance >= 0 && windows.tolerance < 1))
    throw new InputError(
      "tolerance",
      windows.tolerance,
      'a fraction below 1 (0.02 for 2 %) or "exact"',
    );
}

/** From the highest step up to the lowest step down. */
function wholeRatios(): [name: string, ratio: number][] {
  const steps = Array.from({ length: MOST_STEPS }, (_, index) => index + 1);
  const up = steps.slice(1).reverse();
  return [
    ...up.map((step): [string, number] => [`${step}/1`, step]),
    ...steps.map((step): [string, number] => [`1/${step}`, 1 / step]),
  ];
}

function ratioChoice(
  name: string,
  ratio: number,
  windows: RatioWindows,
): RatioChoice {
  const { inputLowest, inputHighest, loadLowest, loadHighest } = windows;
  const { tolerance, outputCurrent, outputResistance } = windows;
  const lowestOutput =
    inputLowest * ratio * (1 - tolerance) - outputCurrent * outputResistance;
  const highestOutput = inputHighest * ratio * (1 + tolerance);
  return {
    name,
    ratio,
    lowestOutput,
    highestOutput,
    lowerMargin: (lowestOutput - loadLowest) / loadLowest,
    upperMargin: (loadHighest - highestOutput) / loadHighest,
  };
}

function noneFits(
  candidates: readonly RatioChoice[],
  { loadLowest, loadHighest }: RatioWindows,
): NoAnswerError {
  const miss = ({ lowerMargin, upperMargin }: RatioChoice) =>
    Math.min(lowerMargin, upperMargin);
  const nearest = candidates.reduce((best, one) =>
    miss(one) > miss(best) ? one : best,
  );
  const { name, lowestOutput, highestOutput } = nearest;
  const below = loadLowest - lowestOutput;
  const above = highestOutput - loadHighest;
  const misses = [
    ...(below > 0 ? [`${figure(below)} V below its lowest`] : []),
    ...(above > 0 ? [`${figure(above)} V above its highest`] : []),
  ].join(" and ");
  return new NoAnswerError(
    "loadLowest",
    `no whole ratio fits the load's ${figure(loadLowest)} to ${figure(loadHighest)} V: ${name} comes nearest with ${figure(lowestOutput)} to ${figure(highestOutput)} V, ${misses}`,
  );
}

function notesOn({ outputCurrent, outputResistance }: RatioWindows): Note[] {
  if (outputCurrent > 0 === outputResistance > 0) return [];
  return [
    {
      code: "no-droop",
      field: "lowestOutput",
      text: "without droop: it needs both output current and output resistance",
      cite: "definition",
    },
  ];
}

export const ratioWindowsGivens: Quantities = {
  inputLowest: { label: "Lowest input", symbol: "U₁", unit: "V" },
  inputHighest: { label: "Highest input", symbol: "U₂", unit: "V" },
  loadLowest: { label: "Lowest voltage of the load", symbol: "L₁", unit: "V" },
  loadHighest: {
    label: "Highest voltage of the load",
    symbol: "L₂",
    unit: "V",
  },
  tolerance: { label: "Tolerance of the ratio", symbol: "t", unit: "1" },
  outputCurrent: { label: "Output current", symbol: "I", unit: "A" },
  outputResistance: { label: "Output resistance", symbol: "R", unit: "Ω" },
};

/** The ratio itself is a choice: its name is its formula. */
export function chosenRatioStep({ name }: RatioChoice): Step {
  return {
    label: "Ratio, output ÷ input",
    symbol: "r",
    unit: "1",
    kind: "formula",
    formula: name,
    cite: "definition",
  };
}

/** Behind the ratio. */
export const ratioChoiceSteps: Omit<StepsOf<RatioChoice>, "ratio"> = {
  lowestOutput: {
    label: "Lowest output, at full load",
    symbol: "V₁",
    unit: "V",
    kind: "formula",
    formula:
      "inputLowest * ratio * (1 - tolerance) - outputCurrent * outputResistance",
    cite: "ratio-circuit",
  },
  highestOutput: {
    label: "Highest output, at no load",
    symbol: "V₂",
    unit: "V",
    kind: "formula",
    formula: "inputHighest * ratio * (1 + tolerance)",
    cite: "ratio-circuit",
  },
  lowerMargin: {
    label: "Margin above the load's lowest",
    symbol: "m₁",
    unit: "1",
    kind: "formula",
    formula: "(lowestOutput - loadLowest) / loadLowest",
    cite: "definition",
  },
  upperMargin: {
    label: "Margin below the load's highest",
    symbol: "m₂",
    unit: "1",
    kind: "formula",
    formula: "(loadHighest - highestOutput) / loadHighest",
    cite: "definition",
  },
};
