/** How long a run may be for a short circuit at its far end still to draw the current that clears a fuse. */
import {
  type ConductorLoop,
  type ConductorRun,
  conductorLoop,
} from "../conductors/conductor-loop.js";
import { NoAnswerError, requireAbove, requireAtLeast } from "../quantities/errors.js";
import { figure } from "../quantities/figures.js";
import type { Caveat, Quantities, Steps, StepsWith } from "../quantities/steps.js";
import type { Amperes, Metres, Ohms, Volts } from "../quantities/units.js";
import { NO_LIMIT_NOTE } from "./fault-current.js";

export interface ProtectedRun extends Omit<ConductorRun, "length"> {
  readonly voltage: Volts;
  readonly supplyResistance: Ohms;
  /** Current that clears the fuse in the time wanted. */
  readonly currentNeeded: Amperes;
  readonly currentLimit: Amperes | undefined;
}

export interface ProtectedLength {
  /** The loop of one metre of route. */
  readonly metre: ConductorLoop;
  readonly resistanceOfOneMetre: Ohms;
  /** Loop resistance that the run may have. */
  readonly resistanceLeft: Ohms;
  readonly protectedLength: Metres;
  readonly caveats: readonly Caveat[];
}

/**
 * Longest run at whose end a fault still clears the fuse in the time wanted.
 * @throws {InputError | NoAnswerError}
 */
export function protectedLength(run: ProtectedRun): ProtectedLength {
  const { voltage, supplyResistance, currentNeeded, currentLimit } = run;
  requireAbove("voltage", voltage, 0);
  requireAtLeast("supplyResistance", supplyResistance, 0);
  requireAbove("currentNeeded", currentNeeded, 0);
  if (currentLimit !== undefined) {
    requireAbove("currentLimit", currentLimit, 0);
    if (currentLimit < currentNeeded)
      throw new NoAnswerError(
        "currentLimit",
        `the supply's current limit of ${figure(currentLimit)} A is below the ${figure(currentNeeded)} A needed: no length is protected`,
      );
  }
  const metre = conductorLoop({ ...run, length: 1 });
  const resistanceOfOneMetre = metre.resistance;
  const resistanceLeft = voltage / currentNeeded - supplyResistance;
  if (!(resistanceLeft > 0))
    throw new NoAnswerError(
      "currentNeeded",
      `the supply's own resistance lets no more than ${figure(voltage / supplyResistance)} A flow, which leaves nothing for a run at the ${figure(currentNeeded)} A needed: no length is protected`,
    );
  const reach = resistanceLeft / resistanceOfOneMetre;
  return {
    metre,
    resistanceOfOneMetre,
    resistanceLeft,
    protectedLength: reach,
    caveats: [...metre.caveats, ...notesOn(run)],
  };
}

function notesOn({ currentLimit }: ProtectedRun): Caveat[] {
  const caveats: Caveat[] = [
    {
      code: "hot-conductor",
      field: "protectedLength",
      text: "give the conductor's temperature at the end of the fault: a hotter conductor protects less length",
      cite: "common-practice",
    },
  ];
  if (currentLimit === undefined) caveats.push({ ...NO_LIMIT_NOTE, field: "protectedLength" });
  return caveats;
}

/** Beside the givens of the run. */
export const protectedRunGivens = {
  voltage: { label: "Supply voltage", symbol: "U", unit: "V" },
  supplyResistance: { label: "Supply resistance", symbol: "Rs", unit: "Ω" },
  currentNeeded: { label: "Current needed", symbol: "Ia", unit: "A" },
} satisfies Quantities;

/** Before the steps of one metre of the run. */
export const oneMetreStep: Steps = {
  length: {
    label: "One metre of route",
    symbol: "L₁",
    unit: "m",
    kind: "formula",
    formula: "1",
    cite: "definition",
  },
};

/** After the steps of one metre of the run. */
export const protectedLengthSteps: StepsWith<"protectedLength"> = {
  resistanceOfOneMetre: {
    label: "Loop resistance of one metre of route",
    symbol: "R′",
    unit: "Ω",
    kind: "formula",
    formula: "resistance",
    cite: "definition",
  },
  resistanceLeft: {
    label: "Resistance that the run may have",
    symbol: "Rl",
    unit: "Ω",
    kind: "formula",
    formula: "voltage / currentNeeded - supplyResistance",
    cite: "ohm-joule",
  },
  protectedLength: {
    label: "Length protected",
    symbol: "L",
    unit: "m",
    kind: "formula",
    formula: "resistanceLeft / resistanceOfOneMetre",
    cite: "definition",
  },
};
