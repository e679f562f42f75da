/** The figures that everything is calculated with, as the feed table holds them, and what warm air leaves of the ratings of stages. */
import { type TableField, tableHeader } from "../../../src/schedules/columns.js";
import { ITEM_BLOCKS } from "../../../src/schedules/schedule.js";
import type { ItemBlock } from "../../budgets/reading/feed-outline.js";
import { rangeRows, numberOf, sameItem, textOf } from "../../budgets/reading/range-table.js";
import type { CheckName } from "../../../src/judgement/check-row.js";
import type { ReadRange } from "../../budgets/reading/found-budget.js";
import {
  heading,
  notedTable,
  numberText,
  paragraph,
  type ReportBlock,
  type ReportCell,
  words,
} from "./blocks.js";
import { type ReportSource, shownRange, shownCell } from "./report-source.js";

const USED: Readonly<Record<ItemBlock, readonly TableField[]>> = {
  Supply: [
    ...(["voltage", "lowestVoltage", "highestVoltage", "tolerance", "inParallel"] as const),
    ...(["resistance", "leastResistance", "ratedCurrent", "ratedPower"] as const),
    ...(["currentLimit", "shutsDownAt", "rippleRms", "ripplePeak"] as const),
  ],
  Stage: [
    ...(["inParallel", "unitsNeeded", "ratio", "voltage", "tolerance"] as const),
    ...(["lowestVoltage", "highestVoltage", "resistance", "leastResistance"] as const),
    ...(["fixedLoss", "linearLoss", "quadraticLoss", "efficiency"] as const),
    ...(["ratedCurrent", "ratedPower", "hottestC"] as const),
  ],
  Cable: [
    ...(["inParallel", "cores", "length", "size", "conductorC", "coldestC"] as const),
    ...(["hottestC", "resistance", "leastResistance", "ratedCurrent", "inductance"] as const),
    "mass",
  ],
  "In line": [
    ...(["inLineKind", "voltage", "inParallel", "resistance", "leastResistance"] as const),
    ...(["ratedCurrent", "ratedVoltage"] as const),
  ],
  Load: [
    ...(["kind", "quantity", "margin", "lightLoad", "load", "peakLoad"] as const),
    ...(["lowestVoltage", "highestVoltage"] as const),
  ],
};

const HOW = [
  "Of one item where In parallel says how many. Ratio is output over input, without load.",
  "Resistance is the greatest: of a cable at Conductor at most, with its length allowance, of both conductors. Least resistance is that of the coldest air.",
  "Loads are in W, A or Ω by their kind, of all of their quantity, with their margin. Rated A of a cable that has none typed is by its heat balance.",
] as const;

export function figuresAsUsed(source: ReportSource): readonly ReportBlock[] {
  const range = source.budget.ranges["Feed"];
  const [head = [], ...rows] = range ? shownRange(source, range) : [];
  const labels = head.map(({ text }) => text);
  const tables = ITEM_BLOCKS.flatMap((block) => {
    const own = rows.filter((row) => row[labels.indexOf(tableHeader("block"))]?.text === block);
    return own.length === 0 ? [] : [usedTable(source, block, labels, own)];
  });
  if (tables.length === 0) return [];
  return [heading("Figures as used"), ...HOW.map(paragraph), ...tables];
}

function usedTable(
  source: ReportSource,
  block: ItemBlock,
  labels: readonly string[],
  rows: readonly (readonly ReportCell[])[],
): ReportBlock {
  const fields = (["item", ...USED[block]] as const).map(tableHeader);
  const ratings = rows.map((row) => ratingLeft(source.budget.ranges["Checks"], row[0]?.text ?? ""));
  const hasRatings = block === "Stage" && ratings.some(([part]) => part?.isNumber);
  return notedTable({
    caption: block,
    head: [...fields, ...(hasRatings ? RATING_LEFT : []), "Note"],
    rows: rows.map((row, index) => {
      const cell = (label: string) => row[labels.indexOf(label)] ?? words("");
      return [...fields.map(cell), ...(hasRatings ? (ratings[index] ?? []) : []), cell("Note")];
    }),
  });
}

const RATING_LEFT = ["Part of its rating left at the hottest", "Rating left there"] as const;
const AMBIENT: CheckName = "Stage in its ambient";

/** As the check of its ambient has it: the limit, in parts `of 60 A`. */
function ratingLeft(checks: ReadRange | undefined, stage: string): ReportCell[] {
  const row = (checks ? rangeRows(checks) : []).find(
    (one) => sameItem(one.item, stage) && one.value("Check") === AMBIENT,
  );
  const part = row && numberOf(row.value("Limit"));
  const [, rating, unit] = /^of ([\d.]+) (\w+)$/.exec(textOf(row?.value("Unit"))) ?? [];
  if (part === undefined || rating === undefined) return [words("–"), words("–")];
  const rest = shownCell(part * Number(rating), "0.0#");
  return [shownCell(part, "0.0%"), numberText(`${rest.text} ${unit}`)];
}
