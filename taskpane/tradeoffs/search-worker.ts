/** A thread that settles its share of the combinations, so that the page stays free. Its caller ends it to cancel. */
import { UnknownFigureError } from "../../src/tradeoffs/objectives.js";
import type { SearchRounds } from "../../src/tradeoffs/search-rounds.js";
import { type SearchAnswers, searchAnswers } from "./search-answers.js";
import { buffersOf, type FromThread, type ToThread } from "./search-messages.js";
import { SearchPace } from "./search-pace.js";

interface Thread {
  onmessage: ((event: { readonly data: ToThread }) => void) | null;
  postMessage(message: FromThread, transfer?: readonly ArrayBufferLike[]): void;
}

const thread = globalThis as unknown as Thread;

/** Between two reports. */
const REPORT_MS = 100;
/** Steps between two looks at the clock. */
const STEPS = 16;

let answers: SearchAnswers | undefined;
/** Of the thread that leads. */
let rounds: SearchRounds | undefined;

thread.onmessage = ({ data }) => {
  try {
    if (data.kind === "begin") {
      answers = searchAnswers(data.job);
      if (!data.leads) return;
      rounds = answers.rounds();
      tellRound(answers, rounds);
    } else if (!answers) throw new Error("no search has begun");
    else if (data.kind === "settle") settle(answers, data);
    else if (!rounds) throw new Error("another thread leads");
    else if (data.kind === "merge") {
      rounds.take(data.shares);
      tellRound(answers, rounds);
    } else thread.postMessage({ kind: "told", option: answers.option(rounds, data.index) });
  } catch (error) {
    thread.postMessage(
      error instanceof UnknownFigureError
        ? { kind: "unknown", figure: error.figure }
        : { kind: "fault", message: error instanceof Error ? error.message : String(error) },
    );
  }
};

/** The next round, or the result where there is none. */
function tellRound({ result }: SearchAnswers, rounds: SearchRounds): void {
  const { round, most } = rounds;
  thread.postMessage(
    round ? { kind: "round", round, most } : { kind: "result", result: result(rounds) },
  );
}

function settle(
  { settling }: SearchAnswers,
  { round, share }: Extract<ToThread, { readonly kind: "settle" }>,
): void {
  const running = settling(round, share);
  const pace = new SearchPace(running, performance.now());
  let isLeft = true;
  while (isLeft) {
    const until = performance.now() + REPORT_MS;
    while (isLeft && performance.now() < until) {
      isLeft = running.advance(STEPS);
      pace.look(performance.now());
    }
    const { figured, settled, front } = running;
    thread.postMessage({
      kind: "progress",
      progress: { figured, settled, left: pace.left, front },
    });
  }
  const findings = running.findings();
  thread.postMessage({ kind: "found", findings }, buffersOf(findings));
}
