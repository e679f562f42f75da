import type { CitationId } from "../quantities/citations.js";
import { InputError } from "../quantities/errors.js";
import type { Quantity, Steps } from "../quantities/steps.js";
import type { Celsius, OhmMetres } from "../quantities/units.js";

/** Every resistivity and coefficient here is at this temperature. */
export const REFERENCE_TEMPERATURE_C: Celsius = 20;

/** Siemens per metre of 100 % IACS, the International Annealed Copper Standard. [nbs-copper] */
const IACS_CONDUCTIVITY = 58e6;

interface Resistive {
  /** At 20 °C. */
  readonly resistivity: OhmMetres;
  /** Per kelvin, at 20 °C. */
  readonly temperatureCoefficient: number;
}

export interface NamedMaterial extends Resistive {
  readonly origin: "named";
  readonly name: string;
  readonly cites: {
    readonly resistivity: CitationId;
    readonly temperatureCoefficient: CitationId;
  };
}

/** Both figures as somebody gave them, to stay with one source of his own. */
export interface OwnMaterial extends Resistive {
  readonly origin: "own";
  readonly name: string;
}

export type ConductorMaterial = NamedMaterial | OwnMaterial;

export const conductorMaterials = {
  copper: {
    origin: "named",
    name: "copper",
    resistivity: 17.241e-9,
    temperatureCoefficient: 0.00393,
    cites: {
      resistivity: "nbs-copper",
      temperatureCoefficient: "copper-coefficient",
    },
  },
  hardCopper: {
    origin: "named",
    name: "hard copper",
    resistivity: 17.77e-9,
    temperatureCoefficient: 0.00381,
    cites: {
      resistivity: "hard-copper",
      temperatureCoefficient: "hard-copper",
    },
  },
  aluminium: {
    origin: "named",
    name: "aluminium",
    resistivity: 28.264e-9,
    temperatureCoefficient: 0.00403,
    cites: {
      resistivity: "iec-60889",
      temperatureCoefficient: "iec-60889",
    },
  },
  // The least conductivity stated, not the nominal one; the coefficient of aluminium, the larger of the two metals'.
  copperClad10: {
    origin: "named",
    name: "copper-clad aluminium 10 %",
    resistivity: 1 / (0.629 * IACS_CONDUCTIVITY),
    temperatureCoefficient: 0.00403,
    cites: {
      resistivity: "cca-table",
      temperatureCoefficient: "cca-coefficient",
    },
  },
  copperClad15: {
    origin: "named",
    name: "copper-clad aluminium 15 %",
    resistivity: 1 / (0.644 * IACS_CONDUCTIVITY),
    temperatureCoefficient: 0.00403,
    cites: {
      resistivity: "cca-table",
      temperatureCoefficient: "cca-coefficient",
    },
  },
} as const satisfies Record<string, NamedMaterial>;

export const MATERIAL_NAMES: readonly string[] = Object.values(conductorMaterials).map(
  ({ name }) => name,
);

/** @throws {InputError} naming `material`. */
export function materialNamed(name: string): NamedMaterial {
  const found = Object.values(conductorMaterials).find((material) => material.name === name);
  if (!found) throw new InputError("material", name, MATERIAL_NAMES.join(" or "));
  return found;
}

/** @throws {InputError} naming `material`. */
export function ownMaterial(resistivity: OhmMetres, temperatureCoefficient: number): OwnMaterial {
  if (!(resistivity > 0 && Number.isFinite(resistivity))) {
    throw new InputError(
      "material",
      resistivity,
      "a name, or two cells of which the first, the resistivity in Ω·m, is above 0",
    );
  }
  if (!Number.isFinite(temperatureCoefficient)) {
    throw new InputError(
      "material",
      temperatureCoefficient,
      "a name, or two cells of which the second, the coefficient per K, is a finite number",
    );
  }
  return {
    origin: "own",
    name: "own resistivity",
    resistivity,
    temperatureCoefficient,
  };
}

export type MaterialField = "resistivity" | "temperatureCoefficient";

const MATERIAL_QUANTITIES: Readonly<Record<MaterialField, Quantity>> = {
  resistivity: {
    label: "Resistivity at 20 °C",
    symbol: "ρ",
    unit: "Ω·m",
    shown: { unit: "nΩ·m", perUnit: 1e9 },
  },
  temperatureCoefficient: {
    label: "Temperature coefficient of resistance at 20 °C",
    symbol: "α",
    unit: "1/K",
  },
};

/** A figure of the material as a given (own) or as one looked up by the material's name. */
export function materialWorking(
  material: ConductorMaterial,
  fields: readonly MaterialField[],
): { readonly givens: Record<string, Quantity>; readonly steps: Steps } {
  const described = fields.map((field) => [field, MATERIAL_QUANTITIES[field]]);
  if (material.origin === "own") return { givens: Object.fromEntries(described), steps: {} };
  const steps = fields.map((field) => [
    field,
    {
      ...MATERIAL_QUANTITIES[field],
      kind: "lookup",
      table: "Conductor materials at 20 °C",
      key: "material",
      cite: material.cites[field],
    },
  ]);
  return {
    givens: { material: { label: "Material", symbol: "material", unit: "" } },
    steps: Object.fromEntries(steps) as Steps,
  };
}
