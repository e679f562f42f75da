/** The workbench page: a spreadsheet with the first budget in it, and the pane beside it. */
import { budgets } from "../src/budget/budgets.js";
import { openWorkbench } from "./hosts/workbench-opening.js";
import type { WorkbenchHost } from "./hosts/workbench-host.js";
import { mountPane } from "./pane.js";
import { showResults } from "./results-tables.js";
import { moveBetweenRegions } from "./workbench-regions.js";
import "./workbench.css";

/** Filled in by the build: where the bundled spreadsheet lies. */
declare const VENDOR_SCRIPT: string;
declare const VENDOR_STYLE: string;

let host: WorkbenchHost | undefined;
moveBetweenRegions(region("pane"), () => host);
open().catch((error: unknown) => {
  const state = region("state");
  state.setAttribute("role", "alert");
  state.textContent = `The spreadsheet could not be opened: ${String(error)}. Reload the page to try again.`;
  throw error;
});

async function open(): Promise<void> {
  const [first] = budgets;
  if (!first) throw new Error("there is no budget to open");
  const opened = await openWorkbench(region("grid"), { kind: "plan", plan: first }, {
    script: new URL(VENDOR_SCRIPT, document.baseURI).href,
    style: new URL(VENDOR_STYLE, document.baseURI).href,
  });
  host = opened.host;
  region("state").hidden = true;
  mountPane(region("pane"), { host, budgets });
  showResults(region("results"), host, new Set(budgets.map(({ id }) => id)));
}

function region(id: string): HTMLElement {
  const found = document.getElementById(id);
  if (!found) throw new Error(`the page has no ${id}`);
  return found;
}
