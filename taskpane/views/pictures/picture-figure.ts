/** One picture in the pane: its drawing under its title, its finding in words, and its numbers as a table. */
import { drawingPart } from "../../pictures/parts/drawing.js";
import { PANE_PALETTE } from "../../pictures/parts/palettes.js";
import type { Picture, PictureCell, PictureColumn } from "../../pictures/parts/picture.js";
import { attributeText, type SvgPart } from "../../pictures/parts/svg-parts.js";
import { element, freshId } from "../parts/element.js";
import { words } from "../../words/words.js";

const said = words.pictures;
const SVG = "http://www.w3.org/2000/svg";

export interface PictureFigure {
  readonly heading: HTMLElement;
  readonly titleId: string;
  readonly element: HTMLElement;
  show(picture: Picture, width: number): void;
}

export function pictureFigure(id: string): PictureFigure {
  const titleId = freshId("picture");
  const heading = element("h3", { class: "feed-picture-title", id: titleId });
  const drawing = element("div", { class: "feed-picture" });
  const caption = element("figcaption", { class: "feed-quiet" });
  const table = element("div", { class: "feed-wide" });
  const stem = freshId(id);
  return {
    heading,
    titleId,
    element: element(
      "figure",
      { class: "feed-figure" },
      drawing,
      caption,
      element("details", { class: "feed-block" }, element("summary", {}, said.numbers), table),
    ),
    show(picture, width) {
      heading.textContent = picture.title;
      caption.textContent = picture.alternative;
      const surface = { width, palette: PANE_PALETTE, stem };
      drawing.replaceChildren(svgElement(drawingPart(picture, surface)));
      table.replaceChildren(numbersTable(picture));
    },
  };
}

/** Text becomes text nodes and attribute values, never markup. */
function svgElement({ tag, attributes, children }: SvgPart): SVGElement {
  const made = document.createElementNS(SVG, tag);
  for (const [name, value] of Object.entries(attributes))
    if (name !== "xmlns") made.setAttribute(name, attributeText(value));
  made.append(...children.map((child) => (typeof child === "string" ? child : svgElement(child))));
  return made;
}

function numbersTable({ title, table }: Picture): HTMLTableElement {
  const [, ...columns] = table.columns;
  return element(
    "table",
    { class: "feed-table" },
    element("caption", {}, said.caption(title)),
    element(
      "thead",
      {},
      element(
        "tr",
        {},
        ...table.columns.map(({ heading }) => element("th", { scope: "col" }, heading)),
      ),
    ),
    element(
      "tbody",
      {},
      ...table.rows.map(([first = "", ...cells]) =>
        element(
          "tr",
          {},
          element("th", { scope: "row" }, cellText(first, table.columns[0] ?? { heading: "" })),
          ...cells.map((cell, index) =>
            element("td", {}, cellText(cell, columns[index] ?? { heading: "" })),
          ),
        ),
      ),
    ),
  );
}

/** As the sheet shows it with the same format. */
function cellText(value: PictureCell, { format = "" }: PictureColumn): string {
  if (typeof value === "string") return value;
  const places = /\.(0+)/.exec(format)?.[1]?.length ?? 0;
  return new Intl.NumberFormat(undefined, {
    minimumFractionDigits: places,
    maximumFractionDigits: places,
    ...(format.endsWith("%") && { style: "percent" }),
    useGrouping: false,
  }).format(value);
}
