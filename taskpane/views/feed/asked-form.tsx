/** What is asked of the feed, label by label, as it stands on Inputs: a value, `not asked`, or nothing yet. */
import { useMemo, useState } from "preact/hooks";
import {
  type Label,
  LABELS,
  NOT_ASKED,
  REQUIREMENTS,
} from "../../../src/judgement/requirements.js";
import { textOf } from "../../budgets/reading/range-table.js";
import type { FoundBudget } from "../../budgets/reading/found-budget.js";
import { askedColumn, wordsFor } from "../../workbook/entries/asked-column.js";
import { entryFor, typedText } from "../../workbook/entries/entry-text.js";
import { feedWords as said } from "../../words/feed-words.js";
import { freshId } from "../parts/element.js";
import type { FeedCommands } from "./feed-commands.js";

export interface AskedFormProps {
  readonly budget: FoundBudget;
  readonly commands: FeedCommands;
}

export function AskedForm({ budget, commands }: AskedFormProps) {
  const stem = useMemo(() => freshId("asked"), []);
  /** What was typed since the sheet was read. */
  const [typed, type] = useState<Readonly<Partial<Record<Label, string>>>>({});
  const now = useMemo(() => valuesOf(budget), [budget]);
  const entries = LABELS.flatMap((label) => {
    const text = typed[label];
    if (text === undefined || text === now[label]) return [];
    return [{ label, answer: entryFor(askedColumn(label), text) }];
  });
  const refusal = (label: Label) => {
    const answer = entries.find((one) => one.label === label)?.answer;
    return answer && "refused" in answer ? answer.refused : "";
  };
  const open = LABELS.filter((label) => now[label] === "").length;
  const submit = (event: Event) => {
    event.preventDefault();
    const changes = entries.flatMap(({ label, answer }) =>
      "content" in answer ? [{ label, content: answer.content }] : [],
    );
    if (changes.length === 0 || changes.length < entries.length) return;
    void commands.ask(changes).then((done) => {
      if (done) type({});
    });
  };
  return (
    <details class="feed-block">
      <summary>{said.asked.title(open)}</summary>
      <form class="feed-row-form" aria-label={said.asked.form} onSubmit={submit}>
        <p class="feed-quiet">{said.asked.about}</p>
        {LABELS.map((label) => {
          const { content, usual } = REQUIREMENTS[label];
          const id = `${stem}-${LABELS.indexOf(label)}`;
          const common = {
            class: "feed-input",
            id,
            value: typed[label] ?? now[label],
            "aria-describedby": `${id}-means`,
            "aria-invalid": refusal(label) !== "",
          };
          const set = (text: string) => type({ ...typed, [label]: text });
          const unit =
            content.holds === "figure" && content.unit !== "" ? ` (${content.unit})` : "";
          return (
            <div class="feed-argument" key={label}>
              <label class="feed-label" for={id}>
                {label}
                {unit}
              </label>
              {content.holds === "word" ? (
                <select {...common} onChange={({ currentTarget }) => set(currentTarget.value)}>
                  <option value="">{said.empty}</option>
                  {[...content.words, NOT_ASKED].map((word) => (
                    <option key={word}>{word}</option>
                  ))}
                </select>
              ) : (
                <>
                  <input
                    {...common}
                    list={content.holds === "figure" ? `${id}-list` : undefined}
                    onInput={({ currentTarget }) => set(currentTarget.value)}
                  />
                  {content.holds === "figure" && (
                    <datalist id={`${id}-list`}>
                      {[...wordsFor(label), NOT_ASKED].map((word) => (
                        <option key={word} value={word} />
                      ))}
                    </datalist>
                  )}
                </>
              )}
              <p class="feed-hint" id={`${id}-means`}>
                {refusal(label) ||
                  (content.holds === "figure" && usual !== "" ? said.asked.usual(usual) : usual)}
              </p>
            </div>
          );
        })}
        <div class="feed-actions">
          <button type="submit" class="feed-button feed-main" aria-disabled={entries.length === 0}>
            {said.save}
          </button>
        </div>
      </form>
    </details>
  );
}

function valuesOf({ ranges }: FoundBudget): Readonly<Record<Label, string>> {
  const rows = ranges["Asked"]?.values ?? [];
  const of = (label: Label) => rows.find(([first]) => textOf(first) === label)?.[1];
  return Object.fromEntries(
    LABELS.map((label) => {
      const value = of(label);
      return [
        label,
        typeof value === "number" ? typedText(askedColumn(label), value) : textOf(value),
      ];
    }),
  ) as Record<Label, string>;
}
