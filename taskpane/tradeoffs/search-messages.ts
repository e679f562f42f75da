/** What the pane and the threads that search say to each other: plain data, so that it can be handed over. */
import type { CellTable } from "../../functions/cells.js";
import type { TypedVariation } from "../../functions/tradeoffs/varied-blocks.js";
import type { CheckName, CheckRow } from "../../src/judgement/check-row.js";
import type { Round, SearchFindings, Share } from "../../src/tradeoffs/feed-search.js";
import type { Tallied } from "../../src/tradeoffs/left-out.js";
import type { TradeOutcome } from "../../src/tradeoffs/merged-findings.js";
import type { NextChange } from "../../src/tradeoffs/next-changes.js";
import type { Objective, UnknownFigure } from "../../src/tradeoffs/objectives.js";
import type { SearchExtent } from "../../src/tradeoffs/search-rounds.js";
import type { FrontPoint } from "../../src/tradeoffs/unbeaten.js";

export interface SearchJob {
  /** Of the feed as it is typed, what is asked for among them. */
  readonly blocks: readonly CellTable[];
  readonly askedFor: CellTable;
  readonly variations: readonly TypedVariation[];
  /** That may not be broken. */
  readonly checks: readonly CheckName[];
  readonly objectives: readonly Objective[];
  /** Combinations that are judged; left out, as many as a search takes. */
  readonly most?: number;
}

/** One for each objective, less is better; undefined where it cannot be told. */
export type Figures = readonly (number | undefined)[];

export interface SearchResult extends Tallied {
  /** Those that none beats, by rising first figure. */
  readonly front: readonly FrontPoint[];
  readonly extent: SearchExtent;
  /** Of the feed as it is. */
  readonly present: Figures;
  /** Single choices that mend what the feed as it is breaks, the cheapest first. */
  readonly next: readonly (Omit<NextChange, "mends"> & { readonly mends: readonly CheckRow[] })[];
}

/** One that the search did not come to may belong to the front: it breaks nothing, and none of the front beats it. */
export type ToldOutcome = TradeOutcome | { readonly kind: "not searched" };

/** A combination by itself. */
export interface ToldOption {
  readonly index: number;
  readonly outcome: ToldOutcome;
  readonly figures: Figures;
  /** Rows of its judgement that break what is held. */
  readonly broken: readonly CheckRow[];
}

export type ToThread =
  /** To each; the one that leads tells what is settled first. */
  | { readonly kind: "begin"; readonly job: SearchJob; readonly leads: boolean }
  | { readonly kind: "settle"; readonly round: Round; readonly share: Share }
  /** To the one that leads, when all have settled their shares of a round. */
  | { readonly kind: "merge"; readonly shares: readonly SearchFindings[] }
  | { readonly kind: "tell"; readonly index: number };

/** How far a share of a round is. */
export interface ShareProgress {
  /** Candidates of which the figures are known, and those that are judged or need no judgement. */
  readonly figured: number;
  readonly settled: number;
  /** Milliseconds that the rest takes, by those before; undefined as long as it cannot be told. */
  readonly left: number | undefined;
  /** Candidates that none beats so far. */
  readonly front: readonly FrontPoint[];
}

export type FromThread =
  /** What is to be settled next, of how many candidates at most in all. */
  | { readonly kind: "round"; readonly round: Round; readonly most: number }
  | { readonly kind: "progress"; readonly progress: ShareProgress }
  | { readonly kind: "found"; readonly findings: SearchFindings }
  | { readonly kind: "result"; readonly result: SearchResult }
  | { readonly kind: "told"; readonly option: ToldOption }
  /** A figure that is traded is not known. */
  | { readonly kind: "unknown"; readonly figure: UnknownFigure }
  /** The job was refused, or the search failed. */
  | { readonly kind: "fault"; readonly message: string };

/** What is handed over with them, and not copied. */
export function buffersOf({ values, outcomes, broken }: SearchFindings): ArrayBuffer[] {
  return [values, outcomes, broken].map(({ buffer }) => buffer as ArrayBuffer);
}
