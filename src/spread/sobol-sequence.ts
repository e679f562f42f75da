/**
 * Sobol's sequence: points that fill a cube evenly, and the same ones at every recalculation.
 *
 * Of the first 2^k points one falls into each 2^k-th of every axis. A. B. Owen's nested scramble (1995), drawn from a seed,
 * turns halves, quarters and all further parts of each axis about and keeps that; another seed shows how far an answer
 * depends on the points.
 */
import { InputError, requireWhole } from "../quantities/errors.js";
import { DIRECTIONS } from "./sobol-directions.js";

const BITS = 32;

/** Axes for which there are direction numbers. */
export const MOST_DIMENSIONS = DIRECTIONS.length + 1;

/** Fewer samples tell nothing of the lowest and highest 5 %. */
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
 * @param axes That each source takes.
 * @throws {InputError} where there are more sources than direction numbers serve.
 */
export function requireSources(sources: number, axes: number): void {
  const most = Math.floor(MOST_DIMENSIONS / axes);
  if (sources > most)
    throw new InputError(
      "inputs",
      sources,
      `${most} or fewer that vary (a Group counts as one, what is exact as none)`,
    );
}

/**
 * Coordinates, above 0 and below 1, of one point after the other.
 * @throws {InputError} where there are more axes than direction numbers.
 */
export function scrambledSobol(
  dimensions: number,
  seed: number,
): (into: Float64Array) => Float64Array {
  requireWhole("seed", seed, 0);
  const next = sobolSequence(dimensions);
  const keys = keysOf(dimensions, seed);
  return (into) => {
    const point = next();
    for (let axis = 0; axis < dimensions; axis++)
      into[axis] = (scrambled(point[axis]!, keys[axis]!) + 0.5) * PART;
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
  const [polynomial = 0, ...others] = DIRECTIONS[axis - 1]!.split(" ").map(
    (half) => 2 * Number.parseInt(half, 36) + 1,
  );
  const first = [1, ...others];
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

/**
 * The nested scramble by a hash, S. Laine and T. Karras (2011), in B. Burley's form (2020), from memory: with the bits in reverse each
 * is changed by lower ones only, which a product with an even number and a sum keep.
 */
function scrambled(part: number, key: number): number {
  let bits = reversed(part) + key;
  bits ^= Math.imul(bits, 0x6c50b47c);
  bits ^= Math.imul(bits, 0xb82f1e52);
  bits ^= Math.imul(bits, 0xc7afe638);
  bits ^= Math.imul(bits, 0x8d22f6e6);
  return reversed(bits);
}

/** The 32 bits from the other end, as a number of 0 or more. */
function reversed(part: number): number {
  let bits = ((part >>> 1) & 0x55555555) | ((part & 0x55555555) << 1);
  bits = ((bits >>> 2) & 0x33333333) | ((bits & 0x33333333) << 2);
  bits = ((bits >>> 4) & 0x0f0f0f0f) | ((bits & 0x0f0f0f0f) << 4);
  bits = ((bits >>> 8) & 0x00ff00ff) | ((bits & 0x00ff00ff) << 8);
  return ((bits >>> 16) | (bits << 16)) >>> 0;
}

/** A number of 32 bits for each axis, by the generator mulberry32 (T. Ettinger, public domain). */
function keysOf(dimensions: number, seed: number): Uint32Array {
  let state = seed >>> 0;
  return Uint32Array.from({ length: dimensions }, () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return mixed ^ (mixed >>> 14);
  });
}
