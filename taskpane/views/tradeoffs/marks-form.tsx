/** Which figures of the feed vary: one after the other is added, and each has its choices. */
import { useState } from "preact/hooks";
import { freeMark, type Mark } from "../../tradeoffs/marks.js";
import { markName } from "../../tradeoffs/mark-reading.js";
import { tradeWords as said } from "../../words/trade-words.js";
import { Choice } from "../parts/budget-choice.js";
import { Button } from "../parts/button.js";
import { MarkForm } from "./mark-form.js";

export interface MarksFormProps {
  readonly offered: readonly Mark[];
  readonly marks: readonly Mark[];
  readonly change: (marks: readonly Mark[]) => void;
  /** The choice that cannot be. */
  readonly fault: { readonly mark: Mark; readonly row: number } | undefined;
}

export function MarksForm({ offered, marks, change, fault }: MarksFormProps) {
  const [chosen, choose] = useState("");
  const free = offered.flatMap((mark) => freeMark(mark, marks) ?? []);
  const next = free.find((mark) => markName(mark) === chosen) ?? free[0];
  return (
    <section aria-label={said.vary}>
      <h3 class="feed-group-heading">{said.vary}</h3>
      {marks.length === 0 && <p class="feed-quiet">{said.noMarks}</p>}
      {marks.map((mark, at) => (
        <MarkForm
          key={markName(mark)}
          mark={mark}
          faultyRow={fault?.mark === mark ? fault.row : undefined}
          change={(texts) =>
            change(marks.map((one, place) => (place === at ? { ...one, texts } : one)))
          }
          remove={() => change(marks.filter((one) => one !== mark))}
        />
      ))}
      {next && (
        <div class="feed-add-mark">
          <Choice
            label={said.figure}
            options={free.map((mark) => ({ value: markName(mark), label: markName(mark) }))}
            chosen={markName(next)}
            choose={choose}
          />
          <Button press={() => change([...marks, next])}>{said.add}</Button>
        </div>
      )}
    </section>
  );
}
