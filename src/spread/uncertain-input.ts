/** Inputs of a function with their tolerances, and what of them varies independently of the rest. */
import { InputError, NoAnswerError, requireAtLeast } from "../quantities/errors.js";
import { type Distribution, DISTRIBUTIONS } from "./distributions.js";

export interface UncertainInput {
  readonly name: string;
  /** Nominal, in the input's own unit. */
  readonly value: number;
  /** T, half of the tolerance's width in the same unit; 0 where the input is exact. */
  readonly halfWidth: number;
  readonly distribution: Distribution;
  /** Inputs of one group vary together: one temperature, one batch. */
  readonly group?: string | undefined;
}

/** The answer at these values of the inputs, in their order; not finite where there is none. The array is used again. */
export type UncertainFunction = (values: Float64Array) => number;

/** What varies by itself: one input, or all inputs of a group. */
export interface Source {
  /** The input's or the group's. */
  readonly name: string;
  /** Places among the inputs. */
  readonly inputs: readonly number[];
}

/**
 * In the order in which they first occur; what is exact is no source.
 * @throws {InputError | NoAnswerError} the former where an input is no number or its name occurs twice, the latter where all are exact.
 */
export function sourcesOf(inputs: readonly UncertainInput[]): Source[] {
  const sources = new Map<string, { name: string; inputs: number[] }>();
  const names = new Set<string>();
  inputs.forEach(({ name, value, halfWidth, group }, index) => {
    if (!Number.isFinite(value)) throw new InputError(name, value, "a number");
    requireAtLeast(name, halfWidth, 0);
    if (names.has(name)) throw new InputError("inputs", name, "named once");
    names.add(name);
    if (halfWidth === 0) return;
    const key = group === undefined ? `input ${name}` : `group ${group}`;
    const source = sources.get(key) ?? { name: group ?? name, inputs: [] };
    source.inputs.push(index);
    sources.set(key, source);
  });
  if (sources.size === 0) throw new NoAnswerError("inputs", "no input has a tolerance");
  return [...sources.values()];
}

export function nominalValues(inputs: readonly UncertainInput[]): Float64Array {
  return Float64Array.from(inputs, ({ value }) => value);
}

/** Sets the inputs of a source to where the same part of each lies below: its coordinate, above 0 and below 1. */
export function setSource(
  values: Float64Array,
  source: Source,
  inputs: readonly UncertainInput[],
  coordinate: number,
): void {
  for (const index of source.inputs) {
    const { value, halfWidth, distribution } = inputs[index]!;
    values[index] = value + halfWidth * DISTRIBUTIONS[distribution].quantile(coordinate);
  }
}
