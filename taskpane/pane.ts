/** The pane: the answer for the selected cell, and below it the views. It knows its host through the port only. */
import type { WorkbookPlan } from "../src/plans/sheet-plan.js";
import { warningsOf } from "./budgets/warnings/warnings.js";
import { type WorkbookStore, workbookStore } from "./workbook/workbook-store.js";
import type { Host } from "./hosts/host.js";
import "./pane.css";
import { cellAnswer } from "./views/head/cell-answer.js";
import { feedView } from "./views/feed/feed-view.js";
import { element } from "./views/parts/element.js";
import { firstSteps, type StepsMemory } from "./views/head/first-steps.js";
import { type WholePage, wholePageButton } from "./views/head/whole-page.js";
import { handOverView } from "./views/hand-over/hand-over-view.js";
import { insertView } from "./views/insert/insert-view.js";
import { debounced } from "./views/parts/latest.js";
import { picturesView } from "./views/pictures/pictures-view.js";
import { tabs } from "./views/parts/tabs.js";
import { type WarningsFound, warningsView } from "./views/warnings/warnings-view.js";
import "./views/feed/feed.css";
import "./views/tradeoffs/tradeoffs.css";
import { tradeoffsView } from "./views/tradeoffs/tradeoffs-view.js";
import { feedWords } from "./words/feed-words.js";
import { words } from "./words/words.js";
import { workingView } from "./views/working/working-view.js";

export interface PaneOptions {
  readonly host: Host;
  readonly budgets: readonly WorkbookPlan[];
  readonly memory: StepsMemory;
  /** Where the page reads the workbook for other parts of it as well. */
  readonly store?: WorkbookStore;
  /** Where a sheet stands beside the pane. */
  readonly wholePage?: WholePage;
}

export type PaneView =
  "feed" | "insert" | "warnings" | "working" | "pictures" | "tradeoffs" | "handOver";

export interface PaneControl {
  /** Takes the pane out of the page and stops listening to the host. */
  dispose(): void;
  /** Puts the keyboard on the chosen tab. */
  focus(): void;
  /** Shows a view, with the keyboard on its tab. */
  choose(view: PaneView): void;
}

/** One recalculation comes as a burst of changes. */
const CHANGE_DELAY_MS = 250;
const SELECTION_DELAY_MS = 80;

export function mountPane(
  root: HTMLElement,
  { host, budgets, memory, store = workbookStore(host), wholePage }: PaneOptions,
): PaneControl {
  // The only live region besides the outcome of a user's own action, so that a recalculation is one message.
  const spoken = element("p", { class: "feed-hidden", role: "status" });
  const fault = element("p", { class: "feed-failure", role: "alert" });
  const failed = (error: unknown) => {
    const what = error instanceof Error ? error.message : String(error);
    fault.textContent = words.pane.failed(what);
  };
  const answer = cellAnswer(host);
  const feed = feedView({ host, store, failed });
  const insert = insertView({ host, failed }, budgets);
  const warnings = warningsView({
    host,
    store,
    warningsOf,
    toInsert: () => {
      views.choose("insert");
      views.focus();
    },
    failed,
  });
  const handOver = handOverView({ host, store, failed });
  const pictures = picturesView({ host, store, failed });
  const tradeoffs = tradeoffsView(host, failed);
  const working = workingView({ host, report: handOver.addToReport, failed });
  const views = tabs(words.pane.tabs, [
    { id: "feed", label: feedWords.tab, view: feed.element },
    { id: "insert", label: words.pane.insert, view: insert.element },
    { id: "warnings", label: words.pane.warnings, view: warnings.element },
    { id: "working", label: words.pane.working, view: working.element },
    { id: "pictures", label: words.pane.pictures, view: pictures },
    { id: "tradeoffs", label: words.pane.tradeoffs, view: tradeoffs },
    { id: "handOver", label: words.pane.handOver, view: handOver.element },
  ]);
  const steps = firstSteps({
    memory,
    store,
    newFeed() {
      views.choose("feed");
      feed.beginFeed();
    },
    title: budgets[0]?.title ?? "",
    insertSample() {
      views.choose("insert");
      insert.insertFirst();
    },
    toFunctions() {
      views.choose("insert");
      insert.focusFunctions();
    },
  });
  const pane = element(
    "div",
    { class: "feed-pane" },
    element(
      "div",
      { class: "feed-head" },
      element("p", { class: "feed-name" }, words.pane.name),
      element("p", { class: "feed-subject" }, words.pane.subject),
      steps.opener,
      wholePage && wholePageButton(wholePage),
    ),
    steps.element,
    answer.element,
    fault,
    views.element,
    spoken,
  );
  root.replaceChildren(pane);

  async function showSelection(speak: boolean): Promise<void> {
    const selected = await host.selection();
    const text = await answer.show(selected);
    if (speak && text !== "") say(text);
    insert.refresh();
    await working.show(selected);
  }

  async function showWarnings(speak: boolean): Promise<void> {
    const found = await warnings.refresh();
    if (!found) return;
    views.mark("warnings", found.budgets === 0 ? "" : String(found.warnings));
    if (speak) say(heard(found));
  }

  /** A new text node, so that the same words said again are heard again. */
  function say(text: string): void {
    spoken.replaceChildren(text);
  }

  const changed = debounced(() => {
    fault.textContent = "";
    showWarnings(true).catch(failed);
    showSelection(false).catch(failed);
  }, CHANGE_DELAY_MS);
  const moved = debounced(() => {
    showSelection(true).catch(failed);
  }, SELECTION_DELAY_MS);
  const stops = [
    host.onChange(changed.request),
    host.onSelection(moved.request),
    changed.cancel,
    moved.cancel,
  ];
  showWarnings(false).catch(failed);
  showSelection(false).catch(failed);

  return {
    dispose() {
      for (const stop of stops) stop();
      pane.remove();
    },
    focus: views.focus,
    choose(view) {
      views.choose(view);
      views.focus();
    },
  };
}

function heard({ budgets, warnings }: WarningsFound): string {
  return budgets === 0 ? words.warnings.heardNoBudget : words.warnings.heard(warnings);
}
