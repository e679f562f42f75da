/** A cell without a function: its formula as far as it is taken, and the cells that count in it, each with the way to it. */
import { rangeText } from "../../formula-reading/argument-text.js";
import type { CellOrigin, NamedSource, OriginPart } from "../../formula-reading/cell-origin.js";
import type { Host, HostValue } from "../../hosts/host.js";
import { shownNumber } from "../../words/shown-numbers.js";
import { words } from "../../words/words.js";
import { button, code, element } from "../parts/element.js";
import { FOLD } from "../parts/kept-list.js";

const said = words.working;

/** Cells that are shown without being asked for. */
const FEW_CELLS = 20;

export function originSection(
  { at, value, taken, parts, unread }: CellOrigin,
  host: Host,
  failed: (error: unknown) => void,
): HTMLElement {
  return element(
    "section",
    { class: "feed-working" },
    element("h3", { class: "feed-group-heading" }, said.comesFrom(rangeText(at))),
    element("p", {}, code(`= ${taken}`)),
    element("p", { class: "feed-result" }, said.gives(textOf(value))),
    unread === undefined ? undefined : element("p", { class: "feed-refused" }, said.unread(unread)),
    ...parts.map((part) => partDetails(part, host, failed)),
  );
}

function partDetails(
  { way, text, cells }: OriginPart,
  host: Host,
  failed: (error: unknown) => void,
): HTMLElement {
  return element(
    "details",
    { class: "feed-block", open: cells.length <= FEW_CELLS, [FOLD]: `${way} ${text}` },
    element("summary", {}, said.way[way]),
    cells.length === 0
      ? element("p", { class: "feed-quiet" }, said.noCells)
      : element("ol", { class: "feed-steps" }, ...cells.map((one) => sourceRow(one, host, failed))),
  );
}

function sourceRow(
  { cell, name, value }: NamedSource,
  host: Host,
  failed: (error: unknown) => void,
): HTMLElement {
  const follow = () => {
    host.goTo(cell).catch(failed);
  };
  return element(
    "li",
    { class: "feed-step" },
    element("span", { class: "feed-step-label" }, name),
    element("span", { class: "feed-step-value" }, element("b", {}, textOf(value))),
    button(said.goTo(rangeText(cell)), follow, { class: "feed-link" }),
  );
}

/** The unit stands in the heading. */
function textOf(value: HostValue): string {
  if (typeof value === "number") return shownNumber(value, "").text;
  return typeof value === "object" ? value.error : String(value);
}
