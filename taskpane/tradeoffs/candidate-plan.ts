/** A candidate as a sheet: its feed table with the figures it was judged by, solved by a live CHAIN_SOLVE. */
import { feedColumns } from "../../src/budget/budget-columns.js";
import type { FeedColumn } from "../../src/budget/budget-scenario.js";
import type { FeedItem } from "../../src/network/feed-item.js";
import {
  bareCell,
  call,
  fixedArea,
  formulaCell,
  headingRow,
  valueCell,
} from "../../src/plans/sheet-builder.js";
import type { PlanCell, WorkbookPlan } from "../../src/plans/sheet-plan.js";
import { tradeFeed } from "../../src/tradeoffs/trade-feed.js";
import type { TradeRequest } from "../../src/tradeoffs/trade-request.js";
import type { TradeCandidate } from "../../src/tradeoffs/trade-space.js";

/** As the budgets head and format them. */
const COLUMNS: readonly (readonly [keyof FeedItem, FeedColumn])[] = [
  ["item", "item"],
  ["fedFrom", "fedFrom"],
  ["kind", "kind"],
  ["voltage", "voltage"],
  ["resistance", "resistance"],
  ["ratio", "ratio"],
  ["fixedLoss", "fixedLoss"],
  ["lightLoad", "lightLoad"],
  ["load", "load"],
  ["peakLoad", "peakLoad"],
  ["inParallel", "inParallel"],
  ["lowestVoltage", "lowest"],
  ["highestVoltage", "highest"],
  ["ratedCurrent", "rated"],
];

const columnOf = new Map(feedColumns.map((column) => [column.key, column]));

const HEAD_ROW = 4;
const SOLVED_COLUMNS = 12;
/** Room below the solved table for rows that are added later, and its heading. */
const SPARE_ROWS = 8;

export function candidatePlan(
  request: TradeRequest,
  candidate: TradeCandidate,
  title: string,
): WorkbookPlan {
  const items = tradeFeed(request, candidate, "nominal");
  const last = HEAD_ROW + items.length;
  const cells: PlanCell[] = [
    valueCell(0, 1, title, "title"),
    valueCell(
      0,
      2,
      "A candidate of a trade-off at its nominal ratio. Framed cells are its figures; what is below is solved from them.",
      "subtitle",
    ),
    ...headingRow(
      0,
      HEAD_ROW,
      COLUMNS.map(([, key]) => columnOf.get(key)?.heading ?? key),
    ),
    ...items.flatMap((item, index) =>
      COLUMNS.flatMap(([field, key], at): PlanCell[] => {
        const value = item[field];
        const row = HEAD_ROW + 1 + index;
        const format = columnOf.get(key)?.format;
        if (value === undefined) return [bareCell(at, row, "resultText")];
        return [
          valueCell(
            at,
            row,
            value,
            typeof value === "number" ? "input" : "inputText",
            format === undefined ? {} : { format },
          ),
        ];
      }),
    ),
    ...solved(
      "Nominal loads, nominal supply",
      "nominal",
      "nominal",
      last + 2,
      last,
      items.length,
    ),
    ...solved(
      "Peak loads, lowest supply",
      "peak",
      "lowest",
      last + 2 + items.length + 2 + SPARE_ROWS,
      last,
      items.length,
    ),
  ];
  return {
    id: "trade-off-candidate",
    title,
    stem: "Candidate",
    names: [],
    sheets: [
      {
        key: "candidate",
        name: "Candidate",
        columnWidths: [170, ...COLUMNS.slice(1).map(() => 136)],
        frozenRows: 0,
        cells,
        merges: [],
        validations: [],
        conditionalFormats: [],
        pictures: [],
      },
    ],
  };
}

function solved(
  heading: string,
  loads: string,
  supply: string,
  row: number,
  last: number,
  items: number,
): PlanCell[] {
  const table = fixedArea(0, HEAD_ROW, COLUMNS.length - 1, last);
  return [
    valueCell(0, row, heading, "heading"),
    {
      ...formulaCell(
        0,
        row + 1,
        call("CHAIN_SOLVE", table, `"${loads}"`, `"${supply}"`),
        "resultText",
        { format: "0.000" },
      ),
      spill: [items + 1, SOLVED_COLUMNS],
    },
    ...Array.from({ length: (items + 1) * SOLVED_COLUMNS - 1 }, (_, index) =>
      bareCell(
        (index + 1) % SOLVED_COLUMNS,
        row + 1 + Math.floor((index + 1) / SOLVED_COLUMNS),
        "resultText",
        { format: "0.000" },
      ),
    ),
  ];
}
