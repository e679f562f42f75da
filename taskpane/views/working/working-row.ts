/** One line of a working: what it is, how it comes about in symbols and in numbers, its value and where it is from. */
import type { WorkingRow } from "../../../functions/working/text/working-of.js";
import type { Host } from "../../hosts/host.js";
import { rangeText } from "../../formula-reading/argument-text.js";
import { button, element } from "../parts/element.js";
import { shownNumber } from "../../words/shown-numbers.js";
import { words } from "../../words/words.js";

const said = words.working;

export function workingRow(
  row: WorkingRow,
  host: Host,
  failed: (error: unknown) => void,
): HTMLElement {
  const { label, symbol, inSymbols, inNumbers, caveats } = row;
  return element(
    "li",
    { class: `feed-step feed-step-${row.kind}` },
    element("span", { class: "feed-step-label" }, label),
    element(
      "span",
      { class: "feed-step-value" },
      symbol === "" ? undefined : `${symbol} = `,
      valueOf(row),
    ),
    inSymbols === ""
      ? undefined
      : element(
          "span",
          { class: "feed-step-formula" },
          row.kind === "solved" ? said.satisfies(inSymbols) : `${symbol} = ${inSymbols}`,
        ),
    inNumbers === ""
      ? undefined
      : element(
          "span",
          { class: "feed-step-formula" },
          row.kind === "solved"
            ? said.leaves(inNumbers, String(row.residual ?? 0))
            : `= ${inNumbers}`,
        ),
    ...origins(row, host, failed),
    row.citation === ""
      ? undefined
      : element("span", { class: "feed-step-citation" }, row.citation),
    ...caveats.map((note) => element("span", { class: "feed-note" }, words.answer.note(note))),
  );
}

function valueOf({ value, unit }: WorkingRow): HTMLElement {
  if (typeof value === "string") return element("b", {}, value);
  const { text, full } = shownNumber(value, unit);
  return element("b", { title: full }, text);
}

/** A given leads to the cells that count in it. */
function origins(
  { cells, origin: from }: WorkingRow,
  host: Host,
  failed: (error: unknown) => void,
): HTMLElement[] {
  if (cells.length > 0)
    return cells.map((cell) =>
      button(
        said.goTo(rangeText(cell)),
        () => {
          host.goTo(cell).catch(failed);
        },
        { class: "feed-link" },
      ),
    );
  if (from === "") return [];
  const told = from === "default" ? said.byDefault : from;
  return [element("span", { class: "feed-step-citation" }, told)];
}
