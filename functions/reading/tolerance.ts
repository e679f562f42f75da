import { InputError } from "../../src/quantities/errors.js";

/** A tolerance that has to be given: left blank or 0 it is refused, so that none is assumed in silence. */
export const toleranceParameter = {
  name: "tolerance",
  unit: "1",
  meaning: 'fraction of the ratio, its greatest, or "exact"',
  kind: "number or choice",
  choices: ["exact"],
  insteadOfZero: 'for no tolerance write "exact"',
} as const;

/** Tolerance as a fraction; "exact" is 0. @throws {InputError} for 0, which a formula makes of a blank cell. */
export function toleranceFrom(given: number | string): number {
  if (given === 0) throw new InputError("tolerance", 0, 'above 0, or "exact" for none');
  return given === "exact" ? 0 : Number(given);
}
