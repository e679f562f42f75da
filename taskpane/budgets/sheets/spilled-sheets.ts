/** Sheets that are what one function spills, with a few counts and sums above: Table, Bands, Cases, Checks, Schedule. */
import type { PlanRule, SheetPlan } from "../../../src/plans/sheet-plan.js";
import {
  range,
  bareCell,
  call,
  formulaCell,
  headingRow,
  quoted,
  valueCell,
} from "../../../src/plans/sheet-builder.js";
import { type Verdict, VERDICTS } from "../../../src/judgement/check-row.js";
import { HEADROOM_COLUMNS, HEADROOM_MEANINGS, VERDICT_MEANINGS } from "../heading-meanings.js";
import type { Places } from "../places.js";
import type { Spill } from "../spill.js";
import { sheetPlan } from "./sheet.js";

/** Column widths: the column of items, then those of figures, but for `words`. */
function widths(columns: number, words: Readonly<Record<number, number>>) {
  return Array.from({ length: columns }, (_, index) => words[index] ?? (index === 0 ? 220 : 96));
}

/** All that is typed, as one table; out of print. */
export function tableSheet(places: Places): SheetPlan {
  const { table } = places;
  return sheetPlan(places, {
    key: "table",
    name: "Table",
    subtitle:
      "CHAIN_TABLE of the schedules: one row for each item, in feeding order; figures of one item, mass and price of the row. Everything else reads it.",
    columnWidths: widths(table.width, { 1: 180, 2: 110, 71: 220, 72: 420 }),
    frozenRows: table.row,
    cells: table.cells(call("CHAIN_TABLE", ...places.tabled)),
  });
}

export function bandsSheet(places: Places): SheetPlan {
  const { bands, table, asked } = places;
  const beyond = ["Margin in service", "Margin after one fault"].map((heading): PlanRule => ({
    range: columnRange(bands, heading),
    kind: "below",
    limit: 0,
    paint: "warning",
  }));
  return sheetPlan(places, {
    key: "bands",
    name: "Bands",
    subtitle:
      "Highest voltage of every item in service and after one fault, without load or drop, against the band of the framework that Inputs names. Notes says what each band means.",
    columnWidths: widths(11, { 3: 110, 4: 110, 8: 260, 9: 120, 10: 620 }),
    frozenRows: bands.row,
    cells: bands.cells(call("CHAIN_BANDS", table.range, asked)),
    conditionalFormats: beyond,
  });
}

export function casesSheet(places: Places): SheetPlan {
  const { cases, worst, table } = places;
  const headroom = worst.row - 4;
  const unitsLost = places.requirement("Units lost");
  return sheetPlan(places, {
    key: "cases",
    name: "Cases",
    subtitle:
      "All nine operating points; how far the loads can grow on the lowest supply; the worst of every item with its tolerances.",
    columnWidths: widths(11, { 6: 170, 7: 300, 8: 420, 10: 420 }),
    cells: [
      ...cases.cells(call("CHAIN_CASES", table.range)).slice(0, caseCells(cases)),
      valueCell(0, headroom - 2, "Headroom on the lowest supply", "heading"),
      ...headingRow(0, headroom - 1, HEADROOM_COLUMNS, HEADROOM_MEANINGS),
      {
        ...formulaCell(
          0,
          headroom,
          call("CHAIN_HEADROOM", table.range, quoted("lowest")),
          "result",
          { format: "0.00" },
        ),
        spill: [1, HEADROOM_COLUMNS.length] as const,
      },
      ...[1, 2, 3].map((column) =>
        bareCell(
          column,
          headroom,
          column === 2 ? "result" : "resultText",
          column === 2 ? { format: "0.00" } : {},
        ),
      ),
      valueCell(0, worst.row - 2, "The worst that every item sees", "heading"),
      ...worst.cells(call("CHAIN_WORST", table.range, `IF(N(${unitsLost})=1,1,0)`)),
    ],
  });
}

/** It never grows: the anchor, its headings and nine rows. */
function caseCells({ width, count }: Spill): number {
  return width * (count + 1);
}

export function checksSheet(places: Places): SheetPlan {
  const { checks, table, asked } = places;
  return sheetPlan(places, {
    key: "checks",
    name: "Checks",
    subtitle:
      "Every check in the case that is worst for it. What is not determined says what to enter. A comparison with what Inputs asks for; it approves nothing.",
    columnWidths: widths(14, {
      1: 230,
      2: 420,
      3: 140,
      5: 150,
      6: 130,
      8: 110,
      10: 170,
      11: 170,
      12: 420,
      13: 300,
    }),
    frozenRows: checks.row,
    frozenColumns: 2,
    cells: [
      ...headingRow(0, checks.row - 3, VERDICTS, VERDICT_MEANINGS),
      ...VERDICTS.map((each, column) =>
        formulaCell(
          column,
          checks.row - 2,
          checks.guarded(`COUNTIF(${checks.column("Verdict")},${quoted(each)})`),
          "result",
          { format: "0" },
        ),
      ),
      ...checks.cells(call("CHAIN_CHECKS", table.range, asked)),
    ],
    conditionalFormats: [
      { range: columnRange(checks, "Verdict"), kind: "text", text: FAILS, paint: "warning" },
    ],
  });
}

const FAILS: Verdict = "fails";

/** Where a column of a spill stands, on its own sheet. */
function columnRange(spill: Spill, heading: string): string {
  const column = spill.placeOf(heading);
  return range(column, spill.row + 1, column, spill.last);
}

const SUMMED = ["Mass (kg)", "Volume (l)", "Price"] as const;

/** Sums the rows that have a figure; one that nobody has entered is not 0. */
function sumOfKnown(schedule: Spill, list: string, heading: (typeof SUMMED)[number]): string {
  const [lists, figures] = [schedule.column("List"), schedule.column(heading)];
  const ofList = `${lists},${quoted(list)}`;
  return `IF(COUNTIFS(${ofList},${figures},">=0")=0,"–",SUMIF(${ofList},${figures}))`;
}

export function proposalSheet(places: Places): SheetPlan {
  const { schedule, table } = places;
  const head = schedule.row - 5;
  const sums = ["Cable", "Stage"].flatMap((list, index) => [
    valueCell(0, head + 1 + index, `${list}s`, "label"),
    ...SUMMED.map((heading, column) =>
      formulaCell(
        1 + column,
        head + 1 + index,
        schedule.guarded(sumOfKnown(schedule, list, heading)),
        "result",
        { format: heading === "Price" ? "#,##0" : "0.0" },
      ),
    ),
  ]);
  return sheetPlan(places, {
    key: "schedule",
    name: "Schedule",
    subtitle:
      "Cables and stages for a proposal. Current, drop, loss and output are the highest of the nine cases, of the whole row.",
    columnWidths: widths(22, {
      0: 90,
      1: 220,
      2: 180,
      3: 140,
      10: 140,
      20: 220,
      21: 420,
    }),
    frozenRows: schedule.row,
    frozenColumns: 2,
    cells: [
      ...headingRow(0, head, ["Sums", ...SUMMED]),
      formulaCell(4, head, `${places.requirement("Currency")}&""`, "unit"),
      ...sums,
      ...schedule.cells(call("CHAIN_SCHEDULE", table.range)),
    ],
  });
}
