/** Fields of a list, one for each of its places, as the steps of a list name them: `load1`, `load2`. */

/** Places from 1 on. */
export function placesOf(list: readonly unknown[]): number[] {
  return list.map((_, index) => index + 1);
}

/** Nothing for a place without a value. */
export function numbered(
  name: string,
  values: readonly (number | undefined)[],
): Record<string, number> {
  return Object.fromEntries(
    values.flatMap((value, index) => (value === undefined ? [] : [[`${name}${index + 1}`, value]])),
  ) as Record<string, number>;
}
