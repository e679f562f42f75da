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
  /** From what had the keyboard up to the pane. */
  let lastInPane: readonly HTMLElement[] = [];

  function onFocus({ target }: FocusEvent): void {
    if (target instanceof HTMLElement && pane.contains(target)) lastInPane = upTo(pane, target);
  }

  /** What had the keyboard; where that is gone, what stands nearest to its place. */
  function placeInPane(): HTMLElement {
    const [focused, ...around] = lastInPane;
    if (focused && pane.contains(focused) && focused.checkVisibility()) return focused;
    const near = around.filter((one) => pane.contains(one)).map(firstFocusable);
    return near.find((one) => one !== undefined) ?? firstFocusable(pane) ?? pane;
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
    if (region === "pane") placeInPane().focus();
    else if (region === "bar") firstFocusable(bar)?.focus();
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

function upTo(region: HTMLElement, from: HTMLElement): HTMLElement[] {
  const way = [from];
  for (let at = from; at !== region && at.parentElement; way.push(at)) at = at.parentElement;
  return way;
}

const FOCUSABLE =
  "a[href], button:not([disabled]), input:not([disabled]), select:not([disabled]), textarea:not([disabled]), summary, [tabindex='0']";

function firstFocusable(region: HTMLElement): HTMLElement | undefined {
  return [...region.querySelectorAll<HTMLElement>(FOCUSABLE)].find(
    (candidate) => candidate.checkVisibility() && candidate.tabIndex >= 0,
  );
}
