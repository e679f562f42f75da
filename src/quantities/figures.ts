/** Between these, four digits are whole numbers times a power of ten that a double holds exactly. */
const SHORTEST = 1e-3;
const LONGEST = 1e4;

/** A number in the text of a note or message: four significant digits, without an exponent where it can be read without. */
export function figure(value: number): string {
  // Notes of a large table hold one each, and the way through toPrecision and back takes six times as long.
  return value >= SHORTEST && value < LONGEST
    ? shortFigure(value)
    : String(Number(value.toPrecision(4)));
}

function shortFigure(value: number): string {
  let scale = 1;
  let places = 0;
  while (value * scale < 1000) {
    scale *= 10;
    places += 1;
  }
  const digits = String(Math.round(value * scale));
  const before = digits.length - places;
  let end = digits.length;
  while (end > Math.max(before, 1) && digits[end - 1] === "0") end -= 1;
  const whole = before > 0 ? digits.slice(0, before) : "0";
  if (end <= before) return whole;
  const zeros = "0".repeat(Math.max(0, -before));
  return `${whole}.${zeros}${digits.slice(Math.max(0, before), end)}`;
}
