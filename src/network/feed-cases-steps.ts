/** How the figures of one case of a feed come about: sums over its rows, and the two rows that have it worst. */
import { figureAt } from "./feed-columns.js";
import type { Quantity, Step } from "../quantities/steps.js";
import { caseText, type FeedCase, type RowFigure } from "./feed-cases.js";
import { lossAt, ratedFlowAt } from "./row-flow.js";
import { KINDS } from "./row-kinds.js";

export interface CaseWorking {
  readonly title: string;
  readonly givens: Record<string, Quantity>;
  readonly steps: Record<string, Step>;
  readonly values: Record<string, number>;
}

/** Of a case in which every row has an answer. */
export function caseWorking(one: FeedCase): CaseWorking {
  const working: CaseWorking = {
    title: caseText(one),
    givens: {},
    steps: {},
    values: {},
  };
  const { totals } = one.point;
  addSums(working, one);
  if (totals.efficiency !== undefined) {
    working.steps["efficiency"] = fraction(
      "Efficiency, supply to loads",
      "η",
      "loadPower / supplyPower",
    );
    working.values["efficiency"] = totals.efficiency;
  }
  if (one.margin) addMargin(working, one, one.margin);
  if (one.loading) addLoading(working, one, one.loading);
  working.steps["closingError"] = watts(
    "Supply power less loads and losses",
    "ΔP",
    "supplyPower - loadPower - loss",
  );
  working.values["closingError"] = totals.closingError;
  return working;
}

function addSums(working: CaseWorking, { point }: FeedCase): void {
  const { columns, state } = point.feed;
  const power = (row: number) => state.inputVoltage[row]! * state.inputCurrent[row]!;
  const sums = [
    ["supplyPower", "Supply power", "P₁", "Given by", "supply", power],
    ["loadPower", "Load power", "P₂", "Taken by", "load", power],
    ["loss", "Losses", "P_v", "Lost in", undefined, (row: number) => lossAt(point.feed, row)],
  ] as const;
  for (const [name, label, symbol, words, role, wattsOf] of sums) {
    const terms: string[] = [];
    for (let row = 0; row < columns.count; row++) {
      if (role !== undefined && KINDS[columns.kind[row]!]!.role !== role) continue;
      const value = wattsOf(row);
      if (value === 0) continue;
      const term = `${name}${row + 1}`;
      terms.push(term);
      working.givens[term] = {
        label: `${words} ${columns.item[row]}`,
        symbol: `${symbol},${row + 1}`,
        unit: "W",
      };
      working.values[term] = value;
    }
    working.steps[name] = watts(label, symbol, terms.join(" + ") || "0");
    working.values[name] = point.totals[name];
  }
}

function addMargin(
  { givens, steps, values }: CaseWorking,
  { point }: FeedCase,
  { row, value }: RowFigure,
): void {
  const { columns, state } = point.feed;
  const item = columns.item[row]!;
  const voltage = state.inputVoltage[row]!;
  const lowest = figureAt(columns, row, "lowestVoltage");
  const isLow = lowest !== undefined && (voltage - lowest) / lowest === value;
  givens["inputVoltage"] = {
    label: `Input voltage of ${item}`,
    symbol: "V₁",
    unit: "V",
  };
  givens["windowEnd"] = {
    label: `${isLow ? "Lowest" : "Highest"} V of ${item}`,
    symbol: "V₀",
    unit: "V",
  };
  values["inputVoltage"] = voltage;
  values["windowEnd"] = columns.figures[isLow ? "lowestVoltage" : "highestVoltage"][row]!;
  steps["leastMargin"] = fraction(
    "Least margin to a window",
    "m",
    isLow ? "(inputVoltage - windowEnd) / windowEnd" : "(windowEnd - inputVoltage) / windowEnd",
  );
  values["leastMargin"] = value;
}

function addLoading(
  { givens, steps, values }: CaseWorking,
  { point }: FeedCase,
  { row, value }: RowFigure,
): void {
  const { columns } = point.feed;
  const item = columns.item[row]!;
  givens["current"] = { label: `Current of ${item}`, symbol: "I", unit: "A" };
  givens["ratedCurrent"] = {
    label: `Rated current of one ${item}`,
    symbol: "I_n",
    unit: "A",
  };
  givens["inParallel"] = {
    label: `${item} in parallel`,
    symbol: "n",
    unit: "1",
  };
  values["current"] = ratedFlowAt(point.feed, row);
  values["ratedCurrent"] = columns.figures.ratedCurrent[row]!;
  values["inParallel"] = columns.figures.inParallel[row]!;
  steps["highestLoading"] = fraction(
    "Highest loading",
    "x",
    "current / (ratedCurrent * inParallel)",
  );
  values["highestLoading"] = value;
}

function watts(label: string, symbol: string, formula: string): Step {
  return {
    label,
    symbol,
    unit: "W",
    kind: "formula",
    formula,
    cite: "definition",
  };
}

function fraction(label: string, symbol: string, formula: string): Step {
  return { ...watts(label, symbol, formula), unit: "1" };
}
