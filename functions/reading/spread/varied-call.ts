/** A call about what varies in a feed: which result is asked for, of which item, and the inputs that move it. */
import { summedFigure } from "../../../src/judgement/checks/summed-figure.js";
import { columnsAt } from "../../../src/network/feed-conditions.js";
import type { AskedQuantity } from "../../../src/sensitivity/feed-function.js";
import {
  FEED_QUANTITIES,
  type FeedQuantityName,
  SUMMED_QUANTITIES,
} from "../../../src/sensitivity/feed-quantities.js";
import { type MovableFeed, movableFeed } from "../../../src/sensitivity/movable-feed.js";
import { plainName } from "../../../src/network/feed-topology.js";
import {
  rowsTakenAsExact,
  type VariedInput,
  variedInputs,
} from "../../../src/sensitivity/varied-inputs.js";
import { InputError } from "../../../src/quantities/errors.js";
import { figure } from "../../../src/quantities/figures.js";
import type { Caveat } from "../../../src/quantities/steps.js";
import type { CellTable } from "../../cells.js";
import type { Parameter, ValuesOf } from "../../entry.js";
import {
  feedTableParameter,
  loadsParameter,
  notesAt,
  requireEveryRow,
  type Solved,
  solve,
  solveOfTable,
  supplyParameter,
} from "../feed-call.js";
import { knownTable } from "../feed-memory.js";
import { judgedOf } from "../judged-table.js";
import { nearestWord } from "../nearest-word.js";
import { spreadBlock, spreadParameter } from "./spread-block.js";

/** Feed of the examples: both figures of a feed with one load at constant power vary. */
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
    meaning:
      "whose; blank for the whole feed; voltages, currents and conductor temperatures are those of an item",
    kind: "number or text",
    optional: true,
  },
  spread: spreadParameter,
} as const satisfies Readonly<Record<string, Parameter>>;

/** The last two of each function, behind what it has of its own. */
export const caseParameters = {
  loads: loadsParameter,
  supply: supplyParameter,
} as const satisfies Readonly<Record<string, Parameter>>;

export interface VariedCall {
  /** As entered, in the case asked for; every row has an answer. */
  readonly solved: Solved;
  /** With the figures of that case, about which they vary. */
  readonly feed: MovableFeed;
  readonly asked: AskedQuantity;
  readonly inputs: readonly VariedInput[];
  /** Names the case; "" for the nominal one. */
  readonly solvedAt: string;
  /** Names the items of which nothing says how far they may vary; "" where there is none. */
  readonly takenAsExact: string;
  /** Names the items that lack what is added up; "" where there is none. */
  readonly leftOut: string;
}

/** @throws {InputError | NoAnswerError} for a row without an answer, an item that is not there, and as `spreadBlock`. */
export function variedCall({
  feedTable,
  quantity,
  item,
  spread,
  loads,
  supply,
}: ValuesOf<typeof variedParameters & typeof caseParameters>): VariedCall {
  const known = knownTable(feedTable);
  const { table } = known;
  const asked = solveOfTable(table, loads, supply);
  const solved = solve(asked);
  requireEveryRow(solved);
  const judged = judgedOf(known, feedTable);
  // What may vary is said of the figures as they were entered: one that is 0 in this case is none in others.
  const spreads = spreadBlock(spread, movableFeed(judged));
  const feed = movableFeed({ ...judged, columns: columnsAt(table.feed, asked) });
  const name = quantity as FeedQuantityName;
  const row = item === undefined ? undefined : rowNamed(String(item), table.feed.item);
  const summed = SUMMED_QUANTITIES.find((one) => one === name);
  const named = (rows: readonly number[]) => rows.map((one) => table.feed.item[one]!);
  return {
    solved,
    feed,
    asked: { name, row },
    inputs: variedInputs(feed, spreads),
    solvedAt: askedCase(loads, supply),
    takenAsExact: listed(
      summed
        ? "no row of spread, so taken as exact"
        : "no Tolerance or full window, so taken as exact",
      named(rowsTakenAsExact(feed, spreads, summed)),
    ),
    leftOut:
      summed && row === undefined
        ? listed(`no ${summed} given, so left out`, named(summedFigure(judged, summed).missing))
        : "",
  };
}

function askedCase(
  loads: number | string = "nominal",
  supply: number | string = "nominal",
): string {
  if (loads === "nominal" && supply === "nominal") return "";
  const open = typeof supply === "number" ? `${figure(supply)} V` : supply;
  const drawn = typeof loads === "number" ? `${figure(loads)} times nominal` : loads;
  return `supply ${open}, loads ${drawn}`;
}

/** What stands beside a result that rests on the call. */
export function callNote(
  { solvedAt, leftOut, takenAsExact }: VariedCall,
  ...before: readonly string[]
): string {
  return [...before, solvedAt, leftOut, takenAsExact].filter((text) => text !== "").join("; ");
}

/** Items that the text names before it says how many more. */
const NAMED = 6;

function listed(what: string, items: readonly string[]): string {
  if (items.length === 0) return "";
  const more = items.length - NAMED;
  const named = [...items.slice(0, NAMED), ...(more > 0 ? [`${more} more`] : [])].join(", ");
  return `${what}: ${named}`;
}

/**
 * Of the feed as entered, on which every figure rests, and what is left out or taken as exact in it.
 * @param field The figure that would be greater.
 */
export function variedCaveats(
  { solved, leftOut, takenAsExact }: VariedCall,
  field: string,
): Caveat[] {
  const notes = solved.table.feed.item.flatMap((name, row) =>
    notesAt(solved, row).map((note) => ({ ...note, text: `${name}: ${note.text}` })),
  );
  const said = (code: string, text: string): Caveat[] =>
    text === "" ? [] : [{ code, field, text, cite: "definition" }];
  return [...notes, ...said("left-out", leftOut), ...said("taken-as-exact", takenAsExact)];
}

function rowNamed(name: string, items: readonly string[]): number {
  const row = items.findIndex((one) => plainName(one) === plainName(name));
  if (row >= 0) return row;
  const nearest = nearestWord(name, items);
  throw new InputError("item", name, `an item of the feed table, "${nearest}" is the nearest`);
}
