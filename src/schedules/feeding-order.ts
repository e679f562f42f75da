/** The order in which a feed is read: each supply with its tree, branch by branch; and why a row hangs on nothing. */
import { FEED_KINDS } from "../network/feed-item.js";
import { NO_KIND } from "../network/feed-columns.js";
import { feedTopology, plainName, SEPARATOR } from "../network/feed-topology.js";
import type { InputError } from "../quantities/errors.js";
import { missing, refused } from "./schedule-row.js";
import type { MadeRow } from "./table-row.js";

/** Places of the rows: trees in the order of supplies, children in the order given, what hangs on no supply last. */
export function feedingOrder(rows: readonly MadeRow[]): readonly number[] {
  const children = new Map<string, number[]>();
  rows.forEach(({ fedFrom }, at) => {
    if (fedFrom === undefined) return;
    const [first = ""] = fedFrom.split(SEPARATOR);
    const key = plainName(first);
    children.set(key, [...(children.get(key) ?? []), at]);
  });
  const order: number[] = [];
  const placed = new Set<number>();
  const place = (root: number): void => {
    // A long feed is deeper than calls may be.
    const waiting = [root];
    for (let at = waiting.pop(); at !== undefined; at = waiting.pop()) {
      if (placed.has(at)) continue;
      placed.add(at);
      order.push(at);
      const fed = children.get(plainName(rows[at]!.source.name)) ?? [];
      waiting.push(...[...fed].reverse());
    }
  };
  rows.forEach(({ kind, fedFrom }, at) => {
    if (kind === "supply" && fedFrom === undefined) place(at);
  });
  rows.forEach((_, at) => {
    if (!placed.has(at)) order.push(at);
  });
  return order;
}

/** Refusals of rows whose link to the feed is wrong, by row. An unknown kind is taken to feed on, as a line does. */
export function linkRefusals(rows: readonly MadeRow[]): ReadonlyMap<number, InputError> {
  const { trees } = feedTopology({
    count: rows.length,
    item: rows.map(({ source }) => source.name),
    fedFrom: rows.map(({ fedFrom }) => fedFrom),
    kind: Uint8Array.from(rows, ({ kind }) =>
      kind === undefined ? NO_KIND : FEED_KINDS.indexOf(kind),
    ),
  });
  return new Map(
    trees.flatMap(({ fault }) => {
      if (!fault) return [];
      const { source } = rows[fault.row]!;
      const { field, requirement, value } = fault.error;
      const error =
        field !== "fedFrom"
          ? refused(source, "item", requirement, value)
          : value === null
            ? missing(source, "fedFrom", ", the name of the item that feeds this one")
            : refused(source, "fedFrom", requirement, value);
      return [[fault.row, error]];
    }),
  );
}
