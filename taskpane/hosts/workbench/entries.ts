/**
 * What is typed into a cell: read before the spreadsheet makes a time, a date or another number of it, and edited on
 * where it is refused, so that neither it nor the keyboard is lost.
 */
import type { ICellData, Nullable } from "@univerjs/core";
import { workbenchWords } from "../../words/workbench-words.js";
import type { EntryReader, SheetsNow } from "../typed-entry.js";
import { writtenCell } from "./cells.js";
import type { Spreadsheet } from "./spreadsheet.js";

/** Before the spreadsheet's own reading of numbers, and before its rules. */
const FIRST = 100;

/** @returns its stop */
export function readEntries(
  { vendor, injector }: Spreadsheet,
  now: SheetsNow,
  read: EntryReader,
): () => void {
  const dialogs = injector.get(vendor.IDialogService);
  const { writeCellInterceptor } = injector.get(vendor.SheetInterceptorService);
  /** Why the entry that was read last cannot stand. */
  let refused: string | undefined;

  const reading = writeCellInterceptor.intercept(vendor.AFTER_CELL_EDIT, {
    priority: FIRST,
    handler(cell, { worksheet, row, col: column }, next) {
      refused = undefined;
      const text = plainEntry(cell);
      if (text === undefined) return next(cell);
      const format = worksheet.getComposedCellStyle(row, column).n?.pattern ?? "";
      const answer = read({ sheet: worksheet.getName(), row, column, text, format }, now);
      if (!answer) return next(cell);
      if ("refused" in answer) refused = answer.refused;
      // What follows would read it once more.
      return { ...cell, ...writtenCell("content" in answer ? answer.content : text) };
    },
  });
  const judging = writeCellInterceptor.intercept(vendor.VALIDATE_CELL, {
    priority: FIRST,
    handler(_, _place, next) {
      const why = refused;
      refused = undefined;
      if (why === undefined) return next(Promise.resolve(true));
      tell(why);
      return next(Promise.resolve(false));
    },
  });

  /** In the dialog that the spreadsheet's own rules use, so that a refusal is one thing. */
  function tell(why: string): void {
    const close = () => dialogs.close(REFUSAL);
    const { Button, createElement } = vendor;
    dialogs.open({
      id: REFUSAL,
      width: 368,
      title: { title: workbenchWords.notWritten },
      children: { title: why },
      footer: {
        title: createElement(
          Button,
          { variant: "primary", onClick: close },
          workbenchWords.understood,
        ),
      },
      onClose: close,
    });
  }

  return () => {
    reading();
    judging();
  };
}

/** Undefined for a formula, for rich text, and for a cell that is emptied. */
function plainEntry(cell: Nullable<ICellData>): string | undefined {
  return cell?.f || cell?.p || typeof cell?.v !== "string" || cell.v === "" ? undefined : cell.v;
}

/** The spreadsheet's own name of the dialog that says why. */
const REFUSAL = "reject-input-dialog";
/** And of the text field above the sheet, which shows what is edited in the cell. */
const FORMULA_BAR = "__INTERNAL_EDITOR__DOCS_FORMULA_BAR";

/** @returns its stop */
export function returnRefused(spreadsheet: Spreadsheet, focusGrid: () => void): () => void {
  const { vendor, api, injector, workbook } = spreadsheet;
  const editors = injector.get(vendor.IEditorService);
  let typed:
    | {
        readonly sheetId: string;
        readonly row: number;
        readonly column: number;
        readonly text: string;
      }
    | undefined;
  let isRefused = false;

  const ending = api.addEvent(api.Event.BeforeSheetEditEnd, (edit) => {
    const { worksheet, row, column, value, isConfirm } = edit;
    if (!isConfirm) return;
    typed = { sheetId: worksheet.getSheetId(), row, column, text: value.toPlainText() };
  });
  const dialogs = injector
    .get(vendor.IDialogService)
    .getDialogs$()
    .subscribe((shown) => {
      const refusal = shown.find(({ id }) => id === REFUSAL);
      const isOpen = refusal !== undefined && refusal.open !== false;
      if (isRefused && !isOpen) goOn();
      isRefused = isOpen;
    });

  function goOn(): void {
    if (!typed) return;
    const { sheetId, row, column, text } = typed;
    typed = undefined;
    const sheet = workbook.getSheetBySheetId(sheetId);
    if (!sheet) return;
    workbook.setActiveSheet(sheet);
    sheet.getRange(row, column).activate();
    focusGrid();
    workbook.startEditing();
    editors.getEditor(FORMULA_BAR)?.replaceText(text);
    editors.getFocusEditor()?.replaceText(text);
  }

  return () => {
    ending.dispose();
    dialogs.unsubscribe();
  };
}

/**
 * What is being typed stays. The spreadsheet fills the open editor anew with what its cell holds whenever a cell in the
 * same row and column is written, of any sheet: a calculation that ends meanwhile took letters away and put the old
 * content behind the new.
 * @returns its stop
 */
export function keepTyped({ vendor, injector }: Spreadsheet): () => void {
  const bridge = injector.get(vendor.IEditorBridgeService);
  const refresh = bridge.refreshEditCellState.bind(bridge);
  bridge.refreshEditCellState = () => {
    if (!bridge.isVisible().visible) refresh();
  };
  return () => {
    bridge.refreshEditCellState = refresh;
  };
}
