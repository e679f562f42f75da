/** A plan for an Excel that has no notes yet: their text goes into the sheet, in the row of the cell it is about. */
import { rangePlace, cellAddress, cellPlace } from "../../../src/plans/addresses.js";
import type { PlanCell, SheetPlan } from "../../../src/plans/sheet-plan.js";

/** Into the row's own remark where it has one, else into a column behind everything that the plan writes. */
export function notesAsRemarks(sheet: SheetPlan): SheetPlan {
  const noted = sheet.cells.filter(({ note }) => note !== undefined);
  const column = firstFreeColumn(sheet);
  return noted.reduce<SheetPlan>(
    (changed, { at, note = "" }) => ({
      ...changed,
      cells: withRemark(changed.cells, cellPlace(at).row, column, note),
    }),
    { ...sheet, cells: sheet.cells.map(withoutNote) },
  );
}

function withoutNote(cell: PlanCell): PlanCell {
  const { note, ...rest } = cell;
  return note === undefined ? cell : rest;
}

function withRemark(
  cells: readonly PlanCell[],
  row: number,
  column: number,
  text: string,
): readonly PlanCell[] {
  const own = cells.find(
    ({ at, style, formula }) =>
      cellPlace(at).row === row && style === "remark" && formula === undefined,
  );
  if (!own) return [...cells, { at: cellAddress({ row, column }), value: text, style: "remark" }];
  const value = own.value === undefined || own.value === "" ? text : `${own.value} · ${text}`;
  return cells.map((cell) => (cell === own ? { ...own, value } : cell));
}

function firstFreeColumn({ cells, merges }: SheetPlan): number {
  const written = cells.map(
    ({ at, spill: [, columns] = [1, 1] }) => cellPlace(at).column + columns,
  );
  const merged = merges.map((range) => rangePlace(range).right + 1);
  return Math.max(0, ...written, ...merged);
}
