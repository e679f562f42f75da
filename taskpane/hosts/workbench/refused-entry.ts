/** After an entry that a cell refuses: its text goes on being edited, so that neither it nor the keyboard is lost. */
import type { Spreadsheet } from "./spreadsheet.js";

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
