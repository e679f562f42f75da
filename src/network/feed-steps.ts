/** The equations that a solved row satisfies, for its working; each residual is 0 at the operating point. */
import type { Quantities, Step, Steps } from "../quantities/steps.js";
import type { FeedKind } from "./feed-item.js";
import type { FeedRow } from "./feed-row.js";
import { plainName } from "./feed-topology.js";

export const feedRowGivens: Quantities = {
  voltage: {
    label: "Open-circuit voltage, set point or forward drop",
    symbol: "V₀",
    unit: "V",
  },
  resistance: { label: "Resistance of the row", symbol: "R", unit: "Ω" },
  ratio: { label: "Ratio, output ÷ input", symbol: "r", unit: "1" },
  fixedLoss: { label: "Fixed loss", symbol: "a", unit: "W" },
  linearLoss: { label: "Linear loss", symbol: "b", unit: "V" },
  quadraticLoss: {
    label: "Quadratic loss drawn at the input",
    symbol: "c",
    unit: "Ω",
  },
  stageEfficiency: { label: "Efficiency given", symbol: "η₀", unit: "1" },
  demand: { label: "Load", symbol: "d", unit: "W, A or S" },
  inputVoltage: { label: "Input voltage", symbol: "V₁", unit: "V" },
  currentFed: {
    label: "Currents that the fed rows draw, added up",
    symbol: "ΣI",
    unit: "A",
  },
};

const outputVoltage = (residual: string, cite: Step["cite"]): Step => ({
  label: "Output voltage",
  symbol: "V₂",
  unit: "V",
  kind: "solved",
  residual,
  cite,
});

const inputCurrent = (residual: string, cite: Step["cite"]): Step => ({
  label: "Input current",
  symbol: "I₁",
  unit: "A",
  kind: "solved",
  residual,
  cite,
});

const outputCurrent: Step = {
  label: "Output current, the sum of what the row feeds",
  symbol: "I₂",
  unit: "A",
  kind: "solved",
  residual: "outputCurrent - currentFed",
  cite: "definition",
};

const loss = (formula: string, cite: Step["cite"]): Step => ({
  label: "Loss",
  symbol: "P_v",
  unit: "W",
  kind: "formula",
  formula,
  cite,
});

const DRAWN =
  "fixedLoss + linearLoss * outputCurrent + quadraticLoss * outputCurrent^2";

const lineSteps: Steps = {
  outputCurrent,
  outputVoltage: outputVoltage(
    "inputVoltage - voltage - resistance * outputCurrent - outputVoltage",
    "ohm-joule",
  ),
  inputCurrent: inputCurrent("inputCurrent - outputCurrent", "definition"),
  loss: loss(
    "(voltage + resistance * outputCurrent) * outputCurrent",
    "ohm-joule",
  ),
};

const loadSteps = (residual: string): Steps => ({
  inputCurrent: inputCurrent(residual, "definition"),
});

export const feedRowSteps: Readonly<Record<FeedKind, Steps>> = {
  supply: {
    outputCurrent,
    outputVoltage: outputVoltage(
      "voltage - resistance * outputCurrent - outputVoltage",
      "ohm-joule",
    ),
    loss: loss("resistance * outputCurrent^2", "ohm-joule"),
  },
  run: lineSteps,
  series: lineSteps,
  ratio: {
    outputCurrent,
    outputVoltage: outputVoltage(
      "ratio * inputVoltage - resistance * outputCurrent - outputVoltage",
      "ratio-circuit",
    ),
    inputCurrent: inputCurrent(
      `ratio * outputCurrent / stageEfficiency + (${DRAWN}) / inputVoltage - inputCurrent`,
      "ratio-circuit",
    ),
    loss: loss(
      `resistance * outputCurrent^2 + ${DRAWN} + ratio * inputVoltage * outputCurrent * (1 / stageEfficiency - 1)`,
      "loss-quadratic",
    ),
  },
  regulated: {
    outputCurrent,
    outputVoltage: outputVoltage(
      "voltage - resistance * outputCurrent - outputVoltage",
      "definition",
    ),
    inputCurrent: inputCurrent(
      `(outputVoltage * outputCurrent / stageEfficiency + ${DRAWN}) / inputVoltage - inputCurrent`,
      "definition",
    ),
    loss: loss(
      `${DRAWN} + outputVoltage * outputCurrent * (1 / stageEfficiency - 1)`,
      "loss-quadratic",
    ),
  },
  "power load": loadSteps("demand / inputVoltage - inputCurrent"),
  "current load": loadSteps("demand - inputCurrent"),
  "resistance load": loadSteps("demand * inputVoltage - inputCurrent"),
};

/** Every given and result of each solved row by the names that its steps use; undefined for a refused row. */
export function feedRowValues(
  rows: readonly FeedRow[],
): readonly (Readonly<Record<string, number>> | undefined)[] {
  const currentFed = new Map<string, number>();
  for (const row of rows) {
    if (row.outcome === "refused" || row.item.fedFrom === undefined) continue;
    const feeding = plainName(row.item.fedFrom);
    currentFed.set(feeding, (currentFed.get(feeding) ?? 0) + row.inputCurrent);
  }
  return rows.map((row) => {
    if (row.outcome === "refused") return undefined;
    return {
      ...row.coefficients,
      inputVoltage: row.inputVoltage,
      inputCurrent: row.inputCurrent,
      outputVoltage: row.output?.voltage ?? 0,
      outputCurrent: row.output?.current ?? 0,
      currentFed: currentFed.get(plainName(row.item.item)) ?? 0,
      loss: row.loss,
    };
  });
}
