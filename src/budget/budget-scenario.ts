/** What one worked budget is about: its assumptions and its feed, as data. The sheets are built from it. */
import type { FeedKind } from "../network/feed-item.js";
import type { PlanValidation } from "../plans/sheet-plan.js";
import type { CitationId } from "../quantities/citations.js";
import type { CheckName } from "../warnings/check-kinds.js";

export interface BudgetScenario {
  readonly id: string;
  /** Raised when the sheets of this budget change. */
  readonly version: string;
  readonly title: string;
  readonly stem: string;
  /** One sentence on what is fed from where. */
  readonly story: string;
  /** One sentence on whose figures these are; not given: invented. */
  readonly origin?: string;
  readonly inputs: readonly InputBlock[];
  readonly feed: (reach: InputReach) => readonly FeedRowPlan[];
  /** Figures that a reviewer can follow with a pocket calculator, beside the solved ones. */
  readonly handChecks: (reach: BudgetReach) => readonly HandCheck[];
  /** What else is asked of it, on a sheet of its own; no such sheet where nothing is. */
  readonly answers?: (reach: AnswerReach) => readonly AnswerTable[];
  /** What else it is checked for, on a sheet of its own. */
  readonly checks: (reach: CheckReach) => readonly CheckRow[];
  /** Remarks of this scenario's own, for its Notes. */
  readonly remarks: readonly string[];
  /** Empty rows of a feed table that its user types; `feed` then has none of its own. */
  readonly typedRows?: number;
}

/** One number against its limit, at its own worst case. */
export interface CheckRow {
  readonly check: CheckName;
  /** An item of the feed, or what of it is checked. */
  readonly item: string;
  /** Formulas. */
  readonly found: string;
  readonly limit: string;
  readonly unit: string;
  readonly format: string;
  /** How it is found, in words. */
  readonly how: string;
  /** Formula of words that follow those: which end of what is not known for certain was taken. */
  readonly taken?: string;
}

/** A table of answers. Formulas and spills; every number of it follows from Inputs and Budget. */
export type AnswerTable = {
  readonly title: string;
  /** How the answers are found, in words. */
  readonly how: string;
} & (
  | {
      readonly kind: "table";
      readonly headings: readonly string[];
      readonly rows: readonly {
        readonly label: string;
        readonly values: readonly AnswerValue[];
      }[];
    }
  | {
      readonly kind: "spill";
      /** Above it, where the function gives none of its own. */
      readonly headings?: readonly string[];
      readonly formula: string;
      readonly rows: number;
      readonly columns: number;
    }
);

export type AnswerValue =
  | {
      /** Where a function takes a column of this very table: made from the area of each column of values, from 0. */
      readonly formula:
        string | ((column: (index: number) => string) => string);
      readonly format: string;
    }
  | { readonly text: string };

/** Assumptions that belong together, under one heading. */
export interface InputBlock {
  readonly title: string;
  /** Heads of one to three columns of values; the last stands beside the unit. */
  readonly columns: readonly string[];
  readonly lines: readonly InputLine[];
}

export interface InputLine {
  readonly key: string;
  readonly label: string;
  /** As many as the block has columns; "" for one that stands empty. */
  readonly values: readonly (number | string)[];
  /** Instead of a value that is entered: a formula on other lines, for a block of one column. */
  readonly follows?: (reach: InputReach) => string;
  /** "" where the value is a word or is shown as per cent. */
  readonly unit: string;
  /** The unit is so much of the currency: `per m`, `each`. */
  readonly priced?: true;
  /** Where it comes from, in words: a work and its table, or `assumed`. */
  readonly basis: string;
  readonly citation?: CitationId;
  readonly format?: string;
  readonly allowed?: Allowed;
}

export type Allowed = PlanValidation extends infer Validation
  ? Validation extends PlanValidation
    ? Omit<Validation, "area" | "message">
    : never
  : never;

/** Lines that every budget's sheets read, whatever else a scenario holds. */
export const COMMON_KEYS = {
  loads: "loads",
  supply: "supply",
  framework: "framework",
  condition: "condition",
  margin: "margin",
  dropLimit: "dropLimit",
  loadingLimit: "loadingLimit",
  altitude: "altitude",
  altitudeLimit: "altitudeLimit",
  currency: "currency",
  supplyVoltage: "supplyVoltage",
  unitsLost: "unitsLost",
} as const;

/** Lines that describe a day; a budget that has them has a sheet for it. */
export const DAY_KEYS = {
  period: "dayPeriod",
  hours: "dayHours",
  loads: "dayLoads",
  supply: "daySupply",
  price: "energyPrice",
} as const;

/** Addresses of assumptions. */
export interface InputReach {
  /** The cell of a line's value, fixed and with its sheet; `column` counts the block's columns from 0. */
  readonly given: (key: string, column?: number) => string;
  /** All values of a line as one range. */
  readonly allOf: (key: string) => string;
  readonly has: (key: string) => boolean;
}

/** Addresses of results too. */
export interface BudgetReach extends InputReach {
  /** The cell of a row and column of the results table. */
  readonly solved: (item: string, column: ResultColumn) => string;
  /** Formula of a figure of the feed table: the cell of a row and column. */
  readonly entered: (item: string, column: FeedColumn) => string;
  /** The supply's open-circuit voltage at which the budget is solved. */
  readonly solvedSupplyVoltage: string;
}

/** Addresses for the answers, which stand on a sheet of their own. */
export interface AnswerReach extends BudgetReach {
  /** The whole feed table with its header, with its sheet. */
  readonly feedTable: string;
  /** Rows that its items make. */
  readonly itemCount: number;
}

/** Addresses for the checks. */
export interface CheckReach extends AnswerReach {
  /** Of an item, over every case: a column of CHAIN_WORST. */
  readonly worst: (item: string, column: WorstColumn) => string;
  /** Multiple of every load at which the feed collapses, on the lowest supply. */
  readonly headroom: string;
}

/** Columns of CHAIN_WORST that hold a number for every item. */
export type WorstColumn =
  "Lowest input V" | "Highest input V" | "Highest input A" | "Highest loss W";

export interface FeedRowPlan {
  readonly item: string;
  readonly fedFrom?: string;
  readonly kind: FeedKind;
  /** Formulas. */
  readonly figures: Readonly<
    Partial<Record<Exclude<FeedColumn, "item" | "fedFrom" | "kind">, string>>
  >;
  /** Formulas, kg and money. */
  readonly mass?: string;
  readonly cost?: string;
}

export type FeedColumn =
  | "item"
  | "fedFrom"
  | "kind"
  | "voltage"
  | "resistance"
  | "ratio"
  | "fixedLoss"
  | "linearLoss"
  | "quadraticLoss"
  | "efficiency"
  | "lightLoad"
  | "load"
  | "peakLoad"
  | "inParallel"
  | "lowest"
  | "highest"
  | "rated"
  | "tolerance"
  | "isolation"
  | "trip"
  | "rippleRms"
  | "ripplePeak";

export type ResultColumn =
  | "item"
  | "check"
  | "inputVoltage"
  | "inputCurrent"
  | "outputVoltage"
  | "outputCurrent"
  | "outputPower"
  | "loss"
  | "drop"
  | "dropShare"
  | "loading"
  | "mass"
  | "cost";

export interface HandCheck {
  readonly label: string;
  /** How, in words. */
  readonly how: string;
  readonly byHand: string;
  readonly solved: string;
  readonly unit: string;
  readonly format: string;
}
