/** The equations that a solved row satisfies, for its working; each residual is 0 at the operating point. */
import type { Quantities, Steps } from "../quantities/steps.js";
import { FEED_KINDS, type FeedKind } from "./feed-item.js";
import type { FeedRow, SolvedRow } from "./feed-row.js";
import { plainName, SEPARATOR } from "./feed-topology.js";
import { ROW_KINDS } from "./row-kinds.js";
import { backwardSteps, meshedSteps } from "./row-steps.js";

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
  heldVoltage: {
    label: "Voltage of the bus that it feeds with others, or of a tie's second item",
    symbol: "V_b",
    unit: "V",
  },
  currentArriving: {
    label: "Currents that the feeding rows bring, added up",
    symbol: "ΣI_a",
    unit: "A",
  },
};

/** Equations of a solved row; of a meshed one those of its branch or its node. */
export function stepsOfRow({ item, meshed, output }: SolvedRow): Steps {
  const { steps: forwards, fedBy, role } = ROW_KINDS[item.kind];
  const flowsBack = role === "stage" && output !== undefined && output.current < 0;
  const steps = flowsBack ? backwardSteps(forwards) : forwards;
  if (!meshed || fedBy === "two ends") return steps;
  return meshedSteps(steps, meshed);
}

export const feedRowSteps = Object.fromEntries(
  FEED_KINDS.map((kind) => [kind, ROW_KINDS[kind].steps]),
) as Readonly<Record<FeedKind, Steps>>;

/** Every given and result of each solved row by the names that its steps use; undefined for a refused row. */
export function feedRowValues(
  rows: readonly FeedRow[],
): readonly (Readonly<Record<string, number>> | undefined)[] {
  const currentFed = new Map<string, number>();
  const voltages = new Map<string, number>();
  for (const row of rows) {
    if (row.outcome === "refused") continue;
    voltages.set(plainName(row.item.item), row.output?.voltage ?? 0);
    if (row.item.fedFrom === undefined) continue;
    const shares = row.meshed?.shares;
    const feeders = shares ? row.item.fedFrom.split(SEPARATOR) : [row.item.fedFrom];
    feeders.map(plainName).forEach((feeding, place) => {
      const drawn = shares ? shares[place]! : row.inputCurrent;
      currentFed.set(feeding, (currentFed.get(feeding) ?? 0) + drawn);
    });
  }
  return rows.map((row) => {
    if (row.outcome === "refused") return undefined;
    const { meshed } = row;
    const held = meshed?.bus ?? (meshed?.shares && row.item.fedFrom?.split(SEPARATOR)[1]);
    return {
      ...(held !== undefined && { heldVoltage: voltages.get(plainName(held)) ?? 0 }),
      ...(meshed?.shares && {
        currentArriving: meshed.shares.reduce((sum, share) => sum + share, 0),
      }),
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
