/** What may vary in a feed, as a range: one row for each figure, with its tolerance, distribution and group. */
import { plainName } from "../../../src/network/feed-topology.js";
import { isEntered, type MovableFeed } from "../../../src/sensitivity/movable-feed.js";
import { type MovingFigure, SPREAD_FIGURES } from "../../../src/sensitivity/moving-figures.js";
import {
  type FigureSpread,
  isVariedInTable,
  type VariedInput,
} from "../../../src/sensitivity/varied-inputs.js";
import { type Distribution, DISTRIBUTION_NAMES } from "../../../src/spread/distributions.js";
import { InputError } from "../../../src/quantities/errors.js";
import { figureInSi, headerParts, unitInSi } from "../../../src/quantities/header-units.js";
import { type BlockName, TABLE_COLUMNS, tablePlace } from "../../../src/schedules/columns.js";
import { type BlankCells, isUsable, PassedOnError, requireChoice } from "../../arguments.js";
import { type Cell, type CellTable, isBlank, isCellError } from "../../cells.js";
import type { Parameter } from "../../entry.js";
import { blankReading } from "../blocks.js";
import { plainHeader } from "../feed-columns.js";
import { requirePartBelowPercent } from "../feed-headers.js";
import { nearestWord } from "../nearest-word.js";

/** Headers of the range; the last two may be left out. In the block Spread of a budget the first is the block's name. */
export const SPREAD_COLUMNS = ["Item", "Column", "Tolerance", "Distribution", "Group"] as const;

const BLOCK: BlockName = "Spread";

/** As it stands in the feed table, without its unit. */
function headerOf(figure: MovingFigure): string {
  return TABLE_COLUMNS[tablePlace(figure)]!.header;
}

type SpreadColumn = (typeof SPREAD_COLUMNS)[number];

/** Of the block, carried and not read. */
const UNREAD = ["Basis"];

const NEEDED: readonly SpreadColumn[] = ["Item", "Column", "Tolerance"];

export const spreadParameter = {
  name: "spread",
  unit: "",
  meaning: `range with a header row: ${SPREAD_COLUMNS.join(", ")}; what varies beside, or in place of, what the feed table's Tolerance says`,
  kind: "cells",
  optional: true,
} as const satisfies Parameter;

/** "Cable · Resistance"; a factor names all the figures that it moves. */
export function inputName({ columns }: MovableFeed, { row, figures }: VariedInput): string {
  return `${columns.item[row]} · ${figures.map(headerOf).join(", ")}`;
}

/** @throws {InputError} naming the row of the range, 1 below its header, and what is wrong in it. */
export function spreadBlock(
  cells: CellTable | undefined,
  feed: MovableFeed,
): readonly FigureSpread[] {
  if (cells === undefined) return [];
  const headers = headersOf(cells[0] ?? []);
  const blanks = blankReading(cells);
  const seen = new Set<string>();
  return cells.slice(1).flatMap((row, index): FigureSpread[] => {
    if (row.every(isBlankOrZero)) return [];
    const spread = new SpreadRow(row, headers, index + 1, blanks).read(feed);
    const key = `${spread.row} ${spread.figure}`;
    if (seen.has(key))
      throw refused(index + 1, headerOf(spread.figure), "a figure that no other row names");
    seen.add(key);
    return [spread];
  });
}

interface Header {
  readonly place: number;
  readonly toSi: number;
}

type Headers = ReadonlyMap<SpreadColumn, Header>;

/** A header of one's own begins with #. */
function headersOf(row: readonly Cell[]): Headers {
  const headers = new Map<SpreadColumn, Header>();
  row.forEach((text, place) => {
    if (isCellError(text)) throw new PassedOnError("spread", text);
    if (isBlankOrZero(text)) return;
    const name = String(text);
    const isNamed = (one: string) => plainHeader(one) === plainHeader(name);
    if (name.trim().startsWith("#") || UNREAD.some(isNamed)) return;
    const column = isNamed(BLOCK) ? "Item" : SPREAD_COLUMNS.find(isNamed);
    const { unit } = headerParts(name);
    const toSi = unitInSi("fraction", column === "Tolerance" ? unit : "");
    if (!column || toSi === undefined || headers.has(column))
      throw new InputError(
        "spread",
        name,
        `a range with each of the headers ${SPREAD_COLUMNS.join(", ")} once (one of your own begins with #)`,
      );
    headers.set(column, { place, toSi });
  });
  const missing = NEEDED.find((column) => !headers.has(column));
  if (missing !== undefined)
    throw new InputError("spread", null, `a range whose first row holds the header "${missing}"`);
  return headers;
}

class SpreadRow {
  constructor(
    private readonly cells: readonly Cell[],
    private readonly headers: Headers,
    private readonly number: number,
    private readonly blanks: BlankCells,
  ) {}

  read(feed: MovableFeed): FigureSpread {
    const row = this.item(feed);
    const figure = this.figure(feed, row);
    return {
      row,
      figure,
      tolerance: this.tolerance(feed, row, figure),
      distribution: this.distribution(),
      group: this.text("Group") || undefined,
    };
  }

  private cell(column: SpreadColumn): Cell {
    const header = this.headers.get(column);
    const cell = (header && this.cells[header.place]) ?? null;
    if (isCellError(cell)) throw new PassedOnError("spread", cell);
    return cell;
  }

  private text(column: SpreadColumn): string {
    const cell = this.cell(column);
    return isBlankOrZero(cell) ? "" : String(cell as string | number | boolean).trim();
  }

  private item({ columns: { item } }: MovableFeed): number {
    const name = this.text("Item");
    const row = item.findIndex((one) => plainName(one) === plainName(name));
    if (row >= 0) return row;
    const nearest = nearestWord(name, item);
    throw this.refused(name, `an item of the feed table, "${nearest}" is the nearest`);
  }

  private figure(feed: MovableFeed, row: number): MovingFigure {
    const name = this.text("Column");
    const figure = SPREAD_FIGURES.find((one) => plainHeader(headerOf(one)) === plainHeader(name));
    const entered = SPREAD_FIGURES.filter(
      (one) => isEntered(feed, row, one) && feed.figures[one][row] !== 0,
    );
    if (figure !== undefined && entered.includes(figure)) return figure;
    const known = entered.map((one) => `"${headerOf(one)}"`).join(" or ");
    throw this.refused(
      name,
      `a column in which "${feed.columns.item[row]}" has a figure: ${known}`,
    );
  }

  private tolerance(feed: MovableFeed, row: number, figure: MovingFigure): number | undefined {
    const cell = this.cell("Tolerance");
    if (isBlank(cell) || (cell === 0 && !this.blanks.told)) {
      if (isVariedInTable(feed, row, figure)) return undefined;
      throw this.refused(null, `a Tolerance: the feed table says none of this figure`);
    }
    if (typeof cell === "string" && plainName(cell) === "exact") return 0;
    const { toSi } = this.headers.get("Tolerance")!;
    if (typeof cell !== "number" || !isUsable(cell)) throw this.refusedTolerance(cell);
    if (toSi !== 1) requirePartBelowPercent("spread", cell, 0.1);
    const tolerance = figureInSi(cell, toSi);
    if (!(tolerance > 0 && tolerance < 1)) throw this.refusedTolerance(cell);
    return tolerance;
  }

  private refusedTolerance(cell: Cell): InputError {
    const wanted = 'a Tolerance above 0 and below 1 (0.02 for 2 %), or "exact"';
    return this.refused(cell as number | string | boolean, wanted);
  }

  private distribution(): Distribution {
    const text = this.text("Distribution");
    if (text === "") return "flat";
    try {
      return requireChoice("spread", DISTRIBUTION_NAMES, text) as Distribution;
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      throw this.refused(text, `a Distribution, ${error.requirement}`);
    }
  }

  private refused(value: InputError["value"], wanted: string): InputError {
    return refused(this.number, value, wanted);
  }
}

function refused(row: number, value: InputError["value"], wanted: string): InputError {
  return new InputError("spread", value, `a range that holds in its row ${row} ${wanted}`);
}

function isBlankOrZero(cell: Cell): boolean {
  return cell === 0 || isBlank(cell);
}
