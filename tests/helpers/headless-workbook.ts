/** The workbench's own calculation without a page: what the cells of a plan, or of a few formulas, come to. */
import {
  type CellValue,
  type ICellData,
  ICommandService,
  LocaleType,
  LogLevel,
  type Nullable,
  Univer,
} from "@univerjs/core";
import { FUniver } from "@univerjs/core/facade";
import {
  ArrayValueObject,
  BaseFunction,
  BooleanValueObject,
  ErrorType,
  ErrorValueObject,
  FormulaDataModel,
  FunctionType,
  ICalculateFormulaService,
  IDependencyManagerService,
  IFormulaDependencyGenerator,
  IFunctionService,
  NullValueObject,
  NumberValueObject,
  SetTriggerFormulaCalculationStartMutation,
  StringValueObject,
  UniverFormulaEnginePlugin,
} from "@univerjs/engine-formula";
import { UniverSheetsPlugin } from "@univerjs/sheets";
import {
  FormulaCalculationSessionService,
  IDescriptionService,
  UniverSheetsFormulaPlugin,
} from "@univerjs/sheets-formula";
import "@univerjs/engine-formula/facade";
import "@univerjs/sheets-formula/facade";
import "@univerjs/sheets/facade";
import { plainRange } from "../../taskpane/hosts/ranges.js";
import type {
  CellRange,
  CellWrite,
  RangeContent,
  HostName,
  HostValue,
} from "../../taskpane/hosts/host.js";
import { watchCalculation } from "../../taskpane/hosts/workbench/calculation.js";
import { type FormulaParts, registerFunctions } from "../../taskpane/hosts/workbench/functions.js";
import { type DependencyParts, passOverGoneFormulas } from "../../taskpane/hosts/workbench/gone.js";
import { orderBySpills, type SpillOrderParts } from "../../taskpane/hosts/workbench/spill-order.js";
import {
  makeRoom,
  readCells,
  usedRange,
  writtenCell,
} from "../../taskpane/hosts/workbench/cells.js";
import { workbookData } from "../../taskpane/hosts/workbench/snapshots/snapshot.js";
import { cellAddress } from "../../src/plans/addresses.js";
import { plainNames } from "../../src/plans/placeholders.js";
import type { PlanCell, WorkbookPlan } from "../../src/plans/sheet-plan.js";

export interface HeadlessWorkbook {
  /** Of one cell, spilled or not: an error as its code, an empty cell as "". */
  value(sheet: string, address: string): HostValue;
  values(sheet: string, range: string): readonly (readonly HostValue[])[];
  formula(sheet: string, address: string): string;
  /** As a host tells them: where names lie now, and how far a sheet is filled. */
  names(): readonly HostName[];
  used(sheet: string): CellRange;
  /** As a host reads a range. */
  read(sheet: string, range: string): Pick<RangeContent, "values" | "formulas">;
  /** A value, or a formula with `=`; resolves when everything that depends on it is calculated. */
  set(sheet: string, address: string, content: string | number | boolean): Promise<void>;
  /** Several cells as one edit, as the workbench writes them. */
  write(sheet: string, range: string, cells: readonly (readonly CellWrite[])[]): Promise<void>;
  clear(sheet: string, address: string): Promise<void>;
  /** Values of several cells, as one edit; "" leaves a cell empty. */
  paste(
    sheet: string,
    range: string,
    rows: readonly (readonly (string | number)[])[],
  ): Promise<void>;
  /** Empty rows above the given one, counted from 1. */
  insertRow(sheet: string, row: number, count?: number): Promise<void>;
  /** Counted from 1. */
  deleteRow(sheet: string, row: number): Promise<void>;
  /** Every formula anew, whatever changed. */
  recalculate(): Promise<void>;
  /** What every cell of the workbook holds, by `Sheet!A1`, spilled ones too: an error as its code, nothing for an empty cell. */
  contents(): ReadonlyMap<string, HostValue>;
  undo(): Promise<void>;
  redo(): Promise<void>;
  dispose(): void;
}

const parts: FormulaParts & SpillOrderParts & DependencyParts = {
  ArrayValueObject,
  BaseFunction,
  BooleanValueObject,
  ErrorType,
  ErrorValueObject,
  FormulaDataModel,
  FunctionType,
  ICalculateFormulaService,
  IDependencyManagerService,
  IDescriptionService,
  IFormulaDependencyGenerator,
  IFunctionService,
  NullValueObject,
  NumberValueObject,
  StringValueObject,
};

/** Every formula is calculated, whatever value is stored beside it. */
const FORCED = 0;

/** Sheets and names are called as the plan says; cell functions are in the namespace `FEED`. */
export async function openHeadless(plan: WorkbookPlan): Promise<HeadlessWorkbook> {
  const univer = new Univer({
    locale: LocaleType.EN_US,
    locales: { [LocaleType.EN_US]: {} },
    logLevel: LogLevel.WARN,
  });
  univer.registerPlugin(UniverFormulaEnginePlugin);
  univer.registerPlugin(UniverSheetsPlugin);
  univer.registerPlugin(UniverSheetsFormulaPlugin, {
    initialFormulaComputing: FORCED,
  });
  const api = FUniver.newAPI(univer);
  const injector = univer.__getInjector();
  api.addEvent(api.Event.LifeCycleChanged, ({ stage }) => {
    if (stage !== api.Enum.LifecycleStages.Ready) return;
    registerFunctions(parts, injector, "FEED");
    orderBySpills(parts, injector);
    passOverGoneFormulas(parts, injector);
  });
  const workbook = api.createWorkbook(workbookData(plan, plainNames(plan, "FEED")));
  const { settled } = watchCalculation(
    injector.get(ICommandService),
    injector.get(FormulaCalculationSessionService),
  );
  await settled();
  const sheetOf = (name: string) => {
    const sheet = workbook.getSheetByName(name);
    if (!sheet) throw new Error(`there is no sheet ${name}`);
    return sheet;
  };
  /** As a user has it: of another sheet the spreadsheet shifts the references to the one in sight. */
  const inSight = (name: string) => {
    const sheet = sheetOf(name);
    workbook.setActiveSheet(sheet);
    return sheet;
  };
  const spills = injector.get(FormulaDataModel);
  const values = (sheet: string, range: string) => readCells(sheetOf(sheet), spills, range).values;
  return {
    values,
    value: (sheet, address) => values(sheet, address)[0]?.[0] ?? "",
    names: () =>
      workbook.getDefinedNames().flatMap((defined) => {
        const range = plainRange(defined.getFormulaOrRefString());
        return range ? [{ name: defined.getName(), range }] : [];
      }),
    used: (sheet) => usedRange(sheetOf(sheet), spills),
    read(sheet, range) {
      const { values: read, formulas } = readCells(sheetOf(sheet), spills, range);
      return { values: read, formulas };
    },
    formula: (sheet, address) => sheetOf(sheet).getRange(address).getFormula(),
    async set(sheet, address, content) {
      const calculated = settled();
      sheetOf(sheet).getRange(address).setValue(content);
      await calculated;
    },
    async write(sheet, range, cells) {
      const calculated = settled();
      makeRoom(sheetOf(sheet), range);
      sheetOf(sheet)
        .getRange(range)
        .setValues(cells.map((row) => row.map(writtenCell)));
      await calculated;
    },
    async clear(sheet, address) {
      const calculated = settled();
      sheetOf(sheet).getRange(address).clearContent();
      await calculated;
    },
    async paste(sheet, range, rows) {
      const calculated = settled();
      sheetOf(sheet)
        .getRange(range)
        .setValues(rows.map((row) => row.map((value) => (value === "" ? {} : { v: value }))));
      await calculated;
    },
    async insertRow(sheet, row, count = 1) {
      const calculated = settled();
      inSight(sheet).insertRows(row - 1, count);
      await calculated;
    },
    async deleteRow(sheet, row) {
      const calculated = settled();
      inSight(sheet).deleteRows(row - 1, 1);
      await calculated;
    },
    async recalculate() {
      const calculated = settled();
      await injector.get(ICommandService).executeCommand(
        SetTriggerFormulaCalculationStartMutation.id,
        {
          forceCalculation: true,
          dirtyRanges: [],
          dirtyNameMap: {},
          dirtyDefinedNameMap: {},
          dirtyUnitFeatureMap: {},
          dirtyUnitOtherFormulaMap: {},
          clearDependencyTreeCache: {},
        },
        { onlyLocal: true },
      );
      await calculated;
    },
    contents() {
      const found = new Map<string, HostValue>();
      const spilled = spills.getArrayFormulaCellData()[workbook.getId()] ?? {};
      for (const sheet of workbook.getSheets()) {
        const enter = (row: number, column: number, value: Nullable<CellValue>) => {
          if (value !== undefined && value !== null && value !== "")
            found.set(`${sheet.getSheetName()}!${cellAddress({ row, column })}`, value);
        };
        for (const [row, cells] of Object.entries(spilled[sheet.getSheetId()] ?? {}))
          for (const [column, cell] of Object.entries(cells ?? {}))
            enter(Number(row), Number(column), (cell as Nullable<ICellData>)?.v);
        sheet
          .getSheet()
          .getCellMatrix()
          .forValue((row, column, cell: Nullable<ICellData>) => enter(row, column, cell?.v));
      }
      return found;
    },
    async undo() {
      const calculated = settled();
      workbook.undo();
      await calculated;
    },
    async redo() {
      const calculated = settled();
      workbook.redo();
      await calculated;
    },
    dispose: () => univer.dispose(),
  };
}

/** One sheet called `Sheet` with the given cells: a formula where the content starts with `=`. */
export function openHeadlessCells(
  cells: Readonly<Record<string, string | number | boolean>>,
): Promise<HeadlessWorkbook> {
  return openHeadless({
    id: "cells",
    title: "Cells",
    stem: "Cells",
    names: [],
    sheets: [
      {
        key: "sheet",
        name: "Sheet",
        columnWidths: [],
        frozenRows: 0,
        cells: Object.entries(cells).map(([at, content]) => planCell(at, content)),
        merges: [],
        validations: [],
        conditionalFormats: [],
        pictures: [],
      },
    ],
  });
}

function planCell(at: string, content: string | number | boolean): PlanCell {
  return typeof content === "string" && content.startsWith("=")
    ? { at, formula: content.slice(1), style: "result" }
    : { at, value: content, style: "label" };
}
