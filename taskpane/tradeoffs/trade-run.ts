/** One search in a thread of its own, from the pane's side. */
import type { TradeFindings } from "../../src/tradeoffs/trade-search.js";
import type { TradeRequest } from "../../src/tradeoffs/trade-request.js";
import type { FromSearch } from "./trade-messages.js";

export interface TradeRun {
  /** Nothing when it was cancelled. @throws {Error} with a sentence for the user. */
  readonly findings: Promise<TradeFindings | undefined>;
  cancel(): void;
}

export interface TradeProgress {
  readonly judged: number;
  readonly count: number;
  /** Of the search so far. */
  readonly milliseconds: number;
}

export function startTradeRun(
  request: TradeRequest,
  progressed: (progress: TradeProgress) => void,
): TradeRun {
  const worker = new Worker(new URL("./trade-worker.ts", import.meta.url));
  const start = performance.now();
  let cancelled: () => void = () => undefined;
  const findings = new Promise<TradeFindings | undefined>((done, fail) => {
    cancelled = () => {
      done(undefined);
    };
    worker.onerror = ({ message }) => {
      fail(new Error(message));
    };
    worker.onmessage = ({ data }: MessageEvent<FromSearch>) => {
      if (data.kind === "progress") {
        const milliseconds = performance.now() - start;
        progressed({ judged: data.judged, count: data.count, milliseconds });
      } else if (data.kind === "done") done(data.findings);
      else fail(new Error(data.message));
    };
  }).finally(() => {
    worker.terminate();
  });
  worker.postMessage({ request });
  return {
    findings,
    cancel() {
      worker.terminate();
      cancelled();
    },
  };
}
