/** Candidates side by side: asks for the job, searches in a thread of its own, and shows what nothing beats. */
import type { Host } from "../../hosts/host.js";
import { startTradeRun, type TradeRun } from "../../tradeoffs/trade-run.js";
import { button, element } from "../parts/element.js";
import { tradeForm } from "./trade-form.js";
import { tradeResults } from "./trade-results.js";
import { words } from "../../words/words.js";

const said = words.tradeoffs;

export function tradeoffsView(host: Host, failed: (error: unknown) => void): HTMLElement {
  const outcome = element("p", { class: "feed-outcome", role: "status" });
  const say = (message: string) => {
    outcome.textContent = message;
  };
  const progress = element("progress", {
    max: "1",
    hidden: true,
    "aria-label": said.progress,
  });
  const results = element("div", {});
  const form = tradeForm(say);
  let run: TradeRun | undefined;

  const searchButton = button(
    said.search,
    () => {
      search().catch(failed);
    },
    { class: "feed-button feed-main" },
  );
  const cancelButton = button(said.cancel, () => run?.cancel(), {
    hidden: true,
  });

  async function search(): Promise<void> {
    const request = form.request();
    if (!request || run) return;
    results.replaceChildren();
    busy(true);
    try {
      run = startTradeRun(request, ({ judged, count, milliseconds }) => {
        progress.value = judged / count;
        const left = (milliseconds * (count - judged)) / judged;
        say(said.judged(judged, count, left / 1000));
      });
      const findings = await run.findings;
      if (!findings) return say(said.cancelled);
      const { front, verdicts, judged } = findings;
      say(said.found(front.length, verdicts.kept, judged));
      results.replaceChildren(...tradeResults({ host, request, findings, failed }));
    } finally {
      run = undefined;
      busy(false);
    }
  }

  function busy(is: boolean): void {
    progress.hidden = !is;
    progress.value = 0;
    cancelButton.hidden = !is;
    searchButton.hidden = is;
    (is ? cancelButton : searchButton).focus();
  }

  return element(
    "div",
    { class: "feed-tradeoffs" },
    element("h2", { class: "feed-heading" }, said.title),
    element("p", { class: "feed-quiet" }, said.about),
    element("p", { class: "feed-quiet" }, said.holds),
    ...form.groups,
    element("div", { class: "feed-actions" }, searchButton, cancelButton),
    progress,
    outcome,
    results,
  );
}
