/**
 * Greatest resistance at 20 °C that IEC 60228 allows a conductor of a cable, by its nominal size and class.
 *
 * Read on pages that reproduce the standard, and from memory where a row says so. Never interpolated.
 */
import type { CitationId } from "../quantities/citations.js";
import { NoAnswerError } from "../quantities/errors.js";
import type { OhmsPerMetre } from "../quantities/units.js";

export type ConductorClass = "class 1" | "class 2" | "class 5" | "class 5 tinned";

/** The materials that have tables. */
export type ClassMaterial = "copper" | "aluminium";

/** Nominal size in mm², Ω/km at 20 °C, and whether the figure was typed from memory. */
type Row = readonly [sizeMm2: number, ohmsPerKilometre: number, standing?: "from memory"];

export const STANDARD_SIZES_MM2: readonly number[] = [
  0.5, 0.75, 1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95, 120, 150, 185, 240, 300, 400, 500, 630,
  800, 1000,
];

const COPPER: Readonly<Record<ConductorClass, readonly Row[]>> = {
  "class 1": [
    [0.5, 36.0],
    [0.75, 24.5],
    [1, 18.1],
    [1.5, 12.1],
    [2.5, 7.41],
    [4, 4.61],
    [6, 3.08],
    [10, 1.83],
    [16, 1.15],
    [25, 0.727],
    [35, 0.524],
    [50, 0.387],
    [70, 0.268],
    [95, 0.193],
    [120, 0.153],
    [150, 0.124],
    [185, 0.101],
    [240, 0.0775],
    [300, 0.062],
    [400, 0.0465],
  ],
  "class 2": [
    [0.5, 36.0],
    [0.75, 24.5],
    [1, 18.1],
    [1.5, 12.1],
    [2.5, 7.41],
    [4, 4.61],
    [6, 3.08],
    [10, 1.83],
    [16, 1.15],
    [25, 0.727],
    [35, 0.524],
    [50, 0.387],
    [70, 0.268],
    [95, 0.193],
    [120, 0.153],
    [150, 0.124],
    [185, 0.0991],
    [240, 0.0754],
    [300, 0.0601],
    [400, 0.047],
    [500, 0.0366],
    [630, 0.0283],
    [800, 0.0221],
    [1000, 0.0176],
  ],
  "class 5": [
    [0.5, 39.0, "from memory"],
    [0.75, 26.0, "from memory"],
    [1, 19.5],
    [1.5, 13.3],
    [2.5, 7.98],
    [4, 4.95],
    [6, 3.3],
    [10, 1.91],
    [16, 1.21],
    [25, 0.78],
    [35, 0.554],
    [50, 0.386],
    [70, 0.272],
    [95, 0.206],
    [120, 0.161],
    [150, 0.129],
    [185, 0.106],
    [240, 0.0801],
    [300, 0.0641],
    [400, 0.0486],
    [500, 0.0384],
    [630, 0.0287],
  ],
  "class 5 tinned": [
    [0.5, 40.1, "from memory"],
    [0.75, 26.7, "from memory"],
    [1, 20.0],
    [1.5, 13.7],
    [2.5, 8.21],
    [4, 5.09],
    [6, 3.39],
    [10, 1.95],
    [16, 1.24],
    [25, 0.795],
    [35, 0.565],
    [50, 0.393],
    [70, 0.277],
    [95, 0.21],
    [120, 0.164],
    [150, 0.132],
    [185, 0.108],
    [240, 0.0817],
    [300, 0.0654],
    [400, 0.0495],
    [500, 0.0391],
    [630, 0.0292],
  ],
};

const ALUMINIUM: Readonly<Record<"class 1" | "class 2", readonly Row[]>> = {
  "class 1": [
    [10, 3.08],
    [16, 1.91],
    [25, 1.2],
    [35, 0.868],
    [50, 0.641],
    [70, 0.443],
    [95, 0.32],
    [120, 0.253],
    [150, 0.206],
    [185, 0.164],
    [240, 0.125],
    [300, 0.1],
    [400, 0.0778],
    [500, 0.0605],
    [630, 0.0469],
    [800, 0.0367],
    [1000, 0.0291],
  ],
  "class 2": [
    [10, 3.08],
    [16, 1.91],
    [25, 1.2],
    [35, 0.868],
    [50, 0.641],
    [70, 0.443],
    [95, 0.32],
    [120, 0.253],
    [150, 0.206],
    [185, 0.164],
    [240, 0.125],
    [300, 0.1],
    [400, 0.0778, "from memory"],
    [500, 0.0605, "from memory"],
    [630, 0.0469, "from memory"],
    [800, 0.0367, "from memory"],
    [1000, 0.0291, "from memory"],
  ],
};

const TABLES: Readonly<
  Record<ClassMaterial, Readonly<Partial<Record<ConductorClass, readonly Row[]>>>>
> = { copper: COPPER, aluminium: ALUMINIUM };

/** A resistance as a printed table has it. */
export interface TabledResistance {
  readonly table: string;
  readonly resistancePerMetre: OhmsPerMetre;
  readonly cite: CitationId;
}

export function classesOf(material: ClassMaterial): ConductorClass[] {
  return Object.keys(TABLES[material]) as ConductorClass[];
}

/** Undefined where the class has no row for the size. */
export function tabledInClass(
  material: ClassMaterial,
  conductorClass: ConductorClass,
  sizeMm2: number,
): TabledResistance | undefined {
  const row = rowsOf(material, conductorClass).find(([size]) => size === sizeMm2);
  if (!row) return undefined;
  const [, ohmsPerKilometre, standing] = row;
  return {
    table: `IEC 60228 ${conductorClass}, ${material}`,
    resistancePerMetre: ohmsPerKilometre / 1000,
    cite: standing === "from memory" ? "iec-60228-memory" : "iec-60228",
  };
}

/** @throws {NoAnswerError} naming `size` where the class has no row for it. */
export function classResistance(
  material: ClassMaterial,
  conductorClass: ConductorClass,
  sizeMm2: number,
): TabledResistance {
  const found = tabledInClass(material, conductorClass, sizeMm2);
  if (!found) {
    throw new NoAnswerError(
      "size",
      `size ${sizeMm2} mm² is not in IEC 60228 ${conductorClass} for ${material} (${rangeOf(rowsOf(material, conductorClass))})`,
    );
  }
  return found;
}

function rowsOf(material: ClassMaterial, conductorClass: ConductorClass): readonly Row[] {
  return TABLES[material][conductorClass] ?? [];
}

function rangeOf(rows: readonly Row[]): string {
  return `it has ${rows[0]?.[0]} to ${rows.at(-1)?.[0]} mm²`;
}
