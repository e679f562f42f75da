/** A feed table as it stands in cells, read into the engine's rows. */
import {
  FEED_KINDS,
  type FeedItem,
  type FeedKind,
  ISOLATIONS,
} from "../../src/network/feed-item.js";
import type { FeedEntry } from "../../src/network/compiled-feed.js";
import { InputError, NoAnswerError } from "../../src/quantities/errors.js";
import { plainWord, requireChoice, requireUsable } from "../arguments.js";
import {
  type Cell,
  type CellError,
  type CellTable,
  isBlank,
  isCellError,
} from "../cells.js";
import { FEED_COLUMNS, type FeedField, plainHeader } from "./feed-columns.js";

export interface FeedTable {
  /** One for each row that is not wholly blank, in the table's order. */
  readonly entries: readonly FeedEntry[];
  readonly columns: ReadonlySet<FeedField>;
}

/** @throws {InputError} for a fault of the table itself: headers or no rows. A row's own fault stands in its entry. */
export function feedTable(cells: CellTable): FeedTable {
  const [headers, ...rows] = cells;
  const columnOf = columnsByField(headers ?? []);
  const filled = rows.filter((row) => row.some((cell) => !isBlankOrZero(cell)));
  if (filled.length === 0)
    throw new InputError(
      "feedTable",
      `${rows.length} rows without content`,
      "a header row with one row or more below it",
    );
  return {
    entries: filled.map((row) => feedEntry(row, columnOf)),
    columns: new Set(columnOf.keys()),
  };
}

function columnsByField(
  headers: readonly Cell[],
): ReadonlyMap<FeedField, number> {
  const fieldOf = new Map(
    Object.entries(FEED_COLUMNS).map(([field, header]) => [
      plainHeader(header),
      field as FeedField,
    ]),
  );
  const columnOf = new Map<FeedField, number>();
  headers.forEach((header, column) => {
    const field =
      typeof header === "string" ? fieldOf.get(plainHeader(header)) : undefined;
    if (field === undefined) return;
    if (columnOf.has(field))
      throw new InputError(
        "feedTable",
        FEED_COLUMNS[field],
        "a table with each header once",
      );
    columnOf.set(field, column);
  });
  for (const field of ["item", "fedFrom", "kind"] as const) {
    if (columnOf.has(field)) continue;
    const found = headers
      .filter((header) => typeof header === "string" && header !== "")
      .join(", ");
    throw new InputError(
      "feedTable",
      found,
      `a range whose first row holds the header "${FEED_COLUMNS[field]}"`,
    );
  }
  return columnOf;
}

function feedEntry(
  row: readonly Cell[],
  columnOf: ReadonlyMap<FeedField, number>,
): FeedEntry {
  const cellOf = (field: FeedField): Cell => {
    const column = columnOf.get(field);
    return column === undefined ? null : (row[column] ?? null);
  };
  // Names and kind first: a row that cannot be read in full still has its place in the tree.
  const item = shownText(cellOf("item"));
  const fedFrom = shownText(cellOf("fedFrom")) || undefined;
  let kind: FeedKind | undefined;
  try {
    requireNoError("item", cellOf("item"));
    requireNoError("fedFrom", cellOf("fedFrom"));
    kind = readKind(cellOf("kind"));
    return { item, fedFrom, kind, ...figuresOf(cellOf) };
  } catch (error) {
    if (error instanceof InputError) return { item, fedFrom, kind, error };
    throw error;
  }
}

function figuresOf(
  cellOf: (field: FeedField) => Cell,
): Omit<FeedItem, "item" | "fedFrom" | "kind"> {
  const number = (field: FeedField) => readNumber(field, cellOf(field));
  const isolation = readText("isolation", cellOf("isolation"));
  return {
    voltage: number("voltage"),
    resistance: number("resistance"),
    ratio: number("ratio"),
    fixedLoss: number("fixedLoss"),
    linearLoss: number("linearLoss"),
    quadraticLoss: number("quadraticLoss"),
    efficiency: number("efficiency"),
    load: number("load"),
    lightLoad: number("lightLoad"),
    peakLoad: number("peakLoad"),
    inParallel: number("inParallel") ?? 1,
    lowestVoltage: number("lowestVoltage"),
    highestVoltage: number("highestVoltage"),
    ratedCurrent: number("ratedCurrent"),
    tolerance: readTolerance(cellOf("tolerance")),
    isolation:
      isolation === undefined
        ? undefined
        : (requireChoice(
            "isolation",
            ISOLATIONS,
            isolation,
          ) as FeedItem["isolation"]),
    tripVoltage: number("tripVoltage"),
    rippleRms: number("rippleRms"),
    ripplePeak: number("ripplePeak"),
  };
}

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

function readKind(cell: Cell): FeedKind {
  const text = readText("kind", cell);
  if (text === undefined)
    throw new InputError(
      "kind",
      null,
      FEED_KINDS.map((kind) => `"${kind}"`).join(" or "),
    );
  // Nearly every row has the kind's own name, and a large table has many rows.
  const own = FEED_KINDS.find((kind) => kind === text);
  return (
    own ??
    KIND_WORDS[plainWord(text)] ??
    (requireChoice("kind", FEED_KINDS, text) as FeedKind)
  );
}

function readText(field: FeedField, cell: Cell): string | undefined {
  requireNoError(field, cell);
  if (isBlankOrZero(cell)) return undefined;
  if (typeof cell !== "string")
    throw new InputError(field, cell as number | boolean, "text");
  return cell.trim();
}

/** 0 and blank are one thing, not given; where 0 is a value (a load, a loss) it is also what "not given" stands for. */
function readNumber(field: FeedField, cell: Cell): number | undefined {
  if (isCellError(cell)) throw containsError(field, cell);
  return isBlankOrZero(cell) ? undefined : requireUsable(field, cell);
}

function readTolerance(cell: Cell): number | undefined {
  if (typeof cell === "string" && plainWord(cell) === "exact") return 0;
  return readNumber("tolerance", cell);
}

function requireNoError(field: FeedField, cell: Cell): void {
  if (isCellError(cell)) throw containsError(field, cell);
}

function containsError(field: FeedField, { error }: CellError): InputError {
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

/** A row's refusal in words of the table: the column's header, and whose need is not met where the column is missing. */
export function rowReason(
  row: {
    readonly item: string;
    readonly blamed: string;
    readonly error: InputError | NoAnswerError;
  },
  columns: ReadonlySet<FeedField>,
): string {
  const { error, blamed, item } = row;
  if (error instanceof NoAnswerError) return error.message;
  const whose = blamed === item ? "" : `"${blamed}": `;
  const field = error.field as FeedField;
  const header: string = FEED_COLUMNS[field] ?? error.field;
  if (field in FEED_COLUMNS && !columns.has(field)) {
    return `the table has no column "${header}", which "${blamed}" needs`;
  }
  return `${whose}${error.message.replace(error.field, header)}`;
}
