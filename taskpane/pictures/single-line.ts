/**
 * A feed as a single-line diagram: down the page from each supply, a chain straight on, a branch one step to the right;
 * each symbol with its name, its volts, amperes and watts, and what its checks say.
 */
import { kindOf } from "../../src/network/row-kinds.js";
import { IN_LINE_KINDS } from "../../src/schedules/columns.js";
import type { FeedItem } from "../budgets/reading/feed-figures.js";
import { feederNames, type ItemBlock, shownFeeder } from "../budgets/reading/feed-outline.js";
import { sameItem } from "../budgets/reading/range-table.js";
import { feedWords } from "../words/feed-words.js";
import { amperes, volts, watts } from "./parts/figures.js";
import { circuitSymbol, type CircuitSymbol, SYMBOL_HEIGHT } from "./parts/circuit-symbols.js";
import type { Palette } from "./parts/palettes.js";
import type { Drawing, Picture, Surface } from "./parts/picture.js";
import { part, type SvgPart } from "./parts/svg-parts.js";
import { LINE_HEIGHT, shortened, textLine, textWidth } from "./parts/text-lines.js";

const said = feedWords.diagram;

const ROW = 46;
const STEP = 34;
const LEFT = 16;
/** From the symbol's line to its words. */
const TEXT = 22;
/** Narrower drawings let branches come closer. */
const LEAST_STEP = 16;
const LEAST_TEXT = 150;

export function singleLine(items: readonly FeedItem[]): Picture | undefined {
  if (items.length === 0) return undefined;
  return {
    title: said.title,
    alternative: said.alternative(
      items.map(({ name, fedFrom, verdict }) => said.told(name, fedFrom, verdict)),
    ),
    draw: (surface) => drawn(items, surface),
    table: {
      columns: [
        { heading: said.columns.item },
        { heading: said.columns.fedFrom },
        { heading: said.columns.volts, format: "0.0" },
        { heading: said.columns.amperes, format: "0.00" },
        { heading: said.columns.watts, format: "0.0" },
        { heading: said.columns.checks },
      ],
      rows: items.map((item) => [
        item.name,
        item.fedFrom,
        item.volts ?? "",
        item.amperes ?? "",
        item.watts ?? "",
        said.verdict(item.verdict, item.count),
      ]),
    },
  };
}

interface Placed {
  readonly item: FeedItem;
  readonly column: number;
  readonly row: number;
  readonly feeder: Placed | undefined;
  /** One of several that its feeder feeds. */
  readonly isBranch: boolean;
}

function placedItems(items: readonly FeedItem[]): readonly Placed[] {
  const placed: Placed[] = [];
  for (const item of items) {
    const feeder =
      item.depth === 0
        ? undefined
        : placed.find(({ item: one }) => one === shownFeeder(items, item));
    const siblings = items.filter(
      (one) => feeder && one.depth > 0 && shownFeeder(items, one) === feeder.item,
    );
    const isBranch = siblings.length > 1;
    placed.push({
      item,
      column: feeder ? feeder.column + (isBranch ? 1 : 0) : 0,
      row: placed.length,
      feeder,
      isBranch,
    });
  }
  return placed;
}

/** Beyond this a verdict stands too far from its item. */
const WIDEST = 460;

function drawn(items: readonly FeedItem[], { width: room, palette }: Surface): Drawing {
  const width = Math.min(room, WIDEST);
  const placed = placedItems(items);
  const columns = Math.max(...placed.map(({ column }) => column));
  const step =
    columns === 0
      ? STEP
      : Math.max(LEAST_STEP, Math.min(STEP, (width - LEFT - TEXT - LEAST_TEXT) / columns));
  const x = ({ column }: Placed) => LEFT + column * step;
  const y = ({ row }: Placed) => row * ROW + ROW / 2;
  const wires = placed.flatMap((one) => {
    const { feeder } = one;
    if (!feeder) return [];
    const top = y(feeder) + SYMBOL_HEIGHT / 2;
    const enters = y(one) - SYMBOL_HEIGHT / 2;
    return [
      part("path", {
        d: one.isBranch
          ? `M${x(feeder)} ${top}V${enters - 2}H${x(one)}V${enters}`
          : `M${x(one)} ${top}V${enters}`,
        stroke: palette.ink,
        "stroke-width": 1.5,
        fill: "none",
      }),
    ];
  });
  const alsoFeeding = placed.flatMap((one) =>
    feederNames(one.item.fedFrom).flatMap((name) => {
      const other = placed.find(({ item }) => sameItem(item.name, name));
      return other && other !== one.feeder ? [{ one, other }] : [];
    }),
  );
  // In lanes of their own at the left edge, from below the one to above the other.
  const further = alsoFeeding.map(({ one, other }, lane) =>
    part("path", {
      d: `M${x(other)} ${y(other) + SYMBOL_HEIGHT / 2}v4H${3 + 3 * (lane % 4)}V${y(one) - SYMBOL_HEIGHT / 2 - 3}H${x(one)}v3`,
      stroke: palette.ink,
      "stroke-width": 1.5,
      "stroke-dasharray": "5 3",
      fill: "none",
    }),
  );
  return {
    height: placed.length * ROW,
    parts: [
      ...wires,
      ...further,
      ...placed.flatMap((one) => itemParts(one, x(one), y(one), width, palette)),
    ],
  };
}

function itemParts(
  { item }: Placed,
  x: number,
  y: number,
  width: number,
  palette: Palette,
): SvgPart[] {
  const left = x + TEXT;
  const room = width - left;
  const { symbol: mark, words } = verdictMark(item);
  const markWidth = words === "" ? 0 : textWidth(`${mark} ${words}`) + 8;
  const figures = figuresOf(item);
  return [
    part("g", { transform: `translate(${x} ${y})` }, circuitSymbol(symbolOf(item), palette)),
    textLine(left, y - LINE_HEIGHT / 2, shortened(item.name, room - markWidth, true), {
      colour: palette.ink,
      bold: true,
      halo: palette.paper,
    }),
    textLine(left, y + LINE_HEIGHT / 2, shortened(figures, room), {
      colour: palette.quiet,
      halo: palette.paper,
    }),
    ...(words === ""
      ? []
      : [
          textLine(width, y - LINE_HEIGHT / 2, `${mark} ${words}`, {
            colour: item.verdict === "fails" ? palette.limit : palette.quiet,
            anchor: "end",
            ...(item.verdict === "fails" && { bold: true as const }),
          }),
        ]),
  ];
}

function figuresOf({ volts: v, amperes: a, watts: w, fedFrom, block, note }: FeedItem): string {
  if (v === undefined || a === undefined || w === undefined)
    return block !== "Supply" && fedFrom === "" ? said.notFed : note || said.unsolved;
  const names = feederNames(fedFrom);
  const figures = `${volts(v)} · ${amperes(a)} · ${watts(w)}`;
  return names.length > 1 ? `${figures} · ${feedWords.fromAll(names)}` : figures;
}

function verdictMark({ verdict, count }: FeedItem): { symbol: string; words: string } {
  return verdict === "fails" || verdict === "not determined"
    ? { symbol: feedWords.symbol[verdict], words: said.verdict(verdict, count) }
    : { symbol: "", words: "" };
}

/** Where the feed table does not have the item. */
const BY_BLOCK = {
  Supply: "source",
  Cable: "cable",
  Stage: "converter",
  Load: "load",
  "In line": "in line",
} as const satisfies Readonly<Record<ItemBlock, string>>;

export function symbolOf({ block, kind, inLineKind }: FeedItem): CircuitSymbol {
  const symbol = kindOf(kind)?.symbol ?? BY_BLOCK[block];
  return symbol === "in line"
    ? (IN_LINE_KINDS.find((one) => one === inLineKind) ?? "other")
    : symbol;
}
