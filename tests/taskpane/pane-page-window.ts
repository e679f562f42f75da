import type { WorkbookPlan } from "../../src/plans/sheet-plan.js";
import type { PaneControl } from "../../taskpane/pane.js";
import type { MemoryHost } from "../hosts/memory-host.js";

/** What the page of the pane's tests leaves within their reach. */
export interface PaneTest {
  readonly host: MemoryHost;
  readonly pane: PaneControl;
  readonly plans: readonly WorkbookPlan[];
}

declare global {
  interface Window {
    paneTest: PaneTest;
    /** What a live region said, in order. */
    heard: string[];
  }
}
