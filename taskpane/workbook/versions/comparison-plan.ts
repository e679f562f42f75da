/** Versions of a feed on a sheet: each held against the first by a call of CHAIN_COMPARE, side by side. */
import { COMPARE_COLUMNS } from "../../../functions/families/chain-compare.js";
import {
  BETTER_WORDS,
  COVER_FIGURES,
  type CoverKind,
  WORSE_WORDS,
} from "../../../src/judgement/comparison/feed-comparison.js";
import { NONE } from "../../../src/judgement/check-row.js";
import { fixedAddress, quotedSheet } from "../../../src/plans/addresses.js";
import {
  call,
  fixedAt,
  formulaCell,
  quoted,
  range,
  at,
  valueCell,
} from "../../../src/plans/sheet-builder.js";
import type {
  PlanCell,
  PlanRule,
  PlanValidation,
  SheetPlan,
  WorkbookPlan,
} from "../../../src/plans/sheet-plan.js";
import { MARGIN_FORMAT } from "../../budgets/formats.js";
import type { ReadRange } from "../../budgets/reading/found-budget.js";
import { SOLVED_CHOICES } from "../../budgets/sheets/inputs-sheet.js";
import { Spill } from "../../budgets/spill.js";
import { words } from "../../words/words.js";
import { comparedRows, type ComparedRow, type Version } from "./compared-versions.js";

const said = words.handOver.versions;

const KEY = "compare";
const ABOUT_ROW = 2;
const CHOICES_ROW = ABOUT_ROW + said.howToRead.length;
const HEAD = CHOICES_ROW + SOLVED_CHOICES.length + 1;

type Heading = (typeof COMPARE_COLUMNS)[number];

const WIDTHS: Readonly<Record<Heading, number>> = {
  Item: 190,
  Figure: 250,
  A: 120,
  B: 120,
  Difference: 100,
  "Relative difference": 100,
  Unit: 60,
  Verdict: 180,
};
const GAP = 30;

/** Of whatever quantity stands in a row. */
const ANY_FIGURE = "0.0##";

const FIGURES: ReadonlySet<string> = new Set<Heading>(["A", "B", "Difference"]);

const COLUMNS = COMPARE_COLUMNS.map((heading) => ({
  heading,
  ...(FIGURES.has(heading) && { format: ANY_FIGURE }),
  ...(heading === "Relative difference" && { format: "0.0%" }),
}));

const COVER_FORMATS: Readonly<Record<CoverKind, string>> = {
  count: "0",
  power: "0.0",
  // A least margin among them.
  fraction: MARGIN_FORMAT,
  place: "General",
  mass: "0.0",
  price: "#,##0",
};

/** @param first What each of the others is held against. */
export function comparisonPlan(first: Version, others: readonly Version[]): WorkbookPlan {
  const blocks = others.map((other, index) => new ComparedBlock(first, other, index));
  return {
    id: "comparison",
    title: said.comparison,
    stem: "Compare",
    names: [],
    sheets: [comparisonSheet(first, blocks)],
  };
}

function comparisonSheet(first: Version, blocks: readonly ComparedBlock[]): SheetPlan {
  return {
    key: KEY,
    name: said.sheet,
    columnWidths: blocks.flatMap(() => [...COMPARE_COLUMNS.map((one) => WIDTHS[one]), GAP]),
    frozenRows: HEAD,
    frozenColumns: 2,
    cells: [
      formulaCell(0, 1, `${quoted(said.heading)}&${titleText(first)}`, "title"),
      ...said.howToRead.map((line, index) => valueCell(0, ABOUT_ROW + index, line, "subtitle")),
      ...SOLVED_CHOICES.flatMap(([label], index) => [
        valueCell(0, CHOICES_ROW + index, said.itemsAt(label), "label"),
        valueCell(CHOICES_COLUMN, CHOICES_ROW + index, "nominal", "inputText"),
      ]),
      ...blocks.flatMap((block) => block.cells()),
    ],
    merges: [],
    validations: SOLVED_CHOICES.map(([label, values], index): PlanValidation => ({
      kind: "list",
      values,
      range: at(CHOICES_COLUMN, CHOICES_ROW + index),
      message: said.oneOf(label, values),
    })),
    conditionalFormats: blocks.flatMap((block) => block.rules()),
    pictures: [],
  };
}

/** Behind its label, which may reach over the first two columns. */
const CHOICES_COLUMN = 2;

/** One version held against the first. */
class ComparedBlock {
  private readonly rows: readonly ComparedRow[];
  private readonly spill: Spill;

  constructor(
    private readonly first: Version,
    private readonly other: Version,
    index: number,
  ) {
    this.rows = comparedRows(first, other) ?? [];
    const left = index * (COMPARE_COLUMNS.length + 1);
    this.spill = new Spill(KEY, HEAD, COLUMNS, this.rows.length, left);
  }

  cells(): PlanCell[] {
    const { first, other, spill } = this;
    const ranges = [first.feed, other.feed, first.asked, other.asked].map(reference);
    const choices = SOLVED_CHOICES.map((_, index) => fixedAt(CHOICES_COLUMN, CHOICES_ROW + index));
    const heading = `"A: "&${titleText(first)}&"; B: "&${titleText(other)}`;
    const looks = this.looks();
    return [
      formulaCell(spill.left, HEAD - 1, heading, "heading"),
      ...spill
        .cells(call("CHAIN_COMPARE", ...ranges, ...choices))
        .map((cell) => ({ ...cell, ...looks.get(cell.at) })),
    ];
  }

  /** Figures of the whole feed have formats of their own; words may be longer than their column is wide. */
  private looks(): ReadonlyMap<string, Partial<PlanCell>> {
    const { rows, spill } = this;
    const looks = new Map<string, Partial<PlanCell>>();
    for (let row = 0; row < Math.max(rows.length, COVER_FIGURES.length); row += 1)
      for (const heading of COMPARE_COLUMNS) {
        const cover = FIGURES.has(heading) ? COVER_FIGURES[row] : undefined;
        const shows = rows[row]?.[heading];
        looks.set(at(spill.placeOf(heading), HEAD + 1 + row), {
          ...(cover && { format: COVER_FORMATS[cover.is] }),
          ...(typeof shows === "string" && shows !== NONE && { style: "text", shows }),
        });
      }
    return looks;
  }

  rules(): PlanRule[] {
    const { spill } = this;
    const column = spill.placeOf("Verdict");
    const isOne = (list: readonly string[]) =>
      `OR(${list.map((word) => `${at(column, HEAD + 1)}=${quoted(word)}`).join(",")})`;
    const verdicts = range(column, HEAD + 1, column, spill.last);
    return [
      { range: verdicts, kind: "formula", formula: isOne(BETTER_WORDS), paint: "good" },
      { range: verdicts, kind: "formula", formula: isOne(WORSE_WORDS), paint: "warning" },
    ];
  }
}

/** From the sheet of a comparison to one of a budget. */
function reference({ sheet, address }: Pick<ReadRange, "sheet" | "address">): string {
  return `${quotedSheet(sheet)}!${fixedAddress(address)}`;
}

/** As the pane names a budget; its title follows Inputs. */
function titleText({ budget: { stem, ranges } }: Version): string {
  const title = ranges["Title"];
  return title ? `${reference(title)}&${quoted(` · ${stem}`)}` : quoted(stem);
}
