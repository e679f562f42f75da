/** Cautions, how to read the sheets, what this budget's figures rest on, and the versions. */
import type { PlanCell, SheetPlan } from "../plans/sheet-plan.js";
import { cellPlace } from "../plans/addresses.js";
import {
  area,
  bareCell,
  call,
  formulaCell,
  headingRow,
  valueCell,
} from "../plans/sheet-builder.js";
import { type CitationId, citationLine } from "../quantities/citations.js";
import { ACCEPTANCE_COLUMNS } from "../warnings/acceptances.js";
import type { BudgetScenario } from "./budget-scenario.js";
import { BOUNDS, CAUTIONS, originOf } from "./cautions.js";

const READING = [
  "Inputs holds every assumption once. Budget reads it into a feed table, one row for each item, and solves it with one CHAIN_SOLVE; Bands judges the highest voltage of every node.",
  "Choose on Inputs which loads (light, nominal, peak) and which supply voltage (lowest, nominal, highest) are solved. Cases has all nine at once, the worst of them, and the worst case of every item with tolerances.",
  "✔ within its limits; ● a note; ▲ outside what was asked for; ✖ does not work or can hurt someone; ◇ not determined for want of an input. A – stands where a row has no such figure, or none was entered for it.",
  "Figures of the feed table are of one item; In parallel multiplies them. Resistances of runs are of both conductors, hot.",
  "Input V of the supply is its open-circuit voltage, so that its own loss is among the losses: supply power is all loads and all losses, and what is left over is the closing error.",
  "Drop of a ratio stage is its droop: ratio times input voltage, less output voltage.",
  "Bands takes no drop and no load, because a limit has to hold at every load down to none.",
  "Bands is one CHAIN_BANDS over the feed table. One fault joins input and output of a stage that is not reinforced, and lifts what feeds it as well as what it feeds; Which fault names the stage. A margin is a part of the limit, below 0 beyond it.",
  "Lowest margin and least margin are the distance of an input voltage to the nearer end of its window, as a share of that end.",
  "To add an item, insert a row inside the feed table and one inside Item by item, and copy the row above into each; where there is a sheet Day, also one inside its table of heat for an item that is no load.",
] as const;

/** Works that the sheets' own formulas rest on, whatever the scenario. */
const ALWAYS: readonly CitationId[] = [
  "resistance-law",
  "linear-temperature",
  "two-roots",
  "ratio-circuit",
  "loss-quadratic",
  "iec-62368-1",
  "iec-60364-4-41",
  "iso-6469-3",
  "osha-50-v",
  "touch-voltage-faults",
  "iec-60664-1-altitude",
];

export const ABOUT_ROW = 4;
const ACCEPTED_ROWS = 40;

export function notesSheet(scenario: BudgetScenario): SheetPlan {
  const sections: readonly (readonly [
    string,
    readonly string[],
    "text" | "caution",
  ])[] = [
    ["Cautions", CAUTIONS, "caution"],
    ["What these figures do not say", BOUNDS, "text"],
    [
      "This budget",
      [originOf(scenario), scenario.story, ...scenario.remarks].filter(
        (line) => line !== "",
      ),
      "text",
    ],
    ["How to read it", READING, "text"],
    [
      "What the figures rest on",
      citationsOf(scenario).map(citationLine),
      "text",
    ],
  ];
  const texts: PlanCell[] = [];
  const merges: string[] = [];
  let row = ABOUT_ROW + 2;
  for (const [heading, lines, style] of sections) {
    texts.push(valueCell(0, row, heading, "heading"));
    for (const line of lines) {
      row += 1;
      texts.push(valueCell(0, row, line, style));
      merges.push(`A${row}:C${row}`);
    }
    row += 2;
  }
  const acceptedRow = row + 2;
  return {
    key: "notes",
    name: "Notes",
    columnWidths: [320, 200, 420, 620],
    frozenRows: 0,
    cells: [
      valueCell(0, 1, `${scenario.title}: notes`, "title"),
      ...aboutCells(scenario),
      ...texts,
      ...acceptedCells(acceptedRow),
    ],
    merges,
    validations: [],
    conditionalFormats: [],
    pictures: [],
  };
}

/** Warnings that the pane's user accepted; a test of a warning's id and finding tells whether it still holds. */
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
      bareCell(
        index % columns,
        head + 1 + Math.floor(index / columns),
        "inputText",
      ),
    ),
  ];
}

/** Of the table that the pane writes acceptances into, with its headings. */
export function acceptedArea({ cells }: SheetPlan): string {
  const [first] = ACCEPTANCE_COLUMNS;
  const head = cells.find(({ value }) => value === first);
  if (!head) throw new RangeError("the notes have no place for acceptances");
  const { row } = cellPlace(head.at);
  return area(
    0,
    row + 1,
    ACCEPTANCE_COLUMNS.length - 1,
    row + 1 + ACCEPTED_ROWS,
  );
}

/** What the pane finds a budget by: plan, its version, and the engine that calculates it. */
function aboutCells({ id, version }: BudgetScenario): PlanCell[] {
  const head = ABOUT_ROW - 1;
  return [
    valueCell(0, head, "Budget", "tableHeading"),
    valueCell(1, head, "Its version", "tableHeading"),
    valueCell(2, head, "Calculated by Downfeed", "tableHeading"),
    valueCell(0, ABOUT_ROW, id, "label"),
    valueCell(1, ABOUT_ROW, version, "label"),
    formulaCell(2, ABOUT_ROW, call("ENGINE_VERSION"), "resultText"),
  ];
}

function citationsOf({ inputs }: BudgetScenario): CitationId[] {
  const own = inputs.flatMap(({ lines }) =>
    lines.flatMap(({ citation }) => citation ?? []),
  );
  return [...new Set([...own, ...ALWAYS])];
}
