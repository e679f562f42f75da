/** What is worked out of a solved row: its powers, efficiency, share of the losses and loading. */
import type { Quantities, Step, Steps } from "../quantities/steps.js";
import type { FeedKind } from "./feed-item.js";
import type { SolvedRow } from "./feed-row.js";
import { ROW_KINDS } from "./row-kinds.js";

export const rowFigureGivens: Quantities = {
  ratedCurrent: { label: "Rated current of one", symbol: "I_n", unit: "A" },
  inParallel: { label: "In parallel", symbol: "n", unit: "1" },
  feedLoss: { label: "Losses of all rows added up", symbol: "ΣP_v", unit: "W" },
};

const watts = (label: string, symbol: string, formula: string): Step => ({
  label,
  symbol,
  unit: "W",
  kind: "formula",
  formula,
  cite: "definition",
});

const part = (label: string, symbol: string, formula: string): Step => ({
  ...watts(label, symbol, formula),
  unit: "1",
});

const INPUT_POWER = watts("Input power", "P₁", "inputVoltage * inputCurrent");
const LOSS_SHARE = part("Share of the losses of the feed", "s", "loss / feedLoss");

const FEEDING: Steps = {
  outputPower: watts("Output power", "P₂", "outputVoltage * outputCurrent"),
  efficiency: part("Efficiency", "η", "outputPower / inputPower"),
  lossShare: LOSS_SHARE,
  loading: part("Loading", "x", "outputCurrent / (ratedCurrent * inParallel)"),
};

/** A supply gives what it is drawn at its open-circuit voltage. */
const SUPPLY: Steps = {
  inputCurrent: {
    label: "Current that it gives",
    symbol: "I₁",
    unit: "A",
    kind: "formula",
    formula: "outputCurrent",
    cite: "definition",
  },
  inputPower: INPUT_POWER,
  ...FEEDING,
};

const LINE: Steps = { inputPower: INPUT_POWER, ...FEEDING };

const LOAD: Steps = {
  inputPower: INPUT_POWER,
  loss: watts("Loss, counted at what feeds the load", "P_v", "0"),
  lossShare: LOSS_SHARE,
  loading: part("Loading", "x", "inputCurrent / (ratedCurrent * inParallel)"),
};

/** Steps of a row's figures besides its equations. @param flowsBack Its current is below 0, and its rating bears it all the same. */
export function rowFigureSteps(kind: FeedKind, flowsBack = false): Steps {
  const { role } = ROW_KINDS[kind];
  const steps = role === "supply" ? SUPPLY : role === "load" ? LOAD : LINE;
  if (!flowsBack) return steps;
  const current = role === "load" ? "inputCurrent" : "outputCurrent";
  return {
    ...steps,
    loading: part("Loading", "x", `abs(${current}) / (ratedCurrent * inParallel)`),
  };
}

/** By the names of the steps and givens; what there is not is left out. @param feedLoss Of all rows. */
export function rowFigureValues(
  { item, inputPower, output, efficiency, loading, loss }: SolvedRow,
  feedLoss: number | undefined,
): Readonly<Record<string, number>> {
  const { ratedCurrent, inParallel } = item;
  return {
    inputPower,
    ...(output && { outputPower: output.power }),
    ...(efficiency !== undefined && { efficiency }),
    ...(feedLoss !== undefined && feedLoss > 0 && { feedLoss, lossShare: loss / feedLoss }),
    ...(loading !== undefined &&
      ratedCurrent !== undefined && { loading, ratedCurrent, inParallel: inParallel ?? 1 }),
  };
}
