/** Tells of every change to what the workbook holds; not of selections, and not of what calculation came to. */
import { FITS_WINDOW } from "./display/frozen.js";
import type { Spreadsheet } from "./spreadsheet.js";

/** The spreadsheet's own number for a command that changes the workbook. */
const MUTATION = 2;

/** Those of these commands that only follow from others. */
const FOLLOWS =
  /^formula\.mutation\.(?!(?:set|remove)-defined-name$)|auto-height|^doc\.|rich-text-editing/;

/** @returns its stop */
export function listenToEdits({ vendor, injector }: Spreadsheet, listener: () => void): () => void {
  const watch = injector.get(vendor.ICommandService).onCommandExecuted(({ id, type }, options) => {
    const isResult = Boolean(
      options?.["fromFormula"] ?? options?.["applyFormulaCalculationResult"],
    );
    const isShown = Boolean(options?.[FITS_WINDOW]);
    if (type === MUTATION && !isResult && !isShown && !FOLLOWS.test(id)) listener();
  });
  return () => watch.dispose();
}
