/** A thread that searches its share of the combinations, so that the page stays free. Its caller ends it to cancel. */
import { type SearchAnswers, searchAnswers } from "./search-answers.js";
import type { FromThread, ToThread } from "./search-messages.js";

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

thread.onmessage = ({ data }) => {
  try {
    if (data.kind === "search") search(data);
    else if (!answers) throw new Error("nothing is searched yet");
    else if (data.kind === "merge")
      thread.postMessage({ kind: "result", result: answers.result(data.shares) });
    else thread.postMessage({ kind: "told", option: answers.option(data.index) });
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    thread.postMessage({ kind: "fault", message });
  }
};

function search({ job, share }: Extract<ToThread, { readonly kind: "search" }>): void {
  const made = searchAnswers(job);
  if ("unknown" in made) {
    thread.postMessage({ kind: "unknown", figure: made.unknown });
    return;
  }
  answers = made;
  const running = made.search(share);
  const all = 2 * running.count;
  let taken = 0;
  while (taken < all) {
    const until = performance.now() + REPORT_MS;
    while (taken < all && performance.now() < until) taken = running.advance(STEPS);
    thread.postMessage({ kind: "progress", taken, front: running.front });
  }
  const findings = running.findings();
  thread.postMessage({ kind: "found", findings }, [
    findings.values.buffer,
    findings.outcomes.buffer,
  ]);
}
