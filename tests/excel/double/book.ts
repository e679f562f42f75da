/** The workbook that the double keeps: its contents, its values, its past, and what is told of its changes. */
import { cellPlace, quotedSheet, rangeAddress, rangePlace } from "../../../src/plans/addresses.js";
import { plainRange } from "../../../taskpane/hosts/ranges.js";
import {
  type CalculatedCells,
  calculated,
  isFormula,
  type StoredCell,
} from "../../hosts/memory-calculation.js";
import { calculatedByHand } from "./calculation.js";
import type { PretendedExcel } from "./pretended-excel.js";
import { EVENT, ExcelRefusal, required, type Target } from "./wire.js";

export interface SheetState {
  id: string;
  name: string;
  /** Whether nothing on it may be changed but the cells that are not locked. */
  isProtected: boolean;
  /** Cells are locked unless the user says otherwise ("Lock or unlock specific areas of a protected worksheet"). */
  readonly unlocked: Set<string>;
  cells: Map<string, StoredCell>;
  /** What was set on which range and has no effect on values: `Format.Font.Bold A1:B1` → true. */
  settings: Map<string, unknown>;
  shapes: Record<string, unknown>[];
  /** Kind and range, then what was set, by path: `Title.Text`, `Series 0.MarkerStyle`. */
  charts: Record<string, unknown>[];
}

interface NameState {
  name: string;
  formula: string;
}

export interface State {
  sheets: SheetState[];
  names: NameState[];
}

/** How changes are told, and whether formulas have values: not all that a budget holds can be worked out in memory. */
export interface Surroundings {
  readonly tell: (event: number, message: unknown) => void;
  readonly calculates: boolean;
}

export class Book {
  state: State = {
    sheets: [newSheet("sheet-0", "Start")],
    names: [],
  };
  values: CalculatedCells = new Map();
  selected = { sheet: "sheet-0", address: "A1" };
  sheetCount = 1;
  readonly references = new Map<string, () => Target>();
  isStructureProtected = false;
  private readonly before: { readonly group: number; readonly state: State }[] = [];

  constructor(
    private readonly namespace: string,
    private readonly around: Surroundings,
    readonly pretended: PretendedExcel,
  ) {}

  sheetCalled(name: string): SheetState {
    return required(
      this.state.sheets.find((sheet) => sheet.name === name),
      `the sheet ${name}`,
    );
  }

  sheetWithId(id: string): SheetState {
    return required(
      this.state.sheets.find((one) => one.id === id),
      "the sheet",
      "ItemNotFound",
    );
  }

  /** A spilled cell shows the formula of the cell that it spills from. */
  formulaAt(sheet: SheetState, at: string): unknown {
    const content = sheet.cells.get(at)?.content ?? "";
    if (content !== "") return content;
    const anchor = this.anchorOf(sheet, at);
    return anchor === undefined ? "" : sheet.cells.get(anchor)?.content;
  }

  /** The cell that one with a value of its own accord spills from: the formula before it, row by row. */
  anchorOf(sheet: SheetState, at: string): string | undefined {
    const own = sheet.cells.get(at)?.content ?? "";
    const value = this.values.get(sheet.name)?.get(at);
    if (own !== "" || value === undefined) return undefined;
    const { row, column } = cellPlace(at);
    return [...sheet.cells]
      .filter(([, { content }]) => isFormula(content))
      .map(([address]) => ({ address, place: cellPlace(address) }))
      .filter(({ place }) => place.row <= row && place.column <= column)
      .sort(
        (one, other) => other.place.row - one.place.row || other.place.column - one.place.column,
      )[0]?.address;
  }

  /** The cells that the formula of a cell spills over with its own; undefined where it spills over none. */
  spillFrom(sheet: SheetState, at: string): string | undefined {
    const reached = [...(this.values.get(sheet.name)?.keys() ?? [])].filter(
      (other) => this.anchorOf(sheet, other) === at,
    );
    return reached.length === 0 ? undefined : rectangleAround([at, ...reached]);
  }

  referenceTo(target: () => Target): string {
    const id = `reference-${this.references.size}`;
    this.references.set(id, target);
    return id;
  }

  calculated(): CalculatedCells {
    const names = this.state.names.flatMap(({ name, formula }) => {
      const range = plainRange(formula);
      return range ? [{ name, range }] : [];
    });
    return calculated({ sheets: this.storedSheets(), names }, this.namespace);
  }

  private storedSheets() {
    return new Map(this.state.sheets.map(({ name, cells }) => [name, cells]));
  }

  /** Does it as one undo step, or as a part of the step of its group, and tells what came of it. */
  changed<T>(group: number, change: () => T): T {
    const past = structuredClone(this.state);
    const done = change();
    if (JSON.stringify(listed(this.state)) === JSON.stringify(listed(past))) return done;
    if (group === 0 || this.before.at(-1)?.group !== group)
      this.before.push({ group, state: past });
    this.recalculated(past);
    return done;
  }

  undo(): void {
    const before = this.before.pop();
    if (!before) return;
    const past = structuredClone(this.state);
    this.state = before.state;
    this.recalculated(past);
  }

  undoSteps(): number {
    return this.before.length;
  }

  calculateSheet({ id, name }: SheetState): void {
    const values = new Map(this.values);
    values.set(name, this.calculated().get(name) ?? new Map());
    this.values = values;
    this.tell(EVENT.calculated, { address: "A1", worksheetId: id });
  }

  /** Tells of sheets whose contents are other than in the past, by whoever changed them, and of values that followed. */
  private recalculated(past: State): void {
    const before = this.values;
    if (this.around.calculates)
      this.values =
        this.pretended.calculation === "Manual"
          ? calculatedByHand(this.storedSheets(), before)
          : this.calculated();
    const knownIds = new Set(past.sheets.map(({ id }) => id));
    const ids = new Set(this.state.sheets.map(({ id }) => id));
    for (const { id } of this.state.sheets)
      if (!knownIds.has(id)) this.tell(EVENT.added, { source: "Local", worksheetId: id });
    for (const { id } of past.sheets)
      if (!ids.has(id)) this.tell(EVENT.deleted, { source: "Local", worksheetId: id });
    for (const { id, name, cells } of this.state.sheets) {
      const old = past.sheets.find((one) => one.id === id)?.cells ?? new Map<string, StoredCell>();
      const address = changedCells(old, cells);
      if (address !== undefined)
        this.tell(EVENT.changed, {
          address,
          changeType: "RangeEdited",
          source: "Local",
          worksheetId: id,
        });
      if (changedCells(before.get(name) ?? new Map(), this.values.get(name) ?? new Map()))
        this.tell(EVENT.calculated, { address: "A1", worksheetId: id });
    }
  }

  tell(event: number, message: unknown): void {
    setTimeout(() => this.around.tell(event, message));
  }
}

export function newSheet(id: string, name: string): SheetState {
  return {
    id,
    name,
    isProtected: false,
    unlocked: new Set(),
    cells: new Map(),
    settings: new Map(),
    shapes: [],
    charts: [],
  };
}

function listed({ sheets, names }: State) {
  return [names, sheets.map(({ cells, settings, ...sheet }) => [sheet, [...cells], [...settings]])];
}

/** The rectangle around the cells that are not as they were; undefined where all are. */
function changedCells(
  before: ReadonlyMap<string, unknown>,
  after: ReadonlyMap<string, unknown>,
): string | undefined {
  const contentOf = (cell: unknown) => JSON.stringify(isStored(cell) ? cell.content : (cell ?? ""));
  const changed = [...new Set([...before.keys(), ...after.keys()])].filter(
    (at) => contentOf(before.get(at)) !== contentOf(after.get(at)),
  );
  return changed.length === 0 ? undefined : rectangleAround(changed);
}

export function rectangleAround(addresses: readonly string[]): string {
  const places = addresses.map(rangePlace);
  return rangeAddress({
    top: Math.min(...places.map(({ top }) => top)),
    left: Math.min(...places.map(({ left }) => left)),
    bottom: Math.max(...places.map(({ bottom }) => bottom)),
    right: Math.max(...places.map(({ right }) => right)),
  });
}

function isStored(cell: unknown): cell is StoredCell {
  return typeof cell === "object" && cell !== null && "content" in cell;
}

export function shownSheet(name: string): string {
  return /^[A-Za-z]\w*$/.test(name) ? name : quotedSheet(name);
}

/** @throws {ExcelRefusal} */
export function open(sheet: SheetState): SheetState {
  if (sheet.isProtected) throw new ExcelRefusal("AccessDenied", `${sheet.name} is protected`);
  return sheet;
}

/** @throws {ExcelRefusal} */
export function atMost(points: unknown, most: number): void {
  if (!(Number(points) <= most))
    throw new ExcelRefusal("InvalidArgument", `${String(points)} points are more than ${most}`);
}
