/** A number in the text of a note or message: four significant digits, without an exponent where it can be read without. */
export function figure(value: number): string {
  return String(Number(value.toPrecision(4)));
}
