/** The workbench page: a spreadsheet with the workbook from last time or the first budget in it, and the pane beside it. */
import { budgets } from "../../budgets/budgets.js";
import type { OpeningContent } from "../../hosts/workbench/snapshots/opening.js";
import { autosave } from "./autosave.js";
import { workbenchBar } from "./bar.js";
import { keysOfSheets } from "./keys.js";
import { moveBetweenRegions } from "./regions.js";
import { paneWidth } from "./pane-width.js";
import { workbenchSession } from "./session.js";
import { workbenchStore } from "./store.js";
import { workbenchWords as words } from "../../words/workbench-words.js";
import "./workbench.css";

/** Filled in by the build: where the bundled spreadsheet lies. */
declare const VENDOR_SCRIPT: string;
declare const VENDOR_STYLE: string;

const [plan] = budgets;
if (!plan) throw new Error("there is no budget to open");
const first: OpeningContent = { kind: "plan", plan };

const store = workbenchStore();
const session = workbenchSession(
  {
    grid: region("grid"),
    pane: region("pane"),
    results: region("results"),
    state: region("state"),
    wholePage: paneWidth({
      page: document.body,
      sheet: region("sheet"),
      separator: region("separator"),
    }),
  },
  budgets,
  {
    script: new URL(VENDOR_SCRIPT, document.baseURI).href,
    style: new URL(VENDOR_STYLE, document.baseURI).href,
  },
  () => {
    saving.request();
    bar.edited();
  },
);
const saving = autosave(
  store,
  () => session.workbook,
  (keeping) => bar.showKeeping(keeping),
);
const bar = workbenchBar(region("bar"), {
  workbook: () => session.workbook,
  replace: session.replace,
  first,
  forget: saving.forget,
  replaced: saving.request,
  filed: saving.filed,
});
moveBetweenRegions(
  { grid: region("grid"), pane: region("pane"), bar: region("bar") },
  () => session.host,
);
keysOfSheets(region("grid"), () => session.host, bar.save);
open().catch((error: unknown) => {
  const state = region("state");
  state.setAttribute("role", "alert");
  state.textContent = words.unopened(reason(error));
  throw error;
});

async function open(): Promise<void> {
  try {
    const saved = await store.load();
    if (saved === undefined) return await session.open(first);
    await session.open({ kind: "saved", saved });
    bar.say(words.restored);
  } catch (error) {
    // Whatever is wrong with what was kept, the workbench opens.
    await store.setAside().catch(() => {});
    await session.open(first);
    bar.say(words.setAside(reason(error)), true);
  }
}

function reason(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}

function region(id: string): HTMLElement {
  const found = document.getElementById(id);
  if (!found) throw new Error(`the page has no ${id}`);
  return found;
}
