/** A call about what varies in a feed: which result is asked for, of which item, and the inputs that move it. */
import type { AskedQuantity } from "../../../src/network/feed-function.js";
import { FEED_QUANTITIES, type FeedQuantityName } from "../../../src/network/feed-quantities.js";
import { plainName } from "../../../src/network/feed-topology.js";
import { type VariedInput, variedInputs } from "../../../src/network/varied-inputs.js";
import { InputError } from "../../../src/quantities/errors.js";
import type { Parameter, ValuesOf } from "../../entry.js";
import { feedTableParameter, requireEveryRow, type Solved, solve } from "../feed-call.js";
import { knownTable } from "../feed-memory.js";
import { nearestWord } from "../nearest-word.js";
import { spreadBlock, spreadParameter } from "./spread-block.js";

export const variedParameters = {
  feedTable: feedTableParameter,
  quantity: {
    name: "quantity",
    unit: "",
    meaning: "which number",
    kind: "choice",
    choices: FEED_QUANTITIES,
  },
  item: {
    name: "item",
    unit: "",
    meaning: "whose; blank for the whole feed; voltages and currents are those of an item",
    kind: "number or text",
    optional: true,
  },
  spread: spreadParameter,
} as const satisfies Readonly<Record<string, Parameter>>;

export interface VariedCall {
  /** As entered, at nominal supply and loads; every row has an answer. */
  readonly solved: Solved;
  readonly asked: AskedQuantity;
  readonly inputs: readonly VariedInput[];
}

/** @throws {InputError | NoAnswerError} for a row without an answer, an item that is not there, and as `spreadBlock`. */
export function variedCall({
  feedTable,
  quantity,
  item,
  spread,
}: ValuesOf<typeof variedParameters>): VariedCall {
  const { table } = knownTable(feedTable);
  const solved = solve({ table, loads: "nominal", supply: "nominal" });
  requireEveryRow(solved);
  return {
    solved,
    asked: {
      name: quantity as FeedQuantityName,
      row: item === undefined ? undefined : rowNamed(String(item), table.feed.item),
    },
    inputs: variedInputs(table.feed, spreadBlock(spread, table.feed)),
  };
}

function rowNamed(name: string, items: readonly string[]): number {
  const row = items.findIndex((one) => plainName(one) === plainName(name));
  if (row >= 0) return row;
  const nearest = nearestWord(name, items);
  throw new InputError("item", name, `an item of the feed table, "${nearest}" is the nearest`);
}
