/** One combination: what it comes to and changes, why it is not on the front where it is not, and the way into the schedules. */
import { useMemo, useState } from "preact/hooks";
import type { Cell } from "../../../functions/cells.js";
import type { CheckRow } from "../../../src/judgement/check-row.js";
import type { Objective } from "../../../src/tradeoffs/objectives.js";
import { isWhole } from "../../../src/tradeoffs/search-rounds.js";
import { choicesAt, indexOf } from "../../../src/tradeoffs/varied-feed.js";
import type { FoundBudget } from "../../budgets/reading/found-budget.js";
import { cellsAt, type OptionChange, optionChanges } from "../../tradeoffs/option-changes.js";
import { writeIntoCopy, writeOption } from "../../tradeoffs/option-writing.js";
import { differenceText, figureText } from "../../tradeoffs/objective-figures.js";
import type { ToldOption } from "../../tradeoffs/search-messages.js";
import type { WorkbookStore } from "../../workbook/workbook-store.js";
import { shownNumber } from "../../words/shown-numbers.js";
import { tradeWords } from "../../words/trade-words.js";
import { Choice } from "../parts/budget-choice.js";
import { Button } from "../parts/button.js";
import { useTools } from "../parts/tools.js";
import type { ResultProps } from "./result-props.js";

const said = tradeWords.chosen;

export interface OptionPanelProps extends ResultProps {
  readonly budget: FoundBudget;
  readonly store: WorkbookStore;
  /** Undefined until it is told. */
  readonly option: ToldOption | undefined;
}

export function OptionPanel(props: OptionPanelProps) {
  const { job, chosen, choose, nameOf, budget, store, option } = props;
  const { host, failed } = useTools();
  const [outcome, tell] = useState("");
  const { variations } = job;
  const at = choicesAt({ variations }, chosen);
  const name = nameOf(chosen);
  const cells = useMemo(() => cellsAt(job.variations, chosen), [job, chosen]);
  const changes = useMemo(() => optionChanges(budget, cells), [budget, cells]);

  async function act(write: () => Promise<string>): Promise<void> {
    tell(said.writing);
    try {
      tell(await write());
    } catch (error) {
      tell("");
      failed(error);
    }
  }

  const workbook = { host, store };
  return (
    <section class="feed-chosen" aria-label={said.title}>
      <h3 class="feed-chosen-name">{name}</h3>
      <p class="feed-hint">{said.change}</p>
      {variations.map((variation, place) => (
        <Choice
          key={variation.name}
          label={variation.name}
          options={variation.choices.map(({ name: label }, value) => ({
            value: String(value),
            label,
          }))}
          chosen={String(at[place])}
          choose={(value) => {
            tell("");
            choose(
              indexOf(
                { variations },
                at.map((one, other) => (other === place ? Number(value) : one)),
              ),
            );
          }}
        />
      ))}
      {option && <Told {...props} option={option} />}
      <Changes changes={changes} />
      <div class="feed-actions">
        <Button
          class="feed-button feed-main"
          aria-disabled={changes.length === 0}
          press={() => {
            if (changes.length === 0) return;
            void act(async () => {
              await writeOption(workbook, budget.stem, cells);
              return said.written(name);
            });
          }}
        >
          {said.write}
        </Button>
        <Button
          press={() =>
            void act(async () => {
              const sheets = await writeIntoCopy(workbook, budget.stem, cells);
              return said.copied(name, sheets);
            })
          }
        >
          {said.writeCopy}
        </Button>
      </div>
      <p class="feed-outcome" role="status">
        {outcome}
      </p>
    </section>
  );
}

function againstNow(
  objective: Objective,
  value: number | undefined,
  now: number | undefined,
): string {
  if (now === undefined) return said.unknownNow;
  if (value === undefined) return "";
  const difference = differenceText(objective, value, now);
  return difference === "" ? said.alike : said.against(difference);
}

function Told({
  job: { objectives },
  result,
  nameOf,
  option,
}: OptionPanelProps & { readonly option: ToldOption }) {
  const { outcome, figures, broken } = option;
  const isBroken = broken.length > 0;
  return (
    <>
      <dl class="feed-chosen-figures">
        {objectives.map((objective, at) => {
          return (
            <div key={objective}>
              <dt>{tradeWords.objectives[objective]}</dt>
              <dd>{figureText(objective, figures[at])}</dd>
              <dd class="feed-chosen-more">
                {againstNow(objective, figures[at], result.present[at])}
              </dd>
            </div>
          );
        })}
      </dl>
      {outcome.kind === "unbeaten" && (
        <p>{isWhole(result.extent) ? said.unbeaten : said.unbeatenAmong}</p>
      )}
      {outcome.kind === "not searched" && <p>{said.notSearched}</p>}
      {outcome.kind === "beaten" && <p>{said.beaten(nameOf(outcome.by.index))}</p>}
      {isBroken && (
        <>
          <p class="feed-fault">{outcome.kind === "beaten" ? said.alsoStopped : said.stopped}</p>
          <h4 class="feed-chosen-why">{said.broken}</h4>
          <ul class="feed-why-not">
            {broken.map((row) => (
              <li key={`${row.item}|${row.check}`}>
                <strong>{said.row(row.item, row.check)}</strong> {whyText(row)}
              </li>
            ))}
          </ul>
        </>
      )}
    </>
  );
}

function whyText({ found, asked, limit, unit, margin, worstIn, verdict, enterOrTry }: CheckRow) {
  if (verdict === "not determined" || typeof found !== "number")
    return [worstIn, enterOrTry].filter(Boolean).join("; ");
  const text = (figure: number | string) =>
    typeof figure === "number" ? shownNumber(figure, unit || "1").text : figure;
  const parts = [said.found(text(found), asked, text(limit))];
  if (margin !== undefined) parts.push(said.by(figureText("worst margin", -Math.abs(margin))));
  if (worstIn) parts.push(said.in(worstIn));
  return parts.join("; ");
}

function Changes({ changes }: { readonly changes: readonly OptionChange[] }) {
  if (changes.length === 0) return <p class="feed-quiet">{said.noChange}</p>;
  return (
    <details class="feed-block">
      <summary>{said.changes(changes.length)}</summary>
      <ul>
        {changes.map(({ header, row, now, value }) => (
          <li key={`${header}|${row}`}>{said.from(header, row, cellText(now), cellText(value))}</li>
        ))}
      </ul>
      {changes.some(({ isFormula }) => isFormula) && <p class="feed-hint">{said.formulas}</p>}
    </details>
  );
}

function cellText(cell: Cell): string {
  if (cell === null || cell === "") return said.nothing;
  if (typeof cell === "object") return cell.error;
  return typeof cell === "number" ? shownNumber(cell, "1").text : String(cell);
}
