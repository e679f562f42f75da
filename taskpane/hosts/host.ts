/** The port to a spreadsheet: what the pane asks of whichever host it runs in. Types and the two errors only; each adapter stands beside it. */
import type { WorkbookPlan } from "../../src/plans/sheet-plan.js";

export interface CellRange {
  readonly sheet: string;
  /** A1 without sheet, `B2:D9`. */
  readonly address: string;
}

/** A value as the host holds it: a number unformatted, an error as its code, an empty cell as "". */
export type HostValue = string | number | boolean | { readonly error: string };

export interface RangeContent {
  readonly range: CellRange;
  readonly values: readonly (readonly HostValue[])[];
  /** en-US with `=`; "" where the cell holds no formula (spilled cells too). */
  readonly formulas: readonly (readonly string[])[];
  readonly formats: readonly (readonly string[])[];
}

/** The cell at the top left of the selection, with what it holds. */
export interface SelectedCell {
  readonly at: CellRange;
  readonly value: HostValue;
  /** As in `RangeContent`: "" where it holds none of its own. */
  readonly formula: string;
  /** The cell that this one is spilled from, with its formula. Undefined where the host does not tell. */
  readonly spilledFrom?: { readonly at: CellRange; readonly formula: string } | "none";
}

export interface InsertedBudget {
  /** The stem really used, `Ridge2` when `Ridge` was taken. */
  readonly stem: string;
  /** Name of each sheet by its key in the plan. */
  readonly sheets: Readonly<Record<string, string>>;
  /** Full name by its name in the plan: `Feed` → `Ridge2_Feed`. */
  readonly names: Readonly<Record<string, string>>;
}

/** A cell with a formula of its own. */
export interface FormulaCell {
  readonly at: CellRange;
  /** en-US with `=`. */
  readonly formula: string;
  /** What it shows. */
  readonly value: HostValue;
}

export interface HostName {
  readonly name: string;
  readonly range: CellRange;
}

export type Feature =
  | "notes"
  | "pictures"
  | "charts"
  | "single undo"
  /** Page breaks and feet of a sheet that is made to be printed. */
  | "page setup"
  /** What the pane has made is opened or saved by a link. */
  | "saved files";

/** What to put in a cell: a formula with `=`, or a value. */
export type CellWrite = string | number | boolean;

/** One change of a sheet. Rows are counted from 0; an inserted row looks like the one above it. */
export type SheetEdit =
  /** Whatever stands there goes; "" empties a cell. */
  | {
      readonly kind: "write";
      readonly range: CellRange;
      readonly cells: readonly (readonly CellWrite[])[];
    }
  | {
      readonly kind: "insert rows" | "remove rows";
      readonly sheet: string;
      readonly row: number;
      readonly count: number;
    };

export interface Host {
  /** `FEED`, or the development namespace. */
  readonly namespace: string;

  /**
   * Writes the plan as new sheets with fresh names; nothing that exists is changed. One undo step where the host can.
   * All or nothing: when it fails half-way, what was written is taken away again.
   * @throws {HostError} with a sentence for the user.
   */
  insert(plan: WorkbookPlan): Promise<InsertedBudget>;

  /** @throws {HostError} when a sheet is not there. */
  read(ranges: readonly CellRange[]): Promise<readonly RangeContent[]>;

  /** Names of all sheets, in their order. */
  sheets(): Promise<readonly string[]>;

  /**
   * From A1 to the last row and the last column that hold something, spilled cells too; A1 for an empty sheet.
   * @throws {HostError} when the sheet is not there.
   */
  used(sheet: string): Promise<CellRange>;

  /**
   * Every cell of the sheet that holds a formula, without what stands between them.
   * @throws {HostError} when the sheet is not there.
   */
  formulaCells(sheet: string): Promise<readonly FormulaCell[]>;

  /** Names of plain ranges; names of constants and formulas are left out. */
  names(): Promise<readonly HostName[]>;

  /** The active cell or the selected range. */
  selection(): Promise<CellRange>;

  /** The first cell of the selection with what it holds, in one go, where asking a host twice takes a user's time. */
  selectedCell?(): Promise<SelectedCell>;

  /** Selects the range and shows it; keyboard focus goes to the sheet where the host allows it. */
  goTo(range: CellRange): Promise<void>;

  /**
   * Writes cells; refuses to overwrite anything that is not empty unless `overwrite` is given.
   * @throws {OccupiedError} naming the first occupied cell.
   */
  write(
    range: CellRange,
    cells: readonly (readonly CellWrite[])[],
    options?: { readonly overwrite: boolean },
  ): Promise<void>;

  /**
   * Does the edits in their order, each on the sheets as the ones before it left them, as one undo step where the host
   * can. Formulas and names follow rows that are inserted or removed; in the workbench a formula that uses a name
   * keeps the name's old range until the workbook is opened again.
   * @throws {HostError} when a sheet is not there or is protected; nothing is changed then.
   */
  edit(edits: readonly SheetEdit[]): Promise<void>;

  /**
   * Called after values changed (typing, undo or recalculation), with the names of the sheets on which they may have;
   * without any where the host does not know them, or sheets came or went. Returns its stop.
   */
  onChange(listener: (sheets?: ReadonlySet<string>) => void): () => void;

  /** Called when something else is selected. Returns its stop. */
  onSelection(listener: () => void): () => void;

  can(feature: Feature): boolean;

  /**
   * An en-US formula, or a part of one, as the user's own spreadsheet writes it: its separators, and in what it has
   * shown itself its names of native functions. Left out where that is en-US.
   */
  shownFormula?(formula: string): string;

  /** Whether the add-in starts with this workbook; only where the workbook keeps that. */
  readonly loading?: { read(): Promise<boolean>; set(on: boolean): Promise<void> } | undefined;

  /** Only where formulas may be left as they are until somebody asks for them to be calculated. */
  readonly calculation?: {
    /** As it was when names were read last. */
    isManual(): boolean;
    /** All formulas of these sheets, sheet by sheet in this order. @throws {HostError} when one is not there. */
    calculate(sheets: readonly string[]): Promise<void>;
  };
}

/** The host could not do what was asked; the message is for the user. */
export class HostError extends Error {
  override readonly name: string = "HostError";
}

/** Writing would overwrite something. */
export class OccupiedError extends HostError {
  override readonly name = "OccupiedError";

  constructor(readonly at: CellRange) {
    super(`${at.sheet}!${at.address} is not empty`);
  }
}
