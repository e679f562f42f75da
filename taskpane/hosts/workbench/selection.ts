/** Which cells of the workbench are selected. */
import { rangeAddress } from "../../../src/plans/addresses.js";
import type { CellRange } from "../host.js";
import type { Spreadsheet } from "./spreadsheet.js";

export function selectedRange({ workbook }: Spreadsheet): CellRange {
  const sheet = workbook.getActiveSheet();
  const range = sheet.getSelection()?.getActiveRange()?.getRange();
  const address = range
    ? rangeAddress({
        top: range.startRow,
        left: range.startColumn,
        bottom: range.endRow,
        right: range.endColumn,
      })
    : "A1";
  return { sheet: sheet.getSheetName(), address };
}

const OF_SELECTION: readonly string[] = [
  "sheet.operation.set-selections",
  "sheet.operation.set-worksheet-active",
];

/** Tells of each new selection once. @returns its stop */
export function listenToSelection(
  spreadsheet: Spreadsheet,
  listener: (range: CellRange) => void,
): () => void {
  const { vendor, injector, workbook } = spreadsheet;
  const commands = injector.get(vendor.ICommandService);
  let last = "";
  const tell = () => {
    const range = selectedRange(spreadsheet);
    const now = `${range.sheet}!${range.address}`;
    if (now !== last) listener(range);
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
