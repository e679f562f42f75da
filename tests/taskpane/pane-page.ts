/** The page that the pane's tests open: a pane over a host in memory, within reach of the test. */
import { mountPane, type PaneControl } from "../../taskpane/pane.js";
import { MemoryHost } from "../hosts/memory-host.js";
import { panePlans } from "./pane-plans.js";

export interface PaneTest {
  readonly host: MemoryHost;
  readonly pane: PaneControl;
}

declare global {
  interface Window {
    paneTest: PaneTest;
  }
}

const host = new MemoryHost();
const root = document.getElementById("pane");
if (!root) throw new Error("the page has no pane");
window.paneTest = { host, pane: mountPane(root, { host, budgets: panePlans }) };
