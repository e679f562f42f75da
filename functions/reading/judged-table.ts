/** A feed table with the columns that only checks read, as `CHAIN_TABLE` makes it, or as far as somebody typed it. */
import { CONDUCTOR_BUILDS } from "../../src/conductors/conductor-build.js";
import { MATERIAL_NAMES } from "../../src/conductors/conductor-materials.js";
import { INSULATION_NAMES } from "../../src/conductors/insulations.js";
import {
  DETAIL_FIGURES,
  DETAIL_WORDS,
  type DetailFigure,
  type DetailWord,
  type ItemDetails,
  type JudgedFeed,
} from "../../src/judgement/judged-feed.js";
import { type JudgedRow, judgedRows } from "../../src/judgement/checks.js";
import type { Requirements } from "../../src/judgement/requirements.js";
import { type FeedColumns, figureAt } from "../../src/network/feed-columns.js";
import { InputError } from "../../src/quantities/errors.js";
import { figureInSi } from "../../src/quantities/header-units.js";
import { isLeastAboveGreatest, LEAST_BOUND } from "../../src/quantities/least-resistance.js";
import {
  ACCESSES,
  IN_LINE_KINDS,
  PLACES,
  SURROUNDINGS,
  TABLE_COLUMNS,
  type TableColumn,
} from "../../src/schedules/columns.js";
import { requireChoice, requireUsable } from "../arguments.js";
import { type Cell, type CellTable, isBlank, isCellError } from "../cells.js";
import { FEED_FIELDS } from "./feed-columns.js";
import type { KnownTable } from "./feed-memory.js";
import { type FeedTable, filledRows, zeroIsBlankIn } from "./feed-table.js";
import { sizeFrom } from "./size-text.js";
import { type ReadColumn, readColumns } from "./table-cells.js";

/** Words by column, where they are one of a list. */
const LISTS: Readonly<Partial<Record<DetailWord, readonly string[]>>> = {
  material: MATERIAL_NAMES,
  build: CONDUCTOR_BUILDS,
  insulation: INSULATION_NAMES,
  surroundings: SURROUNDINGS,
  inLineKind: IN_LINE_KINDS,
  place: PLACES,
  access: ACCESSES,
};

/** Figures of which 0 is one; of any other it is as good as none. */
const MAY_BE_ZERO: ReadonlySet<DetailFigure> = new Set([
  "capacitance",
  "price",
  "conductorC",
  "mass",
  "setPointSpread",
  "resistanceSpread",
  "coldestC",
  "hottestC",
  "altitude",
  "sun",
  "lowestC",
  "fullUpToC",
  "derating",
  "highestC",
  "inputCapacitance",
  "inputSeriesResistance",
  "margin",
]);

/** Figures that may lie below 0. */
const MAY_BE_NEGATIVE: ReadonlySet<DetailFigure> = new Set([
  "conductorC",
  "coldestC",
  "hottestC",
  "altitude",
  "lowestC",
  "fullUpToC",
  "highestC",
]);

/** @throws {InputError} as `readColumns`. */
export function judgedTable(cells: CellTable, { feed }: FeedTable): JudgedFeed {
  const columns = readColumns(cells[0] ?? [], DETAILS);
  const zeroIsBlank = zeroIsBlankIn(cells);
  const details = filledRows(cells).map((row) => detailsOf(row, columns, zeroIsBlank));
  return { columns: { ...feed, refused: refusedRows(feed, details) }, details };
}

/** Rows that the feed table's own reading refused, and those whose details contradict its figures. */
function refusedRows(feed: FeedColumns, details: readonly ItemDetails[]): FeedColumns["refused"] {
  const refused = new Map(feed.refused);
  details.forEach(({ figures: { leastResistance } }, row) => {
    if (refused.has(row)) return;
    if (isLeastAboveGreatest(leastResistance, figureAt(feed, row, "resistance")))
      refused.set(row, new InputError("leastResistance", leastResistance!, LEAST_BOUND));
  });
  return refused;
}

/** The same of a known table, once for it. @throws {InputError} as `judgedTable`. */
export function judgedOf(known: KnownTable, cells: CellTable): JudgedFeed {
  return known.once("judged", () => judgedTable(cells, known.table));
}

/** The judgement of a table, once for it and what is asked. @throws {InputError} as `judgedTable`. */
export function checksOf(
  known: KnownTable,
  cells: CellTable,
  asked: Requirements,
): readonly JudgedRow[] {
  return known.once(`checks ${asked.key}`, () => judgedRows(judgedOf(known, cells), asked));
}

/** Columns that the feed table's own reading does not read. */
const DETAILS: readonly TableColumn[] = TABLE_COLUMNS.filter(
  ({ field }) => !(field in FEED_FIELDS),
);

function detailsOf(
  row: readonly Cell[],
  columns: ReadonlyMap<string, ReadColumn>,
  zeroIsBlank: boolean,
): ItemDetails {
  const unread = new Map<string, InputError>();
  /** Undefined for an empty cell, and for one that cannot be read. */
  const read = <T>(field: string, of: (cell: Cell, toSi: number) => T) => {
    const column = columns.get(field);
    const cell = column && row[column.place];
    if (cell === undefined || isBlank(cell)) return undefined;
    if (cell === 0 && zeroIsBlank) return undefined;
    try {
      if (isCellError(cell)) throw new InputError(field, cell.error, "without an error");
      return of(cell, column!.toSi);
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      unread.set(field, error);
      return undefined;
    }
  };
  const figures: Partial<Record<DetailFigure, number>> = {};
  for (const field of DETAIL_FIGURES) {
    const value = read(field, (cell, toSi) => figureOf(field, cell, toSi));
    if (value !== undefined) figures[field] = value;
  }
  const words: Partial<Record<DetailWord, string>> = {};
  for (const field of DETAIL_WORDS) {
    const word = read(field, (cell) => wordOf(field, cell));
    if (word !== undefined) words[field] = word;
  }
  const size = read("size", (cell) => sizeFrom(typeof cell === "number" ? cell : String(cell)));
  return { figures, words, size, unread };
}

function figureOf(field: DetailFigure, cell: Cell, toSi: number): number {
  const word = typeof cell === "string" ? cell.trim().toLowerCase() : "";
  if (word === "exact" && MAY_BE_ZERO.has(field)) return 0;
  const figure = requireUsable(field, cell as number | string | boolean);
  const isLow = MAY_BE_ZERO.has(field) ? figure < 0 : figure <= 0;
  if (isLow && !MAY_BE_NEGATIVE.has(field))
    throw new InputError(field, figure, MAY_BE_ZERO.has(field) ? "0 or more" : "above 0");
  return figureInSi(figure, toSi);
}

function wordOf(field: DetailWord, cell: Cell): string {
  const list = LISTS[field];
  const text = String(cell).trim();
  return list ? requireChoice(field, list, text) : text;
}
