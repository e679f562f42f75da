/** Energy in a charged capacitor, and which published limits on stored energy it crosses. */
import type { CitationId } from "../quantities/citations.js";
import { requireAbove } from "../quantities/errors.js";
import type { Caveat, QuantitiesOf, StepsOf } from "../quantities/steps.js";
import type { Farads, Joules, Volts } from "../quantities/units.js";

export interface ChargedCapacitor {
  readonly capacitance: Farads;
  readonly voltage: Volts;
}

export interface StoredEnergy {
  readonly energy: Joules;
  readonly caveats: readonly Caveat[];
}

/** Energy of a charged capacitor, ½CU², with the limits that it crosses as caveats. @throws {InputError} */
export function storedEnergy({ capacitance, voltage }: ChargedCapacitor): StoredEnergy {
  requireAbove("capacitance", capacitance, 0);
  requireAbove("voltage", voltage, 0);
  const energy = 0.5 * capacitance * voltage ** 2;
  return { energy, caveats: notesOn(energy, voltage) };
}

interface EnergyLimit {
  readonly code: string;
  readonly isCrossed: (energy: Joules, voltage: Volts) => boolean;
  readonly text: string;
  readonly cite: CitationId;
}

/** From the least energy up. They are limits of different fields: what crosses none of them is not thereby harmless. */
const ENERGY_LIMITS: readonly EnergyLimit[] = [
  {
    code: "crash-energy",
    isCrossed: (energy) => energy >= 0.2,
    text: "0.2 J or more: road vehicles must hold less than that after a crash",
    cite: "iso-6469-4-energy",
  },
  {
    code: "startling-energy",
    isCrossed: (energy) => energy > 0.25,
    text: "more than 0.25 J: a US handbook of 1998 asks for protection against falls and blows that the start leads to",
    cite: "doe-hdbk-1092-98",
  },
  {
    code: "shock-energy",
    isCrossed: (energy, voltage) =>
      (energy > 1 && voltage >= 100) || (energy > 0.25 && voltage >= 400),
    text: "more than 1 J at 100 V or more, or than 0.25 J at 400 V or more: a shock hazard by NFPA 70E article 360",
    cite: "nfpa-70e-360",
  },
  {
    code: "laboratory-shock-energy",
    isCrossed: (energy, voltage) => energy >= 10 && voltage >= 100,
    text: "10 J or more at 100 V or more: a shock hazard also in the older scheme of US laboratories",
    cite: "doe-capacitors",
  },
  {
    code: "hazardous-energy",
    isCrossed: (energy, voltage) => energy >= 20 && voltage >= 2,
    text: "20 J or more: IEC 60950-1 (withdrawn) counted it as hazardous, for what bridges the poles",
    cite: "iec-60950-1-energy",
  },
  {
    code: "burning-energy",
    isCrossed: (energy, voltage) => energy > 100 && voltage < 100,
    text: "more than 100 J below 100 V: a burn hazard in the scheme of US laboratories",
    cite: "doe-capacitors",
  },
  {
    code: "arc-energy",
    isCrossed: (energy, voltage) => energy >= 10_000 && voltage >= 100,
    text: "10 kJ or more at 100 V or more: an arc-flash hazard in the scheme of US laboratories",
    cite: "doe-capacitors",
  },
];

function notesOn(energy: Joules, voltage: Volts): Caveat[] {
  return ENERGY_LIMITS.filter(({ isCrossed }) => isCrossed(energy, voltage)).map(
    ({ code, text, cite }) => ({ code, field: "energy", text, cite }),
  );
}

export const storedEnergyGivens: QuantitiesOf<ChargedCapacitor> = {
  capacitance: { label: "Capacitance", symbol: "C", unit: "F" },
  voltage: { label: "Voltage", symbol: "U", unit: "V" },
};

export const storedEnergySteps: StepsOf<StoredEnergy> = {
  energy: {
    label: "Stored energy",
    symbol: "W",
    unit: "J",
    kind: "formula",
    formula: "0.5 * capacitance * voltage^2",
    cite: "capacitor-energy",
  },
};
