/** Blocks of a schedule as they stand in cells, read into rows of figures and words. */
import {
  figureInSi,
  headerParts,
  HEADER_UNITS,
  type UnitQuantity,
  unitInSi,
} from "../../src/quantities/header-units.js";
import { InputError } from "../../src/quantities/errors.js";
import {
  type BlockColumn,
  BLOCKS,
  type Bound,
  headerText,
  type LoadKind,
  ownUnitInSi,
  TABLE_BLOCKS,
  type TableBlock,
} from "../../src/schedules/columns.js";
import {
  cellInWords,
  type CellPlace,
  type Entered,
  type EnteredValue,
  type ScheduleRow,
  type ScheduleRows,
} from "../../src/schedules/schedule-row.js";
import { ITEM_BLOCKS } from "../../src/schedules/schedule.js";
import { isStandardSize } from "../../src/conductors/conductor-section.js";
import {
  type BlankCells,
  BLANKS_AS_ZERO,
  BLANKS_TOLD,
  plainWord,
  requireChoice,
  requireUsable,
} from "../arguments.js";
import { type Cell, type CellTable, isBlank, isCellError } from "../cells.js";
import { nearestWord } from "./nearest-word.js";
import { plainHeader } from "./feed-columns.js";
import { requirePartBelowPercent } from "./feed-headers.js";
import { sizeFrom } from "./size-text.js";

export interface ReadBlocks {
  readonly rows: ScheduleRows;
  /** Rows that are items, in the order in which they were typed. */
  readonly items: readonly ScheduleRow[];
}

/** @throws {InputError} naming `block`: what no row alone is to blame for. */
export function readBlocks(blocks: readonly CellTable[]): ReadBlocks {
  const rows = Object.fromEntries(TABLE_BLOCKS.map((name) => [name, []])) as unknown as Record<
    TableBlock,
    ScheduleRow[]
  >;
  const items: ScheduleRow[] = [];
  blocks.forEach((cells, index) => {
    if (cells.flat().every((cell) => cell === 0 || isBlank(cell))) return;
    const read = readBlock(cells, index);
    for (const row of read) rows[row.block].push(row);
    if (read.some(({ block }) => ITEM_BLOCKS.some((one) => one === block))) items.push(...read);
  });
  return { rows, items };
}

/**
 * How the host hands blank cells over: every block ends in an empty row, so that one which hands them over as 0 shows
 * itself in the column of names.
 */
export function blankReading(block: CellTable): BlankCells {
  return block.some(([first]) => first === 0) ? BLANKS_AS_ZERO : BLANKS_TOLD;
}

function refusedBlock(found: string, must: string): InputError {
  return new InputError("block", found, must);
}

function readBlock(cells: CellTable, index: number): ScheduleRow[] {
  const [header = [], ...below] = cells;
  const block = blockNamed(header[0] ?? null);
  const blanks = blankReading(cells);
  const columns = columnsOf(block, header, below, blanks);
  const reader = new BlockReader(block, columns, blanks, index);
  return below.flatMap((row, at) =>
    isBlankRow(row, columns, blanks) ? [] : [reader.row(row, at + 1)],
  );
}

function blockNamed(cell: Cell): TableBlock {
  const name =
    typeof cell === "string"
      ? TABLE_BLOCKS.find((one) => plainHeader(one) === plainHeader(cell))
      : undefined;
  if (name !== undefined) return name;
  const found = isCellError(cell) ? cell.error : String(cell ?? "");
  const listed = TABLE_BLOCKS.map((one) => `"${one}"`).join(" or ");
  throw refusedBlock(found, `a range whose first header is ${listed}`);
}

interface ReadColumn {
  readonly place: number;
  readonly column: BlockColumn;
  readonly toSi: number;
  /** As it stands in the header's brackets. */
  readonly unit: string;
}

/** First character of the user's own headers; such columns are carried along and never read. */
const OWN = "#";

/** Columns that every sheet has at the same place, in the blocks that have nothing for them. */
const HATCHED = ["Fed from", "Location"];

function columnsOf(
  block: TableBlock,
  header: readonly Cell[],
  below: CellTable,
  { told }: BlankCells,
): readonly ReadColumn[] {
  const seen = new Set<string>();
  return header.flatMap((cell, place): ReadColumn[] => {
    if (place === 0) return [];
    if (isBlank(cell) || (cell === 0 && !told)) {
      const holds = below.some((row) => !isBlank(row[place]) && (told || row[place] !== 0));
      if (holds)
        throw refusedBlock(
          `no header in column ${place + 1} of ${block}`,
          "a range with a header above all that it holds",
        );
      return [];
    }
    const text = isCellError(cell) ? cell.error : String(cell);
    if (text.trim().startsWith(OWN)) return [];
    const column = columnNamed(block, text);
    if (seen.has(column.field))
      throw refusedBlock(text, `a range with each header of ${block} once`);
    seen.add(column.field);
    return [{ place, column, ...unitOf(block, column, text) }];
  });
}

function columnNamed(block: TableBlock, text: string): BlockColumn {
  const key = plainHeader(text);
  const columns = BLOCKS[block];
  const found = columns.find(({ header }) => plainHeader(header) === key);
  if (found) return found;
  const hatched = HATCHED.find((header) => plainHeader(header) === key);
  if (hatched !== undefined)
    return {
      header: hatched,
      unit: "",
      quantity: "words",
      field: hatched,
      content: { holds: "nothing" },
      means: "",
    };
  const nearest = columns.find(
    ({ header }) =>
      header ===
      nearestWord(
        headerParts(text).name,
        columns.map((one) => one.header),
      ),
  );
  const hint =
    block === "Load" && key === "load"
      ? 'called "Nominal"'
      : `one of ${block}'s own, the nearest is "${nearest ? headerText(nearest) : ""}"`;
  throw refusedBlock(
    text,
    `a range with every header ${hint}; a column of your own begins with ${OWN}`,
  );
}

function unitOf(
  block: TableBlock,
  column: BlockColumn,
  text: string,
): Pick<ReadColumn, "toSi" | "unit"> {
  const { unit } = headerParts(text);
  const { quantity } = column;
  if (!(quantity in HEADER_UNITS)) return { toSi: 1, unit };
  const own = ownUnitInSi(column);
  // A header that leaves its unit out is read in the one that it usually shows only where no other is likely.
  const isNamed = unit !== "" || own === 1 || column.unit === "";
  const toSi = unit === "" ? own : unitInSi(quantity as UnitQuantity, unit);
  if (isNamed && toSi !== undefined) return { toSi, unit };
  const units = Object.keys(HEADER_UNITS[quantity as UnitQuantity]);
  const found = unit === "" ? `${text} without a unit` : text;
  throw refusedBlock(
    `${found} in ${block}`,
    `a range whose header "${column.header}" names its unit as ${units.map((one) => `(${one})`).join(" or ")}`,
  );
}

function isBlankRow(
  row: readonly Cell[],
  columns: readonly ReadColumn[],
  { told }: BlankCells,
): boolean {
  const read = [0, ...columns.map(({ place }) => place)];
  return read.every((place) => isBlank(row[place]) || (row[place] === 0 && !told));
}

class BlockReader {
  constructor(
    private readonly block: TableBlock,
    private readonly columns: readonly ReadColumn[],
    private readonly blanks: BlankCells,
    private readonly index: number,
  ) {}

  /** Names first: a row that cannot be read in full still has its place in the feed. */
  row(cells: readonly Cell[], row: number): ScheduleRow {
    const { block, blanks } = this;
    const entered = new Map<string, Entered>();
    const readAs: string[] = [];
    let refusal: InputError | undefined;
    const attempt = <T>(read: () => T): T | undefined => {
      try {
        return read();
      } catch (error) {
        if (!(error instanceof InputError)) throw error;
        refusal ??= error;
        return undefined;
      }
    };
    const own = { block, row };
    const first = cells[0] ?? null;
    const isNamed = !isBlank(first) && (first !== 0 || blanks.told);
    const name = isNamed && !isCellError(first) ? String(first).trim() : "";
    if (name === "") {
      const nameless = new InputError(
        `Name of ${block} row ${row}`,
        isCellError(first) ? first.error : null,
        "given: the row has figures and no name",
      );
      // Rows of these blocks are in no table, where they could say so.
      if (!ITEM_BLOCKS.some((one) => one === block))
        throw refusedBlock(
          `row ${row} of ${block} with figures and no name`,
          "ranges in which every row that is filled has a name",
        );
      refusal = nameless;
    }
    for (const column of this.columns) {
      const cell = cells[column.place] ?? null;
      if (isBlank(cell) || (cell === 0 && !blanks.told)) continue;
      const value = attempt(() => this.value(cell, column, own, cells));
      if (value !== undefined)
        entered.set(column.column.field, {
          value,
          place: this.placeOf(row, column.place),
          toSi: column.toSi,
        });
      if (column.column.content.holds === "size" && isReadAsName(cell, value))
        readAs.push(`Size ${String(cell)} is read as the standard size "${String(cell)} mm²"`);
    }
    return {
      block,
      row,
      name,
      namePlace: this.placeOf(row, 0),
      entered,
      readAs,
      refusal,
    };
  }

  private placeOf(row: number, column: number): CellPlace {
    return { block: this.index, row, column };
  }

  private value(
    cell: Cell,
    read: ReadColumn,
    row: Pick<ScheduleRow, "block" | "row">,
    cells: readonly Cell[],
  ): EnteredValue {
    const { column } = read;
    const key = cellInWords(row, column.field);
    if (isCellError(cell)) throw new InputError(key, cell.error, "without an error");
    const { content } = column;
    switch (content.holds) {
      case "nothing":
        throw new InputError(key, cell, `empty in ${this.block}`);
      case "name":
      case "text":
        return String(cell).trim();
      case "names":
        return String(cell)
          .split(";")
          .map((name) => name.trim())
          .filter((name) => name !== "");
      case "value":
        return typeof cell === "number" ? cell : String(cell).trim();
      case "word":
        if (typeof cell !== "string") throw new InputError(key, cell, "a word");
        return requireChoice(key, content.words, cell);
      case "size":
        return sizeOf(key, cell, this.wordIn(cells, "build"));
      case "figure":
        return this.figure(cell as number | string | boolean, read, key, cells);
    }
  }

  private figure(
    cell: number | string | boolean,
    { column, toSi, unit }: ReadColumn,
    key: string,
    cells: readonly Cell[],
  ): number {
    const { content, quantity } = column;
    if (content.holds !== "figure") return Number.NaN;
    if (typeof cell === "string") {
      const known = content.words?.[plainWord(cell)];
      if (known !== undefined) return known;
    }
    const words = Object.keys(content.words ?? {}).map((one) => ` or "${one}"`);
    if (typeof cell !== "number") throw new InputError(key, cell, `a number${words.join("")}`);
    const number = requireUsable(key, cell);
    if (quantity === "load" && toSi !== 1) this.requirePower(key, cell, unit, cells);
    if (quantity === "fraction" && toSi !== 1)
      requirePartBelowPercent(key, number, content.bound === "tolerance" ? 0.1 : 1);
    const value = figureInSi(number, toSi);
    if (!isWithin(content.bound, value))
      throw new InputError(key, cell, boundInWords(content.bound));
    return value;
  }

  /** A unit of power says nothing of amperes and ohms. */
  private requirePower(key: string, cell: number, unit: string, cells: readonly Cell[]): void {
    const kind = this.wordIn(cells, "kind") as LoadKind | undefined;
    if (kind === "current" || kind === "resistance")
      throw new InputError(key, cell, `that of a power or heater below a header in ${unit}`);
  }

  private wordIn(cells: readonly Cell[], field: string): string | undefined {
    const place = this.columns.find(({ column }) => column.field === field)?.place;
    const cell = place === undefined ? null : cells[place];
    return typeof cell === "string" ? plainWord(cell) : undefined;
  }
}

/** A bare number that is a nominal size is meant as one, unless the metal itself is: such a cable has more resistance. */
function sizeOf(key: string, cell: Cell, build: string | undefined): EnteredValue {
  if (typeof cell === "boolean") throw new InputError(key, cell, "a size");
  const given = cell as number | string;
  try {
    if (typeof given === "number" && isStandardSize(given) && build !== "geometric")
      return sizeFrom(`${given} mm²`);
    return sizeFrom(typeof given === "number" ? requireUsable(key, given) : given);
  } catch (error) {
    if (error instanceof InputError) throw new InputError(key, given, error.requirement);
    throw error;
  }
}

function isReadAsName(cell: Cell, value: EnteredValue | undefined): boolean {
  return (
    typeof cell === "number" &&
    typeof value === "object" &&
    "sizing" in value &&
    value.sizing === "metric name"
  );
}

function isWithin(bound: Bound, value: number): boolean {
  switch (bound) {
    case "any":
      return true;
    case "above 0":
      return value > 0;
    case "0 or more":
      return value >= 0;
    case "part of one":
      return value > 0 && value <= 1;
    case "tolerance":
      return value >= 0 && value < 1;
    case "whole":
      return Number.isSafeInteger(value) && value >= 1;
  }
}

export function boundInWords(bound: Bound): string {
  switch (bound) {
    case "any":
      return "a number";
    case "above 0":
      return "above 0";
    case "0 or more":
      return "0 or more";
    case "part of one":
      return "above 0 and at most 1";
    case "tolerance":
      return 'a fraction below 1 (0.02 for 2 %) or "exact"';
    case "whole":
      return "a whole number, 1 or more";
  }
}
