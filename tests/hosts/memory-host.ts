/**
 * A host without a spreadsheet: cells in memory, calculated by the pane's own reading of formulas. It stands in for one
 * in tests of the pane, and shows that the contract asks for nothing that only one spreadsheet does.
 */
import { formulasIn, sheetOf } from "../../taskpane/hosts/ranges.js";
import { rangeAddress, rangePlace, cellAddress } from "../../src/plans/addresses.js";
import { fillPlaceholders, freshNames, type UsedNames } from "../../src/plans/placeholders.js";
import { planFaults } from "../../src/plans/plan-faults.js";
import type { SheetPlan, WorkbookPlan } from "../../src/plans/sheet-plan.js";
import {
  type CellRange,
  type RangeContent,
  type CellWrite,
  type Feature,
  type FormulaCell,
  type Host,
  HostError,
  type HostName,
  type HostValue,
  type InsertedBudget,
  OccupiedError,
  type SheetEdit,
} from "../../taskpane/hosts/host.js";
import {
  addressesIn,
  type CalculatedCells,
  calculated,
  isFormula,
  type StoredSheet,
  type StoredWorkbook,
} from "./memory-calculation.js";
import { shiftedRange, shiftedSheets } from "./shifted-rows.js";

const FEATURES: readonly Feature[] = ["notes", "single undo", "saved files"];

export class MemoryHost implements Host {
  readonly namespace = "FEED";
  /** For a test to set: how this spreadsheet shows formulas. */
  shownFormula?: (formula: string) => string;
  private workbook: StoredWorkbook = {
    sheets: new Map([["Start", new Map()]]),
    names: [],
  };
  private cells: CalculatedCells = new Map();
  /** A test may take it away, as a host without it. */
  loading: Host["loading"] = ((isOn) => ({
    read: async () => isOn,
    set: async (on: boolean) => {
      isOn = on;
    },
  }))(false);
  private readonly undone: StoredWorkbook[] = [];
  private selected: CellRange = { sheet: "Start", address: "A1" };
  private readonly changeListeners = new Set<() => void>();
  private readonly selectionListeners = new Set<(range: CellRange) => void>();
  /** Called before each sheet of an insertion is written, so that a test can let one fail. */
  beforeSheet: (index: number) => void = () => undefined;

  async insert(plan: WorkbookPlan): Promise<InsertedBudget> {
    const [fault] = planFaults(plan);
    if (fault !== undefined) throw new HostError(fault);
    const { stem, used } = freshNames(plan, this.namespace, {
      sheets: this.sheetNames(),
      names: this.workbook.names.map(({ name }) => name),
    });
    const sheets = new Map(this.workbook.sheets);
    for (const [index, sheet] of plan.sheets.entries()) {
      this.beforeSheet(index);
      sheets.set(used.sheets[sheet.key] ?? "", storedSheet(sheet, used));
    }
    const names = plan.names.map(({ name, sheet, range }) => ({
      name: used.names[name] ?? name,
      range: { sheet: used.sheets[sheet] ?? sheet, address: range },
    }));
    this.change({ sheets, names: [...this.workbook.names, ...names] });
    return { stem, sheets: used.sheets, names: used.names };
  }

  async read(ranges: readonly CellRange[]): Promise<readonly RangeContent[]> {
    return ranges.map((range) => this.content(range));
  }

  async sheets(): Promise<readonly string[]> {
    return [...this.workbook.sheets.keys()];
  }

  async used(sheet: string): Promise<CellRange> {
    this.sheet(sheet);
    const places = [...(this.cells.get(sheet) ?? [])].flatMap(([at, value]) =>
      value === "" ? [] : [rangePlace(at)],
    );
    const bottom = Math.max(0, ...places.map((place) => place.bottom));
    const right = Math.max(0, ...places.map((place) => place.right));
    return { sheet, address: rangeAddress({ top: 0, left: 0, bottom, right }) };
  }

  async formulaCells(sheet: string): Promise<readonly FormulaCell[]> {
    const contents = await this.read([await this.used(sheet)]);
    return contents.flatMap(formulasIn);
  }

  async names(): Promise<readonly HostName[]> {
    return this.workbook.names;
  }

  async selection(): Promise<CellRange> {
    return this.selected;
  }

  async goTo(range: CellRange): Promise<void> {
    this.sheet(range.sheet);
    this.selected = range;
    for (const listener of [...this.selectionListeners]) listener(range);
  }

  async write(
    range: CellRange,
    cells: readonly (readonly CellWrite[])[],
    options?: { readonly overwrite: boolean },
  ): Promise<void> {
    const addresses = addressesIn(range.address);
    const fits =
      addresses.length === cells.length &&
      addresses.every((row, index) => row.length === cells[index]?.length);
    if (!fits) throw new HostError(`cells do not fit ${range.address}`);
    const { values, formulas } = this.content(range);
    const occupied = addresses
      .flat()
      .find((_, index) => values.flat()[index] !== "" || formulas.flat()[index] !== "");
    if (occupied !== undefined && !options?.overwrite)
      throw new OccupiedError({ sheet: range.sheet, address: occupied });
    this.change(edited(this.workbook, { kind: "write", range, cells }));
  }

  async edit(edits: readonly SheetEdit[]): Promise<void> {
    for (const each of edits) this.sheet(sheetOf(each));
    this.change(edits.reduce(edited, this.workbook));
  }

  onChange(listener: () => void): () => void {
    const own = () => listener();
    this.changeListeners.add(own);
    return () => this.changeListeners.delete(own);
  }

  onSelection(listener: (range: CellRange) => void): () => void {
    const own = (range: CellRange) => listener(range);
    this.selectionListeners.add(own);
    return () => this.selectionListeners.delete(own);
  }

  can(feature: Feature): boolean {
    return FEATURES.includes(feature);
  }

  sheetNames(): readonly string[] {
    return [...this.workbook.sheets.keys()];
  }

  noteAt({ sheet, address }: CellRange): string | undefined {
    return this.sheet(sheet).get(address)?.note;
  }

  undo(): void {
    const before = this.undone.pop();
    if (before) this.show(before);
  }

  private content(range: CellRange): RangeContent {
    const sheet = this.sheet(range.sheet);
    const addresses = addressesIn(range.address);
    const each = <T>(read: (address: string) => T) => addresses.map((row) => row.map(read));
    return {
      range,
      values: each((address): HostValue => this.cells.get(range.sheet)?.get(address) ?? ""),
      formulas: each((address) => {
        const content = sheet.get(address)?.content;
        return isFormula(content) ? content : "";
      }),
      formats: each((address) => sheet.get(address)?.format ?? "General"),
    };
  }

  private sheet(name: string): StoredSheet {
    const sheet = this.workbook.sheets.get(name);
    if (!sheet) throw new HostError(`there is no sheet called ${name}`);
    return sheet;
  }

  private change(workbook: StoredWorkbook): void {
    this.undone.push(this.workbook);
    this.show(workbook);
  }

  private show(workbook: StoredWorkbook): void {
    this.workbook = workbook;
    this.cells = calculated(workbook, this.namespace);
    for (const listener of [...this.changeListeners]) listener();
  }
}

function edited(workbook: StoredWorkbook, edit: SheetEdit): StoredWorkbook {
  if (edit.kind !== "write")
    return {
      sheets: shiftedSheets(workbook.sheets, edit),
      names: workbook.names.flatMap(({ name, range }) => {
        if (range.sheet !== edit.sheet) return [{ name, range }];
        const address = shiftedRange(range.address, edit);
        return address === undefined ? [] : [{ name, range: { ...range, address } }];
      }),
    };
  const { range, cells } = edit;
  const { top, left } = rangePlace(range.address);
  const sheet = new Map(workbook.sheets.get(range.sheet));
  cells.forEach((row, rowIndex) =>
    row.forEach((content, columnIndex) => {
      const address = cellAddress({ row: top + rowIndex, column: left + columnIndex });
      sheet.set(address, { ...sheet.get(address), content });
    }),
  );
  return { ...workbook, sheets: new Map(workbook.sheets).set(range.sheet, sheet) };
}

function storedSheet(sheet: SheetPlan, used: UsedNames): StoredSheet {
  return new Map(
    sheet.cells.map(({ at, value, formula, format, note }) => [
      at,
      {
        content: formula === undefined ? (value ?? "") : `=${fillPlaceholders(formula, used)}`,
        ...(format !== undefined && { format }),
        ...(note !== undefined && { note }),
      },
    ]),
  );
}
