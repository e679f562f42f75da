/** Asks for the reason why a warning is accepted. Escape leaves it open; focus goes back to the button that asked. */
import type { GivenReason } from "../../workbook/accepting.js";
import { button, element, freshId } from "../parts/element.js";
import { words } from "../../words/words.js";

const said = words.warnings;

export interface AcceptanceForm {
  /** What is accepted: `Drop, 3 items`. */
  readonly what: string;
  readonly give: (reason: GivenReason) => void;
  readonly leave: () => void;
}

export function acceptanceForm({ what, give, leave }: AcceptanceForm): HTMLElement {
  const reason = field(said.reason(what), "textarea");
  const by = field(said.by, "input");
  const refused = element("p", { class: "feed-refused", role: "alert" });
  const form = element(
    "form",
    { class: "feed-question" },
    reason.row,
    by.row,
    refused,
    element(
      "div",
      { class: "feed-actions" },
      element("button", { type: "submit", class: "feed-button" }, said.acceptNow),
      button(said.leave, leave),
    ),
  );
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const given = reason.input.value.trim();
    if (given === "") {
      refused.textContent = said.needsReason;
      reason.input.focus();
      return;
    }
    give({ reason: given, by: by.input.value.trim() });
  });
  form.addEventListener("keydown", ({ key }) => {
    if (key === "Escape") leave();
  });
  // Once it stands in the page.
  queueMicrotask(() => {
    reason.input.focus();
  });
  return form;
}

function field<Tag extends "input" | "textarea">(label: string, tag: Tag) {
  const id = freshId("accept");
  const input = element(tag, {
    id,
    class: "feed-input",
    autocomplete: "off",
    ...(tag === "textarea" && { rows: "2" }),
  });
  const row = element("div", { class: "feed-reason" }, element("label", { for: id }, label), input);
  return { input, row };
}
