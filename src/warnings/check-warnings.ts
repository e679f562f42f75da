/** Checks that fail, or that cannot be worked out; the Verdict cells of a budget's Checks sheet say the same. */
import { figure } from "../quantities/figures.js";
import {
  type AreaRow,
  areaRows,
  errorOf,
  numberOf,
  textOf,
} from "./area-table.js";
import {
  CHECK_COLUMNS,
  CHECK_KINDS,
  NONE,
  type CheckKind,
} from "./check-kinds.js";
import type { FoundBudget, Warning } from "./warning.js";

export function checkWarnings({ areas }: FoundBudget): readonly Warning[] {
  const area = areas["Checks"];
  return area ? areaRows(area).flatMap(warningOfRow) : [];
}

function warningOfRow(row: AreaRow): Warning[] {
  const check = textOf(row.value(CHECK_COLUMNS.check));
  const kind = kindOf(check);
  if (!kind) return [unknownCheck(row, check)];
  const [found, limit] = [
    row.value(CHECK_COLUMNS.found),
    row.value(CHECK_COLUMNS.limit),
  ];
  if (found === NONE) return [];
  const [value, held] = [numberOf(found), numberOf(limit)];
  const unit = textOf(row.value(CHECK_COLUMNS.unit));
  const common = {
    id: `check ${check} ${row.item}`,
    item: row.item,
    unit,
    cite: kind.cite,
  };
  if (value === undefined || held === undefined)
    return [
      {
        ...common,
        severity: "warning",
        text: `${check} is not worked out${reason(errorOf(found) ?? errorOf(limit))}: select the cell to see why.`,
        unit: "",
        at: row.at(
          value === undefined ? CHECK_COLUMNS.found : CHECK_COLUMNS.limit,
        ),
      },
    ];
  if (!fails(kind, value, held)) return [];
  const spaced = common.unit === "" ? "" : ` ${common.unit}`;
  return [
    {
      ...common,
      severity: kind.severity,
      text: `${check}: ${figure(value)}${spaced} where ${kind.asked} ${figure(held)}${spaced} is asked for; ${kind.means}.`,
      value,
      limit: held,
      remedy: kind.remedy,
      at: row.at(CHECK_COLUMNS.found),
    },
  ];
}

/** Somebody wrote it, or another version of the budget has it. */
function unknownCheck(row: AreaRow, check: string): Warning {
  return {
    id: `check unknown ${row.item} ${check}`,
    severity: "warning",
    item: row.item,
    text: `The check “${check}” is not known here: nothing is held against its limit but by the sheet itself.`,
    unit: "",
    cite: "definition",
    at: row.at(CHECK_COLUMNS.check),
  };
}

function kindOf(check: string): CheckKind | undefined {
  return Object.entries(CHECK_KINDS).find(([name]) => name === check)?.[1];
}

function fails({ asked }: CheckKind, value: number, limit: number): boolean {
  return asked === "at most" ? value > limit : value < limit;
}

function reason(error: string | undefined): string {
  return error === undefined ? "" : ` (${error})`;
}
