/** What the parts of a result share. */
import type { SearchJob, SearchResult } from "../../tradeoffs/search-messages.js";
import type { SearchRun } from "../../tradeoffs/search-run.js";

/** A search that has its result. */
export interface DoneSearch {
  readonly job: SearchJob;
  readonly result: SearchResult;
  readonly run: SearchRun;
  /** Fingerprint of the feed that was searched. */
  readonly print: string;
}

export interface ResultProps {
  readonly job: SearchJob;
  readonly result: SearchResult;
  /** Number of the combination. */
  readonly chosen: number;
  readonly choose: (index: number) => void;
  readonly nameOf: (index: number) => string;
}
