/** Everything the workbook's budgets give to warn of, by budget, and the way to each cell. */
import type { FoundBudget, Warning } from "../../src/warnings/warning.js";
import type { Host } from "../hosts/host.js";
import { type BudgetSearch, planIdOf } from "../found-budgets.js";
import { button, element, freshId } from "./element.js";
import { keepFocus, putInOrder } from "./kept-list.js";
import { latestOnly } from "./latest.js";
import { fillWarning, warningItem } from "./warning-item.js";
import { words } from "./words.js";

const said = words.warnings;

export interface WarningsViewOptions {
  readonly host: Host;
  readonly search: () => Promise<BudgetSearch>;
  readonly warningsOf: (budget: FoundBudget) => readonly Warning[];
  /** Title of a plan by its id. */
  readonly titles: ReadonlyMap<string, string>;
  readonly toInsert: () => void;
  readonly failed: (error: unknown) => void;
}

export interface WarningsView {
  readonly element: HTMLElement;
  /** Gives how many there are, or nothing when there is no budget or a later reading has overtaken this one. */
  refresh(): Promise<WarningsFound | undefined>;
}

export interface WarningsFound {
  readonly budgets: number;
  readonly warnings: number;
}

interface BudgetWarnings {
  readonly budget: FoundBudget;
  readonly warnings: readonly Warning[];
}

const RANK = { danger: 0, warning: 1, note: 2 };

export function warningsView(options: WarningsViewOptions): WarningsView {
  const message = element("div", { class: "feed-message" });
  const groups = element("div", { class: "feed-groups" });
  const unknown = element("p", { class: "feed-quiet", hidden: true });
  const heading = element(
    "h2",
    { class: "feed-heading", tabindex: "-1" },
    said.title,
  );
  const view = element("div", {}, heading, message, groups, unknown);
  message.append(element("p", { class: "feed-quiet" }, said.reading));
  const newest = latestOnly();

  async function refresh(): Promise<WarningsFound | undefined> {
    const isNewest = newest();
    let search: BudgetSearch;
    try {
      search = await options.search();
    } catch (error) {
      if (isNewest()) showFailure(error);
      return undefined;
    }
    return isNewest() ? show(search) : undefined;
  }

  function show({ budgets, unknown: names }: BudgetSearch): WarningsFound {
    const found = budgets.map((budget) => ({
      budget,
      warnings: sorted(options.warningsOf(budget)),
    }));
    keepFocus(view, heading, () => {
      putInOrder(
        groups,
        found.map(({ budget }) => budget.stem),
        newGroup,
        (group, index) => fillGroup(group, found[index], options),
      );
      if (budgets.length > 0) message.replaceChildren();
      else showNoBudget();
    });
    unknown.hidden = names.length === 0;
    unknown.textContent = said.unknown(names);
    const warnings = found.flatMap((each) => each.warnings).length;
    return { budgets: budgets.length, warnings };
  }

  function showNoBudget(): void {
    if (message.querySelector(".feed-no-budget")) return;
    message.replaceChildren(
      element("p", { class: "feed-no-budget" }, said.noBudget),
      button(said.toInsert, options.toInsert),
    );
  }

  function showFailure(error: unknown): void {
    const why = error instanceof Error ? error.message : String(error);
    message.replaceChildren(
      element(
        "p",
        { class: "feed-refused", role: "alert" },
        said.unreadable(why),
      ),
      button(said.again, () => {
        refresh().catch(options.failed);
      }),
    );
  }

  return { element: view, refresh };
}

function sorted(warnings: readonly Warning[]): readonly Warning[] {
  return [...warnings].sort((a, b) => RANK[a.severity] - RANK[b.severity]);
}

function newGroup(): HTMLElement {
  const id = freshId("budget");
  return element(
    "section",
    { class: "feed-group", "aria-labelledby": id },
    element("h3", { class: "feed-group-heading", id }),
    element("ul", { class: "feed-findings" }),
    element(
      "div",
      { class: "feed-nothing", hidden: true },
      element("p", {}, said.nothing),
      element("p", { class: "feed-quiet" }, said.noStatement),
    ),
  );
}

function fillGroup(
  group: HTMLElement,
  found: BudgetWarnings | undefined,
  { host, titles, failed }: WarningsViewOptions,
): void {
  const [heading, list, nothing] = [...group.children] as HTMLElement[];
  if (!found || !heading || !list || !nothing) return;
  const { budget, warnings } = found;
  heading.textContent = `${titles.get(planIdOf(budget)) ?? budget.stem} · ${budget.stem}`;
  nothing.hidden = warnings.length > 0;
  list.hidden = warnings.length === 0;
  putInOrder(
    list,
    warnings.map(({ id }) => id),
    () => warningItem(host, failed),
    (item, index) => fillWarning(item, warnings[index]),
  );
}
