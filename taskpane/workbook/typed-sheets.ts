/** The schedules of a budget as typed, and changes to them as edits of their sheets: each one sees what those before it left. */
import { translateFormulaToA1, translateFormulaToR1C1 } from "@borgar/fx";
import { rangeAddress, rangePlace, cellAddress } from "../../src/plans/addresses.js";
import type { BlockName } from "../../src/schedules/columns.js";
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
    const { rows } = this.block(block);
    const row = (this.filledRows(block).at(-1) ?? 0) + 1;
    if (row >= rows.length - 1) this.insertRow(block, row);
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

  private insertRow(block: BlockName, row: number): void {
    const { sheet, top, rows } = this.block(block);
    const width = rows[0]?.length ?? 0;
    rows.splice(
      row,
      0,
      Array.from({ length: width }, () => ""),
    );
    this.shift({ kind: "insert rows", sheet, row: top + row, count: 1 });
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

function plainHeader(header: string): string {
  return header.replace(/\s*\([^()]*\)$/, "");
}
