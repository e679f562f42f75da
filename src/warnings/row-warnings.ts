/**
 * What the solved rows of a budget show: not solved, outside a window, loaded beyond a rating, a run that drops too
 * much, and the solver's own notes. A budget's Check cells find the worst of the same, from the same cells.
 */
import { kindOf } from "../network/row-kinds.js";
import { figure } from "../quantities/figures.js";
import {
  type AreaRow,
  areaRows,
  cellAt,
  errorOf,
  numberOf,
  sameItem,
  textOf,
} from "./area-table.js";
import type { BudgetLimits } from "./budget-limits.js";
import type { FoundBudget, ReadArea, Warning } from "./warning.js";

export function rowWarnings(
  { areas }: FoundBudget,
  limits: BudgetLimits | undefined,
): readonly Warning[] {
  const { Solved: solved, Feed: feed } = areas;
  if (!solved) return [];
  const failure = errorOf(solved.values[0]?.[0]);
  if (failure !== undefined) return [notCalculated(solved, failure)];
  const entered = feed ? areaRows(feed) : [];
  return areaRows(solved).flatMap((row) =>
    warningsOfRow(
      row,
      entered.find(({ item }) => sameItem(item, row.item)),
      limits,
    ),
  );
}

const WHY: Readonly<Record<string, string>> = {
  "#SPILL!": "the cells below are not free",
  "#NAME?": "the cell functions are not loaded",
  "#BUSY!": "it is still being calculated",
  "#VALUE!": "the feed table is refused; select the cell to see why",
};

function notCalculated(area: ReadArea, code: string): Warning {
  const why = WHY[code];
  return {
    id: "not-calculated",
    severity: "danger",
    item: "",
    text: `The feed is not solved (${code})${why === undefined ? "" : `: ${why}`}.`,
    unit: "",
    cite: "definition",
    at: cellAt(area, 0, 0),
  };
}

function warningsOfRow(
  row: AreaRow,
  entered: AreaRow | undefined,
  limits: BudgetLimits | undefined,
): Warning[] {
  const volts = numberOf(row.value("Input V"));
  if (volts === undefined) return [notSolved(row)];
  return [
    ...windowWarnings(row, entered, volts),
    ...loadingWarnings(row, limits?.loading),
    ...dropWarnings(row, entered, volts, limits?.drop),
    ...noteWarnings(row),
  ];
}

function notSolved(row: AreaRow): Warning {
  const note = textOf(row.value("Note"));
  return {
    id: `not-solved ${row.item}`,
    severity: "danger",
    item: row.item,
    text: `Not solved: ${note === "" ? "no reason is given" : note}.`,
    unit: "",
    remedy:
      "what its note asks for; where it collapses, smaller loads, a thicker cable or a higher supply voltage",
    cite: "definition",
    at: row.at("Note"),
  };
}

/** A supply's window is what it may be, not what it must be kept in. */
function windowWarnings(
  row: AreaRow,
  entered: AreaRow | undefined,
  volts: number,
): Warning[] {
  if (!entered || roleOf(entered) === "supply") return [];
  const lowest = numberOf(entered.value("Lowest V"));
  const highest = numberOf(entered.value("Highest V"));
  const common = {
    item: row.item,
    value: volts,
    unit: "V",
    cite: "definition",
    at: row.at("Input V"),
  } as const;
  if (highest !== undefined && volts > highest)
    return [
      {
        ...common,
        id: `above-window ${row.item}`,
        severity: "danger",
        text: "Its input is above what it allows.",
        limit: highest,
        remedy:
          "a larger step down before it, a closer tolerance, or an item that takes more",
      },
    ];
  if (lowest !== undefined && volts < lowest)
    return [
      {
        ...common,
        id: `below-window ${row.item}`,
        severity: "warning",
        text: "Its input is below what it allows: it would not work as solved.",
        limit: lowest,
        remedy:
          "less drop on its path, a smaller step down, or an item that works lower",
      },
    ];
  return [];
}

function loadingWarnings(row: AreaRow, limit: number | undefined): Warning[] {
  const loading = numberOf(row.value("Loading"));
  if (loading === undefined || limit === undefined || loading <= limit)
    return [];
  return [
    {
      id: `loading ${row.item}`,
      severity: "warning",
      item: row.item,
      text: `It carries ${percent(loading)} of its rated current, ${percent(limit)} is asked for at most.`,
      value: 100 * loading,
      limit: 100 * limit,
      unit: "%",
      remedy: "a larger rating, more of them in parallel, or a smaller load",
      cite: "definition",
      at: row.at("Loading"),
    },
  ];
}

function dropWarnings(
  row: AreaRow,
  entered: AreaRow | undefined,
  volts: number,
  limit: number | undefined,
): Warning[] {
  const output = numberOf(row.value("Output V"));
  if (!entered || !sameItem(textOf(entered.value("Kind")), "run")) return [];
  if (output === undefined || limit === undefined) return [];
  const share = (volts - output) / volts;
  if (!(share > limit)) return [];
  return [
    {
      id: `drop ${row.item}`,
      severity: "warning",
      item: row.item,
      text: `It drops ${figure(volts - output)} V, ${percent(share)} of its input; ${percent(limit)} is asked for at most.`,
      value: 100 * share,
      limit: 100 * limit,
      unit: "%",
      remedy:
        "a thicker or shorter cable, or a higher voltage to distribute at",
      cite: "definition",
      at: row.at("Output V"),
    },
  ];
}

/** Notes on windows and ratings say again what was found above. */
const FOUND_ABOVE = ["its window", "of its rated current"] as const;
const LATCHES = "may latch";
const NO_THRESHOLD = "no Lowest V";

function noteWarnings(row: AreaRow): Warning[] {
  return textOf(row.value("Note"))
    .split("; ")
    .filter((note) => note !== "" && !says(note, FOUND_ABOVE))
    .map((note, index) => {
      const latches = says(note, [LATCHES]);
      return {
        id: `note ${index + 1} ${row.item}`,
        severity: latches ? "warning" : "note",
        item: row.item,
        text: sentence(note),
        unit: "",
        ...(latches && {
          remedy: says(note, [NO_THRESHOLD])
            ? "its Lowest V in the feed table: the voltage below which it draws nothing"
            : "switch loads on one after the other, or only above a higher voltage",
        }),
        cite: latches ? "two-roots" : "definition",
        at: row.at("Note"),
      };
    });
}

function says(note: string, parts: readonly string[]): boolean {
  return parts.some((part) => note.includes(part));
}

function roleOf(row: AreaRow) {
  return kindOf(textOf(row.value("Kind")))?.role;
}

function percent(share: number): string {
  return `${figure(100 * share)} %`;
}

function sentence(text: string): string {
  return `${text.slice(0, 1).toUpperCase()}${text.slice(1)}.`;
}
