/** How the worst figures of a row come about: what was solved in which case, and what is worked out of it. */
import type { GivenSources } from "../quantities/given-sources.js";
import type { Quantities, Quantity, Step, Steps } from "../quantities/steps.js";
import { type FeedColumns, type FeedFigure, figureAt } from "./feed-columns.js";
import { cornerText } from "./feed-corner.js";
import type { FeedWorst } from "./feed-worst.js";
import { KINDS } from "./row-kinds.js";
import { plainName } from "./feed-topology.js";
import type { Extreme, WorstRow } from "./worst-row.js";

export interface WorstWorking extends GivenSources {
  readonly title: string;
  readonly givens: Quantities;
  readonly steps: Steps;
  readonly values: Readonly<Record<string, number>>;
}

const volts = (label: string, symbol: string): Quantity => ({ label, symbol, unit: "V" });

/** Solved in a case of their own each. */
const SOLVED = {
  lowestInputVoltage: [volts("Lowest input voltage", "V_min"), "lowestVoltage"],
  highestInputVoltage: [volts("Highest input voltage", "V_max"), "highestVoltage"],
  highestInputCurrent: [
    { label: "Highest input current", symbol: "I_max", unit: "A" },
    "highestCurrent",
  ],
  highestLoss: [{ label: "Highest loss", symbol: "P_v", unit: "W" }, "highestLoss"],
  highestFlow: [
    { label: "Highest current that the rating is about", symbol: "I", unit: "A" },
    "highestFlow",
  ],
} as const satisfies Readonly<Record<string, readonly [Quantity, Extreme]>>;

const TABLE: Quantities = {
  windowLowest: volts("Lowest V", "V_l"),
  windowHighest: volts("Highest V", "V_h"),
  ratedCurrent: { label: "Rated current of one", symbol: "I_n", unit: "A" },
  inParallel: { label: "In parallel", symbol: "n", unit: "1" },
};

const FEEDING: Quantities = {
  feedingVoltage: volts("Highest input voltage of what feeds it", "V′"),
  feedingRatio: { label: "Ratio of what feeds it", symbol: "r′", unit: "1" },
  feedingTolerance: { label: "Tolerance of what feeds it", symbol: "t′", unit: "1" },
  setPoint: volts("Set point of what feeds it", "U₀′"),
  supplyVoltage: volts("Voltage of the supply", "U₀"),
  supplyHighest: volts("Highest V of the supply", "U_h"),
  supplyTolerance: { label: "Tolerance of the supply", symbol: "t", unit: "1" },
};

const fraction = (label: string, symbol: string, formula: string): Step => ({
  label,
  symbol,
  unit: "1",
  kind: "formula",
  formula,
  cite: "definition",
});

/** What is put together of one row. */
interface Parts {
  readonly givens: Record<string, Quantity>;
  readonly steps: Record<string, Step>;
  readonly values: Record<string, number>;
  readonly inTable: Record<string, { readonly item: string; readonly figure: FeedFigure }>;
  readonly found: Record<string, { readonly working: number; readonly step: string }>;
  readonly frozen: Record<string, string>;
}

/** One for each row, in the table's order. */
export function worstWorkings(worst: FeedWorst): readonly WorstWorking[] {
  const { columns, rows } = worst;
  const rowOf = new Map(columns.item.map((item, row) => [plainName(item), row]));
  return rows.map((row) => {
    const parts: Parts = {
      givens: {},
      steps: {},
      values: {},
      inTable: {},
      found: {},
      frozen: {},
    };
    for (const name of ["lowestInputVoltage", "highestInputCurrent", "highestLoss"] as const)
      addSolved(parts, name, row, columns);
    const fedFrom = columns.fedFrom[row.row];
    const parent = fedFrom === undefined ? undefined : rowOf.get(plainName(fedFrom));
    addHighest(parts, row, parent === undefined ? undefined : rows[parent], columns);
    addLoading(parts, row, columns);
    addMargin(parts, row, columns);
    return { title: columns.item[row.row]!, ...parts };
  });
}

function addSolved(
  { givens, values, frozen }: Parts,
  name: keyof typeof SOLVED,
  { extremes }: WorstRow,
  columns: FeedColumns,
): void {
  const [quantity, extreme] = SOLVED[name];
  const { value, at } = extremes[extreme];
  givens[name] = quantity;
  values[name] = value;
  frozen[name] = `solved at ${cornerText(at, columns)}`;
}

/** Figures of the table that a formula reads, with what they are taken as where they are not given. */
function addTable(
  { givens, values, inTable }: Parts,
  columns: FeedColumns,
  row: number,
  fields: TableFields,
): void {
  for (const [field, figure] of Object.entries(fields)) {
    givens[field] = (TABLE[field] ?? FEEDING[field])!;
    values[field] = figureAt(columns, row, figure) ?? 0;
    inTable[field] = { item: columns.item[row]!, figure };
  }
}

/** Without load nothing drops: it follows from the supply, the ratios and the set points alone, unless a case goes beyond. */
function addHighest(
  parts: Parts,
  row: WorstRow,
  parent: WorstRow | undefined,
  columns: FeedColumns,
): void {
  const way = parent ? behind(parent, columns) : ofSupply(row.row, columns);
  if (!(Math.abs(way.value / row.highestInputVoltage - 1) <= 1e-12)) {
    addSolved(parts, "highestInputVoltage", row, columns);
    return;
  }
  addTable(parts, columns, way.row, way.fields);
  if (parent && way.formula.startsWith("feedingVoltage")) {
    parts.givens["feedingVoltage"] = FEEDING["feedingVoltage"]!;
    parts.values["feedingVoltage"] = parent.highestInputVoltage;
    parts.found["feedingVoltage"] = { working: parent.row, step: "highestInputVoltage" };
  }
  parts.steps["highestInputVoltage"] = {
    ...SOLVED.highestInputVoltage[0],
    label: "Highest input voltage, without load or drop",
    kind: "formula",
    formula: way.formula,
    cite: "definition",
  };
  parts.values["highestInputVoltage"] = row.highestInputVoltage;
}

type TableFields = Readonly<Record<string, FeedFigure>>;

/** How the highest voltage of a row follows from what feeds it, and what it comes to. */
interface Way {
  /** The row whose figures are read. */
  readonly row: number;
  readonly formula: string;
  readonly fields: TableFields;
  readonly value: number;
}

function ofSupply(row: number, columns: FeedColumns): Way {
  const voltage = columns.figures.voltage[row]!;
  const highest = figureAt(columns, row, "highestVoltage");
  const tolerance = figureAt(columns, row, "tolerance");
  const end = highest === undefined ? undefined : "supplyHighest";
  const reached = tolerance === undefined ? undefined : "supplyVoltage * (1 + supplyTolerance)";
  const both = [end, reached].filter((part) => part !== undefined);
  return {
    row,
    formula: both.length > 1 ? `max(${both.join(", ")})` : (both[0] ?? "supplyVoltage"),
    fields: {
      ...(end !== undefined && { supplyHighest: "highestVoltage" as const }),
      ...((reached !== undefined || !end) && { supplyVoltage: "voltage" as const }),
      ...(reached !== undefined && { supplyTolerance: "tolerance" as const }),
    },
    value: Math.max(highest ?? 0, voltage * (1 + (tolerance ?? 0))),
  };
}

function behind({ row, highestInputVoltage }: WorstRow, columns: FeedColumns): Way {
  const { inFault } = KINDS[columns.kind[row]!]!;
  const { voltage, ratio } = columns.figures;
  const top = 1 + (figureAt(columns, row, "tolerance") ?? 0);
  if (inFault === "follows")
    return {
      row,
      formula: "feedingVoltage * feedingRatio * (1 + feedingTolerance)",
      fields: { feedingRatio: "ratio", feedingTolerance: "tolerance" },
      value: highestInputVoltage * ratio[row]! * top,
    };
  if (inFault === "holds")
    return {
      row,
      formula: "setPoint * (1 + feedingTolerance)",
      fields: { setPoint: "voltage", feedingTolerance: "tolerance" },
      value: voltage[row]! * top,
    };
  return { row, formula: "feedingVoltage", fields: {}, value: highestInputVoltage };
}

/** Adds the loading with all units; with one lost, another case may load the row more than that of the highest current. */
function addLoading(parts: Parts, row: WorstRow, columns: FeedColumns): void {
  const { highestLoading, extremes } = row;
  if (highestLoading === undefined) return;
  const rated = columns.figures.ratedCurrent[row.row]!;
  const count = columns.figures.inParallel[row.row]!;
  const byFlow = extremes.highestFlow.value / (rated * count);
  const label = "Highest loading";
  parts.values["highestLoading"] = highestLoading;
  if (Math.abs(byFlow - highestLoading) > 1e-12 * highestLoading) {
    parts.givens["highestLoading"] = { label, symbol: "x", unit: "1" };
    parts.frozen["highestLoading"] = "solved with one unit lost";
    return;
  }
  addSolved(parts, "highestFlow", row, columns);
  addTable(parts, columns, row.row, { ratedCurrent: "ratedCurrent", inParallel: "inParallel" });
  parts.steps["highestLoading"] = fraction(label, "x", "highestFlow / (ratedCurrent * inParallel)");
}

const BELOW = "(lowestInputVoltage - windowLowest) / windowLowest";
const ABOVE = "(windowHighest - highestInputVoltage) / windowHighest";

function addMargin(parts: Parts, row: WorstRow, columns: FeedColumns): void {
  const { leastMargin } = row;
  if (leastMargin === undefined) return;
  const isGiven = (figure: "lowestVoltage" | "highestVoltage") =>
    figureAt(columns, row.row, figure) !== undefined;
  const [below, above] = [isGiven("lowestVoltage"), isGiven("highestVoltage")];
  addTable(parts, columns, row.row, {
    ...(below && { windowLowest: "lowestVoltage" as const }),
    ...(above && { windowHighest: "highestVoltage" as const }),
  });
  parts.values["leastMargin"] = leastMargin;
  parts.steps["leastMargin"] = fraction(
    "Least margin to the window",
    "m",
    below && above ? `min(${BELOW}, ${ABOVE})` : below ? BELOW : ABOVE,
  );
}
