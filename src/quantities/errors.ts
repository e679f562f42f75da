/** What was found where a value was refused. */
export type RefusedValue = number | string | boolean | null;

/** An input that cannot be: a host shows it as a refused value (`#VALUE!`) with this message. */
export class InputError extends RangeError {
  override readonly name = "InputError";

  constructor(
    /** The name of the given in the calculation's input record. */
    readonly field: string,
    readonly value: RefusedValue,
    /** Completes "must be": `above 0`, `1 or 2`. */
    readonly requirement: string,
  ) {
    super(`${field} must be ${requirement}, got ${shownValue(value)}`);
  }
}

/** A cell that is to be typed before anything can be calculated: nothing is wrong with it yet. */
export class MissingEntryError extends InputError {
  constructor(
    field: string,
    /** The cell in words, and what else may be typed. */
    entry: string,
  ) {
    super(field, null, "given");
    this.message = `enter ${entry}`;
  }
}

/** A row that was refused where its table was made: the reason is told as it stands there. */
export class ToldError extends InputError {
  constructor(
    field: string,
    readonly reason: string,
    /** The row waits for the field to be typed. */
    readonly isMissing: boolean,
  ) {
    super(field, null, reason);
    this.message = reason;
  }
}

/**
 * The question is understood but has no answer: an operating point that does not exist, a size that is in no list.
 * A host shows it as not available (`#N/A`) with this message.
 */
export class NoAnswerError extends Error {
  override readonly name = "NoAnswerError";

  constructor(
    /** The given that stands in the way, by its name in the input record. */
    readonly field: string,
    /** A whole sentence: what there is no answer to, and by how much. */
    message: string,
  ) {
    super(message);
  }
}

export function shownValue(value: RefusedValue): string {
  if (value === null) return "nothing";
  if (typeof value === "string") return value.trim() === "" ? "nothing" : `"${value}"`;
  return String(value);
}

export function requireAbove(field: string, value: number, limit: number): void {
  if (!(value > limit && Number.isFinite(value)))
    throw new InputError(field, value, `above ${limit}`);
}

export function requireAtLeast(field: string, value: number, limit: number): void {
  if (!(value >= limit && Number.isFinite(value)))
    throw new InputError(field, value, `${limit} or more`);
}

export function requireFinite(field: string, value: number): void {
  if (!Number.isFinite(value)) throw new InputError(field, value, "a finite number");
}

/** A part of one above nothing: an efficiency. */
export function requireFraction(field: string, value: number): void {
  if (!(value > 0 && value <= 1)) throw new InputError(field, value, "above 0 and at most 1");
}

/** ± part of a ratio, a voltage or a line: 0 where it is exact. */
export function requireTolerance(field: string, value: number): void {
  if (!(value >= 0 && value < 1))
    throw new InputError(field, value, 'a fraction below 1 (0.02 for 2 %) or "exact"');
}

export function requireWhole(field: string, value: number, least: number): void {
  if (!(Number.isSafeInteger(value) && value >= least)) {
    throw new InputError(field, value, `a whole number, ${least} or more`);
  }
}
