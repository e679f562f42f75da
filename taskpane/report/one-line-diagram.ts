/** A feed as a one-line diagram: every item a box, supplies to the left, each line from the item that feeds. */
import { text } from "../../functions/documents/markup.js";
import { kindOf } from "../../src/network/row-kinds.js";
import { areaRows, textOf } from "../budgets/reading/area-table.js";
import type { ReadArea } from "../budgets/reading/found-budget.js";

const BOX = { width: 150, height: 40 };
const GAP = { across: 40, down: 14 };

interface DiagramItem {
  readonly name: string;
  readonly kind: string;
  readonly fedFrom: string;
}

interface Placed extends DiagramItem {
  readonly x: number;
  readonly y: number;
}

/** SVG as text, with its own description for a reader who does not see it. */
export function oneLineDiagram(feed: ReadArea): string {
  const items = areaRows(feed).map((row): DiagramItem => ({
    name: row.item,
    kind: textOf(row.value("Kind")),
    fedFrom: textOf(row.value("Fed from")),
  }));
  const placed = placedItems(items);
  const width = Math.max(...placed.map(({ x }) => x + BOX.width)) + 2;
  const height = Math.max(...placed.map(({ y }) => y + BOX.height)) + 2;
  const told = items
    .map(({ name, kind, fedFrom }) =>
      fedFrom === "" ? `${name} (${kind})` : `${name} (${kind}) from ${fedFrom}`,
    )
    .join("; ");
  const lines = placed.map((item) => lineTo(item, placed)).join("");
  const boxes = placed.map(boxOf).join("");
  return `<svg viewBox="0 0 ${width} ${height}" role="img" aria-label="${text(`One-line diagram: ${told}`)}">${lines}${boxes}</svg>`;
}

/** Depth first, so that what an item feeds stands beside it and no two lines cross. */
function placedItems(items: readonly DiagramItem[]): Placed[] {
  const placed: Placed[] = [];
  const seen = new Set<DiagramItem>();
  let nextRow = 0;
  const place = (item: DiagramItem, depth: number): void => {
    if (seen.has(item)) return;
    seen.add(item);
    const x = 1 + depth * (BOX.width + GAP.across);
    const y = 1 + nextRow * (BOX.height + GAP.down);
    placed.push({ ...item, x, y });
    const fed = items.filter((one) => same(one.fedFrom, item.name));
    if (fed.length === 0) nextRow += 1;
    fed.forEach((one) => {
      place(one, depth + 1);
    });
  };
  for (const item of items) if (item.fedFrom === "") place(item, 0);
  // What hangs on nothing that is there is shown all the same.
  for (const item of items) place(item, 0);
  return placed;
}

function lineTo(item: Placed, placed: readonly Placed[]): string {
  const feeding = placed.find(({ name }) => same(name, item.fedFrom));
  if (!feeding || item.fedFrom === "") return "";
  const from = feeding.x + BOX.width;
  const middle = from + GAP.across / 2;
  const [top, bottom] = [feeding.y, item.y].map((y) => y + BOX.height / 2);
  return `<path class="wire" d="M${from} ${top}H${middle}V${bottom}H${item.x}"/>`;
}

function boxOf({ name, kind, x, y }: Placed): string {
  const isRound = kindOf(kind)?.symbol === "rounded box";
  const round = isRound ? BOX.height / 2 : 2;
  return `<rect class="item" x="${x}" y="${y}" width="${BOX.width}" height="${BOX.height}" rx="${round}"/><text x="${x + 10}" y="${y + 17}">${text(shortened(name))}</text><text class="kind" x="${x + 10}" y="${y + 32}">${text(kind)}</text>`;
}

function shortened(name: string): string {
  return name.length > 22 ? `${name.slice(0, 21)}…` : name;
}

function same(one: string, other: string): boolean {
  return one.trim().toLowerCase() === other.trim().toLowerCase();
}
