/**
 * Sobol's sequence: points that fill a cube evenly, and the same ones at every recalculation.
 *
 * The points of the first 2^k fall one into each 2^k-th of every axis. A digital shift, drawn from a seed, moves them all by
 * one pattern of bits and keeps that; another seed shows how far an answer depends on the points.
 */
import { InputError, requireWhole } from "../quantities/errors.js";
import { DIRECTIONS } from "./sobol-directions.js";

const BITS = 32;

/** Axes for which there are direction numbers. */
export const MOST_DIMENSIONS = DIRECTIONS.length + 1;

/** Of fewer nothing can be said of their lowest and highest 5 %. */
export const LEAST_SAMPLES = 10;

/** More points than a sheet will wait for, and far fewer than 2³², after which the sequence starts again. */
export const MOST_SAMPLES = 2 ** 20;

/** One part in 2³², of which a half is added: no coordinate is 0 or 1, where a normal input would be infinite. */
const PART = 2 ** -BITS;

/** @throws {InputError} where a sequence of so many points cannot be. */
export function requireSamples(samples: number): void {
  requireWhole("samples", samples, LEAST_SAMPLES);
  if (samples > MOST_SAMPLES) throw new InputError("samples", samples, `${MOST_SAMPLES} or fewer`);
}

/**
 * Coordinates, above 0 and below 1, of one point after the other.
 * @throws {InputError} where there are more axes than direction numbers.
 */
export function shiftedSobol(
  dimensions: number,
  seed: number,
): (into: Float64Array) => Float64Array {
  requireWhole("seed", seed, 0);
  const next = sobolSequence(dimensions);
  const shift = digitalShift(dimensions, seed);
  return (into) => {
    const point = next();
    for (let axis = 0; axis < dimensions; axis++)
      into[axis] = (((point[axis]! ^ shift[axis]!) >>> 0) + 0.5) * PART;
    return into;
  };
}

/**
 * One point after the other, 0 first, in the order of the Gray code; coordinates in parts of 2³².
 * The array is the same each time.
 */
export function sobolSequence(dimensions: number): () => Uint32Array {
  if (dimensions > MOST_DIMENSIONS)
    throw new InputError("inputs", dimensions, `${MOST_DIMENSIONS} axes of points or fewer`);
  const directions = Array.from({ length: dimensions }, (_, axis) => directionsOf(axis));
  const point = new Uint32Array(dimensions);
  let index = 0;
  return () => {
    if (index > 0) {
      const changed = 31 - Math.clz32(index & -index);
      for (let axis = 0; axis < dimensions; axis++) point[axis]! ^= directions[axis]![changed]!;
    }
    index += 1;
    return point;
  };
}

/** Direction numbers of an axis, each shifted to its place: the recurrence of P. Bratley and B. L. Fox (1988). */
function directionsOf(axis: number): Uint32Array {
  const numbers = new Uint32Array(BITS);
  if (axis === 0) {
    for (let bit = 0; bit < BITS; bit++) numbers[bit] = 2 ** (BITS - 1 - bit);
    return numbers;
  }
  const [polynomial = 0, ...first] = DIRECTIONS[axis - 1]!.split(" ").map(Number);
  const degree = first.length;
  for (let bit = 0; bit < BITS; bit++) {
    if (bit < degree) {
      numbers[bit] = first[bit]! * 2 ** (BITS - 1 - bit);
      continue;
    }
    let number = numbers[bit - degree]! ^ (numbers[bit - degree]! >>> degree);
    for (let back = 1; back < degree; back++)
      if ((polynomial >>> (degree - back)) & 1) number ^= numbers[bit - back]!;
    numbers[bit] = number;
  }
  return numbers;
}

/** A pattern of bits for each axis, by the generator mulberry32 (T. Ettinger, public domain). */
function digitalShift(dimensions: number, seed: number): Uint32Array {
  let state = seed >>> 0;
  return Uint32Array.from({ length: dimensions }, () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return mixed ^ (mixed >>> 14);
  });
}
