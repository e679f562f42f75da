/** The thread that searches, so that the pane stays free. Its caller ends the thread to cancel it. */
import { tradeSearch } from "../../src/tradeoffs/trade-search.js";
import type { FromSearch, ToSearch } from "./trade-messages.js";

/** Some tens of milliseconds of work between two reports. */
const CANDIDATES_PER_REPORT = 20_000;

interface Thread {
  onmessage: ((event: { readonly data: ToSearch }) => void) | null;
  postMessage(message: FromSearch): void;
}

const thread = globalThis as unknown as Thread;

thread.onmessage = ({ data }) => {
  try {
    const search = tradeSearch(data.request);
    const { count } = search.space;
    let judged = 0;
    while (judged < count) {
      judged = search.advance(CANDIDATES_PER_REPORT);
      thread.postMessage({ kind: "progress", judged, count });
    }
    thread.postMessage({ kind: "done", findings: search.findings() });
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    thread.postMessage({ kind: "fault", message });
  }
};
