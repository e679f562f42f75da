/** How the figures of one case of a feed come about: sums over its rows, and the two rows that have it worst. */
import { figureAt } from "./feed-columns.js";
import type { Quantity, Step } from "../quantities/steps.js";
import { frozenIn, type GivenSources, type FoundStep } from "../quantities/given-sources.js";
import { caseText, type FeedCase, type RowFigure } from "./feed-cases.js";
import { type FeedTotals, leastMargin } from "./feed-totals.js";
import type { OperatingPoint } from "./operating-point.js";
import { lossAt, ratedFlowAt } from "./row-flow.js";
import { KINDS } from "./row-kinds.js";

export interface CaseWorking extends GivenSources {
  readonly title: string;
  readonly givens: Record<string, Quantity>;
  readonly steps: Record<string, Step>;
  readonly values: Record<string, number>;
  readonly inTable: Record<string, { readonly item: string; readonly figure: string }>;
}

/** The row of a given, and the figure of its equations that it is. */
type RowOf = Record<string, { readonly row: number; readonly step: string }>;

const SUMS = ["supplyPower", "loadPower", "loss"] as const;

type Sum = (typeof SUMS)[number];

/** What a figure of the whole feed is summed up from. */
const SUMS_OF: Readonly<Record<keyof FeedTotals, readonly Sum[]>> = {
  supplyPower: ["supplyPower"],
  loadPower: ["loadPower"],
  loss: ["loss"],
  efficiency: ["loadPower", "supplyPower"],
  closingError: SUMS,
  lowestMargin: [],
};

/** Working of a case in which every row has an answer. */
export function caseWorking(one: FeedCase): CaseWorking {
  const working = emptyWorking(caseText(one));
  const { totals } = one.point;
  addSums(working, one.point, SUMS);
  if (totals.efficiency !== undefined) addEfficiency(working, totals.efficiency);
  if (one.margin) addMargin(working, one.point, one.margin, "leastMargin");
  if (one.loading) addLoading(working, one.point, one.loading);
  addClosingError(working, totals);
  const frozen = frozenIn(Object.keys(working.givens), `solved at ${caseText(one)}`);
  return { ...working, frozen };
}

/**
 * One figure of a whole feed, in which every row has an answer, out of the figures of its rows.
 * @param workingOf Place of a row's own working among those of the answer.
 */
export function totalWorking(
  point: OperatingPoint,
  total: keyof FeedTotals,
  workingOf: (row: number) => number,
): CaseWorking {
  const working = emptyWorking("Whole feed");
  const { totals } = point;
  const rows = addSums(working, point, SUMS_OF[total]);
  if (total === "efficiency") addEfficiency(working, totals.efficiency!);
  if (total === "closingError") addClosingError(working, totals);
  if (total === "lowestMargin") {
    const value = totals.lowestMargin!;
    const row = marginRow(point, value);
    addMargin(working, point, { row, value }, total);
    rows["inputVoltage"] = { row, step: "inputVoltage" };
  }
  const found = Object.entries(rows).map(([field, { row, step }]): [string, FoundStep] => [
    field,
    { working: workingOf(row), step },
  ]);
  return { ...working, found: Object.fromEntries(found) };
}

export function emptyWorking(title: string): CaseWorking {
  return { title, givens: {}, steps: {}, values: {}, inTable: {} };
}

function marginRow({ feed: { columns, state } }: OperatingPoint, value: number): number {
  for (let row = 0; row < columns.count; row++)
    if (leastMargin(columns, row, state.inputVoltage[row]!) === value) return row;
  throw new Error("no row has the least margin");
}

function addEfficiency({ steps, values }: CaseWorking, efficiency: number): void {
  steps["efficiency"] = fraction("Efficiency, supply to loads", "η", "loadPower / supplyPower");
  values["efficiency"] = efficiency;
}

function addClosingError({ steps, values }: CaseWorking, { closingError }: FeedTotals): void {
  const formula = "supplyPower - loadPower - loss";
  steps["closingError"] = watts("Supply power less loads and losses", "ΔP", formula);
  values["closingError"] = closingError;
}

/** @returns The row of each term. */
function addSums(working: CaseWorking, point: OperatingPoint, wanted: readonly Sum[]): RowOf {
  const { columns, state } = point.feed;
  const rows: RowOf = {};
  const power = (row: number) => state.inputVoltage[row]! * state.inputCurrent[row]!;
  const sums = [
    ["supplyPower", "Supply power", "P₁", "Given by", "supply", power],
    ["loadPower", "Load power", "P₂", "Taken by", "load", power],
    ["loss", "Losses", "P_v", "Lost in", undefined, (row: number) => lossAt(point.feed, row)],
  ] as const;
  for (const [name, label, symbol, words, role, wattsOf] of sums) {
    if (!wanted.includes(name)) continue;
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
      rows[term] = { row, step: name === "loss" ? "loss" : "inputPower" };
    }
    working.steps[name] = watts(label, symbol, terms.join(" + ") || "0");
    working.values[name] = point.totals[name];
  }
  return rows;
}

/** The least margin, and the row that has it. */
export function addMargin(
  { givens, steps, values, inTable }: CaseWorking,
  { feed: { columns, state } }: Pick<OperatingPoint, "feed">,
  { row, value }: RowFigure,
  step: "leastMargin" | "lowestMargin",
): void {
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
  inTable["windowEnd"] = { item, figure: isLow ? "lowestVoltage" : "highestVoltage" };
  steps[step] = fraction(
    "Least margin to a window",
    "m",
    isLow ? "(inputVoltage - windowEnd) / windowEnd" : "(windowEnd - inputVoltage) / windowEnd",
  );
  values[step] = value;
}

/** The highest loading, and the row that has it. */
export function addLoading(
  { givens, steps, values, inTable }: CaseWorking,
  { feed }: Pick<OperatingPoint, "feed">,
  { row, value }: RowFigure,
): void {
  const { columns } = feed;
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
  inTable["ratedCurrent"] = { item, figure: "ratedCurrent" };
  inTable["inParallel"] = { item, figure: "inParallel" };
  values["current"] = ratedFlowAt(feed, row);
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
