/** One search in threads of its own, from the page's side. */
import type { SearchFindings } from "../../src/tradeoffs/feed-search.js";
import type { UnknownFigure } from "../../src/tradeoffs/objectives.js";
import { type FrontPoint, UnbeatenPoints } from "../../src/tradeoffs/unbeaten.js";
import type {
  FromThread,
  SearchJob,
  SearchResult,
  ToldOption,
  ToThread,
} from "./search-messages.js";

export interface SearchRun {
  /** Undefined when it was cancelled. @throws {UnknownFigureError} or {Error} with a sentence for the user. */
  readonly result: Promise<SearchResult | undefined>;
  /** Of a search that has its result; undefined once the run has ended. */
  tell(index: number): Promise<ToldOption | undefined>;
  /** Cancels it, or lets go of what is known of its result. */
  end(): void;
}

export interface SearchProgress {
  /** Candidates of which the figures are known, and those that are judged or need no judgement. */
  readonly figured: number;
  readonly settled: number;
  readonly count: number;
  /** Since the first candidate was settled. */
  readonly milliseconds: number;
  readonly front: readonly FrontPoint[];
}

export class UnknownFigureError extends Error {
  override readonly name = "UnknownFigureError";

  constructor(readonly figure: UnknownFigure) {
    super(`${figure.item} has no ${figure.objective}`);
  }
}

/** Combinations that one thread judges in a second on a common computer, as measured on the samples. */
export const COMMON_RATE = 2000;

/** One is left for the page. */
export function usualThreads(): number {
  return Math.max(1, navigator.hardwareConcurrency - 1);
}

/** @param count Of all combinations. */
export function startSearch(
  job: SearchJob,
  count: number,
  progressed: (progress: SearchProgress) => void,
  threads = Math.min(count, usualThreads()),
): SearchRun {
  const workers = Array.from(
    { length: threads },
    () => new Worker(new URL("./search-worker.ts", import.meta.url)),
  );
  const [first] = workers as [Worker, ...Worker[]];
  const say = (worker: Worker, message: ToThread, transfer: Transferable[] = []) =>
    worker.postMessage(message, transfer);
  const asked = new Map<number, (option: ToldOption | undefined) => void>();
  const shares: SearchFindings[] = [];
  const reports = workers.map((): Pick<Progress, "taken" | "front"> => ({ taken: 0, front: [] }));
  let since: number | undefined;
  let cancelled: () => void = () => undefined;

  function end(): void {
    for (const worker of workers) worker.terminate();
    cancelled();
    for (const answer of asked.values()) answer(undefined);
    asked.clear();
  }

  function report(place: number, { taken, front }: Progress): void {
    reports[place] = { taken, front };
    const unbeaten = new UnbeatenPoints();
    let figured = 0;
    let settled = 0;
    reports.forEach((one, at) => {
      const own = Math.ceil((count - at) / threads);
      figured += Math.min(one.taken, own);
      settled += Math.max(0, one.taken - own);
      for (const point of one.front) unbeaten.add(point);
    });
    if (settled > 0) since ??= performance.now();
    const milliseconds = since === undefined ? 0 : performance.now() - since;
    progressed({ figured, settled, count, milliseconds, front: unbeaten.points() });
  }

  const result = new Promise<SearchResult | undefined>((done, fail) => {
    cancelled = () => done(undefined);
    const failed = (error: Error) => {
      fail(error);
      end();
    };
    workers.forEach((worker, place) => {
      worker.onerror = ({ message }) => failed(new Error(message));
      worker.onmessage = ({ data }: MessageEvent<FromThread>) => {
        switch (data.kind) {
          case "progress":
            return report(place, data);
          case "found":
            shares.push(data.findings);
            if (worker !== first) worker.terminate();
            if (shares.length === threads)
              say(
                first,
                { kind: "merge", shares },
                shares.flatMap(({ values, outcomes }) => [
                  values.buffer as ArrayBuffer,
                  outcomes.buffer as ArrayBuffer,
                ]),
              );
            return undefined;
          case "result":
            return done(data.result);
          case "told":
            asked.get(data.option.index)?.(data.option);
            asked.delete(data.option.index);
            return undefined;
          case "unknown":
            return failed(new UnknownFigureError(data.figure));
          case "fault":
            return failed(new Error(data.message));
        }
      };
      say(worker, { kind: "search", job, share: { first: place, every: threads } });
    });
  });
  return {
    result,
    tell: (index) =>
      new Promise((done) => {
        asked.get(index)?.(undefined);
        asked.set(index, done);
        say(first, { kind: "tell", index });
      }),
    end,
  };
}

type Progress = Extract<FromThread, { readonly kind: "progress" }>;
