/** Puts a plan into the open workbook: all of it as one undo step, or nothing. */
import { freshNames } from "../../../src/plans/placeholders.js";
import { planFaults } from "../../../src/plans/plan-faults.js";
import type { WorkbookPlan } from "../../../src/plans/sheet-plan.js";
import { HostError, type InsertedBudget } from "../host.js";
import { drawnPictures } from "../plan-pictures.js";
import { type Change, insertionChanges, type PlanPictures } from "./plan-changes.js";
import type { Spreadsheet } from "./spreadsheet.js";

/** @throws {HostError} */
export async function insertPlan(
  spreadsheet: Spreadsheet,
  plan: WorkbookPlan,
  namespace: string,
): Promise<InsertedBudget> {
  const { vendor, injector, workbook } = spreadsheet;
  const faults = planFaults(plan);
  if (faults.length > 0) throw new HostError(`"${plan.title}" cannot be inserted: ${faults[0]}`);
  const pictures = await planPictures(plan);
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
    pictures,
  });
  runAll(spreadsheet, plan, steps);
  injector.get(vendor.IUndoRedoService).pushUndoRedo({
    unitID: unitId,
    redoMutations: steps.map(({ redo }) => redo),
    undoMutations: steps.map(({ undo }) => undo).reverse(),
  });
  const first = plan.sheets[0];
  if (first) workbook.setActiveSheet(sheetIds[first.key] ?? "");
  return { stem, sheets: used.sheets, names: used.names };
}

/** There are no charts here: a chart's picture stands in its place. */
export async function planPictures({ sheets }: WorkbookPlan): Promise<PlanPictures> {
  const drawn = sheets.map(async ({ key, pictures, charts = [] }) => [
    key,
    await drawnPictures([...pictures, ...charts]),
  ]);
  return Object.fromEntries(await Promise.all(drawn)) as PlanPictures;
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
      if (!commands.syncExecuteCommand(id, params)) throw new Error(`${id} was refused`);
      done.push(step);
    }
  } catch (error) {
    for (const { undo } of done.reverse()) commands.syncExecuteCommand(undo.id, undo.params);
    throw new HostError(
      `"${plan.title}" could not be inserted; nothing was changed (${(error as Error).message})`,
      { cause: error },
    );
  }
}

/** Sheet ids that are not in the workbook yet. */
function freshIds(plan: WorkbookPlan, taken: readonly string[]): Readonly<Record<string, string>> {
  let count = 1;
  const idOf = (key: string) => `${plan.id}-${key}-${count}`;
  while (plan.sheets.some(({ key }) => taken.includes(idOf(key)))) count += 1;
  return Object.fromEntries(plan.sheets.map(({ key }) => [key, idOf(key)]));
}
