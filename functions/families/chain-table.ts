/** Schedules into the one feed table that all other functions of a whole feed read. */
import { NONE } from "../../src/judgement/check-row.js";
import { FEED_FIGURES } from "../../src/network/feed-columns.js";
import { figureFromSi, HEADER_UNITS } from "../../src/quantities/header-units.js";
import type { Caveat } from "../../src/quantities/steps.js";
import {
  headerText,
  ownUnitInSi,
  TABLE_BLOCKS,
  TABLE_COLUMNS,
  type TableField,
  tablePlace,
} from "../../src/schedules/columns.js";
import { madeRows } from "../../src/schedules/schedule.js";
import type { MadeRow, Refusal } from "../../src/schedules/table-row.js";
import type { Cell, CellTable } from "../cells.js";
import { defineEntry, type ShownCell, type Working } from "../entry.js";
import { readBlocks } from "../reading/blocks.js";
import { ENTER } from "../reading/feed-table.js";

/** Headers of the result, in an order that people count on. */
export const TABLE_HEADERS: readonly string[] = TABLE_COLUMNS.map(headerText);

interface FeedTableMade {
  readonly rows: readonly MadeRow[];
  /** Place of each row's first working among all of them. */
  readonly firstWorking: readonly number[];
}

const chainTable = defineEntry({
  id: "CHAIN_TABLE",
  family: "chain",
  parameters: {
    block: {
      name: "block",
      unit: "",
      meaning: `ranges in any order, each with a header row that begins with the block's name: ${TABLE_BLOCKS.join(", ")}`,
      kind: "cells",
      repeating: true,
    },
  },
  result: {
    shape: "table",
    unit: "as its headers say",
  },
  example: {
    args: [
      [
        ["Supply", "Voltage (V)", "Rated A"],
        ["Bus", 400, 20],
        [null, null, null],
      ],
      [
        ["Cable", "Fed from", "Length (m)", "Size", "Conductor at most (°C)"],
        ["Run", "Bus", 350, "4 mm²", 40],
        [null, null, null, null, null],
      ],
      [
        ["Load", "Fed from", "Kind", "Nominal", "Quantity"],
        ["Hut", "Run", "power", 300, 2],
        [null, null, null, null, null],
      ],
      [
        ["Asked for", "Value"],
        ["Load margin", 0.25],
      ],
    ],
  },
  citations: [
    "iec-60228",
    "resistance-law",
    "linear-temperature",
    "insulation-limits",
    "two-wire-line",
    "loss-quadratic",
    "ohm-joule",
  ],
  form: "depends on words",
  read: ({ block }) => readBlocks(block),
  calculate: ({ rows, items }): FeedTableMade => {
    const made = madeRows(rows, items);
    let next = 0;
    const firstWorking = made.map(({ workings }) => {
      const first = next;
      next += workings.length;
      return first;
    });
    return { rows: made, firstWorking };
  },
  cells: ({ rows }): CellTable => tableCells(rows),
  cellOf: (table, row, column) => originOf(table, row - 1, column),
  caveats: ({ rows }) => rows.flatMap(ownCaveats),
  working: (_, { rows }) => rows.flatMap(rowWorkings),
});

/** The feed table of blocks, as a sheet gets it. @throws {InputError} as `readBlocks` and `madeRows`. */
export function feedTableOf(blocks: readonly CellTable[]): CellTable {
  const { rows, items } = readBlocks(blocks);
  return tableCells(madeRows(rows, items));
}

function tableCells(rows: readonly MadeRow[]): CellTable {
  return [[...TABLE_HEADERS], ...rows.map(rowCells)];
}

const FIGURES: ReadonlySet<string> = new Set(FEED_FIGURES);

function rowCells(row: MadeRow): Cell[] {
  const { source, kind, fedFrom, refusal, notes } = row;
  const own: Partial<Record<TableField, Cell>> = {
    item: source.name,
    fedFrom: fedFrom ?? "",
    kind: kind ?? "",
    block: source.block,
    row: source.row,
    note: refusal?.reason ?? notes.join("; "),
  };
  return TABLE_COLUMNS.map((column): Cell => {
    const { field } = column;
    if (refusal?.waitsFor !== undefined && field === waitingColumn(refusal.waitsFor)) return ENTER;
    if (refusal && FIGURES.has(field)) return refusedFigure(refusal);
    const made = row.cells.get(field);
    if (made === undefined) return own[field] ?? "";
    return typeof made.value === "number" ? cellFigure(column, made.value) : made.value;
  });
}

/** Nothing is wrong with a row that waits for a figure. */
function refusedFigure({ reason, waitsFor }: Refusal): Cell {
  return waitsFor === undefined ? { error: "#VALUE!", message: reason } : NONE;
}

/** Fields that the schedules call otherwise. */
const IN_TABLE: Readonly<Record<string, TableField>> = { nominal: "load", stepsDownBy: "ratio" };

/** Where a row that waits says so; an empty Fed from says it by itself. */
function waitingColumn(field: string): string | undefined {
  return field === "fedFrom" ? undefined : (IN_TABLE[field] ?? field);
}

/** ± nothing is told by its word: hosts may take a 0 for a blank. */
const EXACT = "exact";
const TOLERANCES: readonly string[] = [
  "tolerance",
  "setPointSpread",
  "resistanceSpread",
] satisfies readonly TableField[];

function cellFigure(column: (typeof TABLE_COLUMNS)[number], value: number): Cell {
  if (value === 0 && TOLERANCES.includes(column.field)) return EXACT;
  return column.quantity in HEADER_UNITS ? figureFromSi(value, ownUnitInSi(column)) : value;
}

/** Where a cell of the spill comes from. */
function originOf(
  { rows, firstWorking }: FeedTableMade,
  at: number,
  column: number,
): ShownCell | undefined {
  const row = rows[at];
  const shown = TABLE_COLUMNS[column];
  if (!row || !shown || row.refusal !== undefined) return undefined;
  if (column === tablePlace("item")) return { place: row.source.namePlace, factor: 1 };
  if (shown.field === "fedFrom") {
    const place = row.source.entered.get("fedFrom")?.place;
    return place && { place, factor: 1 };
  }
  const made = row.cells.get(shown.field);
  if (made?.origin === undefined) return undefined;
  const { origin, value } = made;
  if (value === 0 && TOLERANCES.includes(shown.field)) return undefined;
  const toSi = shown.quantity in HEADER_UNITS ? ownUnitInSi(shown) : 1;
  if (origin.kind === "typed") {
    const { place, toSi: typedToSi } = origin.entered;
    // A word is repeated as it stands; a choice may be spelt in another way.
    return { place, factor: typedToSi / toSi };
  }
  return {
    working: firstWorking[at]! + origin.working,
    step: origin.step,
    factor: 1 / toSi,
  };
}

function ownCaveats({ source, notes, refusal }: MadeRow): Caveat[] {
  const texts = refusal === undefined ? notes : [refusal.reason];
  return texts.map((text) => ({
    code: "of-row",
    field: "note",
    text: `${source.name}: ${text}`,
    cite: "definition",
  }));
}

function rowWorkings({ workings }: MadeRow): Working[] {
  return workings.map((make) => make());
}

export const chainTableEntries = [chainTable];
