/** A number as a cell with its number format shows it. */

const GENERAL_DIGITS = 9;
/** Day 0 of the sheets' calendar is 30 December 1899; 1 January 1970 is this one. */
const DAY_1970 = 25569;
const DAY_MS = 86_400_000;

/**
 * @param format En-US, as a spreadsheet writes it: digits, thousands, per cent, powers of ten, text in quotes, sections
 * with conditions or for numbers below 0. Dates come as year-month-day.
 */
export function formattedNumber(value: number, format: string): string {
  const section = sectionFor(value, format);
  const pattern = section.text.replace(/"[^"]*"|\\.|_./g, "");
  if (section.text === "" || pattern === "@" || /general/i.test(pattern)) return general(value);
  if (/[ymd]/i.test(pattern))
    return new Date((value - DAY_1970) * DAY_MS).toISOString().slice(0, "2026-01-01".length);
  if (!/[0#]/.test(pattern)) return plain(section.text);
  const [, before = "", , after = ""] =
    /^([^0#]*)([0#,.]+(?:E\+0+)?)(.*)$/.exec(section.text) ?? [];
  const size = section.isOfNegatives ? Math.abs(value) : value;
  return `${plain(before)}${digits(size, pattern)}${plain(after)}`;
}

interface Section {
  readonly text: string;
  /** The sign is part of its text, where it has one. */
  readonly isOfNegatives: boolean;
}

const CONDITION = /^\[(<=|>=|<>|<|>|=)(-?[\d.]+)\]/;

function sectionFor(value: number, format: string): Section {
  const sections = format.match(/(?:"[^"]*"|\\.|[^;])+/g) ?? [""];
  const colourless = sections.map((one) => one.replace(/^\[[A-Za-z]+\]/, ""));
  if (colourless.some((one) => CONDITION.test(one))) {
    const found = colourless.find((one) => {
      const [, sign, limit] = CONDITION.exec(one) ?? [];
      return sign === undefined || holds(value, sign, Number(limit));
    });
    return { text: (found ?? "").replace(CONDITION, ""), isOfNegatives: false };
  }
  const [first = "", negative, zero] = colourless;
  if (value < 0 && negative !== undefined) return { text: negative, isOfNegatives: true };
  return { text: value === 0 ? (zero ?? first) : first, isOfNegatives: false };
}

function holds(value: number, sign: string, limit: number): boolean {
  if (value === limit) return sign.includes("=");
  if (sign === "<>") return true;
  return value < limit ? sign.startsWith("<") : sign.startsWith(">");
}

function digits(value: number, pattern: string): string {
  const [, whole = "", decimals = ""] =
    /([0#,]*)(?:\.([0#]*))?/.exec(pattern.slice(start(pattern))) ?? [];
  const least = decimals.replaceAll("#", "").length;
  const [, power] = /E\+(0+)/.exec(pattern) ?? [];
  if (power !== undefined) {
    const [figure = "", exponent = "0"] = value.toExponential(decimals.length).split("e");
    const sign = exponent.startsWith("-") ? "-" : "+";
    return `${figure}E${sign}${exponent.slice(1).padStart(power.length, "0")}`;
  }
  const shown = new Intl.NumberFormat(undefined, {
    minimumIntegerDigits: Math.max(1, whole.replace(/[#,]/g, "").length),
    minimumFractionDigits: least,
    maximumFractionDigits: decimals.length,
    useGrouping: whole.includes(","),
  });
  return shown.format(pattern.includes("%") ? value * 100 : value);
}

function start(pattern: string): number {
  return Math.max(0, pattern.search(/[0#]/));
}

function general(value: number): string {
  return new Intl.NumberFormat(undefined, {
    maximumSignificantDigits: GENERAL_DIGITS,
    useGrouping: false,
  }).format(value);
}

function plain(text: string): string {
  return text.replace(/_./g, " ").replaceAll('"', "").replaceAll("\\", "");
}
