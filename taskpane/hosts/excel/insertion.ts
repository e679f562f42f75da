/** Writes a plan into the open workbook as new sheets: all of it, or nothing. */
import { cellPlace } from "../../../src/plans/addresses.js";
import { fillPlaceholders, freshNames, type UsedNames } from "../../../src/plans/placeholders.js";
import { planFaults } from "../../../src/plans/plan-faults.js";
import type { PlanCell, SheetPlan, WorkbookPlan } from "../../../src/plans/sheet-plan.js";
import { blocksOf, type Written, writtenValue } from "./cells.js";
import { addChart } from "./charts.js";
import { excelCan, excelError, inExcel, inOneStep, isGroupRefused } from "./commands.js";
import { listedNotes, placeNotes } from "./notes.js";
import { addRule, addValidation, type PreparedValidation, preparedValidation } from "./rules.js";
import { layOut, part, POINTS_PER_PIXEL, styleCells } from "./styles.js";
import { HostError, type InsertedBudget } from "../host.js";
import { type DrawnPicture, drawnPictures } from "../plan-pictures.js";

/** @throws {HostError} */
export async function insertPlan(plan: WorkbookPlan, namespace: string): Promise<InsertedBudget> {
  const [fault] = planFaults(plan);
  if (fault !== undefined) throw new HostError(`"${plan.title}" cannot be inserted: ${fault}`);
  const prepared = await preparedPlan(plan);
  const { stem, used, taken } = await freeNames(plan, namespace);
  const listed = excelCan("notes") ? undefined : listedNotes(plan, used, taken);
  const whole = listed ? withSheet(prepared, listed) : prepared;
  const names = listed ? { ...used, sheets: { ...used.sheets, [listed.key]: listed.name } } : used;
  await writeWhole(whole, names);
  return { stem, sheets: names.sheets, names: names.names };
}

async function freeNames(plan: WorkbookPlan, namespace: string) {
  return inExcel(async (context) => {
    const { worksheets, names } = context.workbook;
    worksheets.load("items/name");
    names.load("items/name");
    await context.sync();
    const taken = worksheets.items.map(({ name }) => name);
    const fresh = freshNames(plan, namespace, {
      sheets: taken,
      names: names.items.map(({ name }) => name),
    });
    return { ...fresh, taken };
  });
}

/** All of it, or nothing. @throws {HostError} */
async function writeWhole(prepared: PreparedPlan, used: UsedNames): Promise<void> {
  const write = (context: Excel.RequestContext) => writePlan(context, prepared, used);
  // Without pictures all changes go in one `sync`, which is one undo step by itself.
  const isGroup = hasDrawings(prepared) && excelCan("single undo");
  try {
    await (isGroup ? inOneStep(write) : inExcel(write));
  } catch (error) {
    if (!isGroup || !isGroupRefused(error)) throw await takenAway(prepared.plan, used, error);
    await clearAway(prepared.plan, used, error);
    await inExcel(write).catch(async (second: unknown) => {
      throw await takenAway(prepared.plan, used, second);
    });
  }
}

interface PreparedSheet {
  readonly plan: SheetPlan;
  readonly validations: readonly PreparedValidation[];
  readonly pictures: readonly DrawnPicture[];
}

interface PreparedPlan {
  readonly plan: WorkbookPlan;
  readonly sheets: readonly PreparedSheet[];
}

/** Whatever may be refused without Excel is refused before anything is asked of it. */
async function preparedPlan(plan: WorkbookPlan): Promise<PreparedPlan> {
  const sheets = plan.sheets.map(async (sheet) => ({
    plan: sheet,
    validations: sheet.validations.map(preparedValidation),
    pictures: await drawnPictures(sheet.pictures),
  }));
  return { plan, sheets: await Promise.all(sheets) };
}

function withSheet({ plan, sheets }: PreparedPlan, added: SheetPlan): PreparedPlan {
  return { plan, sheets: [...sheets, { plan: added, validations: [], pictures: [] }] };
}

function hasDrawings({ sheets }: PreparedPlan): boolean {
  return sheets.some(
    ({ pictures, plan: { charts = [] } }) => pictures.length > 0 || charts.length > 0,
  );
}

/** One request for everything but pictures and charts, which need to know where their cells came to lie. */
async function writePlan(
  context: Excel.RequestContext,
  { plan, sheets }: PreparedPlan,
  used: UsedNames,
): Promise<void> {
  const { workbook } = context;
  workbook.application.suspendScreenUpdatingUntilNextSync();
  // Else functions are called over sheets that are not written to their end.
  workbook.application.suspendApiCalculationUntilNextSync();
  // Sheets, then names, then cells: a formula may refer to any of them.
  const added = sheets.map((prepared) => ({
    ...prepared,
    sheet: workbook.worksheets.add(used.sheets[prepared.plan.key]),
  }));
  for (const { name, sheet: key, range } of plan.names) {
    const on = added.find((one) => one.plan.key === key)?.sheet;
    if (on) workbook.names.add(used.names[name] ?? name, part(on, range));
  }
  for (const one of added) writeSheet(one.sheet, one, used);
  const pictures = added.flatMap(({ pictures: drawn, sheet }) =>
    drawn.map((one) => ({ ...one, sheet, cell: placeAt(sheet, one.picture) })),
  );
  const charts = added.flatMap(({ plan: { charts: planned = [] }, sheet }) =>
    planned.map((chart) => ({ chart, sheet, cell: placeAt(sheet, chart) })),
  );
  added[0]?.sheet.activate();
  await context.sync();
  if (pictures.length + charts.length === 0) return;
  for (const { sheet, cell, ...one } of pictures) addPicture(sheet, one, cell);
  for (const { sheet, chart, cell } of charts) addChart(sheet, chart, cell);
  await context.sync();
}

function placeAt(sheet: Excel.Worksheet, { at }: { readonly at: string }): Excel.Range {
  const cell = sheet.getRange(at);
  cell.load("left,top");
  return cell;
}

function writeSheet(
  sheet: Excel.Worksheet,
  { plan, validations }: PreparedSheet,
  used: UsedNames,
): void {
  writeCells(sheet, plan.cells, used);
  styleCells(sheet, plan.cells);
  layOut(sheet, plan);
  for (const validation of validations) addValidation(sheet, validation, used);
  for (const rule of plan.conditionalFormats) addRule(sheet, rule, used);
  if (excelCan("notes")) placeNotes(sheet, plan.cells);
}

function writeCells(sheet: Excel.Worksheet, cells: readonly PlanCell[], used: UsedNames): void {
  const formats: Written[] = [];
  const contents: Written[] = [];
  for (const { at, value, formula, format } of cells) {
    const place = cellPlace(at);
    if (format !== undefined) formats.push({ ...place, content: format });
    if (formula !== undefined)
      contents.push({ ...place, content: `=${fillPlaceholders(formula, used)}` });
    else if (value !== undefined) contents.push({ ...place, content: writtenValue(value) });
  }
  for (const { address, rows } of blocksOf(formats)) part(sheet, address).numberFormat = rows;
  for (const { address, rows } of blocksOf(contents)) part(sheet, address).formulas = rows;
}

function addPicture(
  sheet: Excel.Worksheet,
  { picture: { size, alternative }, png }: DrawnPicture,
  cell: Excel.Range,
): void {
  const [width, height] = size;
  const shape = sheet.shapes.addImage(png);
  shape.left = cell.left;
  shape.top = cell.top;
  shape.lockAspectRatio = false;
  shape.width = width * POINTS_PER_PIXEL;
  shape.height = height * POINTS_PER_PIXEL;
  shape.altTextDescription = alternative;
}

/** What to say of an insertion that failed, once what it wrote is taken away. */
async function takenAway(plan: WorkbookPlan, used: UsedNames, cause: unknown): Promise<HostError> {
  await clearAway(plan, used, cause);
  return new HostError(
    `"${plan.title}" could not be inserted; nothing was changed (${why(cause)})`,
    { cause },
  );
}

/** Takes away what a failed insertion has written. @throws {HostError} where that fails too. */
async function clearAway(plan: WorkbookPlan, used: UsedNames, cause: unknown): Promise<void> {
  try {
    await takeAway(used, isCollision(cause));
  } catch (second) {
    throw new HostError(
      `"${plan.title}" could not be inserted (${why(cause)}), and what was written of it could not be taken away: delete ${Object.values(used.sheets).join(", ")} (${why(second)})`,
      { cause },
    );
  }
}

function why(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}

/** Somebody else has taken one of the names since they were read; nothing was written into cells by then. */
function isCollision(cause: unknown): boolean {
  const error = excelError(cause);
  return (
    error?.code === "ItemAlreadyExists" ||
    error?.debugInfo.errorLocation === "WorksheetCollection.add"
  );
}

/** @param onlyEmpty A sheet with something in it is not ours. */
async function takeAway(used: UsedNames, onlyEmpty: boolean): Promise<void> {
  await inExcel(async (context) => {
    const { worksheets, names } = context.workbook;
    const named = Object.values(used.names).map((name) => names.getItemOrNullObject(name));
    const sheets = Object.values(used.sheets).map((name) => worksheets.getItemOrNullObject(name));
    for (const item of [...named, ...sheets]) item.load("name");
    await context.sync();
    const there = sheets.filter(({ isNullObject }) => !isNullObject);
    const filled = there.map((sheet) => {
      const cells = sheet.getUsedRangeOrNullObject(true);
      cells.load("address");
      return cells;
    });
    await context.sync();
    for (const item of named) if (!item.isNullObject) item.delete();
    there.forEach((sheet, index) => {
      if (!onlyEmpty || filled[index]?.isNullObject) sheet.delete();
    });
    await context.sync();
  });
}
