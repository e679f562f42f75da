/** F6 goes round the sheet, the pane, the bar and the sheets' tabs, Shift+F6 the other way; also while a cell is being typed into. */

export interface Sheet {
  finishTyping(): Promise<void>;
  focusGrid(): void;
}

export interface Regions {
  /** The spreadsheet with its tabs. */
  readonly grid: HTMLElement;
  readonly pane: HTMLElement;
  readonly bar: HTMLElement;
}

const ROUND = ["sheet", "pane", "bar", "tabs"] as const;
type Region = (typeof ROUND)[number];

/** @returns its stop */
export function moveBetweenRegions(
  { grid, pane, bar }: Regions,
  sheet: () => Sheet | undefined,
): () => void {
  let lastInPane: HTMLElement | undefined;

  function onFocus({ target }: FocusEvent): void {
    if (target instanceof HTMLElement && pane.contains(target)) lastInPane = target;
  }

  function current(): Region {
    const focused = document.activeElement;
    if (pane.contains(focused)) return "pane";
    if (bar.contains(focused)) return "bar";
    return grid.contains(focused) && focused?.closest("[role=tablist]") ? "tabs" : "sheet";
  }

  async function goTo(region: Region): Promise<void> {
    if (region === "sheet") return sheet()?.focusGrid();
    await sheet()?.finishTyping();
    if (region === "pane") {
      const remembered = lastInPane?.isConnected ? lastInPane : undefined;
      (remembered ?? firstFocusable(pane) ?? pane).focus();
    } else if (region === "bar") firstFocusable(bar)?.focus();
    else grid.querySelector<HTMLElement>("[role=tab][aria-selected=true]")?.focus();
  }

  function onKey(event: KeyboardEvent): void {
    const { key, ctrlKey, altKey, metaKey, shiftKey } = event;
    if (key !== "F6" || ctrlKey || altKey || metaKey) return;
    event.preventDefault();
    event.stopImmediatePropagation();
    const step = shiftKey ? ROUND.length - 1 : 1;
    void goTo(ROUND[(ROUND.indexOf(current()) + step) % ROUND.length]!);
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
