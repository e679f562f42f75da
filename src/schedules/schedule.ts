/** Rows of blocks into the rows of one feed table, in feeding order. A row that cannot be keeps its place and says why. */
import type { FeedKind } from "../network/feed-item.js";
import { plainName } from "../network/feed-topology.js";
import { InputError, MissingEntryError } from "../quantities/errors.js";
import { cableCells } from "./cables/cable-figures.js";
import type { BlockName, TableField } from "./columns.js";
import { SEPARATOR } from "../network/feed-topology.js";
import { feedingOrder, linkRefusals } from "./feeding-order.js";
import { loadCells, loadKind, type LoadMargin } from "./load-figures.js";
import { Locations, placeCells } from "./locations.js";
import {
  figureOf,
  neededFigure,
  refused,
  requireLeastResistance,
  rowsByName,
  type ScheduleRow,
  type ScheduleRows,
  wordOf,
} from "./schedule-row.js";
import { stageCells } from "./stage-figures.js";
import { kindOrNone, typeOf } from "./stage-type.js";
import { type MadeRow, type Refusal, RowMaker } from "./table-row.js";

/** Blocks whose rows are items of the feed. */
export const ITEM_BLOCKS = [
  "Supply",
  "Stage",
  "Cable",
  "In line",
  "Load",
] as const satisfies readonly BlockName[];

interface Context {
  readonly types: ReadonlyMap<string, ScheduleRow>;
  readonly locations: Locations;
  readonly margin: LoadMargin;
}

/**
 * The items of all blocks in the order in which they were typed; each feed's tree follows its supply, and what hangs on
 * nothing stands last.
 * @throws {InputError} for a margin that cannot be.
 */
export function madeRows(rows: ScheduleRows, typed: readonly ScheduleRow[]): readonly MadeRow[] {
  const context: Context = {
    types: rowsByName(rows["Stage type"]),
    locations: new Locations(rows.Location),
    margin: loadMargin(rows["Asked for"]),
  };
  const made = typed.map((row) => madeRow(row, context));
  const refusals = linkRefusals(made);
  return feedingOrder(made).map((at) => {
    const row = made[at]!;
    const link = refusals.get(at);
    return row.refusal || !link ? row : { ...row, refusal: refusalOf(link) };
  });
}

function refusalOf(error: InputError): Refusal {
  const isMissing = error instanceof MissingEntryError;
  return { reason: error.message, waitsFor: isMissing ? error.field : undefined };
}

const LOAD_MARGIN = "load margin";
/** A greater one is a figure in per cent. */
const MOST_MARGIN = 1;

/** @throws {InputError} for a second one, or one that is no part of 1. */
function loadMargin(asked: readonly ScheduleRow[]): LoadMargin {
  const [row, second] = asked.filter(({ name }) => plainName(name) === LOAD_MARGIN);
  if (second) throw new InputError("block", second.name, "with Load margin in one row");
  if (!row) return { value: undefined, row: undefined };
  const word = wordOf(row, "value");
  if (word !== undefined && plainName(word) === "not asked") return { value: 0, row: undefined };
  const value = figureOf(row, "value");
  if (word !== undefined || (value !== undefined && !isMargin(value)))
    throw refused(row, "value", 'a part of 1, 0.2 for 20 %, or "not asked", beside Load margin');
  return { value, row };
}

function isMargin(value: number): boolean {
  return value >= 0 && value <= MOST_MARGIN;
}

function madeRow(row: ScheduleRow, context: Context): MadeRow {
  const made = new RowMaker(row);
  const kind = kindOf(row, context);
  let refusal: Refusal | undefined;
  try {
    if (row.refusal) throw row.refusal;
    fill(made, context);
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    refusal = refusalOf(error);
    made.voidFigures();
  }
  return {
    source: row,
    kind,
    fedFrom: wordOf(row, "fedFrom"),
    cells: made.cells,
    workings: made.workings,
    notes: made.notes,
    refusal,
  };
}

function kindOf(row: ScheduleRow, { types }: Context): FeedKind | undefined {
  switch (row.block as (typeof ITEM_BLOCKS)[number]) {
    case "Supply":
      return "supply";
    case "Cable":
      return isTie(row) ? "tie" : "run";
    case "In line":
      if (wordOf(row, "kind") === "bus") return "bus";
      return isTie(row) ? "tie" : "series";
    case "Load":
      return loadKind(row);
    case "Stage":
      return kindOrNone(row, types);
  }
}

function isTie(row: ScheduleRow): boolean {
  return wordOf(row, "fedFrom")?.includes(SEPARATOR) ?? false;
}

const SUPPLY: readonly TableField[] = [
  "voltage",
  "resistance",
  "leastResistance",
  "lowestVoltage",
  "highestVoltage",
  "ratedCurrent",
  "ratedPower",
  "currentLimit",
  "shutsDownAt",
  "within",
  "rippleRms",
  "ripplePeak",
  "capacitance",
  "price",
];

const IN_LINE: readonly TableField[] = [
  "voltage",
  "resistance",
  "ratedCurrent",
  "ratedVoltage",
  "clearsAt",
  "within",
  "clearsNearEnd",
  "breaksAt",
  "tolerance",
  "mass",
  "price",
];

/** @throws {InputError} in words of a row. */
function fill(made: RowMaker, { types, locations, margin }: Context): void {
  const { source: row } = made;
  const places = locations.of(row);
  placeCells(made, places);
  made.pass("basis");
  const margined = figureOf(row, "margin");
  if (margined !== undefined && !isMargin(margined))
    throw refused(row, "margin", "a part of 1, 0.2 for 20 %");
  switch (row.block as (typeof ITEM_BLOCKS)[number]) {
    case "Supply":
      made.passAll(SUPPLY);
      neededFigure(row, "voltage");
      requireLeastResistance(row);
      return;
    case "In line":
      made.passAll(IN_LINE);
      made.pass("inLineKind", "kind");
      return;
    case "Cable":
      cableCells(made, places);
      return;
    case "Stage":
      stageCells(made, typeOf(row, types));
      return;
    case "Load":
      loadCells(made, margin);
      return;
  }
}
