/** Units in the brackets of headers: for each quantity those that are read, as what one of them is in SI. */
export const HEADER_UNITS = {
  voltage: { V: 1, mV: 1e-3, kV: 1e3 },
  current: { A: 1, mA: 1e-3, kA: 1e3 },
  power: { W: 1, mW: 1e-3, kW: 1e3 },
  resistance: { Ω: 1, mΩ: 1e-3 },
  "loss for each ampere": { "W/A": 1, V: 1 },
  "loss for each square ampere": { "W/A²": 1, Ω: 1, mΩ: 1e-3 },
  /** By the kind of the load: W, A or Ω. */
  load: { W: 1, "W, A, Ω": 1, "W, A or Ω": 1, kW: 1e3, mW: 1e-3 },
  fraction: { "1": 1, "%": 1e-2 },
  number: { "1": 1 },
} as const satisfies Readonly<Record<string, Readonly<Record<string, number>>>>;

/** Of a column of figures; `words` has no unit, and a bracket behind its header is for people. */
export type HeaderQuantity = keyof typeof HEADER_UNITS | "words";

/** A header in its two parts: `Resistance (mΩ)` is "Resistance" and "mΩ". */
export interface HeaderParts {
  readonly name: string;
  /** What stands in the trailing round or square brackets; "" where there are none. */
  readonly unit: string;
}

export function headerParts(text: string): HeaderParts {
  const header = text.trim();
  const from = Math.max(header.lastIndexOf("("), header.lastIndexOf("["));
  if (from < 0 || !/[)\]]$/.test(header)) return { name: header, unit: "" };
  const unit = header.slice(from + 1, -1).trim();
  return { name: header.slice(0, from).trim(), unit };
}

/** What one of the unit is in SI; undefined for a unit that the quantity is not read in. Without a unit figures are in SI. */
export function unitInSi(
  quantity: keyof typeof HEADER_UNITS,
  unit: string,
): number | undefined {
  if (unit === "") return 1;
  const wanted = plainUnit(unit);
  return Object.entries(HEADER_UNITS[quantity]).find(
    ([known]) => plainUnit(known) === wanted,
  )?.[1];
}

/**
 * A unit as it is compared: Ω also as ohm or as its own sign, ² also as 2 or ^2. Case matters: mW is not MW. Normal form
 * KC of Unicode makes one of the several signs.
 */
function plainUnit(unit: string): string {
  return unit
    .normalize("NFKC")
    .replace(/ohms?/gi, "Ω")
    .replaceAll("^", "")
    .replace(/\s+/g, "");
}
