/** Everything that a budget in a workbook gives to warn of. The judgement is CHAIN_CHECKS; here it is read and put together. */
import { ASKED_FOR, WHOLE_FEED } from "../../../src/judgement/check-row.js";
import {
  type RangeRow,
  rangeRows,
  cellAt,
  errorOf,
  numberOf,
  textOf,
} from "../reading/range-table.js";
import type { FoundBudget, ReadRange, ReadValue } from "../reading/found-budget.js";
import { CheckCells } from "./check-cells.js";
import { type Finding, SEVERITIES, type Severity, type Warning } from "./warning.js";

/** The gravest first; of one severity in the order of the sheet. */
export function warningsOf(budget: FoundBudget): readonly Warning[] {
  const all = [
    ...unknownFunctions(budget),
    ...missingNames(budget),
    ...errorWarnings(budget),
    ...typedOver(budget),
    ...checkWarnings(budget),
  ];
  return SEVERITIES.flatMap((severity) => all.filter((warning) => warning.severity === severity));
}

function checkWarnings(budget: FoundBudget): Warning[] {
  const range = budget.ranges["Checks"];
  if (!range) return [];
  const cells = new CheckCells(budget);
  const groups = new Map<string, { first: Warning; findings: Finding[] }>();
  const rows = rangeRows(range);
  for (const row of rows) {
    const severity = severityOf(row);
    if (severity === undefined || isUnasked(row)) continue;
    const id = keyOf(row, severity);
    const finding = findingOf(row, id, cells);
    const known = groups.get(id);
    if (known) known.findings.push(finding);
    else
      groups.set(id, {
        first: warningOf(row, id, severity),
        findings: [finding],
      });
  }
  const found = [...groups.values()].map(({ first, findings }) => ({
    ...first,
    findings,
  }));
  return [...found, ...unaskedWarnings(rows.filter(isUnasked), cells)];
}

/** Waits for a requirement, not for a figure of the feed. */
function isUnasked(row: RangeRow): boolean {
  return text(row, "Verdict") === "not determined" && text(row, "Cause") === ASKED_FOR;
}

/** All in one, a line for each requirement that has no value yet: a new feed has some twenty, and as many checks of each. */
function unaskedWarnings(rows: readonly RangeRow[], cells: CheckCells): Warning[] {
  const [first] = rows;
  if (!first) return [];
  const id = [ASKED_FOR, "not determined"].join("|");
  const labels = [...new Set(rows.map((row) => text(row, "Column")))];
  return [
    {
      ...warningOf(first, id, "not determined"),
      check: ASKED_FOR,
      asked: "",
      cause: "",
      column: "",
      citation: "",
      findings: labels.map((label) => {
        const row = rows.find((one) => text(one, "Column") === label)!;
        return {
          ...findingOf(row, id, cells),
          id: `${id}|${label}`,
          item: label,
          found: "",
          limit: "",
          unit: "",
          margin: undefined,
          worstIn: "",
        };
      }),
    },
  ];
}

/** Undefined for what holds and for what is not asked. */
function severityOf(row: RangeRow): Severity | undefined {
  const verdict = text(row, "Verdict");
  if (verdict === "not determined") return "not determined";
  if (verdict !== "fails") return undefined;
  const weight = text(row, "Weight");
  return weight === "danger" || weight === "note" ? weight : "warning";
}

/** Rows of one key say the same, each of its item. */
function keyOf(row: RangeRow, severity: Severity): string {
  const headings =
    severity === "not determined"
      ? ["Check", "Verdict", "Column"]
      : ["Check", "Verdict", "Cause", "Limit"];
  return headings.map((heading) => shown(row.value(heading))).join("|");
}

function warningOf(row: RangeRow, id: string, severity: Severity): Warning {
  return {
    id,
    severity,
    check: text(row, "Check"),
    asked: text(row, "Asked"),
    cause: text(row, "Cause"),
    column: text(row, "Column"),
    citation: text(row, "Citation"),
    findings: [],
  };
}

function findingOf(row: RangeRow, id: string, cells: CheckCells): Finding {
  const cause = text(row, "Cause");
  return {
    id: `${id}|${row.item}`,
    item: row.item === WHOLE_FEED ? "" : row.item,
    worstIn: text(row, "Worst in"),
    found: figureOrWords(row.value("Found")),
    limit: figureOrWords(row.value("Limit")),
    unit: text(row, "Unit"),
    margin: numberOf(row.value("Margin")),
    remedy: text(row, "Enter or try"),
    at: row.at("Verdict"),
    toChange: cells.toChange(cause === "" ? row.item : cause, text(row, "Column")),
  };
}

function text(row: RangeRow, heading: string): string {
  return textOf(row.value(heading));
}

function figureOrWords(value: ReadValue): number | string {
  return numberOf(value) ?? textOf(value);
}

/** The figure to four digits, so that a last digit does not part what belongs together. */
function shown(value: ReadValue): string {
  return typeof value === "number" ? String(Number(value.toPrecision(4))) : textOf(value);
}

/** Without it, this is not looked at. */
const PARTS = {
  Feed: "pictures and cells to change",
  Solved: "pictures and the report",
  Checks: "checks",
} as const;

function missingNames({ stem, ranges }: FoundBudget): Warning[] {
  const [any] = Object.values(ranges).filter((range) => range !== undefined);
  const at = any ? cellAt(any, 0, 0) : { sheet: "", address: "A1" };
  return Object.entries(PARTS)
    .filter(([part]) => ranges[part] === undefined)
    .map(([part, without]) =>
      plain(`missing ${part}`, `The name ${stem}_${part} is not there: no ${without}.`, at),
    );
}

/** One call each; a row that an item's own refusal fills is told by the checks. */
const SPILLS = ["Feed", "Solved", "Bands", "Cases", "Checks", "Schedule"];
const TABLES = ["Day", "Answers"];

/** Whether a spill of the budget waits for a result: what it shows then is no finding. */
export function isCalculating({ ranges }: FoundBudget): boolean {
  return [...SPILLS, ...TABLES].some((part) =>
    ranges[part]?.values.some((cells) => cells.some((cell) => errorOf(cell) === CALCULATING)),
  );
}

/** What a cell shows while its function has not answered yet. */
const CALCULATING = "#BUSY!";

/** What a cell shows whose function the spreadsheet does not know. */
const UNKNOWN = "#NAME?";

/** Nothing of the budget counts then, so this comes before all else and stands for all such cells. */
function unknownFunctions({ ranges }: FoundBudget): Warning[] {
  const cells = [...SPILLS, ...TABLES].flatMap((part) => {
    const range = ranges[part];
    if (!range) return [];
    return range.values.flatMap((row, down) =>
      row.flatMap((cell, right) => (errorOf(cell) === UNKNOWN ? [cellAt(range, down, right)] : [])),
    );
  });
  const [first] = cells;
  if (!first) return [];
  const others = cells.length - 1;
  const more =
    others === 0 ? "" : `, and so ${others === 1 ? "does 1 more cell" : `do ${others} more cells`}`;
  const remedy = `The functions were not loaded when this was calculated: ${first.sheet}!${first.address} shows ${UNKNOWN}${more}. Nothing else that this budget shows holds. Start Downfeed; if that does not mend it, look under Hand over for formulas that do not calculate, and repair them.`;
  return [{ ...plain("functions not loaded", remedy, first), severity: "danger" }];
}

/** Cells that show an error: what stands there is not known. One for each part: cells beside each other mostly fail together. */
function errorWarnings({ ranges }: FoundBudget): Warning[] {
  return [...SPILLS, ...TABLES].flatMap((part) => {
    const range = ranges[part];
    if (!range) return [];
    const rows = SPILLS.includes(part) ? range.values.slice(0, 1) : range.values;
    return firstError(range, rows);
  });
}

function firstError(range: ReadRange, rows: readonly (readonly ReadValue[])[]): Warning[] {
  for (const [row, cells] of rows.entries())
    for (const [column, cell] of cells.entries()) {
      const error = errorOf(cell);
      if (error === undefined || error === CALCULATING || error === UNKNOWN) continue;
      const at = cellAt(range, row, column);
      return [
        plain(
          `error ${at.sheet} ${at.address}`,
          `${at.sheet}!${at.address} shows ${error}: select it to see why.`,
          at,
        ),
      ];
    }
  return [];
}

/** Figures of the budget that are no formulas any more: they follow nothing. */
function typedOver({ ranges }: FoundBudget): Warning[] {
  const anchors = SPILLS.map((part) => ({ range: ranges[part], column: 0, from: 0, to: 1 }));
  const balance = { range: ranges["Balance"], column: 1, from: 1, to: Infinity };
  return [...anchors, balance].flatMap(({ range, column, from, to }) => {
    const rows = range?.formulas?.slice(from, to) ?? [];
    return rows.flatMap((formulas, index) => {
      if (!range || formulas[column] !== "") return [];
      const at = cellAt(range, from + index, column);
      const where = `${at.sheet}!${at.address}`;
      return [
        plain(
          `typed over ${at.sheet} ${at.address}`,
          `${where} holds no formula any more: it was typed over, and what it shows does not follow the feed. Undo it.`,
          at,
        ),
      ];
    });
  });
}

/** A warning that is a sentence, about the budget as a whole. */
function plain(id: string, remedy: string, at: Finding["at"]): Warning {
  return {
    id,
    severity: "warning",
    check: "",
    asked: "",
    cause: "",
    column: "",
    citation: "",
    findings: [
      {
        id,
        item: "",
        worstIn: "",
        found: "",
        limit: "",
        unit: "",
        margin: undefined,
        remedy,
        at,
        toChange: undefined,
      },
    ],
  };
}
