/** Everything the workbook's budgets give to warn of, by budget, and the way to each cell. */
import type { FoundBudget } from "../../budgets/reading/found-budget.js";
import {
  type JudgedWarning,
  judgedWarnings,
  openCount,
} from "../../budgets/warnings/acceptances.js";
import type { Warning } from "../../budgets/warnings/warning.js";
import { accept, withdraw } from "../../workbook/accepting.js";
import type { Host } from "../../hosts/host.js";
import { type BudgetSearch, titleOf } from "../../workbook/found-budgets.js";
import { button, element, freshId } from "../parts/element.js";
import { keepFocus, putInOrder } from "../parts/kept-list.js";
import { latestOnly } from "../parts/latest.js";
import { fillWarning, type WarningActions, warningItem } from "./warning-item.js";
import { movingOffer } from "./moving-offer.js";
import { words } from "../../words/words.js";

const said = words.warnings;

export interface WarningsViewOptions {
  readonly host: Host;
  readonly search: () => Promise<BudgetSearch>;
  readonly warningsOf: (budget: FoundBudget) => readonly Warning[];
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
  /** Without notes and those that are accepted. */
  readonly warnings: number;
}

interface BudgetWarnings {
  readonly budget: FoundBudget;
  readonly open: readonly JudgedWarning[];
  readonly accepted: readonly JudgedWarning[];
}

export function warningsView(options: WarningsViewOptions): WarningsView {
  const message = element("div", { class: "feed-message" });
  const groups = element("div", { class: "feed-groups" });
  const unknown = element("p", { class: "feed-quiet", hidden: true });
  const heading = element("h2", { class: "feed-heading", tabindex: "-1" }, said.title);
  const offer = movingOffer(options.host, options.failed);
  const view = element("div", {}, heading, message, groups, offer.element, unknown);
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

  function show({ budgets, old, unknown: names }: BudgetSearch): WarningsFound {
    const found = budgets.map((budget) => budgetWarnings(budget, options.warningsOf(budget)));
    keepFocus(view, heading, () => {
      putInOrder(
        groups,
        found.map(({ budget }) => budget.stem),
        newGroup,
        (group, index) => {
          fillGroup(group, found[index], actions);
        },
      );
      if (budgets.length > 0) message.replaceChildren();
      else showNoBudget();
    });
    offer.show(old);
    unknown.hidden = names.length === 0;
    unknown.textContent = names.length === 0 ? "" : said.unknown(names);
    const warnings = openCount(found.flatMap(({ open }) => open));
    return { budgets: budgets.length, warnings };
  }

  const actions = (budget: FoundBudget): WarningActions => ({
    goTo(at) {
      options.host.goTo(at).catch(options.failed);
    },
    accept(what, reason) {
      accept(options.host, budget, what, reason).then(refresh).catch(options.failed);
    },
    withdraw(acceptance) {
      withdraw(options.host, budget, acceptance).then(refresh).catch(options.failed);
    },
  });

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
      element("p", { class: "feed-refused", role: "alert" }, said.unreadable(why)),
      button(said.again, () => {
        refresh().catch(options.failed);
      }),
    );
  }

  return { element: view, refresh };
}

function budgetWarnings(budget: FoundBudget, warnings: readonly Warning[]): BudgetWarnings {
  const judged = judgedWarnings(warnings, budget);
  return {
    budget,
    open: judged.filter(({ isAccepted }) => !isAccepted),
    accepted: judged.filter(({ isAccepted }) => isAccepted),
  };
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
    element(
      "details",
      { class: "feed-block", hidden: true },
      element("summary", {}),
      element("ul", { class: "feed-findings" }),
    ),
  );
}

function fillGroup(
  group: HTMLElement,
  found: BudgetWarnings | undefined,
  actionsOf: (budget: FoundBudget) => WarningActions,
): void {
  const [heading, list, nothing, details] = [...group.children] as HTMLElement[];
  if (!found || !heading || !list || !nothing || !details) return;
  const { budget, open, accepted } = found;
  const actions = actionsOf(budget);
  heading.textContent = `${titleOf(budget)} · ${budget.stem}`;
  nothing.hidden = open.length > 0;
  list.hidden = open.length === 0;
  details.hidden = accepted.length === 0;
  const [summary, acceptedList] = [...details.children] as HTMLElement[];
  if (!summary || !acceptedList) return;
  summary.textContent = said.acceptedHeading(accepted.length);
  fillList(list, open, actions);
  fillList(acceptedList, accepted, actions);
}

function fillList(
  list: HTMLElement,
  warnings: readonly JudgedWarning[],
  actions: WarningActions,
): void {
  putInOrder(
    list,
    warnings.map(({ warning }) => warning.id),
    warningItem,
    (item, index) => {
      fillWarning(item, warnings[index], actions);
    },
  );
}
