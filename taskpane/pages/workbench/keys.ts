/** Keys that a spreadsheet's user expects and that the spreadsheet in the page lacks. */

import { keysOfList } from "./list-keys.js";

export interface KeyedSheet {
  isTyping(): boolean;
  /** Goes to the next sheet, or to the one before. */
  stepSheet(by: 1 | -1): Promise<void>;
  /** Goes to the first cell of the row, or of the sheet. */
  goToStart(of: "row" | "sheet"): void;
  openList(): void;
  /** The keyboard is the sheet's again. */
  closeList(): void;
}

/** @returns its stop */
export function keysOfSheets(
  grid: HTMLElement,
  sheet: () => KeyedSheet | undefined,
  save: () => void,
): () => void {
  function meant({ key, ctrlKey, metaKey, altKey, shiftKey }: KeyboardEvent) {
    const control = ctrlKey || metaKey;
    const inList = keysOfList(() => sheet()?.closeList());
    if (inList && !control && !altKey && !shiftKey && (inList.isFocused || isInSheet()))
      return inList.acts(key);
    if (altKey && key === "ArrowDown" && isInSheet()) return () => sheet()?.openList();
    if (altKey || document.querySelector("dialog[open]")) return undefined;
    if (control && !shiftKey && key.toLowerCase() === "s") return save;
    // With Shift as well: a browser may keep the plain ones for its own tabs.
    if (control && key === "PageDown") return () => void sheet()?.stepSheet(1);
    if (control && key === "PageUp") return () => void sheet()?.stepSheet(-1);
    if (key !== "Home" || shiftKey || !isInSheet()) return undefined;
    return () => sheet()?.goToStart(control ? "sheet" : "row");
  }

  /** Not in the text of a cell, nor in the fields around the sheet. */
  function isInSheet(): boolean {
    const focused = document.activeElement;
    return grid.contains(focused) && !(focused instanceof HTMLInputElement) && !sheet()?.isTyping();
  }

  function onKey(event: KeyboardEvent): void {
    const act = meant(event);
    if (!act) return;
    event.preventDefault();
    event.stopImmediatePropagation();
    act();
  }

  // Before the spreadsheet sees the key.
  window.addEventListener("keydown", onKey, { capture: true });
  return () => window.removeEventListener("keydown", onKey, { capture: true });
}
