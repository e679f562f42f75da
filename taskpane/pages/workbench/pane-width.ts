/**
 * How much of the page the pane takes: dragged, or moved by keys on the line between sheet and pane, and remembered; or
 * all of it for a while, until the sheet has the keyboard again.
 */
import { browserStorage } from "../../browser-storage.js";
import type { WholePage } from "../../views/head/whole-page.js";
import { workbenchWords as words } from "../../words/workbench-words.js";

export interface PaneWidthPlace {
  readonly page: HTMLElement;
  readonly sheet: HTMLElement;
  readonly separator: HTMLElement;
}

const KEY = "downfeed pane width";
const USUAL = 360;
/** Part of a page that is too narrow for the usual width. */
const USUAL_PART = 0.42;
/** In pixels; neither side becomes narrower. */
const LEAST = 280;
const STEP = 20;
const WHOLE = "workbench-whole-pane";

export function paneWidth({ page, sheet, separator }: PaneWidthPlace): WholePage {
  /** Undefined as long as nobody has moved the line. */
  let wanted = Number(browserStorage()?.getItem(KEY)) || undefined;
  const listeners = new Set<() => void>();
  separator.setAttribute("aria-label", words.paneWidth);

  function most(): number {
    return Math.max(LEAST, page.clientWidth - LEAST);
  }

  function usual(): number {
    return Math.max(LEAST, Math.min(USUAL, Math.round(USUAL_PART * page.clientWidth)));
  }

  /** What is wanted stays wanted where the window is too narrow for it. */
  function width(): number {
    return Math.min(wanted ?? usual(), most());
  }

  function show(): void {
    page.style.setProperty("--workbench-pane-width", `${width()}px`);
    separator.setAttribute("aria-valuemin", String(LEAST));
    separator.setAttribute("aria-valuemax", String(most()));
    separator.setAttribute("aria-valuenow", String(width()));
    separator.setAttribute("aria-valuetext", words.pixels(width()));
  }

  function want(next: number): void {
    wanted = Math.round(Math.min(Math.max(next, LEAST), most()));
    browserStorage()?.setItem(KEY, String(wanted));
    show();
  }

  function forget(): void {
    wanted = undefined;
    browserStorage()?.removeItem(KEY);
    show();
  }

  separator.addEventListener("keydown", (event) => {
    const next = widthAfter(event.key, width(), most());
    if (next !== undefined) want(next);
    else if (event.key === "Enter") forget();
    else return;
    event.preventDefault();
  });
  separator.addEventListener("pointerdown", (event) => {
    // Else the drag selects the page's text.
    event.preventDefault();
    separator.setPointerCapture(event.pointerId);
    separator.focus();
  });
  separator.addEventListener("pointermove", (event) => {
    if (separator.hasPointerCapture(event.pointerId)) want(page.clientWidth - event.clientX);
  });
  separator.addEventListener("dblclick", forget);
  window.addEventListener("resize", show);
  show();

  function set(isWhole: boolean): void {
    page.classList.toggle(WHOLE, isWhole);
    for (const listener of listeners) listener();
  }
  sheet.addEventListener("focusin", () => {
    if (isWhole()) set(false);
  });
  const isWhole = () => page.classList.contains(WHOLE);
  return {
    isWhole,
    set,
    onChange(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}

/** The pane stands at the right: Left makes it wider. */
function widthAfter(key: string, now: number, most: number): number | undefined {
  switch (key) {
    case "ArrowLeft":
      return now + STEP;
    case "ArrowRight":
      return now - STEP;
    case "Home":
      return LEAST;
    case "End":
      return most;
    default:
      return undefined;
  }
}
