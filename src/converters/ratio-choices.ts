/** The whole-number ratios that bring all of an input range into a load's window. */
import {
  NoAnswerError,
  requireAbove,
  requireAtLeast,
  requireTolerance,
} from "../quantities/errors.js";
import { figure } from "../quantities/figures.js";
import type { Caveat } from "../quantities/steps.js";
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
  readonly caveats: readonly Caveat[];
}

/** Common practice: a stage of a larger ratio is hardly built, and a longer list helps nobody. */
const MOST_STEPS = 1000;

/** @throws {InputError}; {NoAnswerError} where no whole ratio fits, with the one that misses by least. */
export function ratioChoices(windows: RatioWindows): RatioChoices {
  requireWindows(windows);
  const candidates = wholeRatios().map(([up, down]) => ratioChoice(up, down, windows));
  const choices = candidates.filter(
    ({ lowerMargin, upperMargin }) => lowerMargin >= 0 && upperMargin >= 0,
  );
  if (choices.length === 0) throw noneFits(candidates, windows);
  return { choices, caveats: notesOn(windows) };
}

function requireWindows(windows: RatioWindows): void {
  const { inputLowest, inputHighest, loadLowest, loadHighest } = windows;
  requireAbove("inputLowest", inputLowest, 0);
  requireAtLeast("inputHighest", inputHighest, inputLowest);
  requireAbove("loadLowest", loadLowest, 0);
  requireAbove("loadHighest", loadHighest, loadLowest);
  requireAtLeast("outputCurrent", windows.outputCurrent, 0);
  requireAtLeast("outputResistance", windows.outputResistance, 0);
  requireTolerance("tolerance", windows.tolerance);
}

/** From the highest step up to the lowest step down. */
function wholeRatios(): [up: number, down: number][] {
  const steps = Array.from({ length: MOST_STEPS }, (_, index) => index + 1);
  return [
    ...steps
      .slice(1)
      .reverse()
      .map((step): [number, number] => [step, 1]),
    ...steps.map((step): [number, number] => [1, step]),
  ];
}

function ratioChoice(up: number, down: number, windows: RatioWindows): RatioChoice {
  const { inputLowest, inputHighest, loadLowest, loadHighest } = windows;
  const { tolerance, outputCurrent, outputResistance } = windows;
  // Divided, not multiplied by 1/49, which is rounded: 588 V through 1/49 are 12 V and reach a window that starts there.
  const lowestOutput =
    ((inputLowest * up) / down) * (1 - tolerance) - outputCurrent * outputResistance;
  const highestOutput = ((inputHighest * up) / down) * (1 + tolerance);
  return {
    name: `${up}/${down}`,
    ratio: up / down,
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
  const miss = ({ lowerMargin, upperMargin }: RatioChoice) => Math.min(lowerMargin, upperMargin);
  const nearest = candidates.reduce((best, one) => (miss(one) > miss(best) ? one : best));
  const { name, lowestOutput, highestOutput } = nearest;
  const below = loadLowest - lowestOutput;
  const above = highestOutput - loadHighest;
  const misses = [
    ...(below > 0 ? [`${figure(below)} V below its lowest`] : []),
    ...(above > 0 ? [`${figure(above)} V above its highest`] : []),
  ].join(" and ");
  return new NoAnswerError(
    "loadLowest",
    `no whole ratio up to ${MOST_STEPS} fits the load's ${figure(loadLowest)} to ${figure(loadHighest)} V: ${name} comes nearest with ${figure(lowestOutput)} to ${figure(highestOutput)} V, ${misses}`,
  );
}

function notesOn({ outputCurrent, outputResistance }: RatioWindows): Caveat[] {
  const missing = [
    ...(outputCurrent === 0 ? ["output current"] : []),
    ...(outputResistance === 0 ? ["output resistance"] : []),
  ];
  if (missing.length === 0) return [];
  return [
    {
      code: "no-droop",
      field: "lowestOutput",
      text: `without droop: no ${missing.join(" and no ")} given`,
      cite: "definition",
    },
  ];
}
