/** A day, the same in every language. */

/** As ISO 8601 writes it, on the user's own day. */
export function isoDate(day: Date): string {
  const two = (number: number) => String(number).padStart(2, "0");
  return `${String(day.getFullYear())}-${two(day.getMonth() + 1)}-${two(day.getDate())}`;
}
