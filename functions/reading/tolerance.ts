/** A tolerance that has to be given: left blank or 0 it is refused, so that none is assumed in silence. */
export const toleranceParameter = {
  name: "tolerance",
  unit: "1",
  meaning: 'fraction of the ratio, or "exact"',
  kind: "number or choice",
  choices: ["exact"],
  insteadOfZero: 'for no tolerance write "exact"',
} as const;

export function toleranceFrom(given: number | string): number {
  return given === "exact" ? 0 : Number(given);
}
