/** The pane: the answer for the selected cell, and below it the views. It knows its host through the port only. */
import type { WorkbookPlan } from "../src/plans/sheet-plan.js";
import { warningsOf } from "./budgets/warnings/warnings.js";
import { type WorkbookStore, workbookStore } from "./workbook/workbook-store.js";
import type { Host } from "./hosts/host.js";
import "./pane.css";
import {
  type CellHost,
  type CellReading,
  readCell,
  selectedCell,
} from "./formula-reading/cell-reading.js";
import { cellAnswer } from "./views/head/cell-answer.js";
import { feedView } from "./views/feed/feed-view.js";
import { element } from "./views/parts/element.js";
import { failureLine } from "./views/head/failure-line.js";
import { firstSteps, type StepsMemory } from "./views/head/first-steps.js";
import { type WholePage, wholePageButton } from "./views/head/whole-page.js";
import { handOverView } from "./views/hand-over/hand-over-view.js";
import { insertView } from "./views/insert/insert-view.js";
import { debounced, latestOnly } from "./views/parts/latest.js";
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
  /** Where the pane may be closed and goes on unseen. */
  readonly visibility?: Visibility;
}

/** Whether a pane is to be seen. */
export interface Visibility {
  readonly isShown: () => boolean;
  /** Called when it is shown again. Returns its stop. */
  readonly onShown: (listener: () => void) => () => void;
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
  { host, budgets, memory, store = workbookStore(host), wholePage, visibility }: PaneOptions,
): PaneControl {
  // The only live region besides the outcome of a user's own action, so that a recalculation is one message.
  const spoken = element("p", { class: "feed-hidden", role: "status" });
  const fault = failureLine();
  const failed = fault.tell;
  /** Tells what could not be read unasked; it stands until that can be read. */
  const unread = element("p", { class: "feed-failure", role: "alert" });
  const reading: CellHost = {
    namespace: host.namespace,
    names: store.names,
    read: store.contents,
  };
  const answer = cellAnswer(host);
  const feed = feedView({ host, store, failed });
  const insert = insertView({ host, failed, reading }, budgets);
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
  const tradeoffs = tradeoffsView({ host, store, failed });
  const working = workingView({ host, reading, report: handOver.addToReport, failed });
  const views = tabs(
    words.pane.tabs,
    [
      { id: "feed", label: feedWords.tab, view: feed.element },
      { id: "insert", label: words.pane.insert, view: insert.element },
      { id: "warnings", label: words.pane.warnings, view: warnings.element },
      { id: "working", label: words.pane.working, view: working.element },
      { id: "pictures", label: words.pane.pictures, view: pictures },
      { id: "tradeoffs", label: words.pane.tradeoffs, view: tradeoffs },
      { id: "handOver", label: words.pane.handOver, view: handOver.element },
    ],
    () => readInView().catch(unreadable),
  );
  const steps = firstSteps({
    memory,
    store,
    namespace: host.namespace,
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
    fault.element,
    unread,
    views.element,
    spoken,
  );
  root.replaceChildren(pane);

  // A command is what is pressed in a view; to look at another view is none.
  pane.addEventListener(
    "click",
    ({ target }) => {
      const pressed = target instanceof Element ? target.closest("button") : null;
      if (pressed && pressed.getAttribute("role") !== "tab") fault.clear();
    },
    { capture: true },
  );

  const newest = latestOnly();
  let selected: CellReading | undefined;
  /** What reads differently, or may, since it was read last. */
  const due = { budgets: true, cell: true };

  async function readSelection(speak: boolean): Promise<void> {
    due.cell = false;
    const isNewest = newest();
    try {
      const read = await readCell(reading, await selectedCell(host));
      if (!isNewest()) return;
      selected = read;
      unread.textContent = "";
      const text = answer.show(read);
      if (speak && text !== "") say(text);
      await readInView();
    } catch (error) {
      if (isNewest()) unreadable(error);
    }
  }

  /** What the view that is shown reads for the selected cell; the others wait until they are chosen. */
  async function readInView(): Promise<void> {
    if (!selected) return;
    if (views.chosen === "insert") insert.show(selected.cell.at);
    if (views.chosen === "working") await working.show(selected);
  }

  let lastHeard = "";

  async function readWarnings(speak: boolean): Promise<void> {
    due.budgets = false;
    const found = await warnings.refresh();
    if (!found) return;
    const { calculating } = found;
    views.mark("warnings", found.budgets === 0 ? "" : countOf(found));
    // What is not calculated yet is no news, and neither is what was heard before.
    if (calculating) return;
    const now = heard(found);
    if (speak && now !== lastHeard) say(now);
    lastHeard = now;
  }

  /** A new text node, so that the same words said again are heard again. */
  function say(text: string): void {
    spoken.replaceChildren(text);
  }

  function unreadable(error: unknown): void {
    unread.textContent = words.pane.unread(error instanceof Error ? error.message : String(error));
  }

  const isShown = () => visibility?.isShown() ?? true;

  /** Unseen, it reads nothing: what is due is read once it is shown. */
  function catchUp(speak: boolean): void {
    if (!isShown()) return;
    if (due.budgets) void readWarnings(speak).catch(failed);
    if (due.cell) void readSelection(false);
  }

  const changed = debounced(() => catchUp(true), CHANGE_DELAY_MS);
  const moved = debounced(() => {
    if (isShown()) void readSelection(true);
  }, SELECTION_DELAY_MS);
  const stops = [
    host.onChange((sheets) => {
      if (store.changed(sheets)) due.budgets = true;
      due.cell = true;
      changed.request();
    }),
    host.onSelection(() => {
      due.cell = true;
      moved.request();
    }),
    visibility?.onShown(() => catchUp(true)),
    changed.cancel,
    moved.cancel,
  ];
  catchUp(false);

  return {
    dispose() {
      for (const stop of stops) stop?.();
      pane.remove();
    },
    focus: views.focus,
    choose(view) {
      views.choose(view);
      views.focus();
    },
  };
}

function countOf({ warnings, calculating }: WarningsFound): string {
  return calculating ? "…" : String(warnings);
}

function heard({ budgets, warnings }: WarningsFound): string {
  return budgets === 0 ? words.warnings.heardNoBudget : words.warnings.heard(warnings);
}
