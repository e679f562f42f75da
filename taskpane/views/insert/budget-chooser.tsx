/** Choosing a worked budget and putting it into the workbook. */
import type { Ref } from "preact";
import { useImperativeHandle, useMemo, useRef, useState } from "preact/hooks";
import type { WorkbookPlan } from "../../../src/plans/sheet-plan.js";
import { rangeText } from "../../formula-reading/argument-text.js";
import { words } from "../../words/words.js";
import { GoTo } from "../parts/button.js";
import { freshId } from "../parts/element.js";
import { useTools } from "../parts/tools.js";

const said = words.insert;

export interface BudgetCommands {
  /** Inserts the first budget, whichever is chosen. */
  insertFirst(): void;
}

export interface BudgetChooserProps {
  readonly budgets: readonly WorkbookPlan[];
  readonly commands: Ref<BudgetCommands>;
}

export function BudgetChooser({ budgets, commands }: BudgetChooserProps) {
  const { host, failed } = useTools();
  const stem = useMemo(() => freshId("budgets"), []);
  const [chosen, choose] = useState(budgets[0]);
  const [isBusy, setBusy] = useState(false);
  const [status, say] = useState("");
  const [inserted, showInserted] = useState<string>();
  const insert = useRef<HTMLButtonElement>(null);

  async function insertPlan(plan: WorkbookPlan): Promise<void> {
    setBusy(true);
    showInserted(undefined);
    say(said.inserting(plan.title));
    try {
      const { sheets } = await host.insert(plan);
      const names = Object.values(sheets);
      const done = said.inserted(plan.title, names);
      say(host.calculation?.isManual() ? `${done} ${said.insertedUncalculated}` : done);
      showInserted(names[0]);
    } catch (error) {
      say(said.notInserted(error instanceof Error ? error.message : String(error)));
    } finally {
      setBusy(false);
    }
  }

  useImperativeHandle(
    commands,
    () => ({
      insertFirst() {
        insert.current?.focus();
        if (budgets[0]) insertPlan(budgets[0]).catch(failed);
      },
    }),
    [],
  );
  const goTo = inserted === undefined ? undefined : { sheet: inserted, address: "A1" };
  return (
    <section class="feed-section" aria-labelledby={stem}>
      <h2 class="feed-heading" id={stem}>
        {said.budgets}
      </h2>
      {chosen ? (
        <>
          <fieldset class="feed-choices">
            <legend class="feed-hidden">{said.chooseBudget}</legend>
            {budgets.map((plan, index) => (
              <div class="feed-choice" key={plan.id}>
                <input
                  type="radio"
                  name={`${stem}-choice`}
                  id={`${stem}-${index}`}
                  value={plan.id}
                  checked={plan === chosen}
                  aria-describedby={`${stem}-${index}-sentence`}
                  onChange={() => choose(plan)}
                />
                <label for={`${stem}-${index}`}>
                  <span class="feed-choice-title">{plan.title}</span>
                </label>
                <p class="feed-choice-sentence" id={`${stem}-${index}-sentence`}>
                  {sentenceOf(plan)}
                </p>
              </div>
            ))}
          </fieldset>
          <p class="feed-quiet feed-adds">{said.adds(chosen.sheets.map(({ name }) => name))}</p>
          <div class="feed-actions">
            {/* Not `disabled`, which would take the focus away. */}
            <button
              type="button"
              class="feed-button feed-main"
              ref={insert}
              aria-disabled={isBusy}
              onClick={() => {
                if (!isBusy) insertPlan(chosen).catch(failed);
              }}
            >
              {said.insertBudget}
            </button>
            <progress class="feed-progress" aria-label={said.insertBudget} hidden={!isBusy} />
          </div>
          <p class="feed-status" role="status">
            {status}
          </p>
          <div class="feed-outcome">
            {goTo && <GoTo to={goTo}>{said.goToSheet(rangeText(goTo))}</GoTo>}
          </div>
        </>
      ) : (
        <p>{said.noBudgets}</p>
      )}
    </section>
  );
}

/** A plan says what it is about under the title of its first sheet. */
function sentenceOf({ sheets }: WorkbookPlan): string {
  const cells = sheets.flatMap((sheet) => sheet.cells);
  const subtitle = cells.find(({ style }) => style === "subtitle");
  return typeof subtitle?.value === "string" ? subtitle.value : said.invented;
}
