/** Excel as a host of the pane, through Office.js: the base set that the manifest asks for, and later sets where they are there. */
import { areaAddress, areaPlace, cellAddress } from "../../../src/plans/addresses.js";
import { plainArea, requireShape } from "../areas.js";
import { areaRange, excelArea, readAreas, writtenCell } from "./cells.js";
import { excelCan, excelCode, inExcel, onSheets } from "./commands.js";
import { listenToChanges, listenToSelection, messageOf, type Warn } from "./events.js";
import { insertPlan } from "./insertion.js";
import { type Area, type CellWrite, type Host, type HostName, OccupiedError } from "../host.js";

export interface ExcelSettings {
  /** As the manifest says: `FEED`, or the development namespace. */
  readonly namespace: string;
  readonly warn: Warn;
}

export function excelHost({ namespace, warn }: ExcelSettings): Host {
  return {
    namespace,
    async insert(plan) {
      const inserted = await insertPlan(plan, namespace);
      await loadWithWorkbook(warn);
      return inserted;
    },
    async read(areas) {
      if (areas.length === 0) return [];
      const sheets = areas.map(({ sheet }) => sheet);
      return onSheets(sheets, (context) => readAreas(context, areas));
    },
    sheets: sheetNames,
    used: usedArea,
    names: definedNames,
    selection: selectedArea,
    async goTo(area) {
      await onSheets([area.sheet], async (context) => {
        const range = areaRange(context, area);
        range.worksheet.activate();
        range.select();
        await context.sync();
      });
    },
    write: writeCells,
    onChange: (listener) => listenToChanges(listener, warn),
    onSelection: (listener) => listenToSelection(async () => listener(await selectedArea()), warn),
    can: excelCan,
  };
}

async function sheetNames(): Promise<readonly string[]> {
  return inExcel(async (context) => {
    const { worksheets } = context.workbook;
    worksheets.load("items/name");
    await context.sync();
    return worksheets.items.map(({ name }) => name);
  });
}

async function usedArea(sheet: string): Promise<Area> {
  return onSheets([sheet], async (context) => {
    const range = context.workbook.worksheets.getItem(sheet).getUsedRangeOrNullObject(true);
    range.load("address");
    await context.sync();
    if (range.isNullObject) return { sheet, address: "A1" };
    const { bottom, right } = areaPlace(excelArea(range.address).address);
    return { sheet, address: areaAddress({ top: 0, left: 0, bottom, right }) };
  });
}

async function definedNames(): Promise<readonly HostName[]> {
  return inExcel(async (context) => {
    const { names } = context.workbook;
    names.load("items/name,items/type,items/formula");
    await context.sync();
    return names.items.flatMap(({ name, type, formula }) => {
      const area = type === "Range" ? plainArea(String(formula)) : undefined;
      return area ? [{ name, area }] : [];
    });
  });
}

async function selectedArea(): Promise<Area> {
  try {
    return await addressOf((workbook) => workbook.getSelectedRange());
  } catch (error) {
    // Several areas at once, or a picture: the active cell is still one cell.
    if (excelCode(error) !== "InvalidSelection") throw error;
    return addressOf((workbook) => workbook.getActiveCell());
  }
}

async function addressOf(choose: (workbook: Excel.Workbook) => Excel.Range): Promise<Area> {
  return inExcel(async (context) => {
    const range = choose(context.workbook);
    range.load("address");
    await context.sync();
    return excelArea(range.address);
  });
}

async function writeCells(
  area: Area,
  cells: readonly (readonly CellWrite[])[],
  options?: { readonly overwrite: boolean },
): Promise<void> {
  requireShape(area, cells);
  await onSheets([area.sheet], async (context) => {
    const range = areaRange(context, area);
    if (!options?.overwrite) await requireEmpty(context, area);
    range.formulas = cells.map((row) => row.map(writtenCell));
    await context.sync();
  });
}

/** A spilled cell is not empty either: it has a value without a formula of its own. */
async function requireEmpty(context: Excel.RequestContext, area: Area): Promise<void> {
  const range = areaRange(context, area);
  range.load("formulas,valueTypes,rowIndex,columnIndex");
  await context.sync();
  const rows = range.formulas.length;
  for (let row = 0; row < rows; row += 1) {
    const column = (range.formulas[row] ?? []).findIndex(
      (formula: unknown, index) => formula !== "" || range.valueTypes[row]?.[index] !== "Empty",
    );
    if (column === -1) continue;
    const address = cellAddress({
      row: range.rowIndex + row,
      column: range.columnIndex + column,
    });
    throw new OccupiedError({ sheet: area.sheet, address });
  }
}

/** So that the functions are there when the workbook is opened again; Excel keeps this in the workbook. */
async function loadWithWorkbook(warn: Warn): Promise<void> {
  if (!Office.context.requirements.isSetSupported("SharedRuntime", "1.1")) return;
  try {
    await Office.addin.setStartupBehavior(Office.StartupBehavior.load);
  } catch (error) {
    // The budget is in the sheets and works; only the next opening is the worse for it.
    warn(`Excel will not load Downfeed with this workbook by itself: ${messageOf(error)}`);
  }
}
