/** The equations that a solved row satisfies, for its working; each residual is 0 at the operating point. */
import type { Quantities, Steps } from "../quantities/steps.js";
import { FEED_KINDS, type FeedKind } from "./feed-item.js";
import type { FeedRow } from "./feed-row.js";
import { plainName } from "./feed-topology.js";
import { ROW_KINDS } from "./row-kinds.js";

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

export const feedRowSteps = Object.fromEntries(
  FEED_KINDS.map((kind) => [kind, ROW_KINDS[kind].steps]),
) as Readonly<Record<FeedKind, Steps>>;

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
