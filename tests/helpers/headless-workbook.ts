/** The workbench's own calculation without a page: what the cells of a plan, or of a few formulas, come to. */
import { ICommandService, LocaleType, LogLevel, Univer } from "@univerjs/core";
import { FUniver } from "@univerjs/core/facade";
import {
  ArrayValueObject,
  BaseFunction,
  BooleanValueObject,
  ErrorType,
  ErrorValueObject,
  FormulaDataModel,
  FunctionType,
  IFunctionService,
  NullValueObject,
  NumberValueObject,
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
import { plainArea } from "../../taskpane/hosts/areas.js";
import type { Area, AreaContent, HostName, HostValue } from "../../taskpane/hosts/host.js";
import { watchCalculation } from "../../taskpane/hosts/workbench/calculation.js";
import { type FormulaParts, registerFunctions } from "../../taskpane/hosts/workbench/functions.js";
import { readCells, usedArea } from "../../taskpane/hosts/workbench/cells.js";
import { workbookData } from "../../taskpane/hosts/workbench/snapshots/snapshot.js";
import { plainNames } from "../../src/plans/placeholders.js";
import type { PlanCell, WorkbookPlan } from "../../src/plans/sheet-plan.js";

export interface HeadlessWorkbook {
  /** Of one cell, spilled or not: an error as its code, an empty cell as "". */
  value(sheet: string, address: string): HostValue;
  values(sheet: string, area: string): readonly (readonly HostValue[])[];
  formula(sheet: string, address: string): string;
  /** As a host tells them: where names lie now, and how far a sheet is filled. */
  names(): readonly HostName[];
  used(sheet: string): Area;
  /** As a host reads an area. */
  read(sheet: string, area: string): Pick<AreaContent, "values" | "formulas">;
  /** A value, or a formula with `=`; resolves when everything that depends on it is calculated. */
  set(sheet: string, address: string, content: string | number | boolean): Promise<void>;
  clear(sheet: string, address: string): Promise<void>;
  /** Values of several cells, as one edit; "" leaves a cell empty. */
  paste(
    sheet: string,
    area: string,
    rows: readonly (readonly (string | number)[])[],
  ): Promise<void>;
  /** Empty rows above the given one, counted from 1. */
  insertRow(sheet: string, row: number, count?: number): Promise<void>;
  deleteRow(sheet: string, row: number): Promise<void>;
  undo(): Promise<void>;
  redo(): Promise<void>;
  dispose(): void;
}

const parts: FormulaParts = {
  ArrayValueObject,
  BaseFunction,
  BooleanValueObject,
  ErrorType,
  ErrorValueObject,
  FunctionType,
  IDescriptionService,
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
    if (stage === api.Enum.LifecycleStages.Ready) registerFunctions(parts, injector, "FEED");
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
  const spills = injector.get(FormulaDataModel);
  const values = (sheet: string, area: string) => readCells(sheetOf(sheet), spills, area).values;
  return {
    values,
    value: (sheet, address) => values(sheet, address)[0]?.[0] ?? "",
    names: () =>
      workbook.getDefinedNames().flatMap((defined) => {
        const area = plainArea(defined.getFormulaOrRefString());
        return area ? [{ name: defined.getName(), area }] : [];
      }),
    used: (sheet) => usedArea(sheetOf(sheet), spills),
    read(sheet, area) {
      const { values: read, formulas } = readCells(sheetOf(sheet), spills, area);
      return { values: read, formulas };
    },
    formula: (sheet, address) => sheetOf(sheet).getRange(address).getFormula(),
    async set(sheet, address, content) {
      const calculated = settled();
      sheetOf(sheet).getRange(address).setValue(content);
      await calculated;
    },
    async clear(sheet, address) {
      const calculated = settled();
      sheetOf(sheet).getRange(address).clearContent();
      await calculated;
    },
    async paste(sheet, area, rows) {
      const calculated = settled();
      sheetOf(sheet)
        .getRange(area)
        .setValues(rows.map((row) => row.map((value) => (value === "" ? {} : { v: value }))));
      await calculated;
    },
    async deleteRow(sheet, row) {
      const calculated = settled();
      // It takes them from the sheet that is in sight.
      workbook.setActiveSheet(sheetOf(sheet));
      sheetOf(sheet).deleteRows(row - 1, 1);
      await calculated;
    },
    async insertRow(sheet, row, count = 1) {
      const calculated = settled();
      sheetOf(sheet).insertRows(row - 1, count);
      await calculated;
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
