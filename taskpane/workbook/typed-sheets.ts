/** The schedules of a budget as typed, and changes to them as edits of their sheets: each one sees what those before it left. */
import { translateFormulaToA1, translateFormulaToR1C1 } from "@borgar/fx";
import { rangeAddress, rangePlace, cellAddress } from "../../src/plans/addresses.js";
import { hasUnits, headerParts, unitInSi } from "../../src/quantities/header-units.js";
import { type BlockColumn, type BlockName, BLOCKS } from "../../src/schedules/columns.js";
import { BLOCK_AREAS } from "../budgets/names.js";
import { textOf } from "../budgets/reading/range-table.js";
import type { FoundBudget } from "../budgets/reading/found-budget.js";
import { type RowShift, shiftedFormula } from "../formula-reading/shifted-formula.js";
import type { RangeContent, CellWrite, Host, SheetEdit } from "../hosts/host.js";

/** What stands in a cell: a formula, a value, or "". */
export type TypedCell = CellWrite;

interface TypedBlock {
  readonly sheet: string;
  readonly left: number;
  top: number;
  /** Header, rows, and the closing row. */
  readonly rows: TypedCell[][];
}

export class TypedSheets {
  readonly edits: SheetEdit[] = [];
  private readonly blocks: ReadonlyMap<BlockName, TypedBlock>;

  constructor(contents: ReadonlyMap<BlockName, RangeContent>) {
    this.blocks = new Map([...contents].map(([name, content]) => [name, typedBlock(content)]));
  }

  static async read(
    host: Pick<Host, "read">,
    { ranges }: Pick<FoundBudget, "ranges">,
  ): Promise<TypedSheets> {
    const names = (Object.keys(BLOCK_AREAS) as BlockName[]).flatMap((name) => {
      const range = ranges[BLOCK_AREAS[name]];
      return range ? [{ name, range: { sheet: range.sheet, address: range.address } }] : [];
    });
    const contents = await host.read(names.map(({ range }) => range));
    return new TypedSheets(new Map(names.map(({ name }, index) => [name, contents[index]!])));
  }

  /** As they were read with the budget. */
  static of({ ranges }: Pick<FoundBudget, "ranges">): TypedSheets {
    const found = (Object.keys(BLOCK_AREAS) as BlockName[]).flatMap((name) => {
      const range = ranges[BLOCK_AREAS[name]];
      if (!range) return [];
      const { sheet, address, values, formulas = [] } = range;
      return [[name, { range: { sheet, address }, values, formulas, formats: [] }] as const];
    });
    return new TypedSheets(new Map(found));
  }

  has(block: BlockName): boolean {
    return this.blocks.has(block);
  }

  /** Headers without their units, "" where a column is hatched. */
  headers(block: BlockName): readonly string[] {
    const [header = []] = this.block(block).rows;
    return header.map((cell) => plainHeader(textOf(cell as string)));
  }

  /** @throws {RangeError} for a header that the block does not have. */
  columnOf(block: BlockName, header: string): number {
    const at = this.headers(block).indexOf(plainHeader(header));
    if (at < 0) throw new RangeError(`${block} has no column ${header}`);
    return at;
  }

  /** A column of the block as the sheet heads it, in the unit that stands there. @throws {RangeError} */
  column(block: BlockName, header: string): BlockColumn {
    const column = BLOCKS[block].find((one) => one.header === header);
    if (!column) throw new RangeError(`${block} has no column ${header}`);
    const [headers = []] = this.block(block).rows;
    return headedColumn(column, textOf(headers[this.columnOf(block, header)] as string));
  }

  /** Rows with something in them, without the header. */
  filledRows(block: BlockName): readonly number[] {
    return this.block(block).rows.flatMap((row, index) =>
      index > 0 && row.some((cell) => cell !== "") ? [index] : [],
    );
  }

  /** The row whose first cell holds the name. @throws {RangeError} */
  rowNamed(block: BlockName, name: string): number {
    const row = this.block(block).rows.findIndex(
      ([first], index) => index > 0 && textOf(first as string) === name,
    );
    if (row < 0) throw new RangeError(`${block} has no row ${name}`);
    return row;
  }

  cells(block: BlockName, row: number): readonly TypedCell[] {
    return this.block(block).rows[row] ?? [];
  }

  write(block: BlockName, row: number, column: number, content: TypedCell): void {
    const { sheet, top, left, rows } = this.block(block);
    const cells = rows[row];
    if (!cells || cells[column] === content) return;
    cells[column] = content;
    const address = cellAddress({ row: top + row, column: left + column });
    this.edits.push({ kind: "write", range: { sheet, address }, cells: [[content]] });
  }

  /** A row to type in: the first empty one behind those that are filled, else a new one above the closing row. */
  freeRow(block: BlockName): number {
    return this.freeRows(block, 1);
  }

  /** Rows behind those that are filled, written at once: cells by header. @returns the first. */
  addRows(block: BlockName, added: readonly Readonly<Record<string, TypedCell>>[]): number {
    const first = this.freeRows(block, added.length);
    const { sheet, top, left, rows } = this.block(block);
    const width = rows[0]?.length ?? 0;
    const cells = added.map((one) => {
      const row: TypedCell[] = Array.from({ length: width }, () => "");
      for (const [header, content] of Object.entries(one))
        row[this.columnOf(block, header)] = content;
      return row;
    });
    rows.splice(first, cells.length, ...cells.map((row) => [...row]));
    const range = { top: top + first, left, right: left + width - 1 };
    const address = rangeAddress({ ...range, bottom: range.top + cells.length - 1 });
    this.edits.push({ kind: "write", range: { sheet, address }, cells });
    return first;
  }

  private freeRows(block: BlockName, count: number): number {
    const { rows } = this.block(block);
    const row = (this.filledRows(block).at(-1) ?? 0) + 1;
    const missing = row + count - (rows.length - 1);
    if (missing > 0) this.insertRows(block, row, missing);
    return row;
  }

  /** As the row stands, formulas relative to their new place. */
  copyRow(block: BlockName, from: number): number {
    const to = this.freeRow(block);
    const { top, left } = this.block(block);
    this.cells(block, from).forEach((content, column) => {
      const place = (row: number) => cellAddress({ row: top + row, column: left + column });
      const copied =
        typeof content === "string" && content.startsWith("=")
          ? translateFormulaToA1(translateFormulaToR1C1(content, place(from)), place(to))
          : content;
      this.write(block, to, column, copied);
    });
    return to;
  }

  /** The last row of a block is emptied instead, so that there is one to type in. */
  removeRow(block: BlockName, row: number): void {
    const { sheet, top, rows } = this.block(block);
    const between = rows.length - 2;
    if (between <= 1) {
      this.cells(block, row).forEach((_, column) => this.write(block, row, column, ""));
      return;
    }
    rows.splice(row, 1);
    this.shift({ kind: "remove rows", sheet, row: top + row, count: 1 });
  }

  private insertRows(block: BlockName, row: number, count: number): void {
    const { sheet, top, rows } = this.block(block);
    const width = rows[0]?.length ?? 0;
    const empty = Array.from({ length: count }, () => Array<TypedCell>(width).fill(""));
    rows.splice(row, 0, ...empty);
    this.shift({ kind: "insert rows", sheet, row: top + row, count });
  }

  /** What the host does by itself: blocks below move, formulas follow. */
  private shift(shift: RowShift): void {
    this.edits.push(shift);
    const moved = shift.kind === "insert rows" ? shift.count : -shift.count;
    for (const block of this.blocks.values()) {
      if (block.sheet === shift.sheet && block.top > shift.row) block.top += moved;
      for (const row of block.rows)
        row.forEach((content, column) => {
          if (typeof content === "string" && content.startsWith("="))
            row[column] = shiftedFormula(content, block.sheet, shift);
        });
    }
  }

  /** Where the block stands now. */
  rangeOf(block: BlockName): { readonly sheet: string; readonly address: string } {
    const { sheet, top, left, rows } = this.block(block);
    const right = left + (rows[0]?.length ?? 1) - 1;
    return { sheet, address: rangeAddress({ top, left, right, bottom: top + rows.length - 1 }) };
  }

  private block(name: BlockName): TypedBlock {
    const found = this.blocks.get(name);
    if (!found) throw new RangeError(`this budget has no block ${name}`);
    return found;
  }
}

function typedBlock({ range, values, formulas }: RangeContent): TypedBlock {
  const { top, left } = rangePlace(range.address);
  return {
    sheet: range.sheet,
    top,
    left,
    rows: values.map((cells, row) =>
      cells.map((value, column) => {
        const formula = formulas[row]?.[column] ?? "";
        if (formula !== "") return formula;
        // An error that was typed as a value is kept as its text.
        return typeof value === "object" ? value.error : value;
      }),
    ),
  };
}

/** A column in the unit that a sheet's header names; one that is no unit of it is the table's to refuse. */
export function headedColumn(column: BlockColumn, header: string): BlockColumn {
  const { unit } = headerParts(header);
  const { quantity } = column;
  const isKnown = unit !== "" && hasUnits(quantity) && unitInSi(quantity, unit) !== undefined;
  return isKnown ? { ...column, unit } : column;
}

function plainHeader(header: string): string {
  return header.replace(/\s*\([^()]*\)$/, "");
}
