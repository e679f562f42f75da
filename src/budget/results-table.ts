/** Item by item what was solved, with drop, mass, cost and a check in words: native formulas over the feed table and the spill. */
import type { PlanCell, PlanRule } from "../plans/sheet-plan.js";
import {
  area,
  at,
  firstOf,
  fixedArea,
  formulaCell,
  valueCell,
} from "../plans/sheet-builder.js";
import {
  feedColumnAt,
  resultColumnAt,
  resultColumns,
  type SolvedHeading,
  typedColumnAt,
} from "./budget-columns.js";
import {
  type BudgetLayout,
  limitAt,
  notSolved,
  solvedColumnArea,
} from "./budget-layout.js";
import type {
  FeedColumn,
  FeedRowPlan,
  ResultColumn,
} from "./budget-scenario.js";
import { inShownRow, shownItem, whenReady } from "./typed-feed.js";

const NOTHING = "–";
/** Behind the results' own columns, of a typed feed only. */
const DRAWN_COLUMN = Math.max(...resultColumns.map(({ column }) => column)) + 1;

export function drawnArea({ resultsHead, items }: BudgetLayout): string {
  const [first, last] = [resultsHead + 1, resultsHead + items.length];
  return fixedArea(DRAWN_COLUMN, first, DRAWN_COLUMN, last);
}

export function resultsTable(
  layout: BudgetLayout,
  feed: readonly FeedRowPlan[],
  currency: string,
): PlanCell[] {
  return [
    valueCell(0, layout.resultsHead - 1, "Item by item", "heading"),
    ...resultColumns.map(({ key, heading, column }) =>
      key === "cost"
        ? formulaCell(
            column,
            layout.resultsHead,
            layout.typed
              ? `IF(${currency}="","Cost","Cost ("&${currency}&")")`
              : `"Cost ("&${currency}&")"`,
            "tableHeading",
          )
        : valueCell(column, layout.resultsHead, heading, "tableHeading"),
    ),
    ...layout.items.flatMap((_, index) => rowCells(layout, feed[index], index)),
    ...(layout.typed ? drawnCells(layout) : []),
    ...totalCells(layout),
  ];
}

/** What each load of a typed feed draws: the solved rows stand in other rows than these, and may be fewer than before. */
function drawnCells({ resultsHead, items }: BudgetLayout): PlanCell[] {
  return [
    valueCell(DRAWN_COLUMN, resultsHead, "Drawn by loads (W)", "tableHeading"),
    ...items.map((_, index) => {
      const line = resultsHead + 1 + index;
      const own = (key: ResultColumn) => `$${at(resultColumnAt(key), line)}`;
      const drawn = `${own("inputVoltage")}*${own("inputCurrent")}`;
      const formula = `IF(${own("item")}="","",IF(${own("outputVoltage")}="${NOTHING}",${drawn},"${NOTHING}"))`;
      return formulaCell(DRAWN_COLUMN, line, formula, "result", {
        format: "0.0",
      });
    }),
  ];
}

/** Check stands over two columns. */
export function resultsMerges(layout: BudgetLayout): string[] {
  const column = resultColumnAt("check");
  return Array.from({ length: layout.items.length + 1 }, (_, index) => {
    const row = layout.resultsHead + index;
    return area(column, row, column + 1, row);
  });
}

export function checkRules(
  column: number,
  firstRow: number,
  lastRow: number,
): PlanRule[] {
  const first = `${at(column, firstRow)}`.replace(/^/, "$");
  return (
    [
      ["✖", "danger"],
      ["▲", "warning"],
      ["◇", "warning"],
      ["✔", "good"],
    ] as const
  ).map(([symbol, paint]) => ({
    area: area(column, firstRow, column, lastRow),
    formula: `LEFT(${first},1)="${symbol}"`,
    paint,
  }));
}

function rowCells(
  layout: BudgetLayout,
  row: FeedRowPlan | undefined,
  index: number,
): PlanCell[] {
  const line = layout.resultsHead + 1 + index;
  const feedLine = layout.feedHead + 1 + index;
  const formulas = {
    ...rowFormulas(layout, line, feedLine),
    ...(layout.typed ? typedFigures(feedLine) : figuresOf(row)),
  };
  const item = `$${at(resultColumnAt("item"), line)}`;
  return resultColumns.map(({ key, column, format }) => {
    const formula = formulas[key];
    if (formula === undefined)
      return valueCell(column, line, NOTHING, "result");
    const style = key === "item" || key === "check" ? "resultText" : "result";
    const shown =
      key === "item"
        ? shownItem(layout, formula)
        : inShownRow(layout, item, formula);
    return formulaCell(column, line, shown, style, format ? { format } : {});
  });
}

function figuresOf(row: FeedRowPlan | undefined) {
  return {
    ...(row?.mass !== undefined && { mass: row.mass }),
    ...(row?.cost !== undefined && { cost: row.cost }),
  };
}

/** Mass and cost are typed into the feed table. */
function typedFigures(feedLine: number) {
  const typed = (key: "mass" | "cost") => {
    const cell = `$${at(typedColumnAt(key), feedLine)}`;
    return `IF(${cell}="","${NOTHING}",${cell})`;
  };
  return { mass: typed("mass"), cost: typed("cost") };
}

function rowFormulas(
  layout: BudgetLayout,
  line: number,
  feedLine: number,
): Readonly<Partial<Record<ResultColumn, string>>> {
  const own = (key: ResultColumn) => `$${at(resultColumnAt(key), line)}`;
  const entered = (key: FeedColumn) => `$${at(feedColumnAt(key), feedLine)}`;
  const solved = (heading: SolvedHeading) =>
    `INDEX(${solvedColumnArea(layout, heading)},MATCH(${own("item")},${solvedColumnArea(layout, "Item")},0))`;
  const kind = entered("kind");
  const ideal = `${own("inputVoltage")}*${entered("ratio")}`;
  return {
    item: entered("item"),
    check: checkFormula(own, entered, solved("Note"), notSolved(layout)),
    inputVoltage: solved("Input V"),
    inputCurrent: solved("Input A"),
    outputVoltage: solved("Output V"),
    outputCurrent: solved("Output A"),
    outputPower: solved("Output W"),
    loss: solved("Loss W"),
    drop: firstOf(
      [
        [
          `OR(${["supply", "series", "run"].map((word) => `${kind}="${word}"`).join(",")})`,
          `${own("inputVoltage")}-${own("outputVoltage")}`,
        ],
        [`${kind}="ratio"`, `${ideal}-${own("outputVoltage")}`],
      ],
      `"${NOTHING}"`,
    ),
    dropShare: firstOf(
      [
        [`${own("drop")}="${NOTHING}"`, `"${NOTHING}"`],
        [`${kind}="ratio"`, `${own("drop")}/(${ideal})`],
      ],
      `${own("drop")}/${own("inputVoltage")}`,
    ),
    loading: solved("Loading"),
  };
}

/**
 * The worst that the row shows; `warnings/` finds the same from the same cells. ROUND instead of TEXT: number formats
 * inside formulas mean other things where the decimal sign is a comma.
 */
function checkFormula(
  own: (key: ResultColumn) => string,
  entered: (key: FeedColumn) => string,
  note: string,
  isUnsolved: string,
): string {
  const [volts, lowest, highest] = [
    own("inputVoltage"),
    entered("lowest"),
    entered("highest"),
  ];
  const fed = `${entered("kind")}<>"supply"`;
  const loading = own("loading");
  const [drop, dropLimit] = [own("dropShare"), limitAt("drop")];
  const against = (limit: string, side: string) =>
    `ROUND(${volts},1)&" V, ${side} its "&ROUND(${limit},1)&" V"`;
  const percent = (share: string) => `ROUND(100*${share},1)&" %"`;
  return firstOf(
    [
      [
        `OR(${isUnsolved},NOT(ISNUMBER(${volts})))`,
        `"✖ not solved: see its note"`,
      ],
      [
        `AND(${fed},ISNUMBER(${highest}),${volts}>${highest})`,
        `"✖ "&${against(highest, "above")}`,
      ],
      [
        `AND(${fed},ISNUMBER(${lowest}),${volts}<${lowest})`,
        `"▲ "&${against(lowest, "below")}`,
      ],
      [
        `AND(ISNUMBER(${loading}),${loading}>${limitAt("loading")})`,
        `"▲ loaded to "&${percent(loading)}&" of its rating"`,
      ],
      [
        `AND(${entered("kind")}="run",${drop}>${dropLimit})`,
        `"▲ drop "&${percent(drop)}&", above "&${percent(dropLimit)}`,
      ],
      [`ISNUMBER(SEARCH("may latch",${note}))`, `"▲ "&${note}`],
      [`LEN(${note})>0`, `"● "&${note}`],
    ],
    `"✔ within its limits"`,
  );
}

function totalCells(layout: BudgetLayout): PlanCell[] {
  const { resultsHead, items } = layout;
  const [first, last] = [resultsHead + 1, resultsHead + items.length];
  return resultColumns.map(({ key, column, format }) => {
    if (key === "item") return valueCell(column, last + 1, "Total", "total");
    if (key !== "loss" && key !== "mass" && key !== "cost")
      return { at: at(column, last + 1), style: "total" };
    const sum = whenReady(
      layout,
      `SUM(${fixedArea(column, first, column, last)})`,
    );
    return formulaCell(
      column,
      last + 1,
      sum,
      "total",
      format ? { format } : {},
    );
  });
}
