/** Asks under which title a version of a budget is kept. */
import { useLayoutEffect, useMemo, useRef, useState } from "preact/hooks";
import type { FoundBudget } from "../../budgets/reading/found-budget.js";
import { titleOf } from "../../workbook/found-budgets.js";
import { words } from "../../words/words.js";
import { AnsweredForm, type FocusHome } from "../parts/answered-form.js";
import { freshId } from "../parts/element.js";
import type { HandOverCommands } from "./hand-over-commands.js";

const said = words.handOver.versions;

export interface KeepFormProps {
  readonly budget: FoundBudget;
  readonly proposed: string;
  readonly commands: HandOverCommands;
  readonly close: () => void;
  readonly home: FocusHome;
}

export function KeepForm({ budget, proposed, commands, close, home }: KeepFormProps) {
  const id = useMemo(() => freshId("version"), []);
  const field = useRef<HTMLInputElement>(null);
  const [title, setTitle] = useState(proposed);
  const [fault, setFault] = useState("");
  const [isKeeping, keep] = useState(false);
  useLayoutEffect(() => field.current?.select(), []);

  const submit = async () => {
    if (isKeeping) return;
    keep(true);
    try {
      await commands.keep(budget, title);
      close();
    } catch (error) {
      keep(false);
      setFault(error instanceof Error ? error.message : String(error));
      field.current?.focus();
    }
  };
  return (
    <AnsweredForm
      label={said.title(titleOf(budget))}
      fault={fault}
      yes={said.save}
      no={said.cancel}
      isReady={!isKeeping}
      submit={() => void submit()}
      leave={close}
      home={home}
    >
      <p class="feed-quiet">{said.about}</p>
      <div class="feed-argument">
        <label class="feed-label" for={id}>
          {said.name}
        </label>
        <input
          class="feed-input"
          id={id}
          ref={field}
          autocomplete="off"
          value={title}
          onInput={({ currentTarget }) => setTitle(currentTarget.value)}
        />
      </div>
    </AnsweredForm>
  );
}
