/** Numbers as people read and type them: the pane is the only place that knows a locale. */

export interface ShownNumber {
  readonly text: string;
  /** Every digit, for the title. */
  readonly full: string;
}

const SIGNIFICANT_DIGITS = 4;

/** Units that are read with prefixes; a millimetre is not a milli of anything here, and a kilogram has its prefix. */
const PREFIXED = new Set(["V", "A", "W", "Ω", "F", "H", "J"]);

const PREFIXES: readonly (readonly [factor: number, prefix: string])[] = [
  [1e6, "M"],
  [1e3, "k"],
  [1, ""],
  [1e-3, "m"],
  [1e-6, "µ"],
  [1e-9, "n"],
];

// Made once: a table of figures would wait for them.
const SHORT = new Intl.NumberFormat(undefined, { maximumSignificantDigits: SIGNIFICANT_DIGITS });
const FULL = new Intl.NumberFormat(undefined, { maximumSignificantDigits: 17 });

/** @param like What it stands beside: it takes the prefix of that. */
export function shownNumber(value: number, unit: string, like = value): ShownNumber {
  const [factor, prefix] = prefixFor(like, unit);
  return {
    text: withUnit(SHORT.format(value / factor), `${prefix}${plain(unit)}`),
    full: withUnit(FULL.format(value), plain(unit)),
  };
}

/** A number within a formula: six digits, no prefix, so that it can be put into a calculator. */
export function formulaNumber(value: number): string {
  return new Intl.NumberFormat(undefined, {
    maximumSignificantDigits: 6,
    useGrouping: false,
  }).format(value);
}

function prefixFor(value: number, unit: string): readonly [number, string] {
  if (!PREFIXED.has(unit) || value === 0) return [1, ""];
  // What rounds up to the next prefix is written with it: 999.96 W is 1 kW.
  const size = Number(Math.abs(value).toPrecision(SIGNIFICANT_DIGITS));
  return PREFIXES.find(([factor]) => size >= factor) ?? [1e-9, "n"];
}

/** `1` is how the catalogue writes "a plain number". */
function plain(unit: string): string {
  return unit === "1" ? "" : unit;
}

function withUnit(number: string, unit: string): string {
  return unit === "" ? number : `${number}\u00a0${unit}`;
}

const TYPED = /^[-+]?(\d+([.,]\d*)?|[.,]\d+)(e[-+]?\d+)?$/i;

/**
 * A number as typed, with either decimal sign. `ambiguous` where a comma might part thousands: 1,250.
 * Nothing for text that is no number.
 */
export function typedNumber(text: string): number | "ambiguous" | undefined {
  const bare = text.trim().replace("−", "-");
  if (!TYPED.test(bare)) return undefined;
  if (/^[-+]?[1-9]\d{0,2},\d{3}$/.test(bare)) return "ambiguous";
  return Number(bare.replace(",", "."));
}
