/** Why a command failed: it stands until the next command or until it is closed, whatever changes in the sheets meanwhile. */
import { words } from "../../words/words.js";
import { button, element } from "../parts/element.js";

export interface FailureLine {
  readonly element: HTMLElement;
  tell(error: unknown): void;
  clear(): void;
}

export function failureLine(): FailureLine {
  const text = element("p", { class: "feed-failure", role: "alert" });
  const close = button(words.pane.closeFailure, clear, { class: "feed-link", hidden: true });
  function clear(): void {
    text.textContent = "";
    close.hidden = true;
  }
  return {
    element: element("div", { class: "feed-failed" }, text, close),
    tell(error) {
      text.textContent = words.pane.failed(error instanceof Error ? error.message : String(error));
      close.hidden = false;
    },
    clear,
  };
}
