/** One row of the judgement of a feed: what was found, what is asked, and what follows of it. */
import type { Cited } from "../quantities/steps.js";

/** In the order in which the rows of one item stand. */
export const CHECK_NAMES = [
  // Of the whole feed.
  "Closing error",
  "Efficiency",
  "Loss at one location",
  "Altitude",
  "Mass",
  "Price",
  // Of a supply and all that it feeds.
  "Operating point",
  "Headroom to collapse",
  "Spare capacity",
  // Of an item.
  "Input above lowest",
  "Input below highest",
  "Loading",
  "Drop",
  "Drop of a voltage level",
  "Starts with its loads",
  "Band in service",
  "Band after one fault",
  "Ripple",
  "Conductor temperature",
  "Insulation temperature",
  "Cable rated for the voltage",
  "Fuse carries the load",
  "Fuse breaks the voltage",
  "Fuse breaks the fault",
  "Fuse protects the cable",
  "Far-end fault blows the fuse",
  "Fuse clears in time",
  "Fuse clears before the supply",
  "Cable withstands a fault",
  "Cable withstands a slow fault",
  "Share of the worst unit",
  "One unit lost",
  "Stage in its ambient",
  "Lowest ambient",
  "Stability margin",
  "Discharge time",
  "Stored energy",
] as const;

export type CheckName = (typeof CHECK_NAMES)[number];

export const VERDICTS = ["holds", "fails", "not determined", "not asked"] as const;

export type Verdict = (typeof VERDICTS)[number];

/** What a check weighs that does not hold, the gravest first. */
export const WEIGHTS = ["danger", "warning", "note"] as const;

export type Weight = (typeof WEIGHTS)[number];

/** How the found figure stands to its limit where it holds; `is` for words. */
export type Asked = "at most" | "at least" | "is";

/** The item of rows that are about all of a feed. */
export const WHOLE_FEED = "Whole feed";

/** The cause of a row for which nothing is asked for yet, as the block of requirements is headed. */
export const ASKED_FOR = "Asked for";

/** Where there is no figure. */
export const NONE = "–";

export interface CheckRow {
  /** As named in the feed table, or `WHOLE_FEED`. */
  readonly item: string;
  readonly check: CheckName;
  /** The case in words: `loads peak, supply lowest, hot, one of Bus lost`; "" where no case counts. */
  readonly worstIn: string;
  /** Figure in `unit`, words, or `NONE`. */
  readonly found: number | string;
  readonly asked: Asked;
  readonly limit: number | string;
  readonly unit: string;
  /** (limit − found)/limit of *at most*, (found − limit)/limit of *at least*: below 0 where it fails. Undefined for words. */
  readonly margin: number | undefined;
  readonly verdict: Verdict;
  readonly weight: Weight;
  /** Name of the item whose row is to be changed, "" for the item itself, `ASKED_FOR` for a requirement. */
  readonly cause: string;
  /** Header of the feed table whose figure is missing or may be changed, or a label of `ASKED_FOR`; "" where none is known. */
  readonly column: string;
  /** `enter Outer diameter of Point cable`, `Set Size of Point cable to 16 mm²: 4 %`, why no single figure mends it, or "". */
  readonly enterOrTry: string;
  readonly cite: Cited;
}

/** Headers of the spill of CHAIN_CHECKS, in an order that people count on. */
export const CHECKS_COLUMNS = [
  "Item",
  "Check",
  "Worst in",
  "Found",
  "Asked",
  "Limit",
  "Unit",
  "Margin",
  "Verdict",
  "Weight",
  "Cause",
  "Column",
  "Enter or try",
  "Citation",
] as const;
