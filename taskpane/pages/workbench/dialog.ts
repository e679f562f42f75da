/** Questions and lists over the workbench page. Escape gives the answer that changes nothing. */
import { button, element, freshId } from "../../views/parts/element.js";
import { workbenchWords as words } from "../../words/workbench-words.js";

/** @returns whether the user wants it */
export function asked(title: string, text: string, doIt: string): Promise<boolean> {
  return new Promise((answered) => {
    let answer = false;
    const { dialog, actions } = dialogOf(title, element("p", {}, text));
    const act = button(doIt, () => {
      answer = true;
      dialog.close();
    });
    // First, so that it has the focus.
    actions.append(
      button(words.cancel, () => dialog.close()),
      act,
    );
    shown(dialog, () => answered(answer));
  });
}

export function listed(title: string, text: string, lines: readonly string[]): void {
  const { dialog, actions } = dialogOf(
    title,
    element("p", {}, text),
    element(
      "ul",
      { class: "workbench-list", tabindex: "0" },
      ...lines.map((line) => element("li", {}, line)),
    ),
  );
  const close = button(words.close, () => dialog.close(), { autofocus: true });
  actions.append(close);
  shown(dialog, () => {});
}

function dialogOf(title: string, ...inside: readonly HTMLElement[]) {
  const id = freshId("dialog");
  const actions = element("div", { class: "workbench-actions" });
  const dialog = element(
    "dialog",
    { class: "workbench-dialog", "aria-labelledby": id },
    element("h2", { id }, title),
    ...inside,
    actions,
  );
  return { dialog, actions };
}

function shown(dialog: HTMLDialogElement, closed: () => void): void {
  // The spreadsheet would take keys for the selected cell's.
  dialog.addEventListener("keydown", (event) => event.stopPropagation());
  dialog.addEventListener("close", () => {
    dialog.remove();
    closed();
  });
  document.body.append(dialog);
  dialog.showModal();
}
