/** A block of typed cells on a sheet: header, rows, and the grey row that closes it inside its range. */
import type { PlanCell, PlanRule, PlanValidation } from "../../src/plans/sheet-plan.js";
import {
  range,
  at,
  bareCell,
  fixedRange,
  fixedAt,
  formulaCell,
  valueCell,
} from "../../src/plans/sheet-builder.js";
import {
  BLOCKS,
  type BlockColumn,
  type BlockName,
  headerText,
} from "../../src/schedules/columns.js";
import { quantityFormat } from "./formats.js";
import type { Entered, ScheduleName, ScheduleRow } from "./sample.js";

/** Columns that all schedules have in the same place, hatched where a block has none. */
const SHARED = ["fedFrom", "locations"] as const;

interface SheetColumn {
  /** "" where the block has nothing in this place. */
  readonly header: string;
  readonly column?: BlockColumn;
}

function columnsOf(name: BlockName): readonly SheetColumn[] {
  const own = BLOCKS[name];
  const shared: readonly string[] = name === "Asked for" ? [] : SHARED;
  const as = (column: BlockColumn | undefined): SheetColumn =>
    column ? { header: headerText(column), column } : { header: "" };
  return [
    { header: name },
    ...shared.map((field) => as(own.find((one) => one.field === field))),
    ...own.filter(({ field }) => !shared.includes(field)).map(as),
  ];
}

const EMPTY_ROW: ScheduleRow = {};

/** Ranges whose contents are offered in a list. */
export interface Offers {
  readonly items: string;
  readonly locations: string;
  readonly types: string;
  readonly sizes: string;
}

export class Block {
  private readonly columns: readonly SheetColumn[];
  private readonly rows: readonly ScheduleRow[];

  /** @param row Of the header, as the sheet counts. @param emptyRows Below those of the sample, to be typed. */
  constructor(
    readonly name: ScheduleName,
    readonly sheet: string,
    readonly row: number,
    private readonly typed: readonly ScheduleRow[],
    emptyRows: number,
  ) {
    this.columns = columnsOf(name);
    const empty = Array.from({ length: emptyRows }, () => EMPTY_ROW);
    this.rows = [...typed, ...empty];
    for (const each of typed) for (const header of Object.keys(each)) this.placeOf(header);
  }

  /** Items that it has. */
  get count(): number {
    return this.typed.length;
  }

  /** Names of its items. */
  get names(): readonly string[] {
    return this.typed.map((each) => String(each[this.name] ?? ""));
  }

  /** The grey row, which belongs to it. */
  get closing(): number {
    return this.row + this.rows.length + 1;
  }

  get rangeHere(): string {
    return fixedRange(0, this.row, this.columns.length - 1, this.closing);
  }

  get range(): string {
    return `{${this.sheet}}!${this.rangeHere}`;
  }

  /** @throws {RangeError} for an item or a header that it does not have. */
  cell(item: string, header: string): string {
    const index = this.rows.findIndex((each) => each[this.name] === item);
    if (index < 0) throw new RangeError(`${this.name} has no ${item}`);
    const at = fixedAt(this.placeOf(header), this.row + 1 + index);
    return `{${this.sheet}}!${at}`;
  }

  /** What is typed in words in a column of the sheet. */
  wordsIn(place: number): readonly string[] {
    const at = this.columns[place];
    if (!at || at.header === "") return [];
    const header = at.column?.header ?? this.name;
    return this.typed.flatMap((each) => {
      const value = each[header];
      return typeof value === "string" && !value.startsWith("=") ? [value] : [];
    });
  }

  has(item: string): boolean {
    return this.typed.some((each) => each[this.name] === item);
  }

  cells(): PlanCell[] {
    return [
      ...this.columns.map(({ header, column }, place) =>
        header === ""
          ? bareCell(place, this.row, "unused")
          : valueCell(place, this.row, header, "tableHeading", column && { note: column.means }),
      ),
      ...this.rows.flatMap((each, index) =>
        this.columns.map((column, place) =>
          this.entered(column, place, this.row + 1 + index, each),
        ),
      ),
      ...this.columns.map((_, place) => bareCell(place, this.closing, "closing")),
      valueCell(0, this.closing + 1, "Insert rows above the grey line; the line stays.", "unit"),
    ];
  }

  /** Its rows' names, for lists of other blocks; the closing row too, so that it grows with them. */
  get namesRange(): string {
    return `{${this.sheet}}!${fixedRange(0, this.row + 1, 0, this.closing)}`;
  }

  validations(offers: Offers): PlanValidation[] {
    return [...this.columnValidations(offers), this.below()];
  }

  /** A row that is typed below the last one would be a load that nobody counts: its cells refuse what is typed. */
  private below(): PlanValidation {
    const row = this.closing + 1;
    return {
      kind: "whole",
      least: 0,
      most: 0,
      range: range(1, row, this.columns.length - 1, row),
      message:
        "Nothing below the grey line counts. Insert a row above the line, and type the item there.",
    };
  }

  private columnValidations(offers: Offers): PlanValidation[] {
    return this.columns.flatMap(({ header, column }, place): PlanValidation[] => {
      const rows = range(place, this.row + 1, place, this.closing);
      if (!column) {
        // Its rows are about the items of other blocks.
        const namesItems = this.name === "Spread" && place === 0;
        return namesItems ? [{ kind: "offer", range: rows, ...itemOffer(header, offers) }] : [];
      }
      const { content } = column;
      if (content.holds === "word") {
        const message = `${header}: one of ${content.words.join(", ")}`;
        return [{ kind: "list", values: content.words, range: rows, message }];
      }
      if (content.holds === "figure") {
        const words = Object.keys(content.words ?? {});
        const or = words.map((word) => ` or ${word}`).join("");
        const message = `${header}: a number${or}, its unit left off`;
        return [{ kind: "figure", words, range: rows, message }];
      }
      const offer = this.offerOf(column.field, offers);
      return offer === undefined ? [] : [{ kind: "offer", range: rows, ...offer }];
    });
  }

  private offerOf(field: string, offers: Offers) {
    switch (field) {
      case "fedFrom":
        return itemOffer("Fed from", offers);
      case "locations":
        // A cable lies in several, which no list has.
        return this.name === "Cable"
          ? undefined
          : { source: offers.locations, message: "Location: as it is named in Location on Types" };
      case "type":
        return { source: offers.types, message: "Type: as it is named in Stage type on Types" };
      case "size":
        return { source: offers.sizes, message: 'Size: "2.5 mm²", "12 AWG", or mm² of metal' };
      default:
        return undefined;
    }
  }

  /** Cells of no use to the kind of their row look like those that no row uses. */
  rules(): PlanRule[] {
    const kind = this.columns.findIndex(({ column }) => column?.field === "kind");
    const first = this.row + 1;
    return this.columns.flatMap(({ column }, place): PlanRule[] => {
      if (!column?.kinds) return [];
      const own = `$${at(kind, first)}`;
      const others = column.kinds.map((word) => `${own}<>"${word}"`);
      return [
        {
          range: range(place, first, place, this.closing - 1),
          kind: "formula",
          formula: `AND(${own}<>"",${others.join(",")})`,
          paint: "unused",
        },
      ];
    });
  }

  private entered(
    { header, column }: SheetColumn,
    place: number,
    row: number,
    each: ScheduleRow,
  ): PlanCell {
    if (header === "") return bareCell(place, row, "unused");
    const value = each[column?.header ?? this.name];
    const isFigure = column?.content.holds === "figure";
    const format = column && quantityFormat(column.quantity);
    return enteredCell(
      place,
      row,
      value,
      isFigure ? "input" : "inputText",
      isFigure && format !== undefined ? { format } : {},
    );
  }

  private placeOf(header: string): number {
    const at = this.columns.findIndex((one) =>
      one.column ? one.column.header === header : one.header === header,
    );
    if (at < 0 || header === "") throw new RangeError(`${this.name} has no column ${header}`);
    return at;
  }
}

function itemOffer(header: string, { items }: Offers) {
  return { source: items, message: `${header}: the name of an item, as it stands in a schedule` };
}

/** A typed value, a formula behind `=`, or a cell that waits for one. */
export function enteredCell(
  column: number,
  row: number,
  value: Entered | undefined,
  style: "input" | "inputText",
  look: { readonly format?: string; readonly note?: string } = {},
): PlanCell {
  if (value === undefined || value === "") return bareCell(column, row, style, look);
  return typeof value === "string" && value.startsWith("=")
    ? formulaCell(column, row, value.slice(1), style, look)
    : valueCell(column, row, value, style, look);
}
