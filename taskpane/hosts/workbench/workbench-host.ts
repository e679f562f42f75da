/** The workbench as a host of the pane: our own page with an open-source spreadsheet in it. */
import type { IMutationInfo } from "@univerjs/core";
import { rangePlace, cellAddress } from "../../../src/plans/addresses.js";
import { formulasIn, plainRange, requireShape, sheetOf } from "../ranges.js";
import {
  type CellRange,
  type RangeContent,
  type CellWrite,
  type Feature,
  type Host,
  HostError,
  type HostName,
  OccupiedError,
  type SheetEdit,
} from "../host.js";
import { firstFilled, makeRoom, readCells, usedRange, writtenCell } from "./cells.js";
import { changeNotifier } from "./changes.js";
import { drawOnceCalculated } from "./display/drawing.js";
import { insertPlan } from "./insertion.js";
import { keepTyped, readEntries, returnRefused } from "./entries.js";
import { listenToSelection, selectedPlace, selectedRange } from "./selection.js";
import type { Spreadsheet } from "./spreadsheet.js";
import type { EntryReader } from "../typed-entry.js";

/** What the page needs of its grid beyond a host. */
export interface WorkbenchHost extends Host {
  /** Whether something is being typed into a cell. */
  isTyping(): boolean;
  /** Takes what is being typed into the cell, if anything. */
  finishTyping(): Promise<void>;
  /** Takes back the last step of the workbook, or does again what was taken back. Resolves with whether there was one. */
  step(way: "undo" | "redo"): Promise<boolean>;
  /** Goes to the next sheet, or to the one before, where there is one. */
  stepSheet(by: 1 | -1): Promise<void>;
  /** Goes to the first cell of the selected row, or of the sheet. */
  goToStart(of: "row" | "sheet"): void;
  /** Opens the list of the selected cell, where it has one. */
  openList(): void;
  /** Shuts it, and takes the keyboard back to the cell. */
  closeList(): void;
  /** Lets each entry be read before the spreadsheet reads it. Returns its stop. */
  onEntry(read: EntryReader): () => void;
  /** Keyboard focus to the selected cell. */
  focusGrid(): void;
  /** Resolves when the spreadsheet has done what it put off; to be awaited before `dispose`. */
  atRest(): Promise<void>;
  dispose(): void;
}

const FEATURES: readonly Feature[] = ["notes", "pictures", "single undo", "saved files"];

const POINTER_DOWN = 1;

export function workbenchHost(spreadsheet: Spreadsheet, namespace: string): WorkbenchHost {
  const { vendor, univer, api, injector, workbook, calculation } = spreadsheet;
  const commands = injector.get(vendor.ICommandService);
  const spills = injector.get(vendor.FormulaDataModel);
  const changes = changeNotifier(commands, calculation);
  const stopDrawing = drawOnceCalculated(spreadsheet);
  const stopReturning = returnRefused(spreadsheet, focusGrid);
  const stopKeeping = keepTyped(spreadsheet);

  function sheetCalled(name: string) {
    const sheet = workbook.getSheetByName(name);
    if (!sheet) throw new HostError(`there is no sheet called ${name}`);
    return sheet;
  }

  function definedNames(): readonly HostName[] {
    return workbook.getDefinedNames().flatMap((defined) => {
      const range = plainRange(defined.getFormulaOrRefString());
      return range && workbook.getSheetByName(range.sheet)
        ? [{ name: defined.getName(), range }]
        : [];
    });
  }

  async function write(
    range: CellRange,
    cells: readonly (readonly CellWrite[])[],
    options?: { readonly overwrite: boolean },
  ): Promise<void> {
    await finishTyping();
    const sheet = sheetCalled(range.sheet);
    requireShape(range, cells);
    makeRoom(sheet, range.address);
    const occupied = firstFilled(sheet, spills, range.address);
    if (occupied && !options?.overwrite)
      throw new OccupiedError({
        sheet: range.sheet,
        address: cellAddress(occupied),
      });
    sheet.getRange(range.address).setValues(cells.map((row) => row.map(writtenCell)));
    await calculation.settled();
  }

  async function edit(edits: readonly SheetEdit[]): Promise<void> {
    await finishTyping();
    for (const each of edits) sheetCalled(sheetOf(each));
    const shown = workbook.getActiveSheet();
    inOneStep(edits.map((each) => () => editSheet(sheetCalled(sheetOf(each)), each)));
    workbook.setActiveSheet(shown);
    await calculation.settled();
  }

  /**
   * Runs commands as one undo step. The spreadsheet joins what each of them would undo in the order in which they were
   * done: the last one's part must come first.
   */
  function inOneStep(runs: readonly (() => void)[]): void {
    const history = injector.get(vendor.IUndoRedoService);
    const joining = history.__tempBatchingUndoRedo(workbook.getId());
    const parts: IMutationInfo[][] = [];
    let known = 0;
    try {
      for (const run of runs) {
        run();
        const joined = history.pitchTopUndoElement()?.undoMutations ?? [];
        parts.push(joined.slice(known));
        known = joined.length;
      }
    } finally {
      joining.dispose();
      const joined = history.pitchTopUndoElement()?.undoMutations;
      if (joined && known > 0) joined.splice(0, known, ...parts.reverse().flat());
    }
  }

  function editSheet(sheet: ReturnType<typeof sheetCalled>, one: SheetEdit): void {
    if (one.kind === "write") {
      requireShape(one.range, one.cells);
      makeRoom(sheet, one.range.address);
      const cells = one.cells.map((row) => row.map(writtenCell));
      sheet.getRange(one.range.address).setValues(cells);
      return;
    }
    // The spreadsheet takes the sheet that is shown for the one whose rows move, and lets formulas follow there.
    workbook.setActiveSheet(sheet);
    if (one.kind === "insert rows") sheet.insertRowsBefore(one.row, one.count);
    else sheet.deleteRows(one.row, one.count);
  }

  async function finishTyping(): Promise<void> {
    if (!workbook.isCellEditing()) return;
    // As a click elsewhere ends it: a key would also move the selection on.
    await commands.executeCommand("sheet.operation.set-cell-edit-visible", {
      visible: false,
      eventType: POINTER_DOWN,
      unitId: workbook.getId(),
    });
    await new Promise((resolve) => setTimeout(resolve, 0));
  }

  return {
    namespace,
    async insert(plan) {
      await finishTyping();
      const inserted = await insertPlan(spreadsheet, plan, namespace);
      await calculation.settled();
      return inserted;
    },
    write,
    edit,
    async step(way) {
      await finishTyping();
      const isDone = await (way === "undo" ? api.undo() : api.redo());
      await calculation.settled();
      return isDone;
    },
    async stepSheet(by) {
      await finishTyping();
      const shown = workbook.getSheets().filter((sheet) => !sheet.isSheetHidden());
      const here = workbook.getActiveSheet().getSheetId();
      const next = shown[shown.findIndex((sheet) => sheet.getSheetId() === here) + by];
      if (next) workbook.setActiveSheet(next);
      focusGrid();
    },
    goToStart(of) {
      const sheet = workbook.getActiveSheet();
      const row = of === "sheet" ? 0 : selectedPlace(spreadsheet).top;
      sheet.getRange(row, 0).activate();
      sheet.scrollToCell(row, 0);
    },
    openList() {
      const sheet = workbook.getActiveSheet();
      const { top, left } = selectedPlace(spreadsheet);
      commands.syncExecuteCommand("sheet.operation.show-data-validation-dropdown", {
        unitId: workbook.getId(),
        subUnitId: sheet.getSheetId(),
        row: top,
        column: left,
      });
    },
    closeList() {
      commands.syncExecuteCommand("sheet.operation.hide-data-validation-dropdown", {});
      focusGrid();
    },
    isTyping: () => workbook.isCellEditing(),
    finishTyping,
    async read(ranges: readonly CellRange[]): Promise<readonly RangeContent[]> {
      if (calculation.isRunning()) await calculation.settled();
      return ranges.map(({ sheet, address }) => readCells(sheetCalled(sheet), spills, address));
    },
    async sheets() {
      return workbook.getSheets().map((sheet) => sheet.getSheetName());
    },
    async used(sheet) {
      return usedRange(sheetCalled(sheet), spills);
    },
    async formulaCells(name) {
      if (calculation.isRunning()) await calculation.settled();
      const sheet = sheetCalled(name);
      return formulasIn(readCells(sheet, spills, usedRange(sheet, spills).address));
    },
    async names() {
      return definedNames();
    },
    async selection() {
      return selectedRange(spreadsheet);
    },
    async goTo({ sheet: name, address }) {
      await finishTyping();
      const sheet = sheetCalled(name);
      const { top, left } = rangePlace(address);
      workbook.setActiveSheet(sheet);
      sheet.getRange(address).activate();
      sheet.scrollToCell(top, left);
      focusGrid();
    },
    onEntry: (read) =>
      readEntries(
        spreadsheet,
        {
          names: definedNames,
          values: ({ sheet, address }) => readCells(sheetCalled(sheet), spills, address).values,
        },
        read,
      ),
    onChange: changes.listen,
    onSelection: (listener) => listenToSelection(spreadsheet, listener),
    can: (feature) => FEATURES.includes(feature),
    focusGrid,
    atRest() {
      // It validates sheets out of sight when the page is idle, and fails where its workbook is gone by then. Idle
      // callbacks run in the order in which they were asked for.
      return new Promise((done) => requestIdleCallback(() => done()));
    },
    dispose() {
      changes.dispose();
      stopDrawing();
      stopReturning();
      stopKeeping();
      univer.dispose();
    },
  };

  function focusGrid(): void {
    injector.get(vendor.ILayoutService).focus();
  }
}
