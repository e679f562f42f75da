/** Asks for the reason why a warning is accepted. Escape leaves it open. */
import { useLayoutEffect, useMemo, useRef, useState } from "preact/hooks";
import type { GivenReason } from "../../workbook/accepting.js";
import { words } from "../../words/words.js";
import { freshId } from "../parts/element.js";

const said = words.warnings;

export interface AcceptanceFormProps {
  /** What is accepted: `Drop, 3 items`. */
  readonly what: string;
  readonly give: (reason: GivenReason) => void;
  readonly leave: () => void;
}

export function AcceptanceForm({ what, give, leave }: AcceptanceFormProps) {
  const stem = useMemo(() => freshId("accept"), []);
  const [isRefused, refuse] = useState(false);
  const reason = useRef<HTMLTextAreaElement>(null);
  const by = useRef<HTMLInputElement>(null);
  useLayoutEffect(() => reason.current?.focus(), [what]);
  const submit = (event: Event) => {
    event.preventDefault();
    const given = reason.current?.value.trim() ?? "";
    if (given !== "") return give({ reason: given, by: by.current?.value.trim() ?? "" });
    refuse(true);
    reason.current?.focus();
  };
  return (
    <form
      class="feed-question"
      onSubmit={submit}
      onKeyDown={({ key }) => {
        if (key === "Escape") leave();
      }}
    >
      <div class="feed-reason">
        <label for={stem}>{said.reason(what)}</label>
        <textarea class="feed-input" id={stem} ref={reason} autocomplete="off" rows={2} />
      </div>
      <div class="feed-reason">
        <label for={`${stem}-by`}>{said.by}</label>
        <input class="feed-input" id={`${stem}-by`} ref={by} autocomplete="off" />
      </div>
      <p class="feed-refused" role="alert">
        {isRefused && said.needsReason}
      </p>
      <div class="feed-actions">
        <button type="submit" class="feed-button">
          {said.acceptNow}
        </button>
        <button type="button" class="feed-button" onClick={leave}>
          {said.leave}
        </button>
      </div>
    </form>
  );
}
