/** What one budget is made of, as data: its document, what is asked of it, its schedules. The sheets are built from it. */
import type { Label } from "../../src/judgement/requirements.js";
import type { BlockName } from "../../src/schedules/columns.js";

export interface BudgetSample {
  readonly id: string;
  /** Raised when the sheets of this budget change. */
  readonly version: string;
  readonly stem: string;
  readonly document: BudgetDocument;
  /** One sentence on what is fed from where. */
  readonly story: string;
  /** One sentence on whose figures these are; "" where it holds none. */
  readonly origin: string;
  /** Values by label; a label that is left out stands empty. */
  readonly asked: Readonly<Partial<Record<Label, Entered | Asked>>>;
  /** Rows by header, without its unit; the block's own name is that of the item. */
  readonly schedules: Readonly<Partial<Record<ScheduleName, readonly ScheduleRow[]>>>;
  /** Rows of every block that stand empty, to be typed. */
  readonly emptyRows: number;
  /** What its own questions read beside the schedules. */
  readonly otherFigures?: readonly OtherFigure[];
  readonly day?: Day;
  /** What else is asked of it, on a sheet of its own. */
  readonly answers?: (reach: AnswerReach) => readonly AnswerTable[];
  /** For its Notes. */
  readonly remarks: readonly string[];
}

/** A figure or a word; a formula begins with `=`. */
export type Entered = number | string;

export interface Asked {
  readonly value: Entered;
  /** Where it is asked for: a clause, a code, a reason. */
  readonly citation: string;
}

export type ScheduleName = Exclude<BlockName, "Asked for">;
export type ScheduleRow = Readonly<Record<string, Entered>>;

/** Once, on Inputs; every sheet and the report take them from there. */
export interface BudgetDocument {
  readonly title: string;
  readonly project?: string;
  readonly client?: string;
  readonly number?: string;
  readonly issue?: string;
  /** What it is issued for: for review, for construction, as built. */
  readonly purpose?: string;
  readonly date?: string;
  readonly author?: string;
  readonly checker?: string;
  readonly approver?: string;
}

export interface OtherFigure {
  readonly label: string;
  readonly value: Entered;
  readonly unit: string;
  readonly basis: string;
  readonly format?: string;
}

export interface Day {
  /** One to three. */
  readonly periods: readonly DayPeriod[];
  readonly energyPrice: Entered;
}

export interface DayPeriod {
  readonly name: string;
  readonly hours: Entered;
  /** Light, nominal, peak, or a number that multiplies every nominal load. */
  readonly loads: Entered;
  readonly supply: "lowest" | "nominal" | "highest";
}

/** Parts of formulas: where a sample's own questions find what they rest on. All follow a renamed item. */
export interface AnswerReach {
  /** The feed table, for a function over the whole feed. */
  readonly table: string;
  /** A column of CHAIN_SOLVE for an item. */
  readonly solved: (item: string, heading: string) => string;
  /** A column of the feed table for an item, by its header without unit. */
  readonly entered: (item: string, header: string) => string;
  /** A cell of a schedule. */
  readonly typed: (block: ScheduleName, item: string, header: string) => string;
  /** One of the other figures. */
  readonly figure: (label: string) => string;
}

/** A table of answers: formulas, or one spill. */
export type AnswerTable = {
  readonly title: string;
  /** How the answers are found, in words. */
  readonly how: string;
  readonly headings: readonly string[];
} & (
  | {
      readonly rows: readonly AnswerRow[];
      readonly spill?: never;
    }
  | {
      /** Below the headings; nothing stands below it. */
      readonly spill: {
        /** May be made of the ranges of the table above it: a column of its values, from 0. */
        readonly formula: string | ((above: ColumnRange) => string);
        readonly rows: number;
        readonly format: string;
      };
      readonly rows?: never;
    }
);

export interface AnswerRow {
  readonly label: string;
  /** Each a formula with its number format, or words. */
  readonly values: readonly (AnswerValue | string)[];
}

export interface AnswerValue {
  /** May be made of the table's own ranges: a column of its values, from 0. */
  readonly formula: string | ((column: ColumnRange) => string);
  readonly format: string;
}

/** Range of a column of a table's values, from 0. */
export type ColumnRange = (column: number) => string;
