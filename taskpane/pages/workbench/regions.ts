/** F6 between the sheet and the pane, from anywhere in either, also while a cell is being typed into. */

export interface Sheet {
  finishTyping(): Promise<void>;
  focusGrid(): void;
}

/** @returns its stop */
export function moveBetweenRegions(pane: HTMLElement, sheet: () => Sheet | undefined): () => void {
  let lastInPane: HTMLElement | undefined;

  function onFocus({ target }: FocusEvent): void {
    if (target instanceof HTMLElement && pane.contains(target)) lastInPane = target;
  }

  async function toPane(): Promise<void> {
    await sheet()?.finishTyping();
    const remembered = lastInPane?.isConnected ? lastInPane : undefined;
    (remembered ?? firstFocusable(pane) ?? pane).focus();
  }

  function onKey(event: KeyboardEvent): void {
    const { key, ctrlKey, altKey, metaKey } = event;
    if (key !== "F6" || ctrlKey || altKey || metaKey) return;
    event.preventDefault();
    event.stopImmediatePropagation();
    if (pane.contains(document.activeElement)) sheet()?.focusGrid();
    else void toPane();
  }

  // Before the spreadsheet sees the key: it would take it for the cell's.
  window.addEventListener("keydown", onKey, { capture: true });
  pane.addEventListener("focusin", onFocus);
  return () => {
    window.removeEventListener("keydown", onKey, { capture: true });
    pane.removeEventListener("focusin", onFocus);
  };
}

const FOCUSABLE =
  "a[href], button:not([disabled]), input:not([disabled]), select:not([disabled]), textarea:not([disabled]), summary, [tabindex='0']";

function firstFocusable(region: HTMLElement): HTMLElement | undefined {
  return [...region.querySelectorAll<HTMLElement>(FOCUSABLE)].find(
    (candidate) => candidate.checkVisibility() && candidate.tabIndex >= 0,
  );
}
