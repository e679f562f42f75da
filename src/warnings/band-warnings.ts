/** What the bands of a budget's items mean, as its Bands sheet shows them: a spill of CHAIN_BANDS, or the formulas of a budget of 0.2. */
import type { Cited } from "../quantities/steps.js";
import { touchFrameworks } from "../safety/touch-bands.js";
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

/** Headings of the spill, and of a budget of 0.2. */
const IN_SERVICE = ["In service V", "In service"] as const;
const AFTER_FAULT = ["After one fault V", "After one fault"] as const;
type VoltsHeading = typeof IN_SERVICE | typeof AFTER_FAULT;
const BAND = "Band in service";
const BAND_AFTER_FAULT = "Band after one fault";
const NOT_DETERMINED = "not determined";
const ENCLOSE =
  "an enclosure or insulation that keeps hands off, or a lower voltage";

export function bandWarnings(
  { areas }: FoundBudget,
  limits: BudgetLimits | undefined,
): readonly Warning[] {
  const area = areas["Bands"];
  if (!area || !limits || limits.band === "") return [];
  const failure = errorOf(area.values[0]?.[0]);
  if (failure !== undefined) return [notJudged(area, failure)];
  const rows = areaRows(area);
  return [
    ...rows.flatMap((row) => warningOfRow(row, limits)),
    ...unjudgedItems(areas, rows),
  ];
}

function notJudged(area: ReadArea, code: string): Warning {
  return {
    id: "band-not-judged",
    severity: "danger",
    item: "",
    text: `The voltage bands are not judged (${code}); select the cell to see why.`,
    unit: "",
    cite: "definition",
    at: cellAt(area, 0, 0),
  };
}

function warningOfRow(row: AreaRow, limits: BudgetLimits): Warning[] {
  const failure =
    errorOf(row.value(BAND)) ?? errorOf(row.value(BAND_AFTER_FAULT));
  if (failure !== undefined)
    return [
      found(row, "unread", "danger", `Its band is not known (${failure}).`),
    ];
  const node: Node = {
    row,
    limits,
    inService: levelOf(textOf(row.value(BAND)), limits),
    afterFault: levelOf(textOf(row.value(BAND_AFTER_FAULT)), limits),
  };
  const warning = dangerInFault(node) ?? inService(node) ?? afterFault(node);
  return warning === undefined ? [] : [warning];
}

/** `asked`: within the band asked for; `above it`: within the next one; `beyond`: above both. */
type Level = "not determined" | "asked" | "above it" | "beyond";

interface Node {
  readonly row: AreaRow;
  readonly limits: BudgetLimits;
  readonly inService: Level;
  readonly afterFault: Level;
}

function levelOf(cell: string, limits: BudgetLimits): Level {
  const band = nameOf(cell);
  if (band === NOT_DETERMINED) return NOT_DETERMINED;
  if (band === limits.band) return "asked";
  return band === limits.bandAbove ? "above it" : "beyond";
}

/** A budget of 0.2 says more behind the name: `ES1 · 48.0 V ≤ 60 V dc`. */
function nameOf(cell: string): string {
  return cell.split(" · ")[0]!;
}

/** Of a node that service leaves within the lower bands. */
function dangerInFault(node: Node): Warning | undefined {
  const { row, limits, inService: level, afterFault: risen } = node;
  const low = level === "asked" || level === "above it";
  if (!low || risen !== "beyond") return undefined;
  return {
    ...found(
      row,
      "fault",
      "danger",
      `One fault lifts it above band "${limits.bandAbove}"${faultOf(row)}: reinforced isolation is needed there.`,
      AFTER_FAULT,
    ),
    ...against(limits.bandAboveLimit),
    remedy:
      "a stage with reinforced isolation in the place of the one that fails",
    cite: "touch-voltage-faults",
  };
}

function inService({ row, limits, inService: level }: Node) {
  switch (level) {
    case "asked":
      return undefined;
    case "not determined":
      return found(
        row,
        "undetermined",
        "warning",
        `In service it is not determined: treat it as live${whyOf(row)}.`,
      );
    case "above it":
      return {
        ...found(
          row,
          "band",
          "warning",
          `In service it is above ${asked(limits)}: an enclosure is needed.`,
        ),
        ...against(limits.bandLimit),
        remedy: ENCLOSE,
        cite: citeOf(limits, limits.band),
      };
    case "beyond":
      return {
        ...found(
          row,
          "band",
          "warning",
          `In service it is above band "${limits.bandAbove}": an enclosure and protection in a fault are needed.`,
        ),
        ...against(limits.bandAboveLimit),
        remedy: ENCLOSE,
        cite: citeOf(limits, limits.bandAbove),
      };
  }
}

function afterFault({ row, limits, afterFault: level }: Node) {
  if (level === "asked") return undefined;
  if (level === NOT_DETERMINED)
    return found(
      row,
      "undetermined",
      "warning",
      `Its voltage after one fault is not determined: enter Tolerance and Trip V of the stages of its feed${whyOf(row)}.`,
      AFTER_FAULT,
    );
  const warning: Warning = {
    ...found(
      row,
      "fault",
      "warning",
      `After one fault it is above ${asked(limits)}${faultOf(row)}: an enclosure is needed.`,
      AFTER_FAULT,
    ),
    ...against(limits.bandLimit),
    remedy: ENCLOSE,
    cite: "touch-voltage-faults",
  };
  return warning;
}

function asked({ band, framework, place }: BudgetLimits): string {
  return `band "${band}" of ${framework}${place === "" ? "" : `, ${place}`}`;
}

function found(
  row: AreaRow,
  what: string,
  severity: Warning["severity"],
  text: string,
  headings: VoltsHeading = IN_SERVICE,
): Warning {
  const [own, old] = headings;
  const heading = row.has(own) ? own : old;
  const value = numberOf(row.value(heading));
  return {
    id: `band-${what} ${row.item}`,
    severity,
    item: row.item,
    text,
    ...(value !== undefined && { value }),
    unit: "V",
    cite: "definition",
    at: row.at(heading),
  };
}

function against(limit: number | undefined): { readonly limit?: number } {
  return limit === undefined ? {} : { limit };
}

function faultOf(row: AreaRow): string {
  const fault = textOf(row.value("Which fault"));
  return fault === "" ? "" : ` (${fault})`;
}

/** The row's own words of it. */
function whyOf(row: AreaRow): string {
  const why = textOf(row.value("Note")) || textOf(row.value(BAND));
  return why === "" || why === NOT_DETERMINED ? "" : ` (${why})`;
}

function citeOf({ framework }: BudgetLimits, band: string): Cited {
  const known = Object.values(touchFrameworks).find(({ name }) =>
    sameItem(name, framework),
  );
  return known?.bands.find(({ name }) => name === band)?.cite ?? "definition";
}

/** An item that somebody added to the feed and not to the bands. */
function unjudgedItems(
  { Feed: feed }: FoundBudget["areas"],
  rows: readonly AreaRow[],
): Warning[] {
  if (!feed) return [];
  return areaRows(feed)
    .filter((entered) => !rows.some(({ item }) => sameItem(item, entered.item)))
    .map((entered) => ({
      id: `band-missing ${entered.item}`,
      severity: "warning",
      item: entered.item,
      text: "It stands in the feed table but not on the bands' sheet: its band is not judged.",
      unit: "",
      cite: "definition",
      at: entered.at("Item"),
    }));
}
