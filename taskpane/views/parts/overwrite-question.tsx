/** Asks inside the pane before a cell is overwritten. Focus goes to the answer that changes nothing; Escape gives it too. */
import { useLayoutEffect, useMemo, useRef } from "preact/hooks";
import { words } from "../../words/words.js";
import { freshId } from "./element.js";

const said = words.call;

export interface OverwriteQuestionProps {
  readonly cell: string;
  readonly answer: (given: "overwrite" | "keep") => void;
}

export function OverwriteQuestion({ cell, answer }: OverwriteQuestionProps) {
  const textId = useMemo(() => freshId("question"), []);
  const keep = useRef<HTMLButtonElement>(null);
  useLayoutEffect(() => keep.current?.focus(), []);
  return (
    <div
      class="feed-question"
      role="alertdialog"
      aria-labelledby={textId}
      onKeyDown={({ key }) => {
        if (key === "Escape") answer("keep");
      }}
    >
      <p id={textId}>{said.occupied(cell)}</p>
      <div class="feed-actions">
        <button type="button" class="feed-button" ref={keep} onClick={() => answer("keep")}>
          {said.keep}
        </button>
        <button type="button" class="feed-button" onClick={() => answer("overwrite")}>
          {said.overwrite}
        </button>
      </div>
    </div>
  );
}
