/** The workbook that is open in the page, with the pane and the tables beside it; it can be replaced by another. */
import type { WorkbookPlan } from "../../../src/plans/sheet-plan.js";
import type { WorkbenchHost } from "../../hosts/workbench/workbench-host.js";
import {
  type OpenedWorkbench,
  type OpeningContent,
  openWorkbench,
  type VendorAddresses,
} from "../../hosts/workbench/snapshots/opening.js";
import { mountPane } from "../../pane.js";
import { workbookStore } from "../../workbook/workbook-store.js";
import { sheetEntry } from "../../workbook/entries/sheet-entry.js";
import { showResults } from "./results-tables.js";
import type { WholePage } from "../../views/head/whole-page.js";
import { stepsMemory } from "../../steps-memory.js";

export interface SessionPlace {
  readonly grid: HTMLElement;
  readonly pane: HTMLElement;
  readonly results: HTMLElement;
  /** Covers the grid while there is nothing in it. */
  readonly state: HTMLElement;
  /** Where the pane may take the whole page. */
  readonly wholePage?: WholePage;
}

export interface Session {
  /** @throws {Error} where it cannot be opened; nothing is open then. */
  open(content: OpeningContent): Promise<void>;
  /** @throws {Error} where it cannot be opened; the workbook from before is open again then. */
  replace(content: OpeningContent): Promise<void>;
  readonly host: WorkbenchHost | undefined;
  readonly workbook: OpenedWorkbench | undefined;
}

export function workbenchSession(
  place: SessionPlace,
  budgets: readonly WorkbookPlan[],
  addresses: VendorAddresses,
  edited: () => void,
): Session {
  let workbook: OpenedWorkbench | undefined;
  let close = () => {};

  async function open(content: OpeningContent): Promise<void> {
    place.state.hidden = false;
    const opened = await openWorkbench(place.grid, content, addresses);
    const { host } = opened;
    const store = workbookStore(host);
    const pane = mountPane(place.pane, {
      host,
      store,
      budgets,
      memory: stepsMemory,
      ...(place.wholePage && { wholePage: place.wholePage }),
    });
    const stops = [
      showResults(place.results, host, store),
      opened.onEdit(edited),
      host.onEntry(sheetEntry),
    ];
    workbook = opened;
    place.state.hidden = true;
    close = () => {
      for (const stop of stops) stop();
      pane.dispose();
      host.dispose();
      place.grid.replaceChildren();
      place.results.replaceChildren();
      workbook = undefined;
      close = () => {};
    };
  }

  return {
    open,
    async replace(content) {
      await workbook?.host.atRest();
      const before = workbook?.save();
      close();
      try {
        await open(content);
      } catch (error) {
        if (before !== undefined) await open({ kind: "saved", saved: before });
        throw error;
      }
    },
    get host() {
      return workbook?.host;
    },
    get workbook() {
      return workbook;
    },
  };
}
