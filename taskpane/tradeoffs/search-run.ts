/** One search in threads of its own, from the page's side. */
import type { Round, SearchFindings } from "../../src/tradeoffs/feed-search.js";
import type { UnknownFigure } from "../../src/tradeoffs/objectives.js";
import { UnbeatenPoints } from "../../src/tradeoffs/unbeaten.js";
import {
  buffersOf,
  type FromThread,
  type SearchJob,
  type SearchResult,
  type ShareProgress,
  type ToldOption,
  type ToThread,
} from "./search-messages.js";

export interface SearchRun {
  /** Undefined when it was cancelled. @throws {UnknownFigureError} or {Error} with a sentence for the user. */
  readonly result: Promise<SearchResult | undefined>;
  /** Of a search that has its result; undefined once the run has ended. */
  tell(index: number): Promise<ToldOption | undefined>;
  /** Cancels it, or lets go of what is known of its result. */
  end(): void;
}

export interface SearchProgress extends ShareProgress {
  /** Candidates that are settled at most. */
  readonly most: number;
}

export class UnknownFigureError extends Error {
  override readonly name = "UnknownFigureError";

  constructor(readonly figure: UnknownFigure) {
    super(`${figure.item} has no ${figure.objective}`);
  }
}

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
  let reports: (ShareProgress | undefined)[] = [];
  /** What is being settled, after how many others, and when the first of all began. */
  let round: Round | undefined;
  let most = 0;
  let before = 0;
  let since: number | undefined;
  let cancelled: () => void = () => undefined;

  function end(): void {
    for (const worker of workers) worker.terminate();
    cancelled();
    for (const answer of asked.values()) answer(undefined);
    asked.clear();
  }

  function begin(next: Round): void {
    before += round?.candidates.length ?? 0;
    round = next;
    since ??= performance.now();
    shares.length = 0;
    reports = workers.map(() => undefined);
    workers.forEach((worker, first) =>
      say(worker, { kind: "settle", round: next, share: { first, every: threads } }),
    );
  }

  function report(place: number, progress: ShareProgress): void {
    reports[place] = progress;
    const unbeaten = new UnbeatenPoints();
    let figured = before;
    let settled = before;
    let left: number | undefined = 0;
    for (const one of reports) {
      if (one?.left === undefined) left = undefined;
      else if (left !== undefined) left = Math.max(left, one.left);
      figured += one?.figured ?? 0;
      settled += one?.settled ?? 0;
      for (const point of one?.front ?? []) unbeaten.add(point);
    }
    // Rounds that may follow take as long as those before.
    const later = most - before - round!.candidates.length;
    if (later > 0 && settled > 0)
      left = (left ?? 0) + (later * (performance.now() - since!)) / settled;
    progressed({ figured, settled, most, left, front: unbeaten.points() });
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
          case "round":
            most = data.most;
            return begin(data.round);
          case "progress":
            return report(place, data.progress);
          case "found":
            shares.push(data.findings);
            if (shares.length === threads)
              say(first, { kind: "merge", shares }, shares.flatMap(buffersOf));
            return undefined;
          case "result":
            for (const worker of workers) if (worker !== first) worker.terminate();
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
      say(worker, { kind: "begin", job, leads: worker === first });
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
