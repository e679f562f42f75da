/** The worst case of every item over supply, loads, tolerances and a lost unit; what of it is worst of all; the headroom. */
import type { PlanCell } from "../plans/sheet-plan.js";
import {
  bareCell,
  call,
  firstOf,
  fixedAt,
  formulaCell,
  headingRow,
  quoted,
  valueCell,
} from "../plans/sheet-builder.js";
import { type BudgetLayout, feedArea, limitAt } from "./budget-layout.js";
import { COMMON_KEYS, type InputReach } from "./budget-scenario.js";
import {
  headroomRow,
  SUMMARY_ROW,
  WORST_HEAD,
  worstColumnArea,
  worstColumns,
  type WorstHeading,
} from "./cases-layout.js";
import { whenReady } from "./typed-feed.js";

const NO_POINT =
  "In one of these cases there is no operating point, or a row is refused: no worst case can be given.";
const NO_HEADROOM =
  "On the lowest supply nothing is solved, or its voltage is not given: no headroom can be given.";

const VALUE = 1;
const ITEM = 2;
const CASE = 4;
const TABLE_HEAD = SUMMARY_ROW + 5;

/** Read before the cells below: some spreadsheets keep what a shorter result has left behind until they calculate again. */
const NOT_SPILLED = `${fixedAt(0, WORST_HEAD)}<>${quoted(worstColumns[0].heading)}`;

function feedTable(layout: BudgetLayout): string {
  return `{budget}!${feedArea(layout)}`;
}

/** Sentences, then the figures in them. Read from the two spills below. */
export function summaryCells(
  layout: BudgetLayout,
  inputs: InputReach,
): PlanCell[] {
  const lines = summaryLines(layout);
  return [
    valueCell(0, SUMMARY_ROW, "Worst of all, by item", "heading"),
    formulaCell(0, SUMMARY_ROW + 1, whenReady(layout, marginWords()), "label"),
    formulaCell(
      0,
      SUMMARY_ROW + 2,
      whenReady(layout, headroomWords(layout)),
      "label",
    ),
    formulaCell(0, SUMMARY_ROW + 3, whenReady(layout, loadingWords()), "label"),
    formulaCell(
      0,
      SUMMARY_ROW + 4,
      whenReady(layout, triedWords(inputs)),
      "label",
    ),
    ...headingRow(0, TABLE_HEAD, [
      "Figure",
      "Value",
      "Item",
      "",
      "In the case",
    ]),
    ...lines.flatMap(({ label, value, item, where, format }, index) => {
      const line = TABLE_HEAD + 1 + index;
      return [
        valueCell(0, line, label, "label"),
        formulaCell(VALUE, line, whenReady(layout, value), "result", {
          format,
        }),
        formulaCell(ITEM, line, whenReady(layout, item), "resultText"),
        where.startsWith("INDEX")
          ? formulaCell(
              CASE,
              line,
              whenReady(layout, orDash(line, where)),
              "resultText",
            )
          : formulaCell(
              CASE,
              line,
              whenReady(layout, quoted(where)),
              "resultText",
            ),
      ];
    }),
  ];
}

const MARGIN_LINE = TABLE_HEAD + 1;
const COLLAPSE_LINE = TABLE_HEAD + 4;

interface SummaryLine {
  readonly label: string;
  readonly value: string;
  readonly item: string;
  /** A formula, or words. */
  readonly where: string;
  readonly format: string;
}

function summaryLines(layout: BudgetLayout): SummaryLine[] {
  const column = (heading: WorstHeading) => worstColumnArea(layout, heading);
  const extreme = (
    label: string,
    heading: WorstHeading,
    which: "MIN" | "MAX",
    format: string,
    line: number,
  ) => {
    const found = (of: WorstHeading) =>
      `INDEX(${column(of)},MATCH(${fixedAt(VALUE, line)},${column(heading)},0))`;
    return {
      label,
      value: `IF(${NOT_SPILLED},"–",IF(COUNT(${column(heading)})>0,${which}(${column(heading)}),"–"))`,
      item: orDash(line, found("Item")),
      where:
        heading === "Least margin"
          ? found("Where it happens")
          : "in the case that is worst for it",
      format,
    };
  };
  const row = headroomRow(layout);
  const headroom = (label: string, at: 0 | 2) => ({
    label,
    value: `IF(ISNUMBER(${fixedAt(at, row)}),${fixedAt(at, row)},"–")`,
    item: `IF(ISNUMBER(${fixedAt(at, row)}),${fixedAt(at + 1, row)},"–")`,
    where: "supply lowest, all loads grown together",
    format: "0.00",
  });
  return [
    extreme(
      "Least margin to a window",
      "Least margin",
      "MIN",
      "0.0%",
      MARGIN_LINE,
    ),
    extreme("Highest loading", "Loading", "MAX", "0%", MARGIN_LINE + 1),
    extreme(
      "Highest loss of an item, W",
      "Highest loss W",
      "MAX",
      "0.0",
      MARGIN_LINE + 2,
    ),
    headroom("Times the loads at collapse", 0),
    headroom("Times the loads at the first limit", 2),
  ];
}

function orDash(line: number, formula: string): string {
  return `IF(ISNUMBER(${fixedAt(VALUE, line)}),${formula},"–")`;
}

function marginWords(): string {
  const [margin, item, where] = [VALUE, ITEM, CASE].map((column) =>
    fixedAt(column, MARGIN_LINE),
  );
  const percent = `ROUND(100*ABS(N(${margin})),1)&" %`;
  return firstOf(
    [
      [NOT_SPILLED, quoted(`✖ ${NO_POINT}`)],
      [
        `NOT(ISNUMBER(${margin}))`,
        '"● No row has a window to be held against."',
      ],
      [
        `${margin}<0`,
        `"▲ "&${item}&" gets "&${percent} outside its window ("&${where}&")."`,
      ],
    ],
    `"✔ The least margin to a window of all is "&${percent}, at "&${item}&" ("&${where}&")."`,
  );
}

function loadingWords(): string {
  const [loading, item] = [VALUE, ITEM].map((column) =>
    fixedAt(column, MARGIN_LINE + 1),
  );
  const limit = `{budget}!${limitAt("loading")}`;
  const words = `"the highest loading of all is "&ROUND(100*N(${loading}),1)&" % of a rating, at "&${item}&"."`;
  return firstOf(
    [
      [
        `NOT(ISNUMBER(${loading}))`,
        '"● No loading is known: no row has a rating, or nothing is solved."',
      ],
      [
        `AND(ISNUMBER(${limit}),${loading}>${limit})`,
        `"▲ Above the largest loading asked for: "&${words}`,
      ],
    ],
    `"✔ Within the largest loading asked for: "&${words}`,
  );
}

function headroomWords(layout: BudgetLayout): string {
  const row = headroomRow(layout);
  const [times, item] = [
    fixedAt(VALUE, COLLAPSE_LINE),
    fixedAt(ITEM, COLLAPSE_LINE),
  ];
  const limit = [VALUE, ITEM].map((column) =>
    fixedAt(column, COLLAPSE_LINE + 1),
  );
  return firstOf(
    [
      [
        `ISNUMBER(${times})`,
        `"On the lowest supply the voltage collapses at "&ROUND(N(${times}),2)&" times the nominal loads, at "&${item}&"; the first limit is met at "&IF(ISNUMBER(${limit[0]}),ROUND(N(${limit[0]}),2)&" times, at "&${limit[1]},"no multiple")&"."`,
      ],
      [
        `${fixedAt(0, row)}="–"`,
        '"On the lowest supply no multiple of the loads brings the voltage to collapse."',
      ],
    ],
    quoted(NO_HEADROOM),
  );
}

function triedWords({ given, has }: InputReach): string {
  const tried =
    "Tried: supply lowest to highest, loads none to peak, every corner of the tolerances given";
  if (!has(COMMON_KEYS.unitsLost)) return quoted(`${tried}.`);
  return `${quoted(tried)}&IF(N(${given(COMMON_KEYS.unitsLost)})=1,", one unit lost in turn of those in parallel.",", no unit lost.")`;
}

/** The spill, read by everything above. */
export function worstCells(
  layout: BudgetLayout,
  { given, has }: InputReach,
): PlanCell[] {
  const lost = has(COMMON_KEYS.unitsLost) ? [given(COMMON_KEYS.unitsLost)] : [];
  const worst = call("CHAIN_WORST", feedTable(layout), ...lost);
  const anchor = formulaCell(
    0,
    WORST_HEAD,
    whenReady(layout, `IFERROR(${worst},${quoted(NO_POINT)})`),
    layout.typed ? "label" : "tableHeading",
  );
  const spill = layout.typed
    ? ([1, 1] as const)
    : ([layout.items.length + 1, worstColumns.length] as const);
  return [
    valueCell(
      0,
      WORST_HEAD - 1,
      "Worst case of every item, as CHAIN_WORST gives it",
      "heading",
    ),
    { ...anchor, spill },
    ...worstColumns
      .slice(1)
      .map((_, index) => bareCell(index + 1, WORST_HEAD, "tableHeading")),
    ...layout.items.flatMap((_, index) =>
      worstColumns.map((column, number) => {
        const line = WORST_HEAD + 1 + index;
        return "format" in column
          ? bareCell(number, line, "result", { format: column.format })
          : bareCell(number, line, "resultText");
      }),
    ),
  ];
}

const HEADROOM_HEADINGS = [
  "Times the loads at collapse",
  "At the item",
  "At the first limit",
  "At the item",
];

export function headroomCells(layout: BudgetLayout): PlanCell[] {
  const row = headroomRow(layout);
  const headroom = call("CHAIN_HEADROOM", feedTable(layout), '"lowest"');
  const format = "0.00";
  const anchor = formulaCell(
    0,
    row,
    whenReady(layout, `IFERROR(${headroom},${quoted(NO_HEADROOM)})`),
    "resultText",
    { format },
  );
  return [
    valueCell(
      0,
      row - 2,
      "Headroom on the lowest supply, as CHAIN_HEADROOM gives it",
      "heading",
    ),
    ...headingRow(0, row - 1, HEADROOM_HEADINGS),
    {
      ...anchor,
      spill: [1, layout.typed ? 1 : HEADROOM_HEADINGS.length],
    },
    ...[1, 2, 3].map((column) =>
      bareCell(column, row, "resultText", { format }),
    ),
  ];
}
