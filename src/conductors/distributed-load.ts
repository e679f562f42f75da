/**
 * Voltage drop and loss of a run along whose length a current is drawn evenly, as by many luminaires: fed from one end or
 * from both.
 */
import { InputError, requireAbove } from "../quantities/errors.js";
import type { Caveat, Quantities, Step, StepsWith } from "../quantities/steps.js";
import type { Amperes, Metres, Volts, Watts } from "../quantities/units.js";
import { type ConductorLoop, type ConductorRun, conductorLoop } from "./conductor-loop.js";

export interface DistributedRun extends ConductorRun {
  /** Drawn from each metre of the route, A/m. */
  readonly currentPerMetre: number;
  /** Voltages of the two ends of a run that is fed from both. */
  readonly ends: { readonly nearVoltage: Volts; readonly farVoltage: Volts } | undefined;
  /** From the near end; undefined is where the voltage is lowest. */
  readonly place: Metres | undefined;
}

export interface DistributedDrop {
  readonly loop: ConductorLoop;
  readonly totalCurrent: Amperes;
  readonly nearCurrent: Amperes;
  /** Of a run that is fed from both ends; below 0 where the far end is fed through the run. */
  readonly farCurrent: Amperes | undefined;
  readonly place: Metres;
  /** Below the near end's voltage; below 0 where the voltage is higher. */
  readonly drop: Volts;
  /** There, of a run that is fed from both ends. */
  readonly voltage: Volts | undefined;
  readonly loss: Watts;
  readonly caveats: readonly Caveat[];
}

/**
 * [spread-load] The current at x from the near end is I_A − i·x, so the drop there is R/L · (I_A·x − i·x²/2).
 * @throws {InputError | NoAnswerError} as `conductorLoop`, and for a current that is not above 0, an end's voltage that is
 *   not above 0, or a place outside the run.
 */
export function distributedDrop(run: DistributedRun): DistributedDrop {
  const { currentPerMetre, length, ends } = run;
  requireAbove("currentPerMetre", currentPerMetre, 0);
  const loop = conductorLoop(run);
  const totalCurrent = currentPerMetre * length;
  const nearCurrent = nearCurrentOf(totalCurrent, loop.resistance, ends);
  const lowestAt = Math.min(length, Math.max(0, nearCurrent / currentPerMetre));
  const place = placeIn(run) ?? lowestAt;
  // At the near end itself 0, not the -0 of a current into it.
  const drop =
    ((loop.resistance * place) / length) * (nearCurrent - (currentPerMetre * place) / 2) + 0;
  const loss =
    loop.resistance * (nearCurrent ** 2 - nearCurrent * totalCurrent + totalCurrent ** 2 / 3);
  if (!Number.isFinite(loss))
    throw new InputError("currentPerMetre", currentPerMetre, "small enough to have a loss");
  return {
    loop,
    totalCurrent,
    nearCurrent,
    farCurrent: ends && totalCurrent - nearCurrent,
    place,
    drop,
    voltage: ends && ends.nearVoltage - drop,
    loss,
    caveats: [...loop.caveats, ...endCaveats(nearCurrent, totalCurrent)],
  };
}

function nearCurrentOf(
  totalCurrent: Amperes,
  resistance: number,
  ends: DistributedRun["ends"],
): Amperes {
  if (!ends) return totalCurrent;
  requireAbove("nearVoltage", ends.nearVoltage, 0);
  requireAbove("farVoltage", ends.farVoltage, 0);
  return totalCurrent / 2 + (ends.nearVoltage - ends.farVoltage) / resistance;
}

function placeIn({ place, length }: DistributedRun): Metres | undefined {
  if (place === undefined) return undefined;
  requireAbove("place", place, 0);
  if (place > length) throw new InputError("place", place, `at most the length, ${length} m`);
  return place;
}

function endCaveats(nearCurrent: Amperes, totalCurrent: Amperes): Caveat[] {
  const fed = nearCurrent < 0 ? "near" : nearCurrent > totalCurrent ? "far" : undefined;
  if (!fed) return [];
  return [
    {
      code: "current-into-end",
      field: "drop",
      text: `current flows through the run into the ${fed} end: a supply that cannot take it is lifted, and this does not hold`,
      cite: "ohm-joule",
    },
  ];
}

/** Beside the givens of the loop: those that are given of a run. */
export const distributedGivens = {
  currentPerMetre: { label: "Current drawn per metre of route", symbol: "i", unit: "A/m" },
  nearVoltage: { label: "Voltage of the near end", symbol: "Ua", unit: "V" },
  farVoltage: { label: "Voltage of the far end", symbol: "Ub", unit: "V" },
  place: { label: "Place, from the near end", symbol: "x", unit: "m" },
} satisfies Quantities;

/** After the steps of the loop. */
export function distributedSteps({ ends, place }: DistributedRun): StepsWith<"drop"> {
  return {
    totalCurrent: {
      label: "Current drawn along the whole run",
      symbol: "I",
      unit: "A",
      kind: "formula",
      formula: "currentPerMetre * length",
      cite: "definition",
    },
    nearCurrent: {
      label: "Current from the near end",
      symbol: "Ia",
      unit: "A",
      kind: "formula",
      formula: ends ? "totalCurrent / 2 + (nearVoltage - farVoltage) / resistance" : "totalCurrent",
      cite: ends ? "spread-load" : "definition",
    },
    ...(ends && { farCurrent: FAR_CURRENT }),
    ...(place === undefined && {
      place: {
        label: "Place of the lowest voltage, from the near end",
        symbol: "x",
        unit: "m",
        kind: "formula",
        formula: ends ? "min(length, max(0, nearCurrent / currentPerMetre))" : "length",
        cite: "spread-load",
      },
    }),
    drop: {
      label: "Drop from the near end to that place",
      symbol: "ΔU",
      unit: "V",
      kind: "formula",
      formula: "resistance * place / length * (nearCurrent - currentPerMetre * place / 2)",
      cite: "spread-load",
    },
    ...(ends && { voltage: VOLTAGE }),
    loss: {
      label: "Power lost in the whole run",
      symbol: "P",
      unit: "W",
      kind: "formula",
      formula: "resistance * (nearCurrent^2 - nearCurrent * totalCurrent + totalCurrent^2 / 3)",
      cite: "spread-load",
    },
  };
}

const FAR_CURRENT: Step = {
  label: "Current from the far end",
  symbol: "Ib",
  unit: "A",
  kind: "formula",
  formula: "totalCurrent - nearCurrent",
  cite: "definition",
};

const VOLTAGE: Step = {
  label: "Voltage at that place",
  symbol: "U",
  unit: "V",
  kind: "formula",
  formula: "nearVoltage - drop",
  cite: "definition",
};
