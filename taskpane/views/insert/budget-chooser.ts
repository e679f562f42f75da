/** Choosing a worked budget and putting it into the workbook. */
import type { WorkbookPlan } from "../../../src/plans/sheet-plan.js";
import type { Host, InsertedBudget } from "../../hosts/host.js";
import { rangeText } from "../../formula-reading/argument-text.js";
import { button, element, freshId } from "../parts/element.js";
import { words } from "../../words/words.js";

const said = words.insert;

export interface BudgetChooser {
  readonly element: HTMLElement;
  /** Inserts the first budget, whichever is chosen. */
  insertFirst(): void;
}

export function budgetChooser(
  host: Host,
  budgets: readonly WorkbookPlan[],
  failed: (error: unknown) => void,
): BudgetChooser {
  const headingId = freshId("budgets");
  const heading = element("h2", { class: "feed-heading", id: headingId }, said.budgets);
  const section = element(
    "section",
    { class: "feed-section", "aria-labelledby": headingId },
    heading,
  );
  const [first] = budgets;
  if (!first) {
    section.append(element("p", {}, said.noBudgets));
    return { element: section, insertFirst: () => {} };
  }

  let chosen = first;
  const adds = element("p", { class: "feed-quiet feed-adds" });
  const outcome = element("div", { class: "feed-outcome" });
  const status = element("p", { class: "feed-status", role: "status" });
  const progress = element("progress", {
    class: "feed-progress",
    "aria-label": said.insertBudget,
    hidden: true,
  });
  const insert = button(
    said.insertBudget,
    () => {
      if (insert.getAttribute("aria-disabled") === "true") return;
      insertPlan(chosen).catch(failed);
    },
    { class: "feed-button feed-main" },
  );

  async function insertPlan(plan: WorkbookPlan): Promise<void> {
    busy(true);
    outcome.replaceChildren();
    status.textContent = said.inserting(plan.title);
    try {
      showInserted(plan, await host.insert(plan));
    } catch (error) {
      const why = error instanceof Error ? error.message : String(error);
      status.textContent = said.notInserted(why);
    } finally {
      busy(false);
    }
  }

  function busy(now: boolean): void {
    progress.hidden = !now;
    // Not `disabled`, which would take the focus away.
    insert.setAttribute("aria-disabled", String(now));
  }

  function showInserted(plan: WorkbookPlan, inserted: InsertedBudget): void {
    const names = plan.sheets.map(({ key, name }) => inserted.sheets[key] ?? name);
    status.textContent = said.inserted(plan.title, names);
    const [sheet] = names;
    if (sheet === undefined) return;
    const at = { sheet, address: "A1" };
    outcome.replaceChildren(
      button(said.goToSheet(rangeText(at)), () => {
        host.goTo(at).catch(failed);
      }),
    );
  }

  section.append(
    choices(budgets, (plan) => {
      chosen = plan;
      adds.textContent = said.adds(plan.sheets.map(({ name }) => name));
    }),
    adds,
    element("div", { class: "feed-actions" }, insert, progress),
    status,
    outcome,
  );
  return {
    element: section,
    insertFirst() {
      insert.focus();
      insertPlan(first).catch(failed);
    },
  };
}

function choices(
  budgets: readonly WorkbookPlan[],
  choose: (plan: WorkbookPlan) => void,
): HTMLElement {
  const group = freshId("budget");
  const field = element(
    "fieldset",
    { class: "feed-choices" },
    element("legend", { class: "feed-hidden" }, said.chooseBudget),
  );
  budgets.forEach((plan, index) => {
    const [radioId, sentenceId] = [freshId("choice"), freshId("sentence")];
    const radio = element("input", {
      type: "radio",
      name: group,
      id: radioId,
      value: plan.id,
      checked: index === 0,
      "aria-describedby": sentenceId,
    });
    radio.addEventListener("change", () => choose(plan));
    field.append(
      element(
        "div",
        { class: "feed-choice" },
        radio,
        element(
          "label",
          { for: radioId },
          element("span", { class: "feed-choice-title" }, plan.title),
        ),
        element("p", { class: "feed-choice-sentence", id: sentenceId }, sentenceOf(plan)),
      ),
    );
    if (index === 0) choose(plan);
  });
  return field;
}

/** A plan says what it is about under the title of its first sheet. */
function sentenceOf({ sheets }: WorkbookPlan): string {
  const cells = sheets.flatMap((sheet) => sheet.cells);
  const subtitle = cells.find(({ style }) => style === "subtitle");
  return typeof subtitle?.value === "string" ? subtitle.value : said.invented;
}
