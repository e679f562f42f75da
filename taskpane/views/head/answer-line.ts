/** One line of an answer as an element: never by colour alone, so a refusal and a doubt carry a symbol of their own. */
import type { AnswerLine } from "./cell-answer-text.js";
import { element } from "../parts/element.js";
import { words } from "../../words/words.js";

const said = words.answer;

export function answerLine({ tone, call, text, full }: AnswerLine): HTMLElement {
  const symbol = said.symbol[tone];
  return element(
    "p",
    { class: `feed-answer-line feed-${tone}` },
    symbol === ""
      ? undefined
      : element("span", { class: "feed-symbol", "aria-hidden": "true" }, symbol),
    call === undefined ? undefined : element("code", { class: "feed-code" }, call),
    call === undefined ? undefined : tone === "plain" ? " = " : ": ",
    element("span", { class: "feed-answer-text", title: full }, text),
  );
}

/** The same for those who hear it. */
export function spokenLine({ call, text }: AnswerLine): string {
  return call === undefined ? text : `${call}: ${text}`;
}
