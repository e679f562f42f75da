/** Cautions, how to read the sheets, what the figures rest on, accepted warnings, and the versions. */
import { catalogue } from "../../../functions/catalogue.js";
import type { PlanCell, SheetPlan } from "../../../src/plans/sheet-plan.js";
import {
  range,
  bareCell,
  call,
  formulaCell,
  headingRow,
  valueCell,
} from "../../../src/plans/sheet-builder.js";
import { type CitationId, citationLine } from "../../../src/quantities/citations.js";
import { BAND_MEANINGS } from "../../../src/safety/band-meanings.js";
import { ACCEPTANCE_COLUMNS } from "../warnings/acceptances.js";
import { BOUNDS, CAUTIONS } from "../cautions.js";
import { OFFERED_SIZES } from "../offered-sizes.js";
import { type Places, SIZES_COLUMN, SIZES_ROW } from "../places.js";
import { sheetPlan } from "./sheet.js";

const READING = [
  "Feed, Loads and Types hold what is typed, Inputs what is asked for. Table is all of it as one feed table, made by CHAIN_TABLE; every other sheet reads Table.",
  "Insert a row above the grey line of a schedule for one more item. Nothing else has to be changed: every sheet follows.",
  "Budget shows the case that Inputs chooses; Cases, Bands, Checks and Schedule show all of them.",
  "Figures of the feed table are of one item; In parallel multiplies them. Mass and price are those of the row. Resistances of cables are of both conductors, hot. Loads have their margin.",
  "Input V of a supply is its open-circuit voltage, so that its own loss is among the losses: supply power is all loads and all losses, and what is left over is the closing error.",
  "A check holds, fails, is not determined for want of a figure, or is not asked. Enter or try says what to do; Cause and Column say where.",
  "Bands takes no drop and no load, because a limit has to hold at every load down to none. One fault joins input and output of a stage that is not reinforced; Which fault names the stage.",
  "Least margin is the distance of an input voltage to the nearer end of its window, as a part of that end.",
] as const;

/** Heading of the sources. */
export const RESTS_ON = "What the figures rest on";

const ABOUT_ROW = 5;
const ACCEPTED_ROWS = 40;
const LIST_COLUMNS = ["Rows of", "Column of the list", "Becomes", "Unit"] as const;
const LIST_ROWS = 60;
const FIRST_TEXT_ROW = ABOUT_ROW + 2;

interface NotesSheet {
  readonly sheet: SheetPlan;
  readonly about: string;
  readonly accepted: string;
  readonly lists: string;
}

/** @param called Ids of the cell functions of the budget, whose citations are listed. */
export function notesSheet(places: Places, called: ReadonlySet<string>): NotesSheet {
  const { origin, story, remarks } = places.sample;
  const sections: readonly (readonly [string, readonly string[], "text" | "caution"])[] = [
    ["Cautions", CAUTIONS, "caution"],
    ["What these figures do not say", BOUNDS, "text"],
    ["This budget", [origin, story, ...remarks].filter((line) => line !== ""), "text"],
    ["How to read it", READING, "text"],
    ["What the voltage bands mean", [...BAND_MEANINGS.values()], "text"],
    [RESTS_ON, citationsOf(called).map(citationLine), "text"],
  ];
  const texts: PlanCell[] = [];
  const merges: string[] = [];
  let row = FIRST_TEXT_ROW;
  for (const [heading, lines, style] of sections) {
    texts.push(valueCell(0, row, heading, "heading"));
    for (const line of lines) {
      row += 1;
      texts.push(valueCell(0, row, line, style));
      merges.push(range(0, row, 2, row));
    }
    row += 2;
  }
  const accepted = row + 2;
  const lists = accepted + ACCEPTED_ROWS + 4;
  return {
    sheet: sheetPlan(places, {
      key: "notes",
      name: "Notes",
      subtitle: "Cautions, and how to read this budget.",
      columnWidths: [320, 200, 420, 620, 40, 110],
      frozenRows: 0,
      cells: [
        ...aboutCells(places),
        ...sizeCells(),
        ...texts,
        ...acceptedCells(accepted),
        ...listCells(lists),
      ],
      merges,
    }),
    about: range(0, ABOUT_ROW, 2, ABOUT_ROW),
    accepted: range(0, accepted, ACCEPTANCE_COLUMNS.length - 1, accepted + ACCEPTED_ROWS),
    lists: range(0, lists, LIST_COLUMNS.length - 1, lists + LIST_ROWS),
  };
}

/** What the pane finds a budget by: plan, its version, and the engine that calculates it. */
function aboutCells({ sample: { id, version } }: Places): PlanCell[] {
  return [
    ...headingRow(0, ABOUT_ROW - 1, ["Budget", "Its version", "Calculated by Downfeed"]),
    valueCell(0, ABOUT_ROW, id, "label"),
    valueCell(1, ABOUT_ROW, version, "label"),
    formulaCell(2, ABOUT_ROW, call("ENGINE_VERSION"), "resultText"),
  ];
}

/** What the cells of Size offer. */
function sizeCells(): PlanCell[] {
  return [
    valueCell(SIZES_COLUMN, SIZES_ROW - 1, "Sizes offered", "tableHeading"),
    ...OFFERED_SIZES.map((size, index) =>
      valueCell(SIZES_COLUMN, SIZES_ROW + index, size, "label"),
    ),
  ];
}

/** Warnings that somebody accepted; the pane writes them here. */
function acceptedCells(head: number): PlanCell[] {
  const columns = ACCEPTANCE_COLUMNS.length;
  return [
    valueCell(0, head - 2, "Warnings accepted with a reason", "heading"),
    valueCell(
      0,
      head - 1,
      "Written here by the pane's view Warnings. An acceptance holds only while the warning finds what it found then.",
      "label",
    ),
    ...headingRow(0, head, ACCEPTANCE_COLUMNS),
    ...Array.from({ length: columns * ACCEPTED_ROWS }, (_, index) =>
      bareCell(index % columns, head + 1 + Math.floor(index / columns), "inputText"),
    ),
  ];
}

/** What the columns of pasted lists were taken for; the pane writes and reads it. */
function listCells(head: number): PlanCell[] {
  const columns = LIST_COLUMNS.length;
  return [
    valueCell(0, head - 2, "Columns of pasted lists", "heading"),
    valueCell(
      0,
      head - 1,
      "Written here by Paste a list in the pane's view Feed, and read for the next issue of a list.",
      "label",
    ),
    ...headingRow(0, head, LIST_COLUMNS),
    ...Array.from({ length: columns * LIST_ROWS }, (_, index) =>
      bareCell(index % columns, head + 1 + Math.floor(index / columns), "inputText"),
    ),
  ];
}

function citationsOf(called: ReadonlySet<string>): CitationId[] {
  const cited = catalogue.filter(({ id }) => called.has(id)).flatMap(({ citations }) => citations);
  return [...new Set(cited)];
}
