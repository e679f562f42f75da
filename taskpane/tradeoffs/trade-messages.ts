/** What the pane and the thread that searches say to each other. */
import type { TradeFindings } from "../../src/tradeoffs/trade-search.js";
import type { TradeRequest } from "../../src/tradeoffs/trade-request.js";

export type ToSearch = { readonly request: TradeRequest };

export type FromSearch =
  | {
      readonly kind: "progress";
      readonly judged: number;
      readonly count: number;
    }
  | { readonly kind: "done"; readonly findings: TradeFindings }
  /** The request was refused, or the search failed. */
  | { readonly kind: "fault"; readonly message: string };
