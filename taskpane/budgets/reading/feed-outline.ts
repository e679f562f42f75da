/** The items of a budget as its schedules name them, in feeding order: what the pane lists, and what can be edited. */
import { ITEM_BLOCKS } from "../../../src/schedules/schedule.js";
import { SEPARATOR } from "../../../src/network/feed-topology.js";
import { BLOCK_AREAS } from "../names.js";
import { cellAt, sameItem, textOf } from "./range-table.js";
import type { CellPlace, FoundBudget, ReadRange } from "./found-budget.js";

export type ItemBlock = (typeof ITEM_BLOCKS)[number];

/** A row of a schedule that has a name. */
export interface TypedItem {
  readonly block: ItemBlock;
  /** In its block; 0 is the header. */
  readonly row: number;
  readonly name: string;
  /** "" where it is not fed yet, and for a supply. */
  readonly fedFrom: string;
  readonly at: CellPlace;
}

export interface OutlineItem extends TypedItem {
  /** How many items stand between it and its supply. */
  readonly depth: number;
  /** Whether a supply is behind it. */
  readonly isFed: boolean;
}

/** Column of `Fed from` in every block. */
export const FED_FROM_COLUMN = 1;

export function typedItems(budget: Pick<FoundBudget, "ranges">): readonly TypedItem[] {
  return ITEM_BLOCKS.flatMap((block) => {
    const range = budget.ranges[BLOCK_AREAS[block]];
    return range ? rowsOf(block, range) : [];
  });
}

function rowsOf(block: ItemBlock, range: ReadRange): readonly TypedItem[] {
  return range.values.flatMap((cells, row) => {
    const name = textOf(cells[0]);
    if (row === 0 || name === "") return [];
    const fedFrom = block === "Supply" ? "" : textOf(cells[FED_FROM_COLUMN]);
    return [{ block, row, name, fedFrom, at: cellAt(range, row, 0) }];
  });
}

/**
 * Depth first below each supply, what one item feeds in the order of typing; then what hangs on nothing, and what feeds
 * itself in a circle.
 */
export function feedOutline(budget: Pick<FoundBudget, "ranges">): readonly OutlineItem[] {
  const items = typedItems(budget);
  const listed = new Set<TypedItem>();
  const outline: OutlineItem[] = [];
  const list = (item: TypedItem, depth: number, isFed: boolean) => {
    if (listed.has(item)) return;
    listed.add(item);
    outline.push({ ...item, depth, isFed });
    for (const fed of fedBy(item, items)) list(fed, depth + 1, isFed);
  };
  for (const item of items) if (item.block === "Supply") list(item, 0, true);
  const isNamed = ({ fedFrom }: TypedItem) =>
    feederNames(fedFrom).some((feeder) => items.some(({ name }) => sameItem(name, feeder)));
  for (const item of items) if (!isNamed(item)) list(item, 0, false);
  for (const item of items) list(item, 0, false);
  return outline;
}

export function fedBy(item: TypedItem, items: readonly TypedItem[]): readonly TypedItem[] {
  return items.filter(
    (one) => one !== item && feederNames(one.fedFrom).some((feeder) => sameItem(feeder, item.name)),
  );
}

/** Names in a cell of `Fed from`: of a bus or a tie several. */
export function feederNames(fedFrom: string): readonly string[] {
  return fedFrom
    .split(SEPARATOR)
    .map((name) => name.trim())
    .filter((name) => name !== "");
}

/** What a row of several feeders is shown below: the first of them in the outline. */
export function shownFeeder<Item extends Pick<TypedItem, "name">>(
  outline: readonly Item[],
  { fedFrom }: Pick<TypedItem, "fedFrom">,
): Item | undefined {
  const feeders = feederNames(fedFrom);
  return outline.find(({ name }) => feeders.some((feeder) => sameItem(feeder, name)));
}

/** An item and all that hangs on it and on nothing else, itself first. */
export function withAllItFeeds(item: TypedItem, items: readonly TypedItem[]): readonly TypedItem[] {
  const found = [item];
  const hangsOnThem = ({ fedFrom }: TypedItem) =>
    feederNames(fedFrom).every((feeder) => found.some(({ name }) => sameItem(name, feeder)));
  for (const one of found)
    found.push(...fedBy(one, items).filter((fed) => !found.includes(fed) && hangsOnThem(fed)));
  return found;
}

/** Whether anything may hang on it. */
export function isFeeder({ block }: TypedItem): boolean {
  return block !== "Load";
}
