/** The workbook as the library asks for it: its sheets and its names. */
import { plainRange } from "../../../taskpane/hosts/ranges.js";
import { type Book, newSheet, shownSheet } from "./book.js";
import { r1c1 } from "./languages.js";
import { rangeObject } from "./range-objects.js";
import { sheetObject } from "./sheet-objects.js";
import { EVENT_METHODS, ExcelRefusal, NULL_OBJECT, required, type Target } from "./wire.js";

export function workbookObject(book: Book): Target {
  return {
    parts: {
      Worksheets: () => worksheetsObject(book),
      Names: () => namesObject(book),
      Application: () => ({
        values: {
          CalculationMode: () => book.pretended.calculation,
          DecimalSeparator: () => book.pretended.decimal,
        },
        methods: {
          SuspendScreenUpdatingUntilNextSync: () => undefined,
          SuspendApiCalculationUntilNextSync: () => undefined,
        },
      }),
    },
    methods: {
      GetSelectedRange: () => {
        if (book.selected.address.includes(","))
          throw new ExcelRefusal("InvalidSelection", "several areas are selected");
        return rangeObject(book, book.selected.sheet, book.selected.address);
      },
      GetActiveCell: () =>
        rangeObject(book, book.selected.sheet, book.selected.address.split(/[:,]/)[0] ?? "A1"),
    },
  };
}

export function worksheetsObject(book: Book): Target {
  const find = (key: string) =>
    book.state.sheets.find(
      ({ id, name }) => id === key || name.toLowerCase() === key.toLowerCase(),
    );
  return {
    items: () => book.state.sheets.map(({ id }) => sheetObject(book, id)),
    methods: {
      GetItem: (key: string) =>
        sheetObject(book, required(find(key), `the sheet ${key}`, "ItemNotFound").id),
      GetItemOrNullObject: (key: string) => {
        const found = find(key);
        return found ? sheetObject(book, found.id) : NULL_OBJECT;
      },
      Add: (name: string) => {
        if (book.isStructureProtected)
          throw new ExcelRefusal("AccessDenied", "the structure of the workbook is protected");
        if (find(name)) throw new ExcelRefusal("ItemAlreadyExists", `a sheet ${name} is there`);
        if (name.length > 31 || /[:\\/?*[\]]/.test(name))
          throw new ExcelRefusal("InvalidArgument", `a sheet cannot be ${name}`);
        const sheet = newSheet(`sheet-${book.sheetCount++}`, name);
        book.state.sheets.push(sheet);
        return sheetObject(book, sheet.id);
      },
      ...EVENT_METHODS,
    },
  };
}

export function namesObject(book: Book): Target {
  const find = (key: string) =>
    book.state.names.find(({ name }) => name.toLowerCase() === key.toLowerCase());
  return {
    items: () => book.state.names.map(({ name }) => nameObject(book, name)),
    methods: {
      GetItem: (key: string) =>
        nameObject(book, required(find(key), `the name ${key}`, "ItemNotFound").name),
      GetItemOrNullObject: (key: string) => {
        const found = find(key);
        return found ? nameObject(book, found.name) : NULL_OBJECT;
      },
      Add: (name: string, target: Target) => {
        if (find(name)) throw new ExcelRefusal("ItemAlreadyExists", `a name ${name} is there`);
        const address = String(target.values?.["Address"]?.());
        const { sheet, address: range } = required(plainRange(address), address);
        book.state.names.push({
          name,
          formula: `=${shownSheet(sheet)}!${range.replace(/([A-Z]+)(\d+)/g, "$$$1$$$2")}`,
        });
        return nameObject(book, name);
      },
    },
  };
}

function nameObject(book: Book, name: string): Target {
  const own = () =>
    required(
      book.state.names.find((one) => one.name === name),
      `the name ${name}`,
      "ItemNotFound",
    );
  return {
    identity: { _Id: name },
    values: {
      _Id: () => name,
      Name: () => own().name,
      Type: () => (plainRange(own().formula) ? "Range" : "Double"),
      Formula: () => (book.pretended.referenceStyle === "A1" ? own().formula : r1c1(own().formula)),
      // "For a named range, it returns the range address" (NamedItem.value).
      Value: () => own().formula.replace(/^=/, ""),
    },
    methods: {
      Delete: () => {
        book.state.names = book.state.names.filter((one) => one.name !== name);
      },
    },
  };
}
