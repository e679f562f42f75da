/** How long a conductor stands a fault current before it is too hot, if no heat leaves it meanwhile. */
import { InputError, requireAbove } from "../quantities/errors.js";
import { figure } from "../quantities/figures.js";
import type { Caveat, QuantitiesOf, StepsWith } from "../quantities/steps.js";
import { ABSOLUTE_ZERO_C } from "../quantities/units.js";
import type { Amperes, Celsius, Seconds } from "../quantities/units.js";
import type { ConductorMaterial } from "./conductor-materials.js";
import {
  type ConductorSection,
  conductorSection,
  type ConductorSize,
} from "./conductor-section.js";
import { type AdiabaticConstants, adiabaticConstants } from "./material-properties.js";

export interface FaultedConductor {
  readonly faultCurrent: Amperes;
  readonly size: ConductorSize;
  readonly startC: Celsius;
  /** Temperature that the insulation withstands for the time of a fault. */
  readonly endC: Celsius;
  readonly material: ConductorMaterial;
}

export interface WithstandTime extends AdiabaticConstants {
  readonly section: ConductorSection;
  /** In A·√s for a m² of metal. */
  readonly adiabaticConstant: number;
  readonly time: Seconds;
  readonly caveats: readonly Caveat[];
}

/** @throws {InputError} */
export function withstandTime(fault: FaultedConductor): WithstandTime {
  const { faultCurrent, size, startC, endC, material } = fault;
  requireAbove("faultCurrent", faultCurrent, 0);
  const constants = adiabaticConstants(material);
  const { heatCapacity, zeroResistanceC, adiabaticResistivity } = constants;
  requireAbove("startC", startC, Math.max(-zeroResistanceC, ABSOLUTE_ZERO_C));
  if (!(endC > startC)) throw new InputError("endC", endC, `above the start, ${figure(startC)} °C`);
  const section = conductorSection(size);
  const adiabaticConstant = Math.sqrt(
    ((heatCapacity * (zeroResistanceC + 20)) / adiabaticResistivity) *
      Math.log1p((endC - startC) / (zeroResistanceC + startC)),
  );
  const time = (adiabaticConstant * section.area) ** 2 / faultCurrent ** 2;
  const caveats = [...section.caveats, ...notesOn(time, fault)];
  return { ...constants, section, adiabaticConstant, time, caveats };
}

/** Beyond this heat leaves the conductor in earnest. [iec-60364-5-54] */
const ADIABATIC_SECONDS = 5;

/** The hottest end in the standard's tables, from memory: bare metal in sight, where nothing near it can burn. */
const HOTTEST_TABLED_C: Readonly<Record<string, Celsius>> = {
  copper: 500,
  aluminium: 300,
};

function notesOn(time: Seconds, { endC, material: { name } }: FaultedConductor): Caveat[] {
  const hottest = HOTTEST_TABLED_C[name];
  const about = (code: string, text: string): Caveat => ({
    code,
    field: "time",
    text,
    cite: "iec-60364-5-54",
  });
  return [
    ...(hottest !== undefined && endC > hottest
      ? [
          about(
            "hotter-than-tables",
            `the end is above ${hottest} °C, the hottest that is tabled for ${name}: the time is longer than it may stand`,
          ),
        ]
      : []),
    ...(time > ADIABATIC_SECONDS
      ? [
          about(
            "not-adiabatic",
            `above ${ADIABATIC_SECONDS} s the adiabatic equation is conservative: the conductor also sheds heat`,
          ),
        ]
      : []),
  ];
}

export const faultedConductorGivens: QuantitiesOf<FaultedConductor> = {
  faultCurrent: { label: "Fault current", symbol: "I", unit: "A" },
  startC: { label: "Temperature at the start", symbol: "θi", unit: "°C" },
  endC: { label: "Temperature at the end", symbol: "θf", unit: "°C" },
};

const TABLE = "IEC 60364-5-54, annex A, constants";

/** After the steps of the section. */
export const withstandTimeSteps: StepsWith<"time"> = {
  heatCapacity: {
    label: "Heat capacity by volume",
    symbol: "Qc",
    unit: "J/(K·m³)",
    kind: "lookup",
    table: TABLE,
    key: "material",
    cite: "iec-60364-5-54",
  },
  zeroResistanceC: {
    label: "Reciprocal of the coefficient at 0 °C",
    symbol: "β",
    unit: "°C",
    kind: "lookup",
    table: TABLE,
    key: "material",
    cite: "iec-60364-5-54",
  },
  adiabaticResistivity: {
    label: "Resistivity at 20 °C",
    symbol: "ρ₂₀",
    unit: "Ω·m",
    shown: { unit: "nΩ·m", perUnit: 1e9 },
    kind: "lookup",
    table: TABLE,
    key: "material",
    cite: "iec-60364-5-54",
  },
  adiabaticConstant: {
    label: "Adiabatic constant",
    symbol: "k",
    unit: "A·√s/m²",
    shown: { unit: "A·√s/mm²", perUnit: 1e-6 },
    kind: "formula",
    formula:
      "sqrt(heatCapacity * (zeroResistanceC + 20) / adiabaticResistivity * ln((zeroResistanceC + endC) / (zeroResistanceC + startC)))",
    cite: "iec-60364-5-54",
  },
  time: {
    label: "Time that the conductor stands the current",
    symbol: "t",
    unit: "s",
    kind: "formula",
    formula: "(adiabaticConstant * area)^2 / faultCurrent^2",
    cite: "iec-60364-5-54",
  },
};
