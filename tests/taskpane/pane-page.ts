/** The page that the pane's tests open: a pane over a host in memory, within reach of the test. */
import { mountPane } from "../../taskpane/pane.js";
import { MemoryHost } from "../hosts/memory-host.js";
import "./pane-page-window.js";
import { panePlans } from "./pane-plans.js";

const host = new MemoryHost();
const root = document.getElementById("pane");
if (!root) throw new Error("the page has no pane");
window.paneTest = {
  host,
  plans: panePlans,
  pane: mountPane(root, {
    host,
    budgets: panePlans,
    memory: {
      closedBefore: () => true,
      rememberClosed: () => {},
    },
  }),
};
