/**
 * A workbook in memory that answers Office.js as Excel does, for as much of Excel as the adapter uses; anything else it
 * refuses by name. Formulas are worked out as in the host in memory.
 */
import { rangeAddress, rangePlace, cellPlace, quotedSheet } from "../../src/plans/addresses.js";
import type { HostValue } from "../../taskpane/hosts/host.js";
import { plainRange } from "../../taskpane/hosts/ranges.js";
import {
  addressesIn,
  type CalculatedCells,
  calculated,
  isFormula,
  type StoredCell,
} from "../hosts/memory-calculation.js";
import type { RowShift } from "../../taskpane/formula-reading/shifted-formula.js";
import { shiftedReference, shiftedSheets } from "../hosts/shifted-rows.js";
import {
  type Answer,
  answerOffice,
  tellOffice,
  type WireArguments,
  type WireError,
  type WirePath,
  type WireRequest,
  type WireResponse,
} from "./office-library.js";

/** The library's own numbers for what it sends. */
const PATH = { root: 1, method: 3, property: 4, indexer: 5, reference: 6 };
const ACTION = { instantiate: 1, query: 2, method: 3, set: 4, trace: 5 };
const EVENT = { changed: 10, calculated: 16, selection: 14 };

interface SheetState {
  id: string;
  name: string;
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

interface State {
  sheets: SheetState[];
  names: NameState[];
}

/** An object of the workbook as the library asks for it. */
interface Target {
  readonly methods?: Readonly<Record<string, (...args: never[]) => unknown>>;
  /** Objects behind it, by property. */
  readonly parts?: Readonly<Record<string, () => Target>>;
  /** Properties, each read when asked for. */
  readonly values?: Readonly<Record<string, () => unknown>>;
  readonly set?: (property: string, value: unknown) => void;
  readonly items?: () => readonly Target[];
  readonly identity?: Readonly<Record<string, string>>;
}

const NULL_OBJECT = "null object";

class Refusal extends Error {
  constructor(
    readonly code: string,
    message: string,
  ) {
    super(message);
  }
}

/** How the library is reached: in this process, or in a page. */
export interface Way {
  readonly connect: (answer: Answer) => void;
  readonly tell: (event: number, message: unknown) => void;
  /** Whether formulas have values: not all that a budget holds can be worked out in memory. */
  readonly calculates: boolean;
}

export const HERE: Way = {
  connect: answerOffice,
  tell: tellOffice,
  calculates: true,
};

/** Excel for one test. */
export class ExcelDouble {
  private state: State = {
    sheets: [newSheet("sheet-0", "Start")],
    names: [],
  };
  private values: CalculatedCells = new Map();
  private readonly before: State[] = [];
  private selected = { sheet: "sheet-0", address: "A1" };
  private sheetCount = 1;
  private readonly references = new Map<string, () => Target>();
  /** Every request, as it came. */
  readonly requests: WireRequest[] = [];
  /** Called before each action; what it throws, Excel answers. */
  beforeAction: (what: string) => void = () => undefined;
  /** How this Excel shows formulas: its decimal sign, and an en-US formula in its language. */
  language = { decimalSeparator: ".", formulaLocal: (formula: string) => formula };

  constructor(
    private readonly namespace: string,
    private readonly way: Way = HERE,
  ) {
    way.connect((request) => this.answer(request));
  }

  sheetNames(): readonly string[] {
    return this.state.sheets.map(({ name }) => name);
  }

  setting(sheet: string, key: string): unknown {
    return this.sheetCalled(sheet).settings.get(key);
  }

  settings(sheet: string): readonly string[] {
    return [...this.sheetCalled(sheet).settings.keys()];
  }

  shapes(sheet: string): readonly Record<string, unknown>[] {
    return this.sheetCalled(sheet).shapes;
  }

  charts(sheet: string): readonly Record<string, unknown>[] {
    return this.sheetCalled(sheet).charts;
  }

  storedAt(sheet: string, address: string): StoredCell | undefined {
    return this.sheetCalled(sheet).cells.get(address);
  }

  defineName(name: string, formula: string): void {
    this.state.names.push({ name, formula });
  }

  addSheet(name: string): void {
    this.state.sheets.push(newSheet(`sheet-${this.sheetCount++}`, name));
  }

  /** Behind the adapter's back. */
  fill(sheet: string, address: string, content: string): void {
    this.sheetCalled(sheet).cells.set(address, { content });
  }

  undo(): void {
    const before = this.before.pop();
    if (!before) return;
    this.state = before;
    this.recalculate();
  }

  /** As the user does it. */
  select(sheet: string, address: string): void {
    this.selected = { sheet: this.sheetCalled(sheet).id, address };
    this.tell(EVENT.selection, { address, worksheetId: this.selected.sheet });
  }

  private answer(request: WireRequest): WireResponse {
    this.requests.push(request);
    const kept = structuredClone(this.state);
    const told = JSON.stringify(listed(kept));
    const selected = JSON.stringify(this.selected);
    const response = this.run(request);
    if (JSON.stringify(listed(this.state)) !== told) {
      this.before.push(kept);
      this.recalculate();
    }
    if (JSON.stringify(this.selected) !== selected)
      this.tell(EVENT.selection, {
        address: this.selected.address,
        worksheetId: this.selected.sheet,
      });
    return response;
  }

  /** What went before a refusal stays done, as in Excel. */
  private run({ Actions, ObjectPaths }: WireRequest): WireResponse {
    const resolved = new Map<number, Target | typeof NULL_OBJECT>();
    const resolve = (id: number): Target | typeof NULL_OBJECT => {
      const known = resolved.get(id);
      if (known) return known;
      const path = ObjectPaths[id];
      if (!path) throw new Refusal("InvalidObjectPath", `no path ${id}`);
      const target = this.resolved(path, resolve);
      resolved.set(id, target);
      return target;
    };
    const Results: { ActionId: number; Value: unknown }[] = [];
    for (const [index, action] of Actions.entries()) {
      if (action.ActionType === ACTION.trace) {
        // The library waits for a mark's result to count an event as registered.
        Results.push({ ActionId: action.Id, Value: null });
        continue;
      }
      const path = ObjectPaths[action.ObjectPathId];
      const what = `${path?.T ?? ""}.${action.Name || path?.Name || ""}`;
      try {
        this.beforeAction(what);
        const target = resolve(action.ObjectPathId);
        const Value = this.done(target, action, what, resolve);
        if (Value !== undefined) Results.push({ ActionId: action.Id, Value });
      } catch (error) {
        return {
          Results,
          Error: { ...wireError(error, what), ActionIndex: index },
        };
      }
    }
    return { Results };
  }

  private resolved(
    { ObjectPathType, Name, ParentObjectPathId = 0, ArgumentInfo, T }: WirePath,
    resolve: (id: number) => Target | typeof NULL_OBJECT,
  ): Target | typeof NULL_OBJECT {
    if (ObjectPathType === PATH.root) return this.workbookTarget();
    if (ObjectPathType === PATH.reference)
      return required(this.references.get(Name), `the reference ${Name}`)();
    const parent = resolve(ParentObjectPathId);
    if (parent === NULL_OBJECT) return NULL_OBJECT;
    if (ObjectPathType === PATH.property)
      return required(parent.parts?.[Name], `${T}: the part ${Name}`)();
    const method = ObjectPathType === PATH.indexer ? "GetItem" : Name;
    return called(parent, method, ArgumentInfo, resolve) as Target;
  }

  private done(
    target: Target | typeof NULL_OBJECT,
    action: WireRequest["Actions"][number],
    what: string,
    resolve: (id: number) => Target | typeof NULL_OBJECT,
  ): unknown {
    if (target === NULL_OBJECT) return null;
    switch (action.ActionType) {
      case ACTION.instantiate:
        return { ...target.identity };
      case ACTION.query:
        return queried(target, action.QueryInfo?.Select ?? [], what);
      case ACTION.method:
        return called(target, action.Name, action.ArgumentInfo, resolve) ?? undefined;
      case ACTION.set:
        required(target.set, `setting ${what}`)(action.Name, action.ArgumentInfo?.Arguments?.[0]);
        return undefined;
      default:
        throw new Refusal("ApiNotFound", `${what}: action ${action.ActionType}`);
    }
  }

  private workbookTarget(): Target {
    return {
      parts: {
        Worksheets: () => this.worksheetsTarget(),
        Names: () => this.namesTarget(),
        Application: () => ({
          values: { DecimalSeparator: () => this.language.decimalSeparator },
          methods: { SuspendScreenUpdatingUntilNextSync: () => undefined },
        }),
      },
      methods: {
        GetSelectedRange: () => {
          if (this.selected.address.includes(","))
            throw new Refusal("InvalidSelection", "several areas are selected");
          return this.rangeTarget(this.selected.sheet, this.selected.address);
        },
        GetActiveCell: () =>
          this.rangeTarget(this.selected.sheet, this.selected.address.split(/[:,]/)[0] ?? "A1"),
      },
    };
  }

  private worksheetsTarget(): Target {
    const find = (key: string) =>
      this.state.sheets.find(
        ({ id, name }) => id === key || name.toLowerCase() === key.toLowerCase(),
      );
    return {
      items: () => this.state.sheets.map(({ id }) => this.sheetTarget(id)),
      methods: {
        GetItem: (key: string) =>
          this.sheetTarget(required(find(key), `the sheet ${key}`, "ItemNotFound").id),
        GetItemOrNullObject: (key: string) => {
          const found = find(key);
          return found ? this.sheetTarget(found.id) : NULL_OBJECT;
        },
        Add: (name: string) => {
          if (find(name)) throw new Refusal("ItemAlreadyExists", `a sheet ${name} is there`);
          if (name.length > 31 || /[:\\/?*[\]]/.test(name))
            throw new Refusal("InvalidArgument", `a sheet cannot be ${name}`);
          const sheet = newSheet(`sheet-${this.sheetCount++}`, name);
          this.state.sheets.push(sheet);
          return this.sheetTarget(sheet.id);
        },
        ...EVENT_METHODS,
      },
    };
  }

  private sheetTarget(id: string): Target {
    const sheet = () =>
      required(
        this.state.sheets.find((one) => one.id === id),
        "the sheet",
        "ItemNotFound",
      );
    sheet();
    const settings = (key: string, value: unknown) => sheet().settings.set(key, value);
    return {
      identity: { Id: id },
      values: { Id: () => id, Name: () => sheet().name },
      parts: {
        FreezePanes: () => ({
          methods: {
            FreezeRows: (count: number) => void settings("FrozenRows", count),
            FreezeAt: (range: string) => void settings("FrozenAt", range),
          },
        }),
        PageLayout: () => ({
          set: (property: string, value: unknown) => void settings(property, value),
          methods: {
            SetPrintTitleRows: (rows: string) => void settings("TitleRows", rows),
          },
        }),
        Shapes: () => ({
          methods: {
            AddImage: (png: string) => {
              const shape: Record<string, unknown> = { png };
              sheet().shapes.push(shape);
              const index = sheet().shapes.length - 1;
              return {
                identity: { Id: `${id}-shape-${index}` },
                set: (property: string, value: unknown) => {
                  (sheet().shapes[index] ?? {})[property] = value;
                },
              } satisfies Target;
            },
          },
        }),
        Charts: () => ({
          methods: {
            Add: (kind: string, source: Target, seriesBy: string) => {
              const range = String(source.values?.["Address"]?.());
              sheet().charts.push({ kind, range, seriesBy });
              return this.chartTarget(id, sheet().charts.length - 1);
            },
          },
        }),
        Notes: () => ({
          methods: {
            Add: (address: string, text: string) => {
              const { cells } = sheet();
              cells.set(address, {
                content: "",
                ...cells.get(address),
                note: text,
              });
              return {} satisfies Target;
            },
          },
        }),
      },
      methods: {
        GetRange: (address: string) => this.rangeTarget(id, address),
        GetRanges: (addresses: string) => this.settingsTarget(id, addresses),
        GetUsedRangeOrNullObject: () => {
          const filled = [...(this.values.get(sheet().name) ?? [])].flatMap(([at, value]) =>
            value === "" ? [] : [rangePlace(at)],
          );
          if (filled.length === 0) return NULL_OBJECT;
          const address = rangeAddress({
            top: Math.min(...filled.map(({ top }) => top)),
            left: Math.min(...filled.map(({ left }) => left)),
            bottom: Math.max(...filled.map(({ bottom }) => bottom)),
            right: Math.max(...filled.map(({ right }) => right)),
          });
          return this.rangeTarget(id, address);
        },
        Activate: () => {
          this.selected = { sheet: id, address: "A1" };
        },
        Delete: () => {
          if (this.state.sheets.length === 1)
            throw new Refusal("InvalidOperation", "the last sheet stays");
          this.state.sheets = this.state.sheets.filter((one) => one.id !== id);
        },
      },
    };
  }

  /** Whatever is set on a chart is kept under its path. */
  private chartTarget(id: string, index: number, path = ""): Target {
    const part = (name: string) => () => this.chartTarget(id, index, `${path}${name}.`);
    return {
      identity: { Id: `${id}-chart-${index}` },
      parts: {
        Title: part("Title"),
        Legend: part("Legend"),
        Axes: part("Axes"),
        CategoryAxis: part("CategoryAxis"),
        ValueAxis: part("ValueAxis"),
        Series: part("Series"),
        Format: part("Format"),
        Line: part("Line"),
      },
      methods: { GetItemAt: (at: number) => part(String(at))() },
      set: (property, value) => {
        const sheet = required(
          this.state.sheets.find((one) => one.id === id),
          "the sheet",
        );
        const chart = required(sheet.charts[index], "the chart");
        chart[`${path}${property}`] = value;
      },
    };
  }

  /** Whatever is set on a range without effect on values is kept under its path. */
  private settingsTarget(id: string, address: string, path = ""): Target {
    const part = (name: string) => () => this.settingsTarget(id, address, `${path}${name}.`);
    return {
      identity: {
        _ReferenceId: this.referenceTo(() => this.settingsTarget(id, address, path)),
      },
      parts: {
        Format: part("Format"),
        Font: part("Font"),
        Fill: part("Fill"),
        Borders: part("Borders"),
        DataValidation: part("DataValidation"),
        ConditionalFormats: part("ConditionalFormats"),
        CellValue: part("CellValue"),
        Custom: part("Custom"),
        Rule: part("Rule"),
      },
      methods: {
        _KeepReference: () => undefined,
        _RemoveReference: () => undefined,
        GetItem: (edge: string) => part(edge)(),
        Add: (type: string) => part(type)(),
      },
      set: (property, value) => {
        const sheet = required(
          this.state.sheets.find((one) => one.id === id),
          "the sheet",
        );
        for (const range of address.split(","))
          sheet.settings.set(`${path}${property} ${range}`, value);
      },
    };
  }

  private rangeTarget(id: string, address: string): Target {
    const sheet = () =>
      required(
        this.state.sheets.find((one) => one.id === id),
        "the sheet",
        "ItemNotFound",
      );
    const settings = this.settingsTarget(id, address);
    const isPlain = /^[A-Z]+\d+(:[A-Z]+\d+)?$/.test(address);
    if (!isPlain && !/^([A-Z]+:[A-Z]+|\d+:\d+)$/.test(address))
      throw new Refusal("InvalidArgument", `${address} is no address`);
    const cells = <T>(read: (at: string) => T) => addressesIn(address).map((row) => row.map(read));
    const valueAt = (at: string): HostValue => this.values.get(sheet().name)?.get(at) ?? "";
    return {
      ...settings,
      identity: {
        _ReferenceId: this.referenceTo(() => this.rangeTarget(id, address)),
      },
      values: {
        Address: () => `${shownSheet(sheet().name)}!${address}`,
        RowIndex: () => rangePlace(address).top,
        ColumnIndex: () => rangePlace(address).left,
        Left: () => 48 * rangePlace(address).left,
        Top: () => 15 * rangePlace(address).top,
        Values: () => cells((at) => shownValue(valueAt(at))),
        ValueTypes: () => cells((at) => valueType(valueAt(at))),
        Formulas: () => cells((at) => this.formulaAt(sheet(), at)),
        FormulasLocal: () =>
          cells((at) => {
            const formula = this.formulaAt(sheet(), at);
            return isFormula(formula) ? this.language.formulaLocal(formula) : formula;
          }),
        NumberFormat: () => cells((at) => sheet().cells.get(at)?.format ?? "General"),
      },
      parts: {
        ...settings.parts,
        Worksheet: () => this.sheetTarget(id),
      },
      methods: {
        ...settings.methods,
        // The library writes more than 1500 cells in several blocks of rows.
        _ValidateArraySize: (rows: number, columns: number) => {
          const { top, left, bottom, right } = rangePlace(address);
          if (rows !== bottom - top + 1 || columns !== right - left + 1)
            throw new Refusal("InvalidArgument", `shape of ${address}`);
        },
        GetRow: (row: number) => {
          const { top, left, right } = rangePlace(address);
          const line = { top: top + row, bottom: top + row, left, right };
          return this.rangeTarget(id, rangeAddress(line));
        },
        GetBoundingRect: (other: Target) => {
          const shown = String(other.values?.["Address"]?.());
          const both = [address, required(plainRange(shown), shown).address];
          const places = both.map(rangePlace);
          const all = (side: "top" | "left" | "bottom" | "right") =>
            places.map((place) => place[side]);
          const bounds = {
            top: Math.min(...all("top")),
            left: Math.min(...all("left")),
            bottom: Math.max(...all("bottom")),
            right: Math.max(...all("right")),
          };
          return this.rangeTarget(id, rangeAddress(bounds));
        },
        Insert: () => this.shiftRows(id, address, "insert rows"),
        Delete: () => this.shiftRows(id, address, "remove rows"),
        Merge: () => void sheet().settings.set(`Merged ${address}`, true),
        Select: () => {
          if (this.selected.sheet !== id)
            throw new Refusal("InvalidOperation", "the sheet is not active");
          this.selected = { sheet: id, address };
        },
        GetSpillParentOrNullObject: () => {
          const anchor = this.anchorOf(sheet(), address);
          return anchor === undefined ? NULL_OBJECT : this.rangeTarget(id, anchor);
        },
      },
      set: (property, value) => {
        const write = CELL_WRITERS[property];
        if (!write) return settings.set?.(property, value);
        const rows = value as readonly (readonly unknown[])[];
        addressesIn(address).forEach((row, rowIndex) =>
          row.forEach((at, column) => {
            const given = rows[rowIndex]?.[column];
            if (given === undefined)
              throw new Refusal("InvalidArgument", `${property}: shape of ${address}`);
            if (given === null) return;
            const cell = sheet().cells.get(at) ?? { content: "" };
            sheet().cells.set(at, write(cell, given));
          }),
        );
      },
    };
  }

  /** Whole rows only: the adapter moves no others. */
  private shiftRows(id: string, address: string, kind: RowShift["kind"]): Target {
    const [, first, last] = /^(\d+):(\d+)$/.exec(address) ?? [];
    if (first === undefined || last === undefined)
      throw new Refusal("InvalidArgument", `${address} are no rows`);
    const { name } = required(
      this.state.sheets.find((one) => one.id === id),
      "the sheet",
    );
    const shift = {
      kind,
      sheet: name,
      row: Number(first) - 1,
      count: Number(last) - Number(first) + 1,
    };
    const cells = new Map(this.state.sheets.map((sheet) => [sheet.name, sheet.cells]));
    const shifted = shiftedSheets(cells, shift);
    for (const sheet of this.state.sheets) sheet.cells = shifted.get(sheet.name) ?? sheet.cells;
    for (const each of this.state.names) each.formula = shiftedReference(each.formula, shift);
    return this.rangeTarget(id, address);
  }

  /** A spilled cell shows the formula of the cell that it spills from. */
  private formulaAt(sheet: SheetState, at: string): unknown {
    const content = sheet.cells.get(at)?.content ?? "";
    if (content !== "") return content;
    const anchor = this.anchorOf(sheet, at);
    return anchor === undefined ? "" : sheet.cells.get(anchor)?.content;
  }

  /** The cell that one with a value of its own accord spills from: the formula before it, row by row. */
  private anchorOf(sheet: SheetState, at: string): string | undefined {
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

  private namesTarget(): Target {
    const find = (key: string) =>
      this.state.names.find(({ name }) => name.toLowerCase() === key.toLowerCase());
    return {
      items: () => this.state.names.map(({ name }) => this.nameTarget(name)),
      methods: {
        GetItem: (key: string) =>
          this.nameTarget(required(find(key), `the name ${key}`, "ItemNotFound").name),
        GetItemOrNullObject: (key: string) => {
          const found = find(key);
          return found ? this.nameTarget(found.name) : NULL_OBJECT;
        },
        Add: (name: string, target: Target) => {
          if (find(name)) throw new Refusal("ItemAlreadyExists", `a name ${name} is there`);
          const address = String(target.values?.["Address"]?.());
          const { sheet, address: range } = required(plainRange(address), address);
          this.state.names.push({
            name,
            formula: `=${shownSheet(sheet)}!${range.replace(/([A-Z]+)(\d+)/g, "$$$1$$$2")}`,
          });
          return this.nameTarget(name);
        },
      },
    };
  }

  private nameTarget(name: string): Target {
    const own = () =>
      required(
        this.state.names.find((one) => one.name === name),
        `the name ${name}`,
        "ItemNotFound",
      );
    return {
      identity: { _Id: name },
      values: {
        _Id: () => name,
        Name: () => own().name,
        Type: () => (plainRange(own().formula) ? "Range" : "Double"),
        Formula: () => own().formula,
      },
      methods: {
        Delete: () => {
          this.state.names = this.state.names.filter((one) => one.name !== name);
        },
      },
    };
  }

  private referenceTo(target: () => Target): string {
    const id = `reference-${this.references.size}`;
    this.references.set(id, target);
    return id;
  }

  private sheetCalled(name: string): SheetState {
    return required(
      this.state.sheets.find((sheet) => sheet.name === name),
      `the sheet ${name}`,
    );
  }

  private recalculate(): void {
    const names = this.state.names.flatMap(({ name, formula }) => {
      const range = plainRange(formula);
      return range ? [{ name, range }] : [];
    });
    const sheets = new Map(this.state.sheets.map(({ name, cells }) => [name, cells]));
    if (this.way.calculates) this.values = calculated({ sheets, names }, this.namespace);
    for (const { id } of this.state.sheets) {
      this.tell(EVENT.changed, {
        address: "A1",
        changeType: "RangeEdited",
        source: "Local",
        worksheetId: id,
      });
      this.tell(EVENT.calculated, { address: "A1", worksheetId: id });
    }
  }

  private tell(event: number, message: unknown): void {
    setTimeout(() => this.way.tell(event, message));
  }
}

const EVENT_METHODS: Readonly<Record<string, () => unknown>> = Object.fromEntries(
  ["DataChanged", "Calculated", "SelectionChanged", "Activated", "Added", "Deleted"].flatMap(
    (event): [string, () => unknown][] => [
      [`_Register${event}Event`, () => undefined],
      [`_Unregister${event}Event`, () => undefined],
    ],
  ),
);

const CELL_WRITERS: Readonly<Record<string, (cell: StoredCell, given: unknown) => StoredCell>> = {
  NumberFormat: (cell, given) => ({ ...cell, format: String(given) }),
  Formulas: (cell, given) => ({ ...cell, content: entered(given) }),
};

/** As Excel takes what is put into a cell: text that looks like something else becomes that, unless it is quoted. */
function entered(given: unknown): StoredCell["content"] {
  if (typeof given !== "string") return given as number | boolean;
  if (given.startsWith("'")) return given.slice(1);
  if (given.startsWith("=") || given.trim() === "") return given;
  if (/^(true|false)$/i.test(given)) return given.toLowerCase() === "true";
  if (/^-?[\d.,]+$/.test(given)) return Number(given.replaceAll(",", ""));
  if (/^\d+%$/.test(given)) return Number.parseFloat(given) / 100;
  if (/^\d+[-/]\d+([-/]\d+)?$/.test(given)) return 45_000;
  return given;
}

function shownValue(value: HostValue): unknown {
  return typeof value === "object" ? value.error : value;
}

function valueType(value: HostValue): string {
  if (typeof value === "object") return "Error";
  if (value === "") return "Empty";
  return { string: "String", number: "Double", boolean: "Boolean" }[
    typeof value as "string" | "number" | "boolean"
  ];
}

function shownSheet(name: string): string {
  return /^[A-Za-z]\w*$/.test(name) ? name : quotedSheet(name);
}

function newSheet(id: string, name: string): SheetState {
  return {
    id,
    name,
    cells: new Map(),
    settings: new Map(),
    shapes: [],
    charts: [],
  };
}

function listed({ sheets, names }: State) {
  return [names, sheets.map(({ cells, settings, ...sheet }) => [sheet, [...cells], [...settings]])];
}

function queried(target: Target, select: readonly string[], what: string) {
  const read = (one: Target): Record<string, unknown> => ({
    ...one.identity,
    ...Object.fromEntries(
      select.map((field): [string, unknown] => {
        const key = field.charAt(0).toUpperCase() + field.slice(1);
        return [key, required(one.values?.[key], `${what}: ${key}`)()];
      }),
    ),
  });
  return target.items ? { _Items: target.items().map(read) } : read(target);
}

function called(
  target: Target,
  method: string,
  { Arguments = [], ReferencedObjectPathIds = [] }: WireArguments = {},
  resolve: (id: number) => Target | typeof NULL_OBJECT,
): unknown {
  const args = Arguments.map((argument, index) => {
    const path = ReferencedObjectPathIds[index];
    return path ? resolve(path) : argument;
  });
  return required(target.methods?.[method], `the method ${method}`)(...(args as never[]));
}

/** @throws {Refusal} */
function required<T>(found: T | undefined, what: string, code = "ApiNotFound"): T {
  if (found === undefined) throw new Refusal(code, `${what} is not there`);
  return found;
}

function wireError(error: unknown, what: string): WireError {
  if (!(error instanceof Refusal) && !(error instanceof ExcelRefusal)) throw error;
  return { Code: error.code, Message: error.message, Location: what };
}

/** For tests that let Excel refuse. */
export class ExcelRefusal extends Error {
  constructor(
    readonly code: string,
    message: string,
  ) {
    super(message);
  }
}
