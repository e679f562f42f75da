/** A call about what varies in a feed: which result is asked for, of which item, and the inputs that move it. */
import type { AskedQuantity } from "../../../src/network/feed-function.js";
import { FEED_QUANTITIES, type FeedQuantityName } from "../../../src/network/feed-quantities.js";
import { plainName } from "../../../src/network/feed-topology.js";
import {
  rowsTakenAsExact,
  type VariedInput,
  variedInputs,
} from "../../../src/network/varied-inputs.js";
import { InputError } from "../../../src/quantities/errors.js";
import type { Caveat } from "../../../src/quantities/steps.js";
import type { CellTable } from "../../cells.js";
import type { Parameter, ValuesOf } from "../../entry.js";
import { feedTableParameter, notesAt, requireEveryRow, type Solved, solve } from "../feed-call.js";
import { knownTable } from "../feed-memory.js";
import { nearestWord } from "../nearest-word.js";
import { spreadBlock, spreadParameter } from "./spread-block.js";

/** Of the examples: both figures of a feed with one load at constant power vary. */
export const VARIED_EXAMPLE: CellTable = [
  [
    "Item",
    "Fed from",
    "Kind",
    "Voltage",
    "Resistance",
    "Load",
    "Lowest V",
    "Highest V",
    "Tolerance",
  ],
  ["Bus", "", "supply", 400, "", "", 380, 420, ""],
  ["Cable", "Bus", "run", "", 2, "", "", "", 0.1],
  ["Camp", "Cable", "power load", "", "", 10000, "", "", "exact"],
];

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
  /** Names the items of which nothing says how far they may vary; "" where there is none. */
  readonly takenAsExact: string;
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
  const spreads = spreadBlock(spread, table.feed);
  return {
    solved,
    asked: {
      name: quantity as FeedQuantityName,
      row: item === undefined ? undefined : rowNamed(String(item), table.feed.item),
    },
    inputs: variedInputs(table.feed, spreads),
    takenAsExact: exactText(
      rowsTakenAsExact(table.feed, spreads).map((row) => table.feed.item[row]!),
    ),
  };
}

/** Items that the text names before it says how many more. */
const NAMED = 6;

function exactText(items: readonly string[]): string {
  if (items.length === 0) return "";
  const more = items.length - NAMED;
  const named = [...items.slice(0, NAMED), ...(more > 0 ? [`${more} more`] : [])].join(", ");
  return `no Tolerance or full window, so taken as exact: ${named}`;
}

/**
 * Of the feed as entered, on which every figure rests, and what is taken as exact in it.
 * @param field The figure that would be greater.
 */
export function variedCaveats({ solved, takenAsExact }: VariedCall, field: string): Caveat[] {
  const notes = solved.table.feed.item.flatMap((name, row) =>
    notesAt(solved, row).map((note) => ({ ...note, text: `${name}: ${note.text}` })),
  );
  return takenAsExact === ""
    ? notes
    : [...notes, { code: "taken-as-exact", field, text: takenAsExact, cite: "definition" }];
}

function rowNamed(name: string, items: readonly string[]): number {
  const row = items.findIndex((one) => plainName(one) === plainName(name));
  if (row >= 0) return row;
  const nearest = nearestWord(name, items);
  throw new InputError("item", name, `an item of the feed table, "${nearest}" is the nearest`);
}
