/**
 * Which inputs matter: the part of an answer's variance that each input or group brings alone, and in all that it acts in.
 *
 * Two independent sets of points A and B on 2·n axes; for each source, B's coordinate put into A. First index after
 * A. Saltelli et al. (2010), total index after M. J. W. Jansen (1999).
 */
import { NoAnswerError } from "../quantities/errors.js";
import { figure } from "../quantities/figures.js";
import type { Caveat } from "../quantities/steps.js";
import { requireSamples, requireSources, scrambledSobol } from "./sobol-sequence.js";
import {
  type Source,
  type UncertainFunction,
  type UncertainInput,
  nominalValues,
  setSource,
  sourcesOf,
} from "./uncertain-input.js";

export interface SharesRequest {
  /** Rows of points, best a power of two; each takes as many evaluations as there are sources, and two. */
  readonly samples: number;
  /** Whole, 0 or more: the same seed gives the same samples. */
  readonly seed: number;
}

export interface Share {
  readonly source: Source;
  /** By estimate: of a source that brings nothing it may lie a little below 0. */
  readonly first: number;
  /** With all that it does together with others. */
  readonly total: number;
  /** Σ(y_B − ȳ)(y_i − y_A), where y_i is the answer with the source from B and all others from A. */
  readonly products: number;
  /** Σ(y_A − y_i)². */
  readonly squares: number;
}

export interface Shares {
  /** Of both sets of points together. */
  readonly variance: number;
  /** Σ(y − ȳ)² of both sets. */
  readonly totalSquares: number;
  /** In the order of the inputs. */
  readonly shares: readonly Share[];
  /** What the first indices leave of 1: what inputs do together only, and the error of the estimate. */
  readonly residual: number;
  readonly samples: number;
  /** Rows in which every evaluation has an answer; the shares are of these. */
  readonly answered: number;
  readonly seed: number;
  readonly caveats: readonly Caveat[];
}

/** Sums over the rows, of answers less the nominal one. */
interface Sums {
  /** Σ y and Σ y² of both sets. */
  all: number;
  allSquared: number;
  /** For each source: Σ y_B·(y_i − y_A), Σ (y_i − y_A), Σ (y_i − y_A)². */
  readonly products: Float64Array;
  readonly differences: Float64Array;
  readonly squares: Float64Array;
}

/**
 * @throws {InputError | NoAnswerError} the latter where there is no answer at the nominal inputs or for more than one row,
 * and where nothing changes the answer.
 */
export function shares(
  f: UncertainFunction,
  inputs: readonly UncertainInput[],
  { samples, seed }: SharesRequest,
): Shares {
  requireSamples(samples);
  const sources = sourcesOf(inputs);
  requireSources(sources.length, 2);
  const nominal = f(nominalValues(inputs));
  if (!Number.isFinite(nominal))
    throw new NoAnswerError("inputs", "there is no answer at the nominal values of the inputs");

  const { sums, answered } = summed(f, inputs, sources, nominal, samples, seed);
  if (answered < 2)
    throw new NoAnswerError("inputs", `${answered} of ${samples} rows of samples has all answers`);
  const count = 2 * answered;
  const aboveNominal = sums.all / count;
  const totalSquares = sums.allSquared - sums.all * aboveNominal;
  const variance = totalSquares / (count - 1);
  if (!(variance > 0)) throw new NoAnswerError("inputs", "no input changes the answer");

  const found = sources.map((source, index): Share => {
    const products = sums.products[index]! - aboveNominal * sums.differences[index]!;
    const squares = sums.squares[index]!;
    return {
      source,
      first: products / answered / variance,
      total: squares / (2 * answered) / variance,
      products,
      squares,
    };
  });
  return {
    variance,
    totalSquares,
    shares: found,
    residual: 1 - found.reduce((sum, { first }) => sum + first, 0),
    samples,
    answered,
    seed,
    caveats: caveatsOf(samples - answered),
  };
}

function summed(
  f: UncertainFunction,
  inputs: readonly UncertainInput[],
  sources: readonly Source[],
  nominal: number,
  samples: number,
  seed: number,
): { sums: Sums; answered: number } {
  const axes = sources.length;
  const nextPoint = scrambledSobol(2 * axes, seed);
  const point = new Float64Array(2 * axes);
  const values = nominalValues(inputs);
  const mixed = new Float64Array(axes);
  const sums: Sums = {
    all: 0,
    allSquared: 0,
    products: new Float64Array(axes),
    differences: new Float64Array(axes),
    squares: new Float64Array(axes),
  };
  const setAll = (first: number): void => {
    for (let axis = 0; axis < axes; axis++)
      setSource(values, sources[axis]!, inputs, point[first + axis]!);
  };
  let answered = 0;
  for (let row = 0; row < samples; row++) {
    nextPoint(point);
    setAll(axes);
    const ofB = f(values) - nominal;
    setAll(0);
    const ofA = f(values) - nominal;
    let isAnswered = Number.isFinite(ofA) && Number.isFinite(ofB);
    for (let axis = 0; isAnswered && axis < axes; axis++) {
      const source = sources[axis]!;
      setSource(values, source, inputs, point[axes + axis]!);
      mixed[axis] = f(values) - nominal;
      isAnswered = Number.isFinite(mixed[axis]);
      setSource(values, source, inputs, point[axis]!);
    }
    if (!isAnswered) continue;
    answered += 1;
    sums.all += ofA + ofB;
    sums.allSquared += ofA * ofA + ofB * ofB;
    for (let axis = 0; axis < axes; axis++) {
      const difference = mixed[axis]! - ofA;
      sums.products[axis]! += ofB * difference;
      sums.differences[axis]! += difference;
      sums.squares[axis]! += difference * difference;
    }
  }
  return { sums, answered };
}

function caveatsOf(unanswered: number): Caveat[] {
  return unanswered === 0
    ? []
    : [
        {
          code: "samples-unanswered",
          field: "variance",
          text: `${figure(unanswered)} rows of samples have no answer somewhere: the shares are of the others only`,
          cite: "definition",
        },
      ];
}
