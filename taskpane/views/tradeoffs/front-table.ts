/** The candidates that none beats, as a table: sorted by any column, and the chosen one told by its button. */
import type { FrontPoint } from "../../../src/tradeoffs/pareto-front.js";
import { button, element } from "../parts/element.js";
import { shownNumber } from "../../words/shown-numbers.js";
import { words } from "../../words/words.js";

const said = words.tradeoffs;

/** A longer one is no help in a pane; the sheet has them all. */
const MOST_ROWS = 200;

const COLUMNS = ["candidate", "loss", "mass", "cost"] as const;
type Column = (typeof COLUMNS)[number];

const FIGURES = [
  ["loss", "W"],
  ["mass", "kg"],
  ["cost", "1"],
] as const;

export interface FrontTable {
  readonly element: HTMLElement;
  /** Marks the row of the candidate, if there is one. */
  mark(index: number | undefined): void;
}

export function frontTable(
  front: readonly FrontPoint[],
  nameOf: (index: number) => string,
  choose: (index: number) => void,
): FrontTable {
  const buttons = new Map<number, HTMLButtonElement>();
  const body = element("tbody", {});
  const heads = new Map<Column, HTMLElement>();
  let sortedBy: Column | undefined;
  let isFalling = false;
  let marked: number | undefined;

  function sort(column: Column): void {
    isFalling = column === sortedBy && !isFalling;
    sortedBy = column;
    for (const [each, head] of heads)
      if (each === column) head.setAttribute("aria-sort", isFalling ? "descending" : "ascending");
      else head.removeAttribute("aria-sort");
    buttons.clear();
    const rows = sorted(front, column, isFalling).slice(0, MOST_ROWS);
    body.replaceChildren(...rows.map(row));
    mark(marked);
  }

  function row(point: FrontPoint): HTMLElement {
    const { index } = point;
    const pick = button(nameOf(index), () => choose(index), {
      class: "feed-link",
      "aria-pressed": "false",
    });
    buttons.set(index, pick);
    return element(
      "tr",
      {},
      element("th", { scope: "row" }, pick),
      ...FIGURES.map(([key, unit]) => {
        const { text, full } = shownNumber(point[key], unit);
        return element("td", { title: full }, text);
      }),
    );
  }

  function mark(index: number | undefined): void {
    marked = index;
    for (const [each, pick] of buttons) pick.setAttribute("aria-pressed", String(each === index));
  }

  for (const column of COLUMNS)
    heads.set(
      column,
      element(
        "th",
        { scope: "col" },
        button(said.columns[column], () => sort(column), {
          class: "feed-link",
        }),
      ),
    );
  sort("loss");
  const table = element(
    "table",
    { class: "feed-table feed-front" },
    element("caption", {}, said.tableCaption(Math.min(front.length, MOST_ROWS), front.length)),
    element("thead", {}, element("tr", {}, ...heads.values())),
    body,
  );
  return {
    element: element("div", { class: "feed-wide feed-front-place" }, table),
    mark,
  };
}

/** Candidates by their number: voltage, then cable, ratio and units, in the order in which they were asked for. */
function sorted(
  front: readonly FrontPoint[],
  column: Column,
  isFalling: boolean,
): readonly FrontPoint[] {
  const key = column === "candidate" ? "index" : column;
  const rising = [...front].sort((one, other) => one[key] - other[key]);
  return isFalling ? rising.reverse() : rising;
}
