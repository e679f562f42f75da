/** The working of a fit. Its givens and steps are numbered by point, `load1` on, so they are built for each answer. */
import { numbered, placesOf } from "../quantities/numbered.js";
import type { Quantities, Step, StepsWith } from "../quantities/steps.js";
import type { MeasuredStage, StageFit } from "./stage-fit.js";

export function stageFitGivens({ loads }: MeasuredStage): Quantities {
  return {
    outputVoltage: { label: "Output voltage", symbol: "Vout", unit: "V" },
    ...Object.fromEntries(
      placesOf(loads).flatMap((at) => [
        [`load${at}`, { label: `Load ${at}`, symbol: `P${at}`, unit: "W" }],
        [`efficiency${at}`, { label: `Efficiency ${at}`, symbol: `η${at}`, unit: "1" }],
      ]),
    ),
  };
}

type FittedStep = "fixedLoss" | "linearLoss" | "quadraticLoss" | "worstMisfit";

export function stageFitSteps({ loads }: MeasuredStage, fit: StageFit): StepsWith<FittedStep> {
  const points = placesOf(loads);
  const each = (make: (at: number) => [string, Step]) => Object.fromEntries(points.map(make));
  return {
    ...each((at) => [
      `current${at}`,
      formula(`Current ${at}`, `I${at}`, "A", `load${at} / outputVoltage`),
    ]),
    ...each((at) => [
      `loss${at}`,
      formula(`Loss ${at}`, `Pl${at}`, "W", `load${at} * (1 / efficiency${at} - 1)`),
    ]),
    greatestCurrent: formula(
      "Greatest current",
      "Imax",
      "A",
      `max(${points.map((at) => `current${at}`).join(", ")})`,
    ),
    totalLoad: formula("Loads added up", "ΣP", "W", points.map((at) => `load${at}`).join(" + ")),
    fixedLoss: fitted("Fixed loss", "a", "W", fit.fixedLoss, gradient(points, 0)),
    linearLoss: fitted("Linear loss", "b", "V", fit.linearLoss, gradient(points, 1)),
    quadraticLoss: fitted("Quadratic loss", "c", "Ω", fit.quadraticLoss, gradient(points, 2)),
    ...each((at) => [
      `misfit${at}`,
      formula(
        `Misfit of efficiency ${at}`,
        `δ${at}`,
        "1",
        `abs(load${at} / (load${at} + fixedLoss + linearLoss * current${at} + quadraticLoss * current${at}^2) - efficiency${at})`,
      ),
    ]),
    worstMisfit: formula(
      "Worst misfit of efficiency",
      "δ",
      "1",
      `max(${points.map((at) => `misfit${at}`).join(", ")})`,
    ),
  };
}

/** Slope of the sum of squares over one coefficient, as a part of all loads: 0 where the coefficient is free. */
function gradient(points: readonly number[], power: 0 | 1 | 2): string {
  const weight = (at: number) =>
    ["", ` * current${at} / greatestCurrent`, ` * (current${at} / greatestCurrent)^2`][power]!;
  const terms = points.map(
    (at) =>
      `(fixedLoss + linearLoss * current${at} + quadraticLoss * current${at}^2 - loss${at})${weight(at)}`,
  );
  return `(${terms.join(" + ")}) / totalLoad`;
}

/** A coefficient at 0 is held there where the sum of squares would fall only below 0: its slope is not negative. */
function fitted(label: string, symbol: string, unit: string, value: number, slope: string): Step {
  return {
    label: value > 0 ? label : `${label}, held at 0`,
    symbol,
    unit,
    kind: "solved",
    residual: value > 0 ? slope : `min(0, ${slope})`,
    cite: "loss-quadratic",
  };
}

function formula(label: string, symbol: string, unit: string, text: string): Step {
  return {
    label,
    symbol,
    unit,
    kind: "formula",
    formula: text,
    cite: "definition",
  };
}

export function stageFitValues(
  { outputVoltage, loads, efficiencies }: MeasuredStage,
  fit: StageFit,
): Readonly<Record<string, number>> {
  const currents = fit.points.map(({ current }) => current);
  const losses = fit.points.map(({ loss }) => loss);
  return {
    outputVoltage,
    ...numbered("load", loads),
    ...numbered("efficiency", efficiencies),
    ...numbered("current", currents),
    ...numbered("loss", losses),
    greatestCurrent: Math.max(...currents),
    totalLoad: loads.reduce((sum, load) => sum + load),
    fixedLoss: fit.fixedLoss,
    linearLoss: fit.linearLoss,
    quadraticLoss: fit.quadraticLoss,
    ...numbered(
      "misfit",
      fit.points.map(({ misfit }) => misfit),
    ),
    worstMisfit: fit.worstMisfit,
  };
}
