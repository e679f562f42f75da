/** Ranges of the workbook as the library asks for them: values, formulas, formats, rows that move. */
import { cellAddress, rangeAddress, rangePlace } from "../../../src/plans/addresses.js";
import type { RowShift } from "../../../taskpane/formula-reading/shifted-formula.js";
import type { HostValue } from "../../../taskpane/hosts/host.js";
import { plainRange } from "../../../taskpane/hosts/ranges.js";
import { addressesIn, isFormula, type StoredCell } from "../../hosts/memory-calculation.js";
import { shiftedReference, shiftedSheets } from "../../hosts/shifted-rows.js";
import { atMost, type Book, open, shownSheet } from "./book.js";
import { localFormula } from "./languages.js";
import { MOST_COLUMN_POINTS, MOST_ROW_POINTS } from "./pretended-excel.js";
import { sheetObject } from "./sheet-objects.js";
import { ExcelRefusal, NULL_OBJECT, required, type Target } from "./wire.js";

/** Whatever is set on a range without effect on values is kept under its path. */
export function settingsObject(book: Book, id: string, address: string, path = ""): Target {
  const part = (name: string) => () => settingsObject(book, id, address, `${path}${name}.`);
  /** What is added once more to the same range stands beside the first one. */
  const addedName = (type: string) => {
    const { settings } = open(
      required(
        book.state.sheets.find((one) => one.id === id),
        "the sheet",
      ),
    );
    const isTaken = (name: string) =>
      [...settings.keys()].some(
        (key) => key.startsWith(`${path}${name}.`) && key.endsWith(` ${address}`),
      );
    let name = type;
    for (let count = 2; isTaken(name); count += 1) name = `${type} ${count}`;
    return name;
  };
  return {
    identity: {
      _ReferenceId: book.referenceTo(() => settingsObject(book, id, address, path)),
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
      Add: (type: string) => part(addedName(type))(),
    },
    set: (property, value) => {
      const sheet = required(
        book.state.sheets.find((one) => one.id === id),
        "the sheet",
      );
      if (path === "Format." && property === "RowHeight") atMost(value, MOST_ROW_POINTS);
      if (path === "Format." && property === "ColumnWidth") atMost(value, MOST_COLUMN_POINTS);
      requireLines(path, address);
      for (const range of address.split(","))
        open(sheet).settings.set(`${path}${property} ${range}`, value);
    },
  };
}

/** Lines between cells where there are none: refused, by analogy with what a macro is told. */
function requireLines(path: string, address: string): void {
  const [, direction] = /Borders\.Inside(\w+)\./.exec(path) ?? [];
  if (direction === undefined) return;
  const { top, left, bottom, right } = rangePlace(address);
  if (direction === "Horizontal" ? top === bottom : left === right)
    throw new ExcelRefusal("InvalidArgument", `${address} has no lines inside`);
}

export function rangeObject(book: Book, id: string, address: string): Target {
  const sheet = () =>
    required(
      book.state.sheets.find((one) => one.id === id),
      "the sheet",
      "ItemNotFound",
    );
  const settings = settingsObject(book, id, address);
  const isPlain = /^[A-Z]+\d+(:[A-Z]+\d+)?$/.test(address);
  if (!isPlain && !/^([A-Z]+:[A-Z]+|\d+:\d+)$/.test(address))
    throw new ExcelRefusal("InvalidArgument", `${address} is no address`);
  const cells = <T>(read: (at: string) => T) => addressesIn(address).map((row) => row.map(read));
  /** Null where some are and some are not (RangeFormat.protection). */
  const locked = () => {
    const all = new Set(cells((at) => !sheet().unlocked.has(at)).flat());
    return all.size === 1 ? [...all][0] : null;
  };
  const valueAt = (at: string): HostValue => book.values.get(sheet().name)?.get(at) ?? "";
  return {
    ...settings,
    identity: {
      _ReferenceId: book.referenceTo(() => rangeObject(book, id, address)),
    },
    values: {
      Address: () => `${shownSheet(sheet().name)}!${address}`,
      RowIndex: () => rangePlace(address).top,
      ColumnIndex: () => rangePlace(address).left,
      Left: () => 48 * rangePlace(address).left,
      Top: () => 15 * rangePlace(address).top,
      Values: () => cells((at) => shownValue(valueAt(at))),
      ValueTypes: () => cells((at) => valueType(valueAt(at))),
      Formulas: () => cells((at) => book.formulaAt(sheet(), at)),
      FormulasLocal: () =>
        cells((at) => {
          const content = book.formulaAt(sheet(), at);
          return isFormula(content) ? localFormula(content, book.pretended) : content;
        }),
      CellCount: () => addressesIn(address).flat().length,
      NumberFormat: () => cells((at) => sheet().cells.get(at)?.format ?? "General"),
    },
    parts: {
      ...settings.parts,
      Format: () => ({
        ...settings.parts?.["Format"]?.(),
        parts: {
          ...settings.parts?.["Format"]?.().parts,
          Protection: () => ({ values: { Locked: locked } }),
        },
      }),
      Worksheet: () => sheetObject(book, id),
    },
    methods: {
      ...settings.methods,
      // The library writes more than 1500 cells in several blocks of rows.
      _ValidateArraySize: (rows: number, columns: number) => {
        const { top, left, bottom, right } = rangePlace(address);
        if (rows !== bottom - top + 1 || columns !== right - left + 1)
          throw new ExcelRefusal("InvalidArgument", `shape of ${address}`);
      },
      GetRow: (row: number) => {
        const { top, left, right } = rangePlace(address);
        const line = { top: top + row, bottom: top + row, left, right };
        return rangeObject(book, id, rangeAddress(line));
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
        return rangeObject(book, id, rangeAddress(bounds));
      },
      Insert: () => shiftRows(book, id, address, "insert rows"),
      Delete: () => shiftRows(book, id, address, "remove rows"),
      Merge: () => void open(sheet()).settings.set(`Merged ${address}`, true),
      GetSpecialCellsOrNullObject: (type: string) => specialCells(book, id, address, type),
      Select: () => {
        if (book.selected.sheet !== id)
          throw new ExcelRefusal("InvalidOperation", "the sheet is not active");
        book.selected = { sheet: id, address };
      },
      GetCell: (row: number, column: number) => {
        // Of whole columns `A:C` and whole rows `2:5` only a row or a column is named.
        const [, letters = "A", digits = "1"] = /^([A-Z]+)?(\d+)?/.exec(address) ?? [];
        const { top, left } = rangePlace(`${letters}${digits}`);
        return rangeObject(book, id, cellAddress({ row: top + row, column: left + column }));
      },
      GetSpillingToRangeOrNullObject: () => {
        const reach = book.spillFrom(sheet(), address);
        return reach === undefined ? NULL_OBJECT : rangeObject(book, id, reach);
      },
      GetSpillParentOrNullObject: () => {
        const anchor = book.anchorOf(sheet(), address);
        return anchor === undefined ? NULL_OBJECT : rangeObject(book, id, anchor);
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
            throw new ExcelRefusal("InvalidArgument", `${property}: shape of ${address}`);
          if (given === null) return;
          const cell = sheet().cells.get(at) ?? { content: "" };
          if (!sheet().unlocked.has(at)) open(sheet());
          sheet().cells.set(at, write(cell, given));
        }),
      );
    },
  };
}

/** Cells with formulas, side by side as one area; those that a spill reaches too, as Excel may give them. */
function specialCells(
  book: Book,
  id: string,
  address: string,
  type: string,
): Target | typeof NULL_OBJECT {
  if (type !== "Formulas") throw new ExcelRefusal("InvalidArgument", `special cells: ${type}`);
  const sheet = book.sheetWithId(id);
  const areas: string[] = [];
  for (const row of addressesIn(address)) {
    let run: string[] = [];
    const end = () => {
      const [first, last] = [run[0], run.at(-1)];
      if (first && last) areas.push(first === last ? first : `${first}:${last}`);
      run = [];
    };
    for (const at of row) {
      if (isFormula(book.formulaAt(sheet, at))) run.push(at);
      else end();
    }
    end();
  }
  if (areas.length === 0) return NULL_OBJECT;
  const target = (): Target => ({
    identity: { _ReferenceId: book.referenceTo(target) },
    values: { AreaCount: () => areas.length },
    parts: { Areas: () => ({ items: () => areas.map((area) => rangeObject(book, id, area)) }) },
    methods: { _KeepReference: () => undefined, _RemoveReference: () => undefined },
  });
  return target();
}

/** Whole rows only: the adapter moves no others. */
function shiftRows(book: Book, id: string, address: string, kind: RowShift["kind"]): Target {
  const [, first, last] = /^(\d+):(\d+)$/.exec(address) ?? [];
  if (first === undefined || last === undefined)
    throw new ExcelRefusal("InvalidArgument", `${address} are no rows`);
  const { name } = required(
    book.state.sheets.find((one) => one.id === id),
    "the sheet",
  );
  open(book.sheetWithId(id));
  const shift = {
    kind,
    sheet: name,
    row: Number(first) - 1,
    count: Number(last) - Number(first) + 1,
  };
  const cells = new Map(book.state.sheets.map((sheet) => [sheet.name, sheet.cells]));
  const shifted = shiftedSheets(cells, shift);
  for (const sheet of book.state.sheets) sheet.cells = shifted.get(sheet.name) ?? sheet.cells;
  for (const each of book.state.names) each.formula = shiftedReference(each.formula, shift);
  return rangeObject(book, id, address);
}

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
