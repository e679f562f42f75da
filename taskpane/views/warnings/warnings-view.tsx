/** Everything the workbook's budgets give to warn of, by budget, and the way to each cell. */
import { useMemo, useRef } from "preact/hooks";
import type { FoundBudget } from "../../budgets/reading/found-budget.js";
import {
  type JudgedWarning,
  judgedWarnings,
  openCount,
} from "../../budgets/warnings/acceptances.js";
import type { Warning } from "../../budgets/warnings/warning.js";
import { isCalculating } from "../../budgets/warnings/warnings.js";
import { accept, withdraw } from "../../workbook/accepting.js";
import { type BudgetSearch, titleOf } from "../../workbook/found-budgets.js";
import type { WorkbookStore } from "../../workbook/workbook-store.js";
import { words } from "../../words/words.js";
import { Button } from "../parts/button.js";
import { freshId } from "../parts/element.js";
import { KeepFocus } from "../parts/keep-focus.js";
import { drawInto, type Tools, useTools } from "../parts/tools.js";
import { useStore } from "../parts/use-store.js";
import { ManualCalculation } from "./manual-calculation.js";
import { MovingOffer } from "./moving-offer.js";
import { WarningItem } from "./warning-item.js";

const said = words.warnings;

export interface WarningsViewOptions extends Tools {
  readonly store: WorkbookStore;
  readonly warningsOf: (budget: FoundBudget) => readonly Warning[];
  readonly toInsert: () => void;
}

export interface WarningsView {
  readonly element: HTMLElement;
  /** Reads anew. Gives how many there are, or nothing where the workbook could not be read. */
  refresh(): Promise<WarningsFound | undefined>;
}

export interface WarningsFound {
  readonly budgets: number;
  /** Number of warnings, without notes and those that are accepted. */
  readonly warnings: number;
  /** Whether one of them waits for a result, and the number is not the last word. */
  readonly calculating: boolean;
}

interface BudgetWarnings {
  readonly budget: FoundBudget;
  readonly open: readonly JudgedWarning[];
  readonly accepted: readonly JudgedWarning[];
}

export function warningsView(options: WarningsViewOptions): WarningsView {
  const { store, warningsOf } = options;
  const place = document.createElement("div");
  let judged: { readonly search: BudgetSearch; readonly groups: readonly BudgetWarnings[] };
  /** Judged once for each reading. */
  const judge = (search: BudgetSearch) => {
    if (judged?.search !== search)
      judged = {
        search,
        groups: search.budgets.map((budget) => budgetWarnings(budget, warningsOf(budget))),
      };
    return judged.groups;
  };
  drawInto(place, options, <Warnings {...options} judge={judge} />);
  return {
    element: place,
    async refresh() {
      await readAnew(store);
      if (!store.search || store.failure !== undefined) return undefined;
      const groups = judge(store.search);
      const warnings = openCount(groups.flatMap(({ open }) => open));
      const calculating = groups.some(({ budget }) => isCalculating(budget));
      return { budgets: groups.length, warnings, calculating };
    },
  };
}

/** Where it fails the view says so. */
function readAnew(store: WorkbookStore): Promise<unknown> {
  return store.read().catch(() => undefined);
}

interface WarningsProps extends Pick<WarningsViewOptions, "store" | "toInsert"> {
  readonly judge: (search: BudgetSearch) => readonly BudgetWarnings[];
}

function Warnings({ store, toInsert, judge }: WarningsProps) {
  const { search, failure } = useStore(store);
  const heading = useRef<HTMLHeadingElement>(null);
  const groups = search ? judge(search) : [];
  const unknown = search?.unknown ?? [];
  return (
    <KeepFocus fallback={heading}>
      <h2 class="feed-heading" tabIndex={-1} ref={heading}>
        {said.title}
      </h2>
      <div class="feed-message">
        {failure !== undefined ? (
          <>
            <p class="feed-refused" role="alert">
              {said.unreadable(failure instanceof Error ? failure.message : String(failure))}
            </p>
            <Button press={() => void readAnew(store)}>{said.again}</Button>
          </>
        ) : !search ? (
          <p class="feed-quiet">{said.reading}</p>
        ) : groups.length === 0 ? (
          <>
            <p>{said.noBudget}</p>
            <Button press={toInsert}>{said.toInsert}</Button>
          </>
        ) : null}
      </div>
      <ManualCalculation budgets={search?.budgets ?? []} />
      <div class="feed-groups">
        {groups.map((group) => (
          <BudgetGroup key={group.budget.stem} group={group} store={store} />
        ))}
      </div>
      <MovingOffer old={search?.old ?? []} />
      {unknown.length > 0 && <p class="feed-quiet">{said.unknown(unknown)}</p>}
    </KeepFocus>
  );
}

interface BudgetGroupProps {
  readonly group: BudgetWarnings;
  readonly store: WorkbookStore;
}

function BudgetGroup({ group: { budget, open, accepted }, store }: BudgetGroupProps) {
  const { host, failed } = useTools();
  const id = useMemo(() => freshId("budget"), []);
  const then = (done: Promise<void>) => void done.then(() => readAnew(store)).catch(failed);
  const list = (warnings: readonly JudgedWarning[]) => (
    <ul class="feed-findings">
      {warnings.map((judged) => (
        <WarningItem
          key={judged.warning.id}
          judged={judged}
          actions={{
            accept: (what, reason) => then(accept(host, budget, what, reason)),
            withdraw: (acceptance) => then(withdraw(host, budget, acceptance)),
          }}
        />
      ))}
    </ul>
  );
  return (
    <section class="feed-group" aria-labelledby={id}>
      <h3 class="feed-group-heading" id={id}>{`${titleOf(budget)} · ${budget.stem}`}</h3>
      {isCalculating(budget) && <p class="feed-quiet">{said.calculating}</p>}
      {open.length > 0 && list(open)}
      {open.length === 0 && !isCalculating(budget) && (
        <div class="feed-nothing">
          <p>{said.nothing}</p>
          <p class="feed-quiet">{said.noStatement}</p>
        </div>
      )}
      {/* Only hidden where there are none: as its reader folded it, it comes back. */}
      <details class="feed-block" hidden={accepted.length === 0}>
        <summary>{said.acceptedHeading(accepted.length)}</summary>
        {list(accepted)}
      </details>
    </section>
  );
}

function budgetWarnings(budget: FoundBudget, warnings: readonly Warning[]): BudgetWarnings {
  const judged = judgedWarnings(warnings, budget);
  return {
    budget,
    open: judged.filter(({ isAccepted }) => !isAccepted),
    accepted: judged.filter(({ isAccepted }) => isAccepted),
  };
}
