/** Asks inside the pane before a cell is overwritten. Focus goes to the answer that changes nothing; Escape gives it too. */
import { button, element, freshId } from "./element.js";
import { words } from "../../words/words.js";

const said = words.call;

export function overwriteQuestion(
  place: HTMLElement,
  cell: string,
  answered: (answer: "overwrite" | "keep") => void,
): void {
  const textId = freshId("question");
  const answer = (given: "overwrite" | "keep") => {
    place.replaceChildren();
    answered(given);
  };
  const keep = button(said.keep, () => answer("keep"));
  const box = element(
    "div",
    { class: "feed-question", role: "alertdialog", "aria-labelledby": textId },
    element("p", { id: textId }, said.occupied(cell)),
    element(
      "div",
      { class: "feed-actions" },
      keep,
      button(said.overwrite, () => answer("overwrite")),
    ),
  );
  box.addEventListener("keydown", ({ key }) => {
    if (key === "Escape") answer("keep");
  });
  place.replaceChildren(box);
  keep.focus();
}
