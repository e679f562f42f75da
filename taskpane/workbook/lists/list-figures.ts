/** Figures of somebody's list: with thousands parted, either decimal sign, and perhaps a unit of their own. */

/** What parts a number from its decimals, in all of a list. */
export type DecimalSign = "." | ",";

export type ListFigure =
  | {
      readonly is: "figure";
      readonly number: number;
      /** "" where it has none. */ readonly unit: string;
    }
  | { readonly is: "empty" }
  /** 1,250 and 1.250: which of two numbers it is, the decimal sign says. */
  | { readonly is: "either" }
  /** TBD, by others, 2+1. */
  | { readonly is: "text" };

const SHAPE = /^([-+−]?)\s*(\d[\d.,'’ ]*|[.,]\d+)(e[-+]?\d+)?\s*([\p{L}%°Ω][^+\d]*\d?)?$/iu;
const NOTHING = /^[-–—.]*$/;

export function listFigure(text: string, sign: DecimalSign | undefined): ListFigure {
  if (NOTHING.test(text)) return { is: "empty" };
  const [, minus = "", digits = "", power = "", unit = ""] = SHAPE.exec(text) ?? [];
  const bare = digits.trim();
  if (bare === "" || !isParted(bare)) return { is: "text" };
  const plain = bare.replace(/['’ ]/g, "");
  const decimals = signOf(plain) ?? (isEither(plain) ? sign : ".");
  if (decimals === undefined) return { is: "either" };
  const [whole = "", ...parts] = plain.split(decimals);
  if (parts.length > 1 || (/[.,]/.test(whole) && !/^\d{1,3}([.,]\d{3})+$/.test(whole)))
    return { is: "text" };
  const number = Number(`${whole.replace(/[.,]/g, "")}.${parts[0] ?? ""}${power}`);
  if (!Number.isFinite(number)) return { is: "text" };
  const size = minus === "" || minus === "+" ? number : -number;
  return { is: "figure", number: size, unit: unit.trim() };
}

/** What the figures of a list tell of its decimal sign; undefined where they tell nothing, or both. */
export function decimalSignOf(texts: readonly string[]): DecimalSign | undefined {
  const told = new Set(
    texts.flatMap((text) => {
      const digits = SHAPE.exec(text)?.[2]?.trim() ?? "";
      return isParted(digits) ? (signOf(digits.replace(/['’ ]/g, "")) ?? []) : [];
    }),
  );
  return told.size === 1 ? [...told][0] : undefined;
}

/** Spaces and apostrophes part thousands or nothing. */
function isParted(digits: string): boolean {
  return !/['’ ]/.test(digits) || /^\d{1,3}(['’ ]\d{3})+([.,]\d*)?$/.test(digits);
}

/** The decimal sign of a number that can be read in one way only. */
function signOf(digits: string): DecimalSign | undefined {
  const signs = digits.replace(/\d/g, "");
  if (signs === "" || isEither(digits)) return undefined;
  const last = signs.at(-1) as DecimalSign;
  const other = last === "." ? "," : ".";
  if (signs.length === 1) return last;
  // 1.250,5: the last of two different ones; 1.250.000: none is, so the other would be.
  return signs.includes(other) ? last : other;
}

/** One sign before three digits, which may part thousands or decimals. */
function isEither(digits: string): boolean {
  return /^[1-9]\d{0,2}[.,]\d{3}$/.test(digits);
}
