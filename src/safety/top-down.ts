/** A feed's items in an order in which each one follows the item that feeds it, without recursion. */
import type { FeedItem } from "../network/feed-item.js";

export interface PlacedItem {
  readonly item: FeedItem;
  /** In the table. */
  readonly index: number;
  /** Index of the item that feeds it; a supply has none. */
  readonly parent: number | undefined;
  /** Why it hangs on no supply. */
  readonly fault: string | undefined;
}

/** Items on a loop, and below one, come last. */
export function topDown(items: readonly FeedItem[]): PlacedItem[] {
  const indices = indicesByName(items);
  const placed = items.map((item, index) => placedItem(item, index, indices));
  const children = childrenOf(placed);
  const order = placed.filter(({ parent }) => parent === undefined);
  for (let at = 0; at < order.length; at++) {
    const { index, fault } = order[at]!;
    for (const child of children[index] ?? [])
      order.push(fault === undefined ? child : { ...child, fault });
  }
  const reached = new Set(order.map(({ index }) => index));
  const looped = placed
    .filter(({ index }) => !reached.has(index))
    .map((one) => ({ ...one, fault: `"${one.item.item}" is fed by a loop` }));
  return [...order, ...looped];
}

function indicesByName(
  items: readonly FeedItem[],
): ReadonlyMap<string, readonly number[]> {
  const indices = new Map<string, number[]>();
  items.forEach(({ item }, index) => {
    const found = indices.get(plainName(item));
    if (found) found.push(index);
    else indices.set(plainName(item), [index]);
  });
  return indices;
}

function plainName(name: string): string {
  return name.trim().toLowerCase();
}

function placedItem(
  item: FeedItem,
  index: number,
  indices: ReadonlyMap<string, readonly number[]>,
): PlacedItem {
  const without = (fault: string | undefined): PlacedItem => ({
    item,
    index,
    parent: undefined,
    fault,
  });
  const named = indices.get(plainName(item.item)) ?? [];
  if (named.length > 1) return without(`two items are called "${item.item}"`);
  const { kind, fedFrom } = item;
  if (kind === "supply")
    return without(
      fedFrom === undefined
        ? undefined
        : `"${item.item}" is a supply and fed from "${fedFrom}"`,
    );
  if (fedFrom === undefined)
    return without(`"${item.item}" is fed from nothing`);
  const found = indices.get(plainName(fedFrom)) ?? [];
  const [parent] = found;
  if (parent === undefined)
    return without(
      `"${item.item}" is fed from "${fedFrom}", which is not in the table`,
    );
  if (found.length > 1) return without(`two items are called "${fedFrom}"`);
  return { item, index, parent, fault: undefined };
}

function childrenOf(placed: readonly PlacedItem[]): PlacedItem[][] {
  const children: PlacedItem[][] = placed.map(() => []);
  for (const one of placed)
    if (one.parent !== undefined) children[one.parent]!.push(one);
  return children;
}
