/** What else a budget is checked for, worst case by worst case: one number against one limit in each row. */
import { cellPlace } from "../plans/addresses.js";
import type { PlanCell, SheetPlan } from "../plans/sheet-plan.js";
import {
  area,
  at,
  firstOf,
  formulaCell,
  headingRow,
  quoted,
  valueCell,
  widthFor,
} from "../plans/sheet-builder.js";
import {
  CHECK_COLUMNS,
  NONE,
  CHECK_KINDS,
  type CheckKind,
  type CheckName,
} from "../warnings/check-kinds.js";
import type { BudgetScenario, CheckRow } from "./budget-scenario.js";
import { checkRules } from "./results-table.js";

const HEAD = 4;
const COLUMNS = Object.keys(CHECK_COLUMNS) as (keyof typeof CHECK_COLUMNS)[];
const [FOUND, ASKED, LIMIT] = ["found", "asked", "limit"].map((key) =>
  COLUMNS.indexOf(key as keyof typeof CHECK_COLUMNS),
) as [number, number, number];
const VERDICT = COLUMNS.indexOf("verdict");

const SYMBOLS: Readonly<Record<CheckKind["severity"], string>> = {
  danger: "✖",
  warning: "▲",
  note: "●",
};

export function checksSheet(
  { title }: Pick<BudgetScenario, "title">,
  checks: readonly CheckRow[],
): SheetPlan {
  return {
    key: "checks",
    name: "Checks",
    columnWidths: [
      widthFor(
        200,
        checks.map(({ item }) => item),
      ),
      widthFor(150, Object.keys(CHECK_KINDS)),
      100,
      80,
      100,
      60,
      250,
      620,
    ],
    frozenRows: HEAD,
    cells: [
      valueCell(0, 1, `${title}: checks`, "title"),
      valueCell(
        0,
        2,
        "Each at its own worst case, whatever case is chosen on Inputs. Limits marked as common practice are no requirement of a standard; local code and the product standard prevail.",
        "subtitle",
      ),
      ...headingRow(0, HEAD, Object.values(CHECK_COLUMNS)),
      ...checks.flatMap((check, index) => rowCells(check, HEAD + 1 + index)),
    ],
    merges: [],
    validations: [],
    conditionalFormats: checkRules(VERDICT, HEAD + 1, HEAD + checks.length),
    pictures: [],
  };
}

function rowCells(check: CheckRow, row: number): PlanCell[] {
  const kind = CHECK_KINDS[check.check];
  const look = { format: check.format };
  return [
    valueCell(0, row, check.item, "label"),
    valueCell(1, row, check.check, "label"),
    formulaCell(FOUND, row, check.found, "result", look),
    valueCell(ASKED, row, kind.asked, "unit"),
    formulaCell(LIMIT, row, check.limit, "result", look),
    ...(check.unit === ""
      ? []
      : [valueCell(LIMIT + 1, row, check.unit, "unit")]),
    formulaCell(VERDICT, row, verdict(check.check, row), "resultText"),
    check.taken === undefined
      ? valueCell(VERDICT + 1, row, check.how, "label")
      : formulaCell(
          VERDICT + 1,
          row,
          `${quoted(`${check.how}; `)}&${check.taken}`,
          "label",
        ),
  ];
}

/** `warnings/` finds the same from the same cells. */
function verdict(check: CheckName, row: number): string {
  const [found, limit] = [at(FOUND, row), at(LIMIT, row)];
  const { asked, severity } = CHECK_KINDS[check];
  const unknown = quoted("▲ not worked out: select the number to see why");
  const fails = asked === "at most" ? ">" : "<";
  const said = asked === "at most" ? "above" : "below";
  return firstOf(
    [
      [
        `ISTEXT(${found})`,
        `IF(${found}=${quoted(NONE)},${quoted(`${NONE} nothing to check`)},${unknown})`,
      ],
      [`NOT(AND(ISNUMBER(${found}),ISNUMBER(${limit})))`, unknown],
      [
        `${found}${fails}${limit}`,
        quoted(`${SYMBOLS[severity]} ${said} what is asked`),
      ],
    ],
    quoted("✔ holds"),
  );
}

/** The checks with their headings. */
export function checksArea({ cells }: SheetPlan): string {
  const verdicts = cells.filter(
    ({ at: address, formula }) =>
      formula !== undefined && cellPlace(address).column === VERDICT,
  );
  const rows = verdicts.map(({ at: address }) => cellPlace(address).row + 1);
  return area(0, HEAD, COLUMNS.length - 1, Math.max(HEAD, ...rows));
}
