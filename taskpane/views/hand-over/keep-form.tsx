/** Asks under which title a version of a budget is kept. */
import { useLayoutEffect, useMemo, useRef, useState } from "preact/hooks";
import type { FoundBudget } from "../../budgets/reading/found-budget.js";
import { titleOf } from "../../workbook/found-budgets.js";
import { words } from "../../words/words.js";
import { freshId } from "../parts/element.js";
import type { HandOverCommands } from "./hand-over-commands.js";

const said = words.handOver.versions;

export interface KeepFormProps {
  readonly budget: FoundBudget;
  readonly proposed: string;
  readonly commands: HandOverCommands;
  readonly close: () => void;
}

export function KeepForm({ budget, proposed, commands, close }: KeepFormProps) {
  const id = useMemo(() => freshId("version"), []);
  const field = useRef<HTMLInputElement>(null);
  const [title, setTitle] = useState(proposed);
  const [fault, setFault] = useState("");
  const [isKeeping, keep] = useState(false);
  useLayoutEffect(() => field.current?.select(), []);

  const submit = async (event: Event) => {
    event.preventDefault();
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
    <form
      class="feed-row-form"
      aria-label={said.title(titleOf(budget))}
      onSubmit={(event) => void submit(event)}
      onKeyDown={({ key }) => {
        if (key === "Escape") close();
      }}
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
      <p class="feed-fault" role="alert">
        {fault}
      </p>
      <div class="feed-actions">
        <button type="submit" class="feed-button feed-main" aria-disabled={isKeeping}>
          {said.save}
        </button>
        <button type="button" class="feed-button" onClick={close}>
          {said.cancel}
        </button>
      </div>
    </form>
  );
}
