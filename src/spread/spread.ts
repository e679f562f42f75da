/**
 * Spread of any function of named inputs over their tolerances: by samples (JCGM 101), in first order (GUM), at the corners.
 *
 * The percentiles say how often; they bound nothing. What must never be exceeded is judged by the extremes.
 */
import { InputError, NoAnswerError } from "../quantities/errors.js";
import { figure } from "../quantities/figures.js";
import type { Caveat } from "../quantities/steps.js";
import { type Corners, cornersOf } from "./corners.js";
import { type FirstOrder, firstOrder } from "./first-order.js";
import { centralSensitivities } from "./sensitivities.js";
import { LEAST_SAMPLES, requireSamples, requireSources, scrambledSobol } from "./sobol-sequence.js";
import {
  type Source,
  type UncertainFunction,
  type UncertainInput,
  nominalValues,
  setSource,
  sourcesOf,
} from "./uncertain-input.js";

export interface SpreadRequest {
  /** Best a power of two: the points then fill every axis evenly. */
  readonly samples: number;
  /** Whole, 0 or more: the same seed gives the same samples. */
  readonly seed: number;
  /** Change of the answer for one unit of each input; found by central differences where not given. */
  readonly sensitivities?: ArrayLike<number>;
  /** Found at the corners of the tolerances where not given. */
  readonly extremes?: { readonly lowest: number; readonly highest: number };
}

export interface Spread {
  readonly nominal: number;
  /** Mean of the samples that have an answer, as all figures of samples are. */
  readonly mean: number;
  readonly uncertainty: number;
  /** Σ(y − nominal) and Σ(y − mean)². */
  readonly differences: number;
  readonly squares: number;
  readonly p05: number;
  readonly p50: number;
  readonly p95: number;
  readonly lowestSample: number;
  readonly highestSample: number;
  readonly corners: Corners;
  /** Of the middle and of the samples within the tolerances: a result need not be least or greatest at a corner. */
  readonly inside: { readonly lowest: number; readonly highest: number };
  /** Its figures are NaN where the function has no answer beside the nominal inputs. */
  readonly linear: FirstOrder;
  readonly samples: number;
  readonly answered: number;
  readonly seed: number;
  /** Every answer, lowest first. */
  readonly sorted: Float64Array;
  readonly caveats: readonly Caveat[];
}

/**
 * @throws {InputError | NoAnswerError} the latter where there is no answer at the nominal inputs, or for fewer than ten samples.
 */
export function spread(
  f: UncertainFunction,
  inputs: readonly UncertainInput[],
  { samples, seed, sensitivities, extremes }: SpreadRequest,
): Spread {
  requireSamples(samples);
  const sources = sourcesOf(inputs);
  requireSources(sources.length, 1);
  if (sensitivities && sensitivities.length !== inputs.length)
    throw new InputError("sensitivities", sensitivities.length, `${inputs.length}, one an input`);
  const nominal = f(nominalValues(inputs));
  if (!Number.isFinite(nominal))
    throw new NoAnswerError("inputs", "there is no answer at the nominal values of the inputs");

  const { sorted, inside } = sampled(f, inputs, sources, samples, seed, nominal);
  const answered = sorted.length;
  if (answered < LEAST_SAMPLES)
    throw new NoAnswerError(
      "inputs",
      `${answered} of ${samples} samples have an answer: no percentile of 5 % is found of so few`,
    );
  const differences = differencesFrom(nominal, sorted);
  const mean = nominal + differences / answered;
  const squares = squaresAbout(mean, sorted);
  const linear = firstOrder(inputs, sensitivities ?? centralSensitivities(f, inputs));
  const corners: Corners = extremes
    ? { ...extremes, found: "given", unanswered: 0 }
    : cornersOf(f, inputs, linear);
  return {
    nominal,
    mean,
    uncertainty: Math.sqrt(squares / (answered - 1)),
    differences,
    squares,
    p05: percentile(sorted, 0.05),
    p50: percentile(sorted, 0.5),
    p95: percentile(sorted, 0.95),
    lowestSample: sorted[0]!,
    highestSample: sorted[answered - 1]!,
    corners,
    inside,
    linear,
    samples,
    answered,
    seed,
    sorted,
    caveats: caveatsOf(inputs, samples - answered, linear, corners),
  };
}

/**
 * Value below which a part of all answers lies: straight between two of them, each standing in the middle of its own N-th.
 * @param sorted N of them, lowest first.
 * @param part At least 1/2N and at most 1 - 1/2N.
 */
export function percentile(sorted: Float64Array, part: number): number {
  const { before, below, above } = neighbours(sorted, part);
  return below + (part * sorted.length - 0.5 - before) * (above - below);
}

/** The two answers between which a percentile lies, and how many lie before them. */
export function neighbours(
  sorted: Float64Array,
  part: number,
): { readonly before: number; readonly below: number; readonly above: number } {
  const before = Math.floor(part * sorted.length - 0.5);
  const below = sorted[before]!;
  return { before, below, above: sorted[before + 1] ?? below };
}

/** Σ(y − m)². */
function squaresAbout(mean: number, answers: Float64Array): number {
  return answers.reduce((sum, answer) => sum + (answer - mean) ** 2, 0);
}

/** Σ(y − m), which loses no digits on what all answers have in common. */
function differencesFrom(value: number, answers: Float64Array): number {
  return answers.reduce((sum, answer) => sum + (answer - value), 0);
}

function sampled(
  f: UncertainFunction,
  inputs: readonly UncertainInput[],
  sources: readonly Source[],
  samples: number,
  seed: number,
  nominal: number,
): Pick<Spread, "sorted" | "inside"> {
  const nextPoint = scrambledSobol(sources.length, seed);
  const point = new Float64Array(sources.length);
  const values = nominalValues(inputs);
  const answers = new Float64Array(samples);
  // Only of these a sample may lie beyond the tolerance.
  const normal = [...inputs.keys()].filter((at) => inputs[at]!.distribution === "normal");
  const isWithin = (at: number) => {
    const { value, halfWidth } = inputs[at]!;
    return Math.abs(values[at]! - value) <= halfWidth;
  };
  let answered = 0;
  let [lowest, highest] = [nominal, nominal];
  for (let sample = 0; sample < samples; sample++) {
    nextPoint(point);
    for (let axis = 0; axis < sources.length; axis++)
      setSource(values, sources[axis]!, inputs, point[axis]!);
    const answer = f(values);
    if (!Number.isFinite(answer)) continue;
    answers[answered++] = answer;
    if (!normal.every(isWithin)) continue;
    lowest = Math.min(lowest, answer);
    highest = Math.max(highest, answer);
  }
  return { sorted: answers.subarray(0, answered).sort(), inside: { lowest, highest } };
}

function caveatsOf(
  inputs: readonly UncertainInput[],
  unanswered: number,
  { uncertainty }: FirstOrder,
  corners: Corners,
): Caveat[] {
  const caveats: Caveat[] = [];
  if (unanswered > 0)
    caveats.push({
      code: "samples-unanswered",
      field: "mean",
      text: `${figure(unanswered)} samples have no answer: mean, uncertainty and percentiles are of the others only`,
      cite: "definition",
    });
  if (Number.isNaN(uncertainty))
    caveats.push({
      code: "no-first-order",
      field: "firstOrder",
      text: "no answer close to the nominal inputs: there is no first-order uncertainty",
      cite: "definition",
    });
  if (corners.unanswered > 0)
    caveats.push({
      code: "corners-unanswered",
      field: "lowestCorner",
      text: `${figure(corners.unanswered)} corners of the tolerances have no answer: ${Number.isNaN(corners.lowest) ? "there are no extremes" : "the extremes are of the others only"}`,
      cite: "definition",
    });
  if (corners.found === "signs")
    caveats.push({
      code: "corners-by-sign",
      field: "lowestCorner",
      text: "too many inputs for every corner: the extremes are at the two to which the signs of the sensitivities point",
      cite: "extreme-values",
    });
  if (inputs.some(({ halfWidth, distribution }) => halfWidth > 0 && distribution === "normal"))
    caveats.push({
      code: "normal-beyond",
      field: "lowestCorner",
      text: "a normal input lies beyond its tolerance in 0.27 % of all samples: samples may lie beyond the extremes",
      cite: "three-sigma",
    });
  return caveats;
}
