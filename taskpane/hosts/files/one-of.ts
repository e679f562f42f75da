/** Whether a text from outside is one of the words that are known. */
export function isOneOf<const T extends string>(
  value: string | undefined,
  known: readonly T[],
): value is T {
  return known.some((each) => each === value);
}
