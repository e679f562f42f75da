/** What the pane and the threads that search say to each other: plain data, so that it can be handed over. */
import type { CellTable } from "../../functions/cells.js";
import type { TypedVariation } from "../../functions/tradeoffs/varied-blocks.js";
import type { CheckName, CheckRow } from "../../src/judgement/check-row.js";
import type { SearchFindings, Share } from "../../src/tradeoffs/feed-search.js";
import type { LeftOutChoice } from "../../src/tradeoffs/left-out.js";
import type { TradeFindings, TradeOutcome } from "../../src/tradeoffs/merged-findings.js";
import type { NextChange } from "../../src/tradeoffs/next-changes.js";
import type { Objective, UnknownFigure } from "../../src/tradeoffs/objectives.js";
import type { FrontPoint } from "../../src/tradeoffs/unbeaten.js";

export interface SearchJob {
  /** Of the feed as it is typed, what is asked for among them. */
  readonly blocks: readonly CellTable[];
  readonly askedFor: CellTable;
  readonly variations: readonly TypedVariation[];
  /** That may not be broken. */
  readonly checks: readonly CheckName[];
  readonly objectives: readonly Objective[];
}

/** One for each objective, less is better; undefined where it cannot be told. */
export type Figures = readonly (number | undefined)[];

export interface SearchResult extends Pick<TradeFindings, "front" | "counts"> {
  readonly leftOut: readonly LeftOutChoice[];
  /** Of the feed as it is. */
  readonly present: Figures;
  /** Single choices that mend what the feed as it is breaks, the cheapest first. */
  readonly next: readonly (Omit<NextChange, "mends"> & { readonly mends: readonly CheckRow[] })[];
}

/** A combination by itself. */
export interface ToldOption {
  readonly index: number;
  readonly outcome: TradeOutcome;
  readonly figures: Figures;
  /** Rows of its judgement that break what is held. */
  readonly broken: readonly CheckRow[];
}

export type ToThread =
  | { readonly kind: "search"; readonly job: SearchJob; readonly share: Share }
  /** To one of the threads, when all have found their shares. */
  | { readonly kind: "merge"; readonly shares: readonly SearchFindings[] }
  | { readonly kind: "tell"; readonly index: number };

export type FromThread =
  /** Steps taken, and the candidates of the share that none beats so far. */
  | { readonly kind: "progress"; readonly taken: number; readonly front: readonly FrontPoint[] }
  | { readonly kind: "found"; readonly findings: SearchFindings }
  | { readonly kind: "result"; readonly result: SearchResult }
  | { readonly kind: "told"; readonly option: ToldOption }
  /** A figure that is traded is not known. */
  | { readonly kind: "unknown"; readonly figure: UnknownFigure }
  /** The job was refused, or the search failed. */
  | { readonly kind: "fault"; readonly message: string };
