/** Finds the cell of a schedule that holds the figure of a row of a budget's checks. */
import { ASKED_FOR, WHOLE_FEED } from "../../../src/judgement/check-row.js";
import { type BlockName, BLOCKS } from "../../../src/schedules/columns.js";
import { type RangeRow, rangeRows, cellAt, sameItem, textOf } from "../reading/range-table.js";
import type { CellPlace, FoundBudget, ReadRange } from "../reading/found-budget.js";
import { BLOCK_AREAS } from "../names.js";

/** Finds cells to change; made once for each reading of a budget. */
export class CheckCells {
  private readonly feed: readonly RangeRow[];

  constructor(private readonly budget: FoundBudget) {
    const { Feed: feed } = budget.ranges;
    this.feed = feed ? rangeRows(feed) : [];
  }

  /**
   * @param item Whose row it is, or `ASKED_FOR`.
   * @param column Header of the feed table, or label of what is asked for.
   */
  toChange(item: string, column: string): CellPlace | undefined {
    if (column === "") return undefined;
    const { ranges } = this.budget;
    if (item === ASKED_FOR) return labelled(ranges["Asked"], column);
    if (item === WHOLE_FEED) return undefined;
    const row = this.feed.find((one) => sameItem(one.item, item));
    const block = textOf(row?.value("Block"));
    if (!row || !(block in BLOCKS)) return undefined;
    const name = block as BlockName;
    return (
      this.inBlock(name, Number(row.value("Row")), column) ??
      this.ofType(row, column) ??
      this.ofLocation(row, column)
    );
  }

  private inBlock(block: BlockName, row: number, column: string): CellPlace | undefined {
    const range = this.budget.ranges[BLOCK_AREAS[block]];
    if (!range || !(row >= 1)) return undefined;
    const place = headingPlace(range, column);
    return place === undefined ? undefined : cellAt(range, row, place);
  }

  /** A figure of a stage stands with its type, unless the stage has a column for it. */
  private ofType(row: RangeRow, column: string): CellPlace | undefined {
    return this.named("Stage type", textOf(row.value("Type")), column);
  }

  /** The cell of the location whose figure counts for the row, else of the first one named. */
  private ofLocation(row: RangeRow, column: string): CellPlace | undefined {
    const { Locations: range } = this.budget.ranges;
    const names = textOf(row.value("Location")).split(";");
    const counting = names.find((name) => {
      const [of] = (range ? rangeRows(range) : []).filter(({ item }) => sameItem(item, name));
      return of?.value(column) === row.value(column);
    });
    return this.named("Location", counting ?? names[0]!, column);
  }

  private named(block: BlockName, name: string, column: string): CellPlace | undefined {
    const range = this.budget.ranges[BLOCK_AREAS[block]];
    if (!range || name === "") return undefined;
    const row = range.values.findIndex(([first]) => sameItem(textOf(first), name));
    return row < 1 ? undefined : this.inBlock(block, row, column);
  }
}

/** Headers of the feed table that a block calls otherwise. */
const IN_BLOCKS: Readonly<Record<string, readonly string[]>> = {
  "Light load": ["Light"],
  Load: ["Nominal"],
  "Peak load": ["Peak"],
  "In parallel": ["In parallel", "Cables"],
  "Trip V": ["Overvoltage trip"],
  "Current limit A": ["Current limit A", "Limit A"],
  Ratio: ["Steps down by"],
  Inductance: ["Inductance", "Core spacing"],
};

function headingPlace({ values: [headings = []] }: ReadRange, column: string): number | undefined {
  const plain = (text: string) => text.replace(/\s*\([^()]*\)$/, "").toLowerCase();
  const wanted = (IN_BLOCKS[plainHeader(column)] ?? [column]).map(plain);
  const place = headings.findIndex(
    (heading, at) => at > 0 && wanted.includes(plain(textOf(heading))),
  );
  return place < 0 ? undefined : place;
}

function plainHeader(column: string): string {
  return column.replace(/\s*\([^()]*\)$/, "");
}

function labelled(range: ReadRange | undefined, label: string): CellPlace | undefined {
  const row = range?.values.findIndex(([first]) => sameItem(textOf(first), label));
  return range && row !== undefined && row > 0 ? cellAt(range, row, 1) : undefined;
}
