/** Excel as a host of the pane, through Office.js: the base set that the manifest asks for, and later sets where they are there. */
import { rangeAddress, rangePlace, cellAddress } from "../../../src/plans/addresses.js";
import { plainRange, requireShape, sheetOf } from "../ranges.js";
import { hostRange, excelRange, readCell, readRanges, writtenCell } from "./cells.js";
import { excelCan, excelCode, onSheets, readingExcel, readingSheets } from "./commands.js";
import {
  listenToChanges,
  listenToSelection,
  type SheetIds,
  sheetIds,
  type Warn,
} from "./events.js";
import { formulaCells } from "./formula-cells.js";
import { insertPlan } from "./insertion.js";
import { callsFunctions, excelLoading, isCall, loadWithWorkbook } from "./loading.js";
import { LocalFormulas } from "./local-formulas.js";
import {
  type CellRange,
  type CellWrite,
  type Host,
  HostError,
  type HostName,
  OccupiedError,
  type SelectedCell,
  type SheetEdit,
} from "../host.js";

export interface ExcelSettings {
  /** As the manifest says: `FEED`, or the development namespace. */
  readonly namespace: string;
  readonly warn: Warn;
}

export function excelHost({ namespace, warn }: ExcelSettings): Host {
  const ids = sheetIds();
  const local = new LocalFormulas();
  const mode = { isManual: false };
  return {
    namespace,
    async insert(plan) {
      const inserted = await insertPlan(plan, namespace);
      if (callsFunctions(plan)) await loadWithWorkbook(warn);
      return inserted;
    },
    async read(ranges) {
      if (ranges.length === 0) return [];
      const sheets = ranges.map(({ sheet }) => sheet);
      return readingSheets(sheets, (context) => readRanges(context, ranges, local));
    },
    sheets: sheetNames,
    used: usedRanges(),
    names: () => definedNames(ids, mode),
    formulaCells,
    selection: selectedRange,
    selectedCell: () => selectedCell(local),
    async goTo(range) {
      await onSheets([range.sheet], async (context) => {
        const target = hostRange(context, range);
        target.worksheet.activate();
        target.select();
        await context.sync();
      });
    },
    async write(range, cells, options) {
      await writeCells(range, cells, options);
      if (cells.flat().some((content) => isCall(content, namespace))) await loadWithWorkbook(warn);
    },
    edit: editSheets,
    loading: excelLoading(),
    calculation: {
      isManual: () => mode.isManual,
      calculate: calculateSheets,
    },
    onChange: (listener) => listenToChanges(listener, ids, warn),
    onSelection: (listener) => listenToSelection(listener, warn),
    can: excelCan,
    shownFormula: (formula) => local.shown(formula),
  };
}

async function sheetNames(): Promise<readonly string[]> {
  return readingExcel(async (context) => {
    const { worksheets } = context.workbook;
    worksheets.load("items/name");
    await context.sync();
    return worksheets.items.map(({ name }) => name);
  });
}

/** Sheets that are asked for one right after the other are asked for together: each request is a way to a server and back. */
function usedRanges(): (sheet: string) => Promise<CellRange> {
  let waiting:
    { readonly sheets: string[]; readonly found: Promise<readonly CellRange[]> } | undefined;
  return async (sheet) => {
    if (!waiting) {
      const sheets: string[] = [];
      const found = Promise.resolve().then(() => {
        waiting = undefined;
        return usedRangesOf(sheets);
      });
      waiting = { sheets, found };
    }
    const { sheets, found } = waiting;
    const at = sheets.push(sheet) - 1;
    try {
      return (await found)[at]!;
    } catch (error) {
      // Another one of them may be the one that is not there.
      if (sheets.length === 1) throw error;
      return (await usedRangesOf([sheet]))[0]!;
    }
  };
}

async function usedRangesOf(sheets: readonly string[]): Promise<readonly CellRange[]> {
  return readingSheets(sheets, async (context) => {
    const targets = sheets.map((sheet) =>
      context.workbook.worksheets.getItem(sheet).getUsedRangeOrNullObject(true).load("address"),
    );
    await context.sync();
    return targets.map((target, at) => {
      const sheet = sheets[at]!;
      if (target.isNullObject) return { sheet, address: "A1" };
      const { bottom, right } = rangePlace(excelRange(target.address).address);
      return { sheet, address: rangeAddress({ top: 0, left: 0, bottom, right }) };
    });
  });
}

/** The mode of calculation and the sheets' ids come with them: whoever reads them is to read values next. */
async function definedNames(
  ids: SheetIds,
  mode: { isManual: boolean },
): Promise<readonly HostName[]> {
  return readingExcel(async (context) => {
    const { names, application } = context.workbook;
    // Not their formulas, which Excel writes in the user's language and style.
    names.load("items/name,items/type,items/value");
    application.load("calculationMode");
    const keepIds = ids.ask(context);
    await context.sync();
    keepIds();
    mode.isManual = application.calculationMode === "Manual";
    return names.items.flatMap(({ name, type, value }) => {
      const range = type === "Range" ? plainRange(String(value)) : undefined;
      return range ? [{ name, range }] : [];
    });
  });
}

async function selectedRange(): Promise<CellRange> {
  return ofSelection(async (context, range) => {
    range.load("address");
    await context.sync();
    return excelRange(range.address);
  });
}

async function selectedCell(local: LocalFormulas): Promise<SelectedCell> {
  return ofSelection((context, range) => readCell(context, range.getCell(0, 0), local));
}

/** Where several ranges are selected at once, or a picture, the active cell is still one cell. */
async function ofSelection<T>(
  read: (context: Excel.RequestContext, range: Excel.Range) => Promise<T>,
): Promise<T> {
  try {
    return await readingExcel((context) => read(context, context.workbook.getSelectedRange()));
  } catch (error) {
    if (excelCode(error) !== "InvalidSelection") throw error;
    return readingExcel((context) => read(context, context.workbook.getActiveCell()));
  }
}

async function writeCells(
  range: CellRange,
  cells: readonly (readonly CellWrite[])[],
  options?: { readonly overwrite: boolean },
): Promise<void> {
  requireShape(range, cells);
  await onSheets([range.sheet], async (context) => {
    const target = hostRange(context, range);
    if (!options?.overwrite) await requireEmpty(context, range);
    target.formulas = cells.map((row) => row.map(writtenCell));
    await context.sync();
  });
}

async function editSheets(edits: readonly SheetEdit[]): Promise<void> {
  await onSheets(edits.map(sheetOf), async (context) => {
    const { worksheets } = context.workbook;
    // Excel keeps what it did before it refused: what can be known beforehand is refused before anything is changed.
    const locks = edits.map((each) => lockOf(context, each));
    await context.sync();
    const locked = edits.find((_, index) => isLocked(locks[index]!));
    if (locked)
      throw new HostError(
        `${sheetOf(locked)} is protected; unprotect it or save a copy, then try again. Nothing was changed`,
      );
    for (const each of edits) {
      if (each.kind === "write") {
        requireShape(each.range, each.cells);
        hostRange(context, each.range).formulas = each.cells.map((row) => row.map(writtenCell));
      } else {
        const rows = worksheets
          .getItem(each.sheet)
          .getRange(`${each.row + 1}:${each.row + each.count}`);
        if (each.kind === "insert rows") rows.insert(Excel.InsertShiftDirection.down);
        else rows.delete(Excel.DeleteShiftDirection.up);
      }
    }
    await context.sync();
  });
}

interface Lock {
  readonly protection: Excel.WorksheetProtection;
  /** Of the cells that are written. */
  readonly cells: Excel.FormatProtection | undefined;
}

/** Asks whether a sheet, which has to be there, keeps an edit out. */
function lockOf(context: Excel.RequestContext, edit: SheetEdit): Lock {
  const { protection } = context.workbook.worksheets.getItem(sheetOf(edit));
  const cells =
    edit.kind === "write" ? hostRange(context, edit.range).format.protection : undefined;
  protection.load("protected");
  cells?.load("locked");
  return { protection, cells };
}

/** On a protected sheet cells may have been left unlocked: only those are written. Null: some are and some are not. */
function isLocked({ protection, cells }: Lock): boolean {
  return protection.protected && cells?.locked !== false;
}

/** A spilled cell is not empty either: it has a value without a formula of its own. */
async function requireEmpty(context: Excel.RequestContext, range: CellRange): Promise<void> {
  const target = hostRange(context, range);
  target.load("formulas,valueTypes,rowIndex,columnIndex");
  await context.sync();
  const rows = target.formulas.length;
  for (let row = 0; row < rows; row += 1) {
    const column = (target.formulas[row] ?? []).findIndex(
      (formula: unknown, index) => formula !== "" || target.valueTypes[row]?.[index] !== "Empty",
    );
    if (column === -1) continue;
    const address = cellAddress({
      row: target.rowIndex + row,
      column: target.columnIndex + column,
    });
    throw new OccupiedError({ sheet: range.sheet, address });
  }
}

async function calculateSheets(sheets: readonly string[]): Promise<void> {
  await onSheets(sheets, async (context) => {
    const { worksheets } = context.workbook;
    for (const sheet of sheets) worksheets.getItem(sheet).calculate(true);
    await context.sync();
  });
}
