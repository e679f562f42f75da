/** The workbench as a host of the pane: our own page with an open-source spreadsheet in it. */
import {
  areaAddress,
  areaPlace,
  cellAddress,
} from "../../src/plans/addresses.js";
import { freshNames } from "../../src/plans/placeholders.js";
import { planFaults } from "../../src/plans/plan-faults.js";
import type { WorkbookPlan } from "../../src/plans/sheet-plan.js";
import {
  type Area,
  type AreaContent,
  type CellWrite,
  type Feature,
  type Host,
  HostError,
  type HostName,
  type InsertedBudget,
  OccupiedError,
} from "./host.js";
import { firstFilled, readCells, writtenCell } from "./workbench-cells.js";
import { changeNotifier } from "./workbench-changes.js";
import { type Change, insertionChanges } from "./workbench-insertion.js";
import type { Spreadsheet } from "./workbench-spreadsheet.js";

/** What the page needs of its grid beyond a host. */
export interface WorkbenchHost extends Host {
  /** Takes what is being typed into the cell, if anything. */
  finishTyping(): Promise<void>;
  /** Keyboard focus to the selected cell. */
  focusGrid(): void;
  dispose(): void;
}

const FEATURES: readonly Feature[] = ["notes", "single undo"];

const POINTER_DOWN = 1;

const OF_SELECTION: readonly string[] = [
  "sheet.operation.set-selections",
  "sheet.operation.set-worksheet-active",
];

/** A calculation that takes longer than this is a fault. */
const LONGEST_MS = 60_000;

export function workbenchHost(
  spreadsheet: Spreadsheet,
  namespace: string,
): WorkbenchHost {
  const { vendor, univer, api, injector, workbook } = spreadsheet;
  const commands = injector.get(vendor.ICommandService);
  const spills = injector.get(vendor.FormulaDataModel);
  const changes = changeNotifier(
    commands,
    injector.get(vendor.FormulaCalculationSessionService),
  );
  const settled = () => api.getFormula().onCalculationResultApplied(LONGEST_MS);

  function sheetCalled(name: string) {
    const sheet = workbook.getSheetByName(name);
    if (!sheet) throw new HostError(`there is no sheet called ${name}`);
    return sheet;
  }

  function definedNames(): readonly HostName[] {
    return workbook.getDefinedNames().flatMap((defined) => {
      const area = plainArea(defined.getFormulaOrRefString());
      return area && workbook.getSheetByName(area.sheet)
        ? [{ name: defined.getName(), area }]
        : [];
    });
  }

  async function insert(plan: WorkbookPlan): Promise<InsertedBudget> {
    const faults = planFaults(plan);
    if (faults.length > 0)
      throw new HostError(`"${plan.title}" cannot be inserted: ${faults[0]}`);
    const { stem, used } = freshNames(plan, namespace, {
      sheets: workbook.getSheets().map((sheet) => sheet.getSheetName()),
      names: workbook.getDefinedNames().map((name) => name.getName()),
    });
    const unitId = workbook.getId();
    const sheetIds = freshIds(
      plan,
      workbook.getSheets().map((sheet) => sheet.getSheetId()),
    );
    const steps = insertionChanges({
      plan,
      used,
      unitId,
      sheetIds,
      complete: vendor.mergeWorksheetSnapshotWithDefault,
      sheetCount: workbook.getSheets().length,
    });
    runAll(spreadsheet, plan, steps);
    injector.get(vendor.IUndoRedoService).pushUndoRedo({
      unitID: unitId,
      redoMutations: steps.map(({ redo }) => redo),
      undoMutations: steps.map(({ undo }) => undo).reverse(),
    });
    const first = plan.sheets[0];
    if (first) workbook.setActiveSheet(sheetIds[first.key] ?? "");
    await settled();
    return { stem, sheets: used.sheets, names: used.names };
  }

  async function write(
    area: Area,
    cells: readonly (readonly CellWrite[])[],
    options?: { readonly overwrite: boolean },
  ): Promise<void> {
    const sheet = sheetCalled(area.sheet);
    requireShape(area, cells);
    const occupied = firstFilled(sheet, spills, area.address);
    if (occupied && !options?.overwrite)
      throw new OccupiedError({
        sheet: area.sheet,
        address: cellAddress(occupied),
      });
    sheet
      .getRange(area.address)
      .setValues(cells.map((row) => row.map(writtenCell)));
    await settled();
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
    insert,
    write,
    finishTyping,
    async read(areas: readonly Area[]): Promise<readonly AreaContent[]> {
      return areas.map(({ sheet, address }) =>
        readCells(sheetCalled(sheet), spills, address),
      );
    },
    async names() {
      return definedNames();
    },
    async selection() {
      return selectedArea(spreadsheet);
    },
    async goTo({ sheet: name, address }) {
      await finishTyping();
      const sheet = sheetCalled(name);
      const { top, left } = areaPlace(address);
      workbook.setActiveSheet(sheet);
      sheet.getRange(address).activate();
      sheet.scrollToCell(top, left);
      focusGrid();
    },
    onChange: changes.listen,
    onSelection(listener) {
      let last = "";
      const tell = () => {
        const area = selectedArea(spreadsheet);
        const now = `${area.sheet}!${area.address}`;
        if (now !== last) listener(area);
        last = now;
      };
      // The first is told of what the user does, also the first click; the second of what a program does.
      const stops = [
        workbook.onSelectionChange(tell),
        commands.onCommandExecuted(({ id }) => {
          if (OF_SELECTION.includes(id)) tell();
        }),
      ];
      return () => stops.forEach((stop) => stop.dispose());
    },
    can: (feature) => FEATURES.includes(feature),
    focusGrid,
    dispose() {
      changes.dispose();
      univer.dispose();
    },
  };

  function focusGrid(): void {
    injector.get(vendor.ILayoutService).focus();
  }
}

function selectedArea({ workbook }: Spreadsheet): Area {
  const sheet = workbook.getActiveSheet();
  const range = sheet.getSelection()?.getActiveRange()?.getRange();
  const address = range
    ? areaAddress({
        top: range.startRow,
        left: range.startColumn,
        bottom: range.endRow,
        right: range.endColumn,
      })
    : "A1";
  return { sheet: sheet.getSheetName(), address };
}

const PLAIN_AREA =
  /^=?(?:'((?:[^']|'')+)'|([^'!()[\],]+))!(\$?[A-Z]+\$?\d+(?::\$?[A-Z]+\$?\d+)?)$/;

/** The area that a name's text refers to; nothing for a constant or a formula. */
function plainArea(reference: string): Area | undefined {
  const [, quoted, bare, address] = PLAIN_AREA.exec(reference) ?? [];
  const sheet = quoted?.replaceAll("''", "'") ?? bare;
  if (sheet === undefined || address === undefined) return undefined;
  return { sheet, address: address.replaceAll("$", "") };
}

/** Runs every change or, when one fails, none. */
function runAll(
  { vendor, injector }: Spreadsheet,
  plan: WorkbookPlan,
  steps: readonly Change[],
): void {
  const commands = injector.get(vendor.ICommandService);
  const done: Change[] = [];
  try {
    for (const step of steps) {
      const { id, params } = step.redo;
      if (!commands.syncExecuteCommand(id, params))
        throw new Error(`${id} was refused`);
      done.push(step);
    }
  } catch (error) {
    for (const { undo } of done.reverse())
      commands.syncExecuteCommand(undo.id, undo.params);
    throw new HostError(
      `"${plan.title}" could not be inserted; nothing was changed (${(error as Error).message})`,
      { cause: error },
    );
  }
}

/** Sheet ids that are not in the workbook yet. */
function freshIds(
  plan: WorkbookPlan,
  taken: readonly string[],
): Readonly<Record<string, string>> {
  let count = 1;
  const idOf = (key: string) => `${plan.id}-${key}-${count}`;
  while (plan.sheets.some(({ key }) => taken.includes(idOf(key)))) count += 1;
  return Object.fromEntries(plan.sheets.map(({ key }) => [key, idOf(key)]));
}

function requireShape(
  area: Area,
  cells: readonly (readonly CellWrite[])[],
): void {
  const { top, left, bottom, right } = areaPlace(area.address);
  const fits =
    cells.length === bottom - top + 1 &&
    cells.every((row) => row.length === right - left + 1);
  if (!fits)
    throw new HostError(
      `the cells to write do not have the shape of ${area.sheet}!${area.address}`,
    );
}
