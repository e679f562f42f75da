/** A feed table as it stands in cells, read into the engine's columns. */
import { NONE } from "../../src/judgement/check-row.js";
import {
  FEED_FIGURES,
  type FeedColumns,
  type FeedFigure,
  NO_KIND,
  notGiven,
} from "../../src/network/feed-columns.js";
import {
  FEED_KINDS,
  type FeedKind,
  type Isolation,
  ISOLATIONS,
  REVERSE_FLOWS,
  type ReverseFlow,
} from "../../src/network/feed-item.js";
import { InputError, NoAnswerError, ToldError } from "../../src/quantities/errors.js";
import { TABLE_COLUMNS, tableHeader } from "../../src/schedules/columns.js";
import { isUsable, plainWord, requireChoice, requireUsable } from "../arguments.js";
import { type Cell, type CellError, type CellTable, isBlank, isCellError } from "../cells.js";
import { FEED_COLUMNS, type FeedField, plainHeader } from "./feed-columns.js";
import { feedColumnOf, type FeedHeader, figureInSi } from "./feed-headers.js";

export interface FeedTable {
  /** One row for each that is not wholly blank, in the table's order. A row's own fault stands in them. */
  readonly feed: FeedColumns;
  /** Fields that the table has a column for. */
  readonly fields: ReadonlySet<FeedField>;
  /** What a table made of schedules says of its own rows, by row; "" for nothing. */
  readonly told: readonly string[];
}

interface TableColumn {
  readonly place: number;
  readonly header: FeedHeader;
}

type TableColumns = ReadonlyMap<FeedField, TableColumn>;
type Row = readonly Cell[];

/** @throws {InputError} for a fault of the table itself: headers or no rows. */
export function feedTable(cells: CellTable): FeedTable {
  const columns = columnsByField(cells[0] ?? []);
  const rows = filledRows(cells);
  if (rows.length === 0)
    throw new InputError(
      "feedTable",
      `${Math.max(0, cells.length - 1)} rows without content`,
      "a header row with one row or more below it",
    );
  const told = toldOf(cells[0] ?? [], rows);
  const headers = plainHeaders(cells[0] ?? []);
  const reader = new TableReader(rows, columns, () => zeroStandsForBlank(cells, columns), {
    reasons: told,
    waitsFor: (row) => waitsFor(headers, rows[row]!),
  });
  return { feed: reader.read(), fields: new Set(columns.keys()), told };
}

/** A table that names the block and row of its items was made of schedules, and its notes are about them. */
const MADE_OF_SCHEDULES = (["block", "row", "note"] as const).map((field) =>
  plainHeader(tableHeader(field)),
);

/** What stands in the cell that a row of schedules waits for. */
export const ENTER = "enter";

/** The field that a row of schedules waits for, "" where the table has no column of it; undefined: it waits for none. */
function waitsFor(headers: readonly string[], row: Row): string | undefined {
  const at = (header: string) => row[headers.indexOf(header)];
  if (!FIGURE_HEADERS.some((header) => at(header) === NONE)) return undefined;
  const waiting = MAY_WAIT.find(({ header }) => at(plainHeader(header)) === ENTER);
  return waiting?.field ?? (isBlankOrZero(at(FED_FROM) ?? null) ? "fedFrom" : "");
}

const FIGURE_HEADERS = FEED_FIGURES.map((figure) => plainHeader(tableHeader(figure)));
const FED_FROM = plainHeader(tableHeader("fedFrom"));

/** Names and notes are anybody's words. */
const MAY_WAIT = TABLE_COLUMNS.filter(
  ({ field }) => !["item", "fedFrom", "locations", "basis", "note"].includes(field),
);

function plainHeaders(headers: Row): readonly string[] {
  return headers.map((header) => (typeof header === "string" ? plainHeader(header) : ""));
}

function toldOf(headers: Row, rows: readonly Row[]): readonly string[] {
  const plain = plainHeaders(headers);
  const places = MADE_OF_SCHEDULES.map((header) => plain.indexOf(header));
  if (places.includes(-1)) return [];
  const note = places.at(-1)!;
  return rows.map((row) => {
    const cell = row[note];
    return typeof cell === "string" ? cell.trim() : "";
  });
}

/** A name stands in nearly every row's first cell. */
function hasContent(row: Row): boolean {
  const first = row[0];
  if (typeof first === "string" && first.trim() !== "") return true;
  return row.some((cell) => !isBlankOrZero(cell));
}

/** Rows below the headers that hold anything: those of the feed, in its order. */
export function filledRows(cells: CellTable): CellTable {
  const below = cells.slice(1);
  // Mostly all of them do, and no second list is made.
  return below.every(hasContent) ? below : below.filter(hasContent);
}

/** Whether a 0 in the table may be a blank cell. */
export function zeroIsBlankIn(cells: CellTable): boolean {
  const columns = columnsByField(cells[0] ?? []);
  return zeroStandsForBlank(cells, columns);
}

function columnsByField(headers: Row): TableColumns {
  const columns = new Map<FeedField, TableColumn>();
  headers.forEach((text, place) => {
    const header = typeof text === "string" ? feedColumnOf(text) : "unknown";
    if (header === "unknown") return;
    if (columns.has(header.field))
      throw new InputError(
        "feedTable",
        FEED_COLUMNS[header.field],
        "a table with each header once",
      );
    columns.set(header.field, { place, header });
  });
  for (const field of ["item", "fedFrom", "kind"] as const) {
    if (columns.has(field)) continue;
    const found = headers
      .filter((header) => typeof header === "string" && header !== "")
      .join(", ");
    throw new InputError(
      "feedTable",
      found,
      `a range whose first row holds the header "${FEED_COLUMNS[field]}"`,
    );
  }
  return columns;
}

/** Columns of words, in which no 0 is ever typed. */
const WORDS = ["item", "fedFrom", "kind", "isolation", "reverseFlow"] as const;

/**
 * Some hosts hand blank cells over as 0. A supply is fed from nothing, so that such a host shows itself in nearly every
 * table: where a column of words holds a 0, a 0 elsewhere may be a blank too.
 */
function zeroStandsForBlank([, ...rows]: CellTable, columns: TableColumns): boolean {
  const places = WORDS.map((field) => columns.get(field)?.place).filter(
    (place) => place !== undefined,
  );
  return rows.some((row) => places.some((place) => row[place] === 0));
}

/** Figures of loads, of which 0 is a load too. */
const LOADS: ReadonlySet<FeedFigure> = new Set(["load", "lightLoad", "peakLoad"]);

/** Figures that are never 0, and without which a row is judged by less: a 0 in them is told. */
const NEVER_ZERO: ReadonlySet<FeedFigure> = new Set([
  "efficiency",
  "lowestVoltage",
  "highestVoltage",
  "ratedCurrent",
  "tolerance",
  "tripVoltage",
]);

/** What a table made of schedules says of its rows. */
interface ToldRows {
  readonly reasons: readonly string[];
  readonly waitsFor: (row: number) => string | undefined;
}

/** A column of figures that the table has, and where its numbers go. */
interface FigureColumn extends TableColumn {
  readonly figure: FeedFigure;
  readonly values: Float64Array;
  /** The header's unit is the figure's own. */
  readonly isSi: boolean;
}

class TableReader {
  private readonly refused = new Map<number, InputError>();
  private readonly zeros = new Map<number, FeedFigure[]>();
  private readonly kind: Uint8Array;
  /** Found out at the first 0: most tables hold none. */
  private zeroIsBlank: boolean | undefined;

  constructor(
    private readonly rows: readonly Row[],
    private readonly columns: TableColumns,
    private readonly findZeroIsBlank: () => boolean,
    private readonly told: ToldRows,
  ) {
    this.kind = new Uint8Array(rows.length);
  }

  /** Row after row, because a large table does not stay in the processor's cache from one column to the next. */
  read(): FeedColumns {
    const { rows, columns, kind, refused, zeros } = this;
    const count = rows.length;
    const item = new Array<string>(count);
    const fedFrom = new Array<string | undefined>(count);
    // Without a column of it there is no list either: of no row it is given.
    const isolation: (Isolation | undefined)[] = [];
    const { figures, given } = this.figureColumns();
    const itemPlace = columns.get("item")!.place;
    const fedFromPlace = columns.get("fedFrom")!.place;
    const kindPlace = columns.get("kind")!.place;
    const reverseFlow: (ReverseFlow | undefined)[] = [];
    const reversePlace = columns.get("reverseFlow")?.place;
    const isolationPlace = columns.get("isolation")?.place;
    this.refuseTold();
    for (let row = 0; row < count; row++) {
      const cells = rows[row]!;
      // Names and kind first: a row that cannot be read in full still has its place in the tree.
      item[row] = this.name("item", row, cells[itemPlace]);
      fedFrom[row] = this.name("fedFrom", row, cells[fedFromPlace]) || undefined;
      kind[row] = this.kindPlace(row, cells[kindPlace]);
      for (let at = 0; at < given.length; at++) this.readFigure(given[at]!, row, cells);
      if (isolationPlace !== undefined) isolation[row] = this.isolation(row, cells[isolationPlace]);
      if (reversePlace !== undefined) reverseFlow[row] = this.reverseFlow(row, cells[reversePlace]);
    }
    return { count, item, fedFrom, kind, figures, isolation, reverseFlow, refused, zeros };
  }

  /** Figures without a column share one in which nothing is given. */
  private figureColumns() {
    const count = this.rows.length;
    const blank = notGiven(count);
    const given: FigureColumn[] = [];
    const valuesOf = (figure: FeedFigure): Float64Array => {
      const column = this.columns.get(figure);
      const isCount = figure === "inParallel";
      if (!column && !isCount) return blank;
      const values = isCount ? new Float64Array(count).fill(1) : notGiven(count);
      if (!column) return values;
      const { place, header } = column;
      given.push({ place, header, figure, values, isSi: header.toSi === 1 });
      return values;
    };
    const figures = Object.fromEntries(
      FEED_FIGURES.map((figure) => [figure, valuesOf(figure)]),
    ) as Record<FeedFigure, Float64Array>;
    return { figures, given };
  }

  /** A row that was refused where the table was made has errors in its figures, and tells why; one that waits has none. */
  private refuseTold(): void {
    const { reasons, waitsFor } = this.told;
    reasons.forEach((reason, row) => {
      if (reason === "") return;
      const waiting = waitsFor(row);
      if (waiting !== undefined) {
        this.refused.set(row, new ToldError(waiting, reason, true));
        return;
      }
      const figure = FEED_FIGURES.find((one) => {
        const place = this.columns.get(one)?.place;
        return place !== undefined && isCellError(this.rows[row]![place]);
      });
      if (figure) this.refused.set(row, new ToldError(figure, reason, false));
    });
  }

  /** Runs one reading; the first of several faults of a row is kept. */
  private attempt<T>(row: number, read: () => T): T | undefined {
    try {
      return read();
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      this.refuse(row, error);
      return undefined;
    }
  }

  private refuse(row: number, error: InputError): void {
    if (!this.refused.has(row)) this.refused.set(row, error);
  }

  private name(field: "item" | "fedFrom", row: number, cell: Cell = null): string {
    if (typeof cell === "string") return cell.trim();
    if (isCellError(cell)) this.refuse(row, errorIn(field, cell));
    return shownText(cell);
  }

  private kindPlace(row: number, cell: Cell = null): number {
    return PLACE_OF.get(cell as string) ?? this.otherKindPlace(row, cell);
  }

  private otherKindPlace(row: number, cell: Cell): number {
    const kind = this.attempt(row, () => readKind(cell));
    return kind === undefined ? NO_KIND : FEED_KINDS.indexOf(kind);
  }

  private readFigure(column: FigureColumn, row: number, cells: Row): void {
    const cell = cells[column.place];
    // Nearly every cell is a plain number or empty, and a large table has many.
    if (typeof cell === "number") {
      if (column.isSi && isUsable(cell)) {
        column.values[row] = cell;
        return;
      }
    } else if (cell === "" || isBlank(cell)) return;
    const value = this.figure(column, row, cell!);
    if (value !== undefined) column.values[row] = value;
  }

  private figure(
    { figure, header, isSi }: FigureColumn,
    row: number,
    cell: Cell,
  ): number | undefined {
    if (cell === 0) return this.zero(figure, row);
    if (typeof cell === "string") {
      const word = plainWord(cell);
      if (figure === "tolerance" && word === "exact") return 0;
      if (LOADS.has(figure) && word === NO_LOAD) return 0;
    }
    return this.attempt(row, () => {
      requireNoError(figure, cell);
      const number = requireUsable(figure, cell as number | string | boolean);
      // Of a row without a kind nothing is solved: its figures are not looked at any further.
      const of = FEED_KINDS[this.kind[row]!];
      return isSi || of === undefined ? number : figureInSi(header, number, of);
    });
  }

  /** 0 is no load, and no unit in parallel is refused; any other figure of 0 is as good as none. */
  private zero(figure: FeedFigure, row: number): number | undefined {
    this.zeroIsBlank ??= this.findZeroIsBlank();
    if (this.zeroIsBlank) return undefined;
    if (LOADS.has(figure) || figure === "inParallel") return 0;
    if (NEVER_ZERO.has(figure)) this.zeros.set(row, [...(this.zeros.get(row) ?? []), figure]);
    return undefined;
  }

  private isolation(row: number, cell: Cell = null): Isolation | undefined {
    return this.choice("isolation", ISOLATIONS, row, cell) as Isolation | undefined;
  }

  private reverseFlow(row: number, cell: Cell = null): ReverseFlow | undefined {
    return this.choice("reverseFlow", REVERSE_FLOWS, row, cell) as ReverseFlow | undefined;
  }

  private choice(
    field: "isolation" | "reverseFlow",
    words: readonly string[],
    row: number,
    cell: Cell,
  ): string | undefined {
    return this.attempt(row, () => {
      const text = readText(field, cell);
      return text === undefined ? undefined : requireChoice(field, words, text);
    });
  }
}

/** Says 0 of a load in hosts that hand a blank cell over as 0, too. */
const NO_LOAD = "none";

/** Nearly every row has the kind's own name, and a large table has many rows. */
const PLACE_OF: ReadonlyMap<string, number> = new Map(
  FEED_KINDS.map((kind, place) => [kind, place]),
);

/** Spellings beside the kind's own name. */
const KIND_WORDS: Readonly<Record<string, FeedKind>> = {
  "constant power": "power load",
  "constant power load": "power load",
  "constant-power": "power load",
  "constant-power load": "power load",
  "constant current": "current load",
  "constant current load": "current load",
  "constant-current": "current load",
  "constant-current load": "current load",
  "constant resistance": "resistance load",
  "constant resistance load": "resistance load",
  "constant-resistance": "resistance load",
  "constant-resistance load": "resistance load",
  "resistive load": "resistance load",
};

/** @throws {InputError} for what is no kind's name. */
export function readKind(cell: Cell): FeedKind {
  const text = readText("kind", cell);
  if (text === undefined)
    throw new InputError("kind", null, FEED_KINDS.map((kind) => `"${kind}"`).join(" or "));
  return KIND_WORDS[plainWord(text)] ?? (requireChoice("kind", FEED_KINDS, text) as FeedKind);
}

function readText(field: FeedField, cell: Cell): string | undefined {
  requireNoError(field, cell);
  if (isBlankOrZero(cell)) return undefined;
  if (typeof cell !== "string") throw new InputError(field, cell as number | boolean, "text");
  return cell.trim();
}

function requireNoError(field: FeedField, cell: Cell): void {
  if (isCellError(cell)) throw errorIn(field, cell);
}

function errorIn(field: FeedField, { error }: CellError): InputError {
  return new InputError(field, error, "without an error");
}

function isBlankOrZero(cell: Cell): boolean {
  return cell === 0 || isBlank(cell);
}

/** A name as it is shown; a number in a name's place reads as its digits. */
function shownText(cell: Cell): string {
  if (cell === null || isCellError(cell) || cell === 0) return "";
  return String(cell).trim();
}

/** What a refused row shows for its figures: nothing is wrong with one that waits for a figure. */
export function refusedCell(
  error: InputError | NoAnswerError,
  reason: string,
): CellError | typeof NONE {
  if (error instanceof NoAnswerError) return { error: "#N/A", message: reason };
  return isWaiting(error) ? NONE : { error: "#VALUE!", message: reason };
}

export function isWaiting(error: InputError | NoAnswerError): boolean {
  return error instanceof ToldError && error.isMissing;
}

/** A row's refusal in words of the table: the column's header, and whose need is not met where the column is missing. */
export function rowReason(
  row: {
    readonly item: string;
    readonly blamed: string;
    readonly error: InputError | NoAnswerError;
  },
  fields: ReadonlySet<FeedField>,
): string {
  const { error, blamed, item } = row;
  if (error instanceof NoAnswerError) return error.message;
  const whose = blamed === item ? "" : `"${blamed}": `;
  if (error instanceof ToldError) return whose + error.reason;
  const field = error.field as FeedField;
  const header: string = FEED_COLUMNS[field] ?? error.field;
  if (field in FEED_COLUMNS && !fields.has(field)) {
    return `the table has no column "${header}", which "${blamed}" needs`;
  }
  return `${whose}${error.message.replace(error.field, header)}`;
}
