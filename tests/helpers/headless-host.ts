/** A host whose every budget is a calculated workbook of its own; the second one's sheets have a number behind their names. */
import { rangePlace, cellAddress } from "../../src/plans/addresses.js";
import type { WorkbookPlan } from "../../src/plans/sheet-plan.js";
import type {
  CellRange,
  RangeContent,
  CellWrite,
  FormulaCell,
  Host,
  HostName,
  InsertedBudget,
  SheetEdit,
} from "../../taskpane/hosts/host.js";
import { formulasIn, requireShape } from "../../taskpane/hosts/ranges.js";
import { type OpenBudget, openBudget } from "../budgets/open-budget.js";

export class HeadlessHost implements Host {
  readonly namespace = "FEED";
  readonly opened: OpenBudget[] = [];
  /** Where the user was sent. */
  shown: CellRange = { sheet: "", address: "A1" };

  dispose(): void {
    for (const { workbook } of this.opened) workbook.dispose();
  }

  async insert(plan: WorkbookPlan): Promise<InsertedBudget> {
    const number = this.opened.length + 1;
    const named = (name: string) => (number === 1 ? name : `${name} ${number}`);
    const sheets = plan.sheets.map((sheet) => ({ ...sheet, name: named(sheet.name) }));
    this.opened.push(await openBudget({ ...plan, sheets }));
    return {
      stem: plan.stem,
      sheets: Object.fromEntries(sheets.map(({ key, name }) => [key, name])),
      names: Object.fromEntries(plan.names.map(({ name }) => [name, `${plan.stem}_${name}`])),
    };
  }

  async formulaCells(sheet: string): Promise<readonly FormulaCell[]> {
    return (await this.read([await this.used(sheet)])).flatMap(formulasIn);
  }

  async read(ranges: readonly CellRange[]): Promise<readonly RangeContent[]> {
    return ranges.map((range) => {
      const { workbook, plan } = this.withSheet(range.sheet);
      const values = workbook.values(range.sheet, range.address);
      const cells = plan.sheets.find(({ name }) => name === range.sheet)?.cells ?? [];
      const planned = new Map(cells.map(({ at, format }) => [at, format]));
      const { top, left } = rangePlace(range.address);
      const formulas = values.map((row, down) =>
        row.map((_, right) =>
          workbook.formula(range.sheet, cellAddress({ row: top + down, column: left + right })),
        ),
      );
      // As the plan gave them: where rows were inserted, those below keep the format of the row that stood there.
      const formats = values.map((row, down) =>
        row.map(
          (_, right) =>
            planned.get(cellAddress({ row: top + down, column: left + right })) ?? "General",
        ),
      );
      return { range, values, formulas, formats };
    });
  }

  async sheets(): Promise<readonly string[]> {
    return this.opened.flatMap(({ plan }) => plan.sheets.map(({ name }) => name));
  }

  async used(sheet: string): Promise<CellRange> {
    return this.withSheet(sheet).workbook.used(sheet);
  }

  async names(): Promise<readonly HostName[]> {
    return this.opened.flatMap(({ plan }) =>
      plan.names.map(({ name, sheet, range }) => ({
        name: `${plan.stem}_${name}`,
        range: { sheet: plan.sheets.find(({ key }) => key === sheet)!.name, address: range },
      })),
    );
  }

  async selection(): Promise<CellRange> {
    return this.shown;
  }

  async goTo(range: CellRange): Promise<void> {
    this.shown = range;
  }

  async write(range: CellRange, cells: readonly (readonly CellWrite[])[]): Promise<void> {
    requireShape(range, cells);
    await this.withSheet(range.sheet).workbook.write(range.sheet, range.address, cells);
  }

  async edit(edits: readonly SheetEdit[]): Promise<void> {
    for (const each of edits) {
      if (each.kind === "write") {
        await this.write(each.range, each.cells);
        continue;
      }
      const { workbook } = this.withSheet(each.sheet);
      for (let count = 0; count < each.count; count += 1)
        if (each.kind === "insert rows") await workbook.insertRow(each.sheet, each.row + 1);
        else await workbook.deleteRow(each.sheet, each.row + 1);
    }
  }

  onChange(): () => void {
    return () => undefined;
  }

  onSelection(): () => void {
    return () => undefined;
  }

  can(): boolean {
    return false;
  }

  private withSheet(sheet: string): OpenBudget {
    const found = this.opened.find(({ plan }) => plan.sheets.some(({ name }) => name === sheet));
    if (!found) throw new Error(`there is no sheet ${sheet}`);
    return found;
  }
}
