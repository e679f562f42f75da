/** Two versions of a feed side by side. */
import { NONE } from "../../src/judgement/check-row.js";
import {
  type ComparedFigure,
  comparisonWorking,
  feedComparison,
  type FeedVersion,
} from "../../src/judgement/comparison/feed-comparison.js";
import { Requirements } from "../../src/judgement/requirements.js";
import { InputError } from "../../src/quantities/errors.js";
import { PassedOnError } from "../arguments.js";
import type { Cell, CellTable } from "../cells.js";
import { defineEntry, type ShownStep } from "../entry.js";
import { askedForParameter, requirementsOf } from "../reading/asked-for.js";
import {
  feedTableParameter,
  loadsParameter,
  type Solve,
  solve,
  solveOfTable,
  supplyParameter,
} from "../reading/feed-call.js";
import { casesOf, type KnownTable, knownTable } from "../reading/feed-memory.js";
import { checksOf, judgedOf } from "../reading/judged-table.js";

/** Headers of the result, in an order that people count on. */
export const COMPARE_COLUMNS = [
  "Item",
  "Figure",
  "A",
  "B",
  "Difference",
  "Relative difference",
  "Unit",
  "Verdict",
] as const;

interface VersionCall {
  readonly known: KnownTable;
  readonly cells: CellTable;
  readonly asked: Requirements;
  readonly solve: Solve;
}

interface Comparison {
  readonly rows: readonly ComparedFigure[];
}

/** Columns of both versions of the example; the cables differ. */
function exampleTable(ohms: number): CellTable {
  return [
    [
      ...["Item", "Fed from", "Kind", "Voltage (V)", "Resistance (Ω)", "Load"],
      ...["Lowest V", "Highest V", "Rated A"],
    ],
    ["Bus", "", "supply", 400, "", "", 380, 420, ""],
    ["Cable", "Bus", "run", "", ohms, "", "", "", 20],
    ["Camp", "Cable", "current load", "", "", 10, 365, 450, ""],
  ];
}

const chainCompare = defineEntry({
  id: "CHAIN_COMPARE",
  family: "chain",
  parameters: {
    feedTable: {
      ...feedTableParameter,
      name: "feed table A",
      meaning:
        "the version that B is compared with: range with a header row, as CHAIN_TABLE gives it",
    },
    feedTableB: {
      ...feedTableParameter,
      name: "feed table B",
      meaning: "the other version, its items lined up with those of A by their names",
    },
    askedFor: {
      ...askedForParameter,
      name: "asked for A",
      meaning:
        "range of label and value that A is held against, as in CHAIN_CHECKS; empty: nothing is asked for",
      optional: true,
    },
    askedForB: {
      ...askedForParameter,
      name: "asked for B",
      meaning: "the same for B; empty: as for A",
      optional: true,
    },
    loads: loadsParameter,
    supply: supplyParameter,
  },
  result: {
    shape: "table",
    unit: "as in the column Unit",
  },
  example: {
    args: [exampleTable(2), exampleTable(1), [["Margin to each window", "not asked"]]],
  },
  citations: ["two-roots", "monotone-newton", "ohm-joule"],
  copied: { verdicts: ["Verdict"] },
  read: ({ feedTable, feedTableB, askedFor, askedForB, loads, supply }) => {
    const inA = askedFor ? requirementsOf(askedFor) : new Requirements(new Map());
    const inB = askedForB ? blaming("askedForB", () => requirementsOf(askedForB)) : inA;
    const version = (field: string, cells: CellTable, asked: Requirements): VersionCall => {
      const known = blaming(field, () => knownTable(cells));
      return { known, cells, asked, solve: solveOfTable(known.table, loads, supply) };
    };
    return {
      a: version("feedTable", feedTable, inA),
      b: version("feedTableB", feedTableB, inB),
    };
  },
  calculate: ({ a, b }): Comparison => ({
    rows: feedComparison(versionOf("feedTable", a), versionOf("feedTableB", b)),
  }),
  cells: ({ rows }) => [[...COMPARE_COLUMNS], ...rows.map(rowCells)],
  caveats: () => [],
  working: (_, { rows }, row) => {
    const compared = row === undefined ? undefined : rows[row - 1];
    return compared ? comparisonWorking(compared).map(followed(compared)) : [];
  },
  cellOf: ({ rows }, row, column) => comparedStep(rows[row - 1], COMPARE_COLUMNS[column]),
});

/** Two arguments of a kind are read alike; the message names the one that is refused. */
function blaming<T>(field: string, read: () => T): T {
  try {
    return read();
  } catch (error) {
    if (error instanceof PassedOnError) throw new PassedOnError(field, error.cell);
    if (error instanceof InputError) throw new InputError(field, error.value, error.requirement);
    throw error;
  }
}

function versionOf(
  field: string,
  { known, cells, asked, solve: conditions }: VersionCall,
): FeedVersion {
  const { loads, supply } = conditions;
  return {
    feed: blaming(field, () => judgedOf(known, cells)),
    cases: casesOf(known),
    point: known.once(`solved ${JSON.stringify([loads, supply])}`, () => solve(conditions).point),
    checks: checksOf(known, cells, asked),
    currency: String(asked.get("Currency") ?? ""),
  };
}

function rowCells(row: ComparedFigure): Cell[] {
  const { item, figure, a, b, difference, relative, unit, verdict } = row;
  return [item, figure, a ?? NONE, b ?? NONE, difference ?? NONE, relative ?? NONE, unit, verdict];
}

const COLUMN_STEPS: Partial<Readonly<Record<(typeof COMPARE_COLUMNS)[number], string>>> = {
  Difference: "difference",
  "Relative difference": "relative",
};

/** The item's rows in both tables, which its figures were solved for. */
function followed({ item }: ComparedFigure) {
  const solvedFor = {
    a: { table: "feedTable", item },
    b: { table: "feedTableB", item },
  };
  return <T>(working: T) => ({ ...working, solvedFor });
}

/** Only a row whose difference is a number has a working. */
function comparedStep(
  row: ComparedFigure | undefined,
  heading: (typeof COMPARE_COLUMNS)[number] | undefined,
): ShownStep | undefined {
  const step = heading && COLUMN_STEPS[heading];
  return step !== undefined && row?.difference !== undefined ? { working: -1, step } : undefined;
}

export const chainCompareEntries = [chainCompare];
