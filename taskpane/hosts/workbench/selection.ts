/** Which cells of the workbench are selected. */
import { rangeAddress, type RangePlace } from "../../../src/plans/addresses.js";
import type { CellRange } from "../host.js";
import type { Spreadsheet } from "./spreadsheet.js";

export function selectedRange(spreadsheet: Spreadsheet): CellRange {
  const sheet = spreadsheet.workbook.getActiveSheet();
  return { sheet: sheet.getSheetName(), address: rangeAddress(selectedPlace(spreadsheet)) };
}

/**
 * Of the sheet in sight; its first cell where nothing is selected. Rows that are gone may be selected still, after an
 * undo: the spreadsheet's own range of them cannot be made, and what is left of the sheet stands in their place.
 */
export function selectedPlace({ vendor, injector, workbook }: Spreadsheet): RangePlace {
  const sheet = workbook.getActiveSheet();
  const selections = injector.get(vendor.SheetsSelectionsService).getCurrentSelections();
  const range = selections.find(({ primary }) => primary)?.range;
  if (!range) return { top: 0, left: 0, bottom: 0, right: 0 };
  const inRow = (row: number) => Math.min(row, sheet.getMaxRows() - 1);
  const inColumn = (column: number) => Math.min(column, sheet.getMaxColumns() - 1);
  return {
    top: inRow(range.startRow),
    left: inColumn(range.startColumn),
    bottom: inRow(range.endRow),
    right: inColumn(range.endColumn),
  };
}

const OF_SELECTION: readonly string[] = [
  "sheet.operation.set-selections",
  "sheet.operation.set-worksheet-active",
];

/** Tells of each new selection once. @returns its stop */
export function listenToSelection(spreadsheet: Spreadsheet, listener: () => void): () => void {
  const { vendor, injector, workbook } = spreadsheet;
  const commands = injector.get(vendor.ICommandService);
  let last = "";
  const tell = () => {
    const range = selectedRange(spreadsheet);
    const now = `${range.sheet}!${range.address}`;
    if (now !== last) listener();
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
}
