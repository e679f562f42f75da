/** Where every sheet of a budget holds what, so that its formulas find each other. */
import { BANDS_COLUMNS } from "../../functions/families/chain-bands.js";
import { CASES_COLUMNS } from "../../functions/families/chain-cases.js";
import { WORST_COLUMNS } from "../../functions/families/chain-limits.js";
import { SCHEDULE_COLUMNS } from "../../functions/families/chain-schedule.js";
import { SOLVED_COLUMNS } from "../../functions/families/chain.js";
import { fixedRange, fixedAt } from "../../src/plans/sheet-builder.js";
import { CHECKS_COLUMNS } from "../../src/judgement/check-row.js";
import { type Label, LABELS } from "../../src/judgement/requirements.js";
import { headerText, TABLE_BLOCKS, TABLE_COLUMNS } from "../../src/schedules/columns.js";
import { Block, type Offers } from "./block.js";
import { headingFormat, quantityFormat } from "./formats.js";
import {
  BANDS_MEANINGS,
  CASES_MEANINGS,
  CHECKS_MEANINGS,
  SCHEDULE_MEANINGS,
  SOLVED_MEANINGS,
  tableMeaning,
  WORST_MEANINGS,
} from "./heading-meanings.js";
import { OFFERED_SIZES } from "./offered-sizes.js";
import type { BudgetDocument, BudgetSample, ScheduleName } from "./sample.js";
import { Spill, type SpillColumn } from "./spill.js";

/** Schedules by the sheet that they stand on, in the order of typing. */
export const SCHEDULE_SHEETS = {
  feed: ["Supply", "Stage", "Cable", "In line"],
  loads: ["Load"],
  types: ["Location", "Stage type", "Spread"],
} as const satisfies Readonly<Record<string, readonly ScheduleName[]>>;

export type ScheduleSheet = keyof typeof SCHEDULE_SHEETS;

const FIRST_BLOCK_ROW = 4;
/** Rows from the closing row of one block to the header of the next. */
const BETWEEN = 4;

/** Checks of an item, on the average and with room. */
const CHECKS_PER_ITEM = 12;

export const DOCUMENT_ROW = 5;
export const DOCUMENT_LINES = [
  ["title", "Title"],
  ["project", "Project"],
  ["client", "Client"],
  ["number", "Document number"],
  ["issue", "Issue"],
  ["purpose", "Purpose"],
  ["date", "Date"],
  ["author", "Author"],
  ["checker", "Checker"],
  ["approver", "Approver"],
  // Written as it is issued, never typed.
  ["fingerprint", "Fingerprint as issued"],
] as const satisfies readonly (readonly [keyof BudgetDocument | "fingerprint", string])[];

export type DocumentLine = (typeof DOCUMENT_LINES)[number][0];

/** On Notes, beside its text. */
export const SIZES_ROW = 5;
export const SIZES_COLUMN = 5;

export const SOLVED_ROW = DOCUMENT_ROW + DOCUMENT_LINES.length + 3;
export const ASKED_ROW = SOLVED_ROW + 5;

export class Places {
  readonly blocks: readonly Block[];
  readonly items: number;
  readonly table: Spill;
  readonly solved: Spill;
  readonly bands: Spill;
  readonly cases: Spill;
  readonly worst: Spill;
  readonly checks: Spill;
  readonly schedule: Spill;
  /** Each period of the day solved, side by side: a spill may grow downward. */
  readonly periods: readonly Spill[];

  constructor(readonly sample: BudgetSample) {
    this.blocks = placedBlocks(sample);
    this.items = sum(this.blocks.filter(({ sheet }) => sheet !== "types"));
    const solved = spillColumns(SOLVED_COLUMNS, SOLVED_MEANINGS);
    const columns = TABLE_COLUMNS.map((column) => ({
      heading: headerText(column),
      format:
        quantityFormat(column.quantity) ??
        headingFormat(column.header) ??
        (column.quantity === "words" ? undefined : "General"),
      means: tableMeaning(column.field),
    }));
    this.table = new Spill("table", 4, columns, this.items);
    this.solved = new Spill("budget", 19, solved, this.items);
    this.bands = new Spill("bands", 4, spillColumns(BANDS_COLUMNS, BANDS_MEANINGS), this.items);
    this.cases = new Spill("cases", 4, spillColumns(CASES_COLUMNS, CASES_MEANINGS), CASES);
    this.worst = new Spill("cases", 22, spillColumns(WORST_COLUMNS, WORST_MEANINGS), this.items);
    this.checks = new Spill(
      "checks",
      7,
      spillColumns(CHECKS_COLUMNS, CHECKS_MEANINGS),
      CHECKS_PER_ITEM * this.items,
    );
    this.schedule = new Spill(
      "schedule",
      10,
      spillColumns(SCHEDULE_COLUMNS, SCHEDULE_MEANINGS),
      this.items,
    );
    this.periods = (sample.day?.periods ?? []).map(
      (_, index) =>
        new Spill("day", DAY_SOLVED_ROW, solved, this.items, index * (solved.length + 1)),
    );
  }

  block(name: ScheduleName): Block {
    return this.blocks.find((one) => one.name === name)!;
  }

  /** The schedule that names an item. @throws {RangeError} where none does. */
  blockOf(item: string): Block {
    const found = this.blocks.find((one) => one.has(item));
    if (!found) throw new RangeError(`no schedule has ${item}`);
    return found;
  }

  /** What the cells of schedules offer in their lists. */
  get offers(): Offers {
    return {
      items: this.table.column("Item"),
      locations: this.block("Location").namesRange,
      types: this.block("Stage type").namesRange,
      sizes: `{notes}!${fixedRange(SIZES_COLUMN, SIZES_ROW, SIZES_COLUMN, SIZES_ROW + OFFERED_SIZES.length - 1)}`,
    };
  }

  /** What `CHAIN_TABLE` makes the feed table of. */
  get tabled(): readonly string[] {
    const blocks = TABLE_BLOCKS.flatMap((name) => (name === "Asked for" ? [] : this.block(name)));
    return [...blocks.map(({ range }) => range), this.asked];
  }

  /** The block of requirements, with the row that closes it. */
  get asked(): string {
    return `{inputs}!${this.askedHere}`;
  }

  get askedHere(): string {
    return fixedRange(0, ASKED_ROW, 3, ASKED_ROW + LABELS.length + 1);
  }

  requirement(label: Label): string {
    return `{inputs}!${fixedAt(1, ASKED_ROW + 1 + LABELS.indexOf(label))}`;
  }

  get loads(): string {
    return `{inputs}!${fixedAt(1, SOLVED_ROW)}`;
  }

  get supply(): string {
    return `{inputs}!${fixedAt(1, SOLVED_ROW + 1)}`;
  }

  /** The value beside a line of the document. */
  document(line: DocumentLine): string {
    const at = DOCUMENT_LINES.findIndex(([key]) => key === line);
    return `{inputs}!${fixedAt(1, DOCUMENT_ROW + at)}`;
  }

  get documentHere(): string {
    return fixedRange(0, DOCUMENT_ROW, 1, DOCUMENT_ROW + DOCUMENT_LINES.length - 1);
  }

  /** Header row of the other figures. */
  get otherRow(): number {
    return ASKED_ROW + LABELS.length + 4;
  }

  /** @throws {RangeError} for a figure that the sample does not have. */
  figure(label: string): string {
    const figures = this.sample.otherFigures ?? [];
    const index = figures.findIndex((one) => one.label === label);
    if (index < 0) throw new RangeError(`there is no other figure ${label}`);
    return `{inputs}!${fixedAt(1, this.otherRow + 1 + index)}`;
  }

  /** Heading row of the day. */
  get dayRow(): number {
    const others = this.sample.otherFigures?.length ?? 0;
    return this.otherRow + (others === 0 ? 0 : others + 3);
  }
}

const CASES = 9;
const DAY_SOLVED_ROW = 20;

function spillColumns<Heading extends string>(
  headings: readonly Heading[],
  meanings: Readonly<Record<Heading, string>>,
): SpillColumn[] {
  return headings.map((heading) => ({
    heading,
    format: headingFormat(heading),
    means: meanings[heading],
  }));
}

function placedBlocks(sample: BudgetSample): Block[] {
  return Object.entries(SCHEDULE_SHEETS).flatMap(([sheet, names]) => {
    let row = FIRST_BLOCK_ROW;
    return names.map((name) => {
      const rows = sample.schedules[name] ?? [];
      const block = new Block(name, sheet, row, rows, sample.emptyRows);
      row = block.closing + BETWEEN;
      return block;
    });
  });
}

function sum(blocks: readonly Block[]): number {
  return blocks.reduce((count, block) => count + block.count, 0);
}
