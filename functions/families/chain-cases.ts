/** A feed's nine operating points in one table. */
import { caseText, type FeedCase, type RowFigure } from "../../src/network/feed-cases.js";
import { caseWorking } from "../../src/network/feed-cases-steps.js";
import type { Cell } from "../cells.js";
import { defineEntry, type ShownStep } from "../entry.js";
import { feedTableParameter } from "../reading/feed-call.js";
import { casesOf, knownTable } from "../reading/feed-memory.js";
import { type FeedTable, refusedCell, rowReason } from "../reading/feed-table.js";
import { NONE } from "./chain.js";

/** Headers of the result, in an order that people count on. */
export const CASES_COLUMNS = [
  "Case",
  "Supply W",
  "Load W",
  "Loss W",
  "Efficiency",
  "Least margin",
  "Least margin at",
  "Highest loading",
  "Highest loading at",
  "Closing error W",
  "Note",
] as const;

interface Cases {
  readonly table: FeedTable;
  readonly cases: readonly FeedCase[];
}

const chainCases = defineEntry({
  id: "CHAIN_CASES",
  family: "chain",
  parameters: { feedTable: feedTableParameter },
  result: {
    shape: "table",
    unit: "W and fractions",
  },
  example: {
    args: [
      [
        [
          "Item",
          "Fed from",
          "Kind",
          "Voltage",
          "Resistance",
          "Light load",
          "Load",
          "Peak load",
          "Lowest V",
          "Highest V",
          "Rated A",
        ],
        ["Bus", "", "supply", 400, "", "", "", "", 380, 420, ""],
        ["Cable", "Bus", "run", "", 2, "", "", "", "", "", 20],
        ["Camp", "Cable", "current load", "", "", 2, 10, 16, 340, 450, ""],
      ],
    ],
  },
  citations: ["two-roots", "monotone-newton", "ohm-joule"],
  copied: { verdicts: [] },
  read: ({ feedTable: cells }) => knownTable(cells),
  calculate: (known): Cases => ({
    table: known.table,
    cases: casesOf(known),
  }),
  cells: ({ table, cases }) => [[...CASES_COLUMNS], ...cases.map((one) => caseCells(one, table))],
  cellOf: ({ cases }, row, column) => caseStep(cases, row - 1, column),
  caveats: () => [],
  working: (_, { cases }) => cases.filter(({ refused }) => !refused).map(caseWorking),
});

function caseCells(one: FeedCase, { fields, feed }: FeedTable): Cell[] {
  const { refused, margin, loading, point } = one;
  if (refused) {
    const reason = rowReason({ ...refused, item: "" }, fields);
    const cell = refusedCell(refused.error, reason);
    const [, ...figures] = CASES_COLUMNS;
    return [caseText(one), ...figures.slice(0, -1).map(() => cell), reason];
  }
  const worst = (figure: RowFigure | undefined): Cell[] =>
    figure ? [figure.value, feed.item[figure.row]!] : [NONE, NONE];
  const { supplyPower, loadPower, loss, efficiency, closingError } = point.totals;
  return [
    caseText(one),
    ...[supplyPower, loadPower, loss, efficiency ?? NONE],
    ...worst(margin),
    ...worst(loading),
    closingError,
    "",
  ];
}

/** Columns whose numbers are steps of their case's working. */
const COLUMN_STEPS: Partial<Readonly<Record<(typeof CASES_COLUMNS)[number], string>>> = {
  "Supply W": "supplyPower",
  "Load W": "loadPower",
  "Loss W": "loss",
  Efficiency: "efficiency",
  "Least margin": "leastMargin",
  "Highest loading": "highestLoading",
  "Closing error W": "closingError",
};

/** Refused cases have no working. */
function caseStep(
  cases: readonly FeedCase[],
  index: number,
  column: number,
): ShownStep | undefined {
  const heading = CASES_COLUMNS[column];
  const step = heading && COLUMN_STEPS[heading];
  if (step === undefined || !cases[index] || cases[index].refused) return undefined;
  const above = cases.slice(0, index).filter(({ refused }) => !refused);
  return { working: above.length, step };
}

export const chainCasesEntries = [chainCases];
