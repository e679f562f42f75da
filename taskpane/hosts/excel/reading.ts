/** The way into Excel for what is only read, as often as the user moves: one request for each `sync`, and none behind it. */
import { hostError, isExcelError, onSheets } from "./commands.js";

/**
 * Nothing is held on to, so nothing has to be released: `Excel.run` would keep each range and ask once more to let it go.
 * It does not wait for the end of typing either.
 * @throws {EditingError} while a cell is being edited.
 * @throws {HostError} for whatever else Excel refuses.
 */
export async function readingExcel<T>(
  batch: (context: Excel.RequestContext) => Promise<T>,
): Promise<T> {
  try {
    return await batch(new Excel.RequestContext());
  } catch (error) {
    throw isExcelError(error) ? hostError(error) : error;
  }
}

/** The same on sheets that may not be there: the refusal names the one that is missing. */
export async function readingSheets<T>(
  names: readonly string[],
  batch: (context: Excel.RequestContext) => Promise<T>,
): Promise<T> {
  return onSheets(names, batch, readingExcel);
}
