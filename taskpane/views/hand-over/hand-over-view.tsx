/** What leaves the workbook: copies that need no add-in, issues of the document, its report; and its versions, side by side. */
import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";
import type { CellRange, Host } from "../../hosts/host.js";
import { versionsOf } from "../../workbook/versions/compared-versions.js";
import { proposedTitle } from "../../workbook/versions/kept-version.js";
import type { WorkbookStore } from "../../workbook/workbook-store.js";
import { words } from "../../words/words.js";
import { drawInto } from "../parts/tools.js";
import { useSearch } from "../parts/use-store.js";
import { RepairSection } from "../warnings/repair-section.js";
import { BudgetGroup } from "./budget-group.js";
import { CompareForm } from "./compare-form.js";
import { handOverCommands } from "./hand-over-commands.js";
import { LoadingSwitch } from "./loading-switch.js";

const said = words.handOver;

export interface HandOverOptions {
  readonly host: Host;
  readonly store: WorkbookStore;
  readonly failed: (error: unknown) => void;
}

export interface HandOverView {
  readonly element: HTMLElement;
  /** Cells whose working the report shows, each once. */
  addToReport(cell: CellRange): void;
}

export function handOverView(options: HandOverOptions): HandOverView {
  const place = document.createElement("div");
  const chosen = new Map<string, CellRange>();
  const draw = () =>
    drawInto(place, options, <HandOver {...options} workings={[...chosen.values()]} />);
  draw();
  return {
    element: place,
    addToReport(cell) {
      chosen.set(`${cell.sheet}!${cell.address}`, cell);
      draw();
    },
  };
}

interface HandOverProps extends HandOverOptions {
  readonly workings: readonly CellRange[];
}

function HandOver({ host, store, failed, workings }: HandOverProps) {
  const search = useSearch(store);
  const [outcome, tell] = useState<ComponentChildren>("");
  const versions = versionsOf(search?.budgets ?? []);
  const commands = handOverCommands({ host, store, workings, tell, failed });
  return (
    <div>
      <h2 class="feed-heading">{said.title}</h2>
      <p class="feed-quiet">{said.copies}</p>
      {!host.can("saved files") && <p class="feed-quiet">{said.noFiles}</p>}
      <div class="feed-groups">
        {search?.budgets.length === 0 && <p>{said.noBudget}</p>}
        {search?.budgets.map((budget) => (
          <BudgetGroup
            key={budget.stem}
            host={host}
            budget={budget}
            proposed={proposedTitle(budget, search.budgets)}
            commands={commands}
          />
        ))}
      </div>
      {versions.length > 1 && <CompareForm versions={versions} commands={commands} />}
      <p class="feed-quiet">{said.workings(workings.length)}</p>
      <div class="feed-outcome" role="status">
        {outcome}
      </div>
      {host.loading && <LoadingSwitch loading={host.loading} />}
      <RepairSection />
    </div>
  );
}
