/** Inductance and capacitance of a pair of round conductors side by side, out and back. Left out: anything else near them. */
import { InputError, requireAbove } from "../quantities/errors.js";
import { figure } from "../quantities/figures.js";
import type { Caveat, QuantitiesOf, StepsOf } from "../quantities/steps.js";
import type { Farads, Henries, Metres } from "../quantities/units.js";

export interface ConductorPair {
  readonly length: Metres;
  readonly diameter: Metres;
  /** Centre to centre. */
  readonly spacing: Metres;
}

export interface PairInductance {
  readonly radius: Metres;
  readonly inductance: Henries;
  readonly caveats: readonly Caveat[];
}

/** µ₀/π, in H/m. */
const PERMEABILITY_BY_PI = 4e-7;

/** Flux within the conductors counted, as at dc. @throws {InputError} */
export function pairInductance(pair: ConductorPair): PairInductance {
  const { length, diameter, spacing } = pair;
  requirePair(pair);
  if (spacing < diameter) throw tooClose(pair);
  const radius = diameter / 2;
  const inductance = PERMEABILITY_BY_PI * length * (Math.log(spacing / radius) + 0.25);
  return { radius, inductance, caveats: [ALONE_NOTE] };
}

export interface PairInDielectric extends ConductorPair {
  readonly relativePermittivity: number;
}

export interface PairCapacitance {
  readonly capacitance: Farads;
  readonly caveats: readonly Caveat[];
}

/** ε₀, in F/m (CODATA 2018, from memory). */
const VACUUM_PERMITTIVITY = 8.8541878128e-12;

/** Exact for two cylinders in one dielectric. @throws {InputError} */
export function pairCapacitance(pair: PairInDielectric): PairCapacitance {
  const { length, diameter, spacing, relativePermittivity } = pair;
  requirePair(pair);
  if (!(spacing > diameter)) throw tooClose(pair);
  if (!(relativePermittivity >= 1))
    throw new InputError("relativePermittivity", relativePermittivity, "1 (air) or more");
  const capacitance =
    (Math.PI * VACUUM_PERMITTIVITY * relativePermittivity * length) /
    Math.acosh(spacing / diameter);
  return { capacitance, caveats: [ALONE_NOTE] };
}

const ALONE_NOTE: Caveat = {
  code: "alone",
  field: "length",
  text: "two round conductors alone: metal, earth and other cores near them change it",
  cite: "two-wire-line",
};

function requirePair({ length, diameter, spacing }: ConductorPair): void {
  requireAbove("length", length, 0);
  requireAbove("diameter", diameter, 0);
  requireAbove("spacing", spacing, 0);
}

function tooClose({ spacing, diameter }: ConductorPair): InputError {
  return new InputError("spacing", spacing, `above the diameter, ${figure(diameter * 1000)} mm`);
}

const MILLIMETRES = { unit: "mm", perUnit: 1000 };

export const conductorPairGivens: QuantitiesOf<ConductorPair> = {
  length: { label: "Length of the route, one way", symbol: "L", unit: "m" },
  diameter: {
    label: "Diameter of the conductor",
    symbol: "d",
    unit: "m",
    shown: MILLIMETRES,
  },
  spacing: {
    label: "Spacing, centre to centre",
    symbol: "D",
    unit: "m",
    shown: MILLIMETRES,
  },
};

export const pairInductanceSteps: StepsOf<PairInductance> = {
  radius: {
    label: "Radius of the conductor",
    symbol: "a",
    unit: "m",
    shown: MILLIMETRES,
    kind: "formula",
    formula: "diameter / 2",
    cite: "definition",
  },
  inductance: {
    label: "Inductance of the pair, (µ₀/π) · L · (ln(D/a) + 1/4)",
    symbol: "Lp",
    unit: "H",
    kind: "formula",
    formula: "0.0000004 * length * (ln(spacing / radius) + 0.25)",
    cite: "two-wire-line",
  },
};

export const pairCapacitanceSteps: StepsOf<PairCapacitance> = {
  capacitance: {
    label: "Capacitance of the pair, π · ε₀ · εr · L / acosh(D/d)",
    symbol: "Cp",
    unit: "F",
    kind: "formula",
    formula:
      "pi * 0.0000000000088541878128 * relativePermittivity * length / acosh(spacing / diameter)",
    cite: "two-wire-exact",
  },
};
