import { METRES_PER_FOOT } from "./units.js";

/** Units in the brackets of headers: for each quantity those that are read, as what one of them is in SI. */
export const HEADER_UNITS = {
  voltage: { V: 1, mV: 1e-3, kV: 1e3 },
  current: { A: 1, mA: 1e-3, kA: 1e3 },
  power: { W: 1, mW: 1e-3, kW: 1e3 },
  resistance: { Ω: 1, mΩ: 1e-3 },
  "resistance for each metre": { "Ω/m": 1, "Ω/km": 1e-3, "mΩ/m": 1e-3 },
  "loss for each ampere": { "W/A": 1, V: 1 },
  "loss for each square ampere": { "W/A²": 1, Ω: 1, mΩ: 1e-3 },
  /** By the kind of the load: W, A or Ω. */
  load: { W: 1, "W, A, Ω": 1, "W, A or Ω": 1, kW: 1e3, mW: 1e-3 },
  fraction: { "1": 1, "%": 1e-2 },
  number: { "1": 1 },
  length: { m: 1, km: 1e3, ft: METRES_PER_FOOT, mm: 1e-3 },
  area: { "mm²": 1e-6 },
  volume: { "cm³": 1e-6, l: 1e-3, "dm³": 1e-3 },
  capacitance: { F: 1, mF: 1e-3, µF: 1e-6, nF: 1e-9 },
  inductance: { H: 1, mH: 1e-3, µH: 1e-6 },
  "inductance for each metre": { "H/m": 1, "µH/m": 1e-6, "mH/km": 1e-6 },
  /** The one unit that is not SI inside: only differences of it enter formulas. */
  temperature: { "°C": 1 },
  "for each kelvin": { "1/K": 1, "%/K": 1e-2 },
  time: { s: 1, ms: 1e-3, min: 60 },
  mass: { kg: 1, g: 1e-3 },
  "mass for each metre": { "kg/m": 1, "g/m": 1e-3, "kg/km": 1e-3 },
  irradiance: { "W/m²": 1 },
} as const satisfies Readonly<Record<string, Readonly<Record<string, number>>>>;

export type UnitQuantity = keyof typeof HEADER_UNITS;

/** Quantity of a column; `words` and `money` have no unit, and a bracket behind their header is for people. */
export type HeaderQuantity = UnitQuantity | "words" | "money";

export function hasUnits(quantity: HeaderQuantity): quantity is UnitQuantity {
  return quantity in HEADER_UNITS;
}

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

const TO_SI: ReadonlyMap<string, ReadonlyMap<string, number>> = new Map(
  Object.entries(HEADER_UNITS).map(([quantity, units]) => [
    quantity,
    new Map(Object.entries(units).map(([unit, toSi]) => [plainUnit(unit), toSi])),
  ]),
);

/** What one of the unit is in SI; undefined for a unit that the quantity is not read in. Without a unit figures are in SI. */
export function unitInSi(quantity: UnitQuantity, unit: string): number | undefined {
  if (unit === "") return 1;
  return TO_SI.get(quantity)!.get(plainUnit(unit));
}

/** A figure of so many units in SI: 9 mΩ is 9 ÷ 1000 to the last digit, 9 × 0.001 is not. */
export function figureInSi(figure: number, toSi: number): number {
  const parts = Math.round(1 / toSi);
  const isPart = toSi < 1 && Math.abs(parts * toSi - 1) < 1e-12;
  return isPart ? figure / parts : figure * toSi;
}

/** A figure in SI as so many units; the exact inverse wherever one is. */
export function figureFromSi(value: number, toSi: number): number {
  const parts = Math.round(1 / toSi);
  const isPart = toSi < 1 && Math.abs(parts * toSi - 1) < 1e-12;
  return isPart ? value * parts : value / toSi;
}

/**
 * A unit as it is compared: Ω also as ohm or as its own sign, µ also as u, ² also as 2 or ^2. Case matters: mW is not
 * MW. Normal form KC of Unicode makes one of the several signs.
 */
function plainUnit(unit: string): string {
  return unit
    .normalize("NFKC")
    .replace(/ohms?/gi, "Ω")
    .replace(/^u(?=[FHΩ])/, "μ")
    .replaceAll("^", "")
    .replace(/\s+/g, "");
}
