/** One line of an answer: never by colour alone, so a refusal and a doubt carry a symbol of their own. */
import { words } from "../../words/words.js";
import type { AnswerLine } from "./cell-answer-text.js";

const said = words.answer;

export function AnswerLineText({
  line: { tone, call, text, full },
}: {
  readonly line: AnswerLine;
}) {
  const symbol = said.symbol[tone];
  return (
    <p class={`feed-answer-line feed-${tone}`}>
      {symbol !== "" && (
        <span class="feed-symbol" aria-hidden="true">
          {symbol}
        </span>
      )}
      {call !== undefined && (
        <>
          <code class="feed-code">{call}</code>
          {tone === "plain" ? " = " : ": "}
        </>
      )}
      <span class="feed-answer-text" title={full}>
        {text}
      </span>
    </p>
  );
}

/** The same for those who hear it. */
export function spokenLine({ call, text }: AnswerLine): string {
  return call === undefined ? text : `${call}: ${text}`;
}
