/** Energy lost over a profile: a loss for so many hours, then the next. */
import { InputError, requireAtLeast } from "../quantities/errors.js";
import { numbered, placesOf } from "../quantities/numbered.js";
import type { Caveat, Quantities, StepsWith } from "../quantities/steps.js";
import type { Watts } from "../quantities/units.js";

export interface LossProfile {
  readonly losses: readonly Watts[];
  /** Hours that each of the losses lasts. */
  readonly hours: readonly number[];
}

export interface EnergyLoss {
  readonly totalHours: number;
  /** In kWh. */
  readonly energy: number;
  readonly caveats: readonly Caveat[];
}

const HOURS_PER_YEAR = 8760;

/** Energy lost over a profile of losses and hours, kWh. @throws {InputError} naming `losses` or `hours`. */
export function energyLoss({ losses, hours }: LossProfile): EnergyLoss {
  if (hours.length !== losses.length)
    throw new InputError(
      "hours",
      `${hours.length} cells`,
      `as many as the losses, ${losses.length}`,
    );
  let energy = 0;
  let totalHours = 0;
  losses.forEach((loss, index) => {
    const lasting = hours[index]!;
    requireAtLeast("losses", loss, 0);
    requireAtLeast("hours", lasting, 0);
    totalHours += lasting;
    energy += (loss * lasting) / 1000;
  });
  return { totalHours, energy, caveats: notesOn(totalHours) };
}

function notesOn(totalHours: number): Caveat[] {
  if (totalHours <= HOURS_PER_YEAR) return [];
  return [
    {
      code: "more-than-a-year",
      field: "totalHours",
      text: `${totalHours} hours are more than a year's ${HOURS_PER_YEAR}`,
      cite: "definition",
    },
  ];
}

/** Givens are numbered by their place in the profile: `loss1`, `hours1`. */
export function energyLossGivens({ losses }: LossProfile): Quantities {
  return Object.fromEntries(
    placesOf(losses).flatMap((place) => [
      [`loss${place}`, { label: `Loss ${place}`, symbol: `P${place}`, unit: "W" }],
      [`hours${place}`, { label: `Hours ${place}`, symbol: `t${place}`, unit: "h" }],
    ]),
  );
}

export function energyLossSteps({ losses }: LossProfile): StepsWith<"energy"> {
  const places = placesOf(losses);
  return {
    totalHours: {
      label: "Hours in all",
      symbol: "Σt",
      unit: "h",
      kind: "formula",
      formula: places.map((place) => `hours${place}`).join(" + "),
      cite: "definition",
    },
    energy: {
      label: "Energy lost",
      symbol: "W",
      unit: "kWh",
      kind: "formula",
      formula: places.map((place) => `loss${place} * hours${place} / 1000`).join(" + "),
      cite: "kelvin-annual-cost",
    },
  };
}

export function energyLossValues(
  { losses, hours }: LossProfile,
  { totalHours, energy }: EnergyLoss,
): Readonly<Record<string, number>> {
  return {
    ...numbered("loss", losses),
    ...numbered("hours", hours),
    totalHours,
    energy,
  };
}
