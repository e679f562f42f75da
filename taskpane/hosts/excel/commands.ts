/** The way into Excel for every command of this adapter, and the way out of it for its errors. */
import { type Feature, HostError } from "../host.js";

/** What Excel offers beyond the requirement sets that the manifest asks for. */
const SINCE = {
  notes: "1.18",
  "single undo": "1.20",
} as const satisfies Partial<Record<Feature, string>>;

export function excelCan(feature: Feature): boolean {
  if (feature === "pictures" || feature === "charts" || feature === "page setup") return true;
  // Its web view answers no link to what the pane itself has made.
  if (feature === "saved files") return Office.context.platform !== Office.PlatformType.Mac;
  return (
    feature in SINCE &&
    Office.context.requirements.isSetSupported("ExcelApi", SINCE[feature as keyof typeof SINCE])
  );
}

/**
 * Runs a batch once no cell is being edited. Each `sync` that changes something is an undo step.
 * @throws {HostError} for whatever Excel refuses.
 */
export async function inExcel<T>(batch: (context: Excel.RequestContext) => Promise<T>): Promise<T> {
  return inWords(() => Excel.run({ delayForCellEdit: true }, batch));
}

/**
 * Runs a batch with several changing `sync`s as one undo step. Some builds of Excel refuse that, whole or half-way
 * (`isGroupRefused`), and all that also wait for the end of an edit; so this does not wait.
 * @throws {HostError} for whatever Excel refuses.
 */
export async function inOneStep<T>(
  batch: (context: Excel.RequestContext) => Promise<T>,
): Promise<T> {
  return inWords(() => Excel.run({ mergeUndoGroup: true }, batch));
}

/** Whether a change may have been refused only because it was to be part of one undo step. */
export function isGroupRefused(error: unknown): boolean {
  const code = excelCode(error);
  return code !== undefined && GROUP_REFUSALS.includes(code);
}

const GROUP_REFUSALS = ["UndoNotSupported", "GeneralException", "InternalError"];

async function inWords<T>(run: () => Promise<T>): Promise<T> {
  try {
    return await run();
  } catch (error) {
    throw isExcelError(error) ? hostError(error) : error;
  }
}

/** As `inExcel`, for work on sheets that may not be there: the refusal names the one that is missing. */
export async function onSheets<T>(
  names: readonly string[],
  batch: (context: Excel.RequestContext) => Promise<T>,
  run = inExcel<T>,
): Promise<T> {
  try {
    return await run(batch);
  } catch (error) {
    if (excelCode(error) !== "ItemNotFound") throw error;
    const missing = await missingSheet(names);
    throw missing === undefined
      ? error
      : new HostError(`there is no sheet called ${missing}`, { cause: error });
  }
}

/**
 * For what is only read, as often as the user moves: one request for each `sync`, and none behind it. Nothing is held on
 * to, so nothing has to be released: `Excel.run` would keep each range and ask once more to let it go. While a cell is
 * being edited Excel refuses it: it is asked again until that is over.
 * @throws {HostError} for whatever else Excel refuses.
 */
export async function readingExcel<T>(
  batch: (context: Excel.RequestContext) => Promise<T>,
): Promise<T> {
  return inWords(async () => {
    for (;;) {
      try {
        return await batch(new Excel.RequestContext());
      } catch (error) {
        if (excelCode(error) !== "InvalidOperationInCellEditMode") throw error;
        await new Promise((resolve) => setTimeout(resolve, EDIT_PAUSE_MS));
      }
    }
  });
}

const EDIT_PAUSE_MS = 1_000;

/** The same on sheets that may not be there. */
export async function readingSheets<T>(
  names: readonly string[],
  batch: (context: Excel.RequestContext) => Promise<T>,
): Promise<T> {
  return onSheets(names, batch, readingExcel);
}

async function missingSheet(names: readonly string[]): Promise<string | undefined> {
  const there = await inExcel(async (context) => {
    const { worksheets } = context.workbook;
    worksheets.load("items/name");
    await context.sync();
    return worksheets.items.map(({ name }) => name.toLowerCase());
  });
  return names.find((name) => !there.includes(name.toLowerCase()));
}

/** Excel's own code for an error. */
export function excelCode(error: unknown): string | undefined {
  return excelError(error)?.code;
}

/** What Excel answered, where it has been put into words already too. */
export function excelError(error: unknown): OfficeExtension.Error | undefined {
  if (isExcelError(error)) return error;
  return error instanceof HostError ? excelError(error.cause) : undefined;
}

export function isExcelError(error: unknown): error is OfficeExtension.Error {
  return error instanceof OfficeExtension.Error;
}

/** What the user can do about it, where there is something. */
const ADVICE: Readonly<Record<string, string>> = {
  AccessDenied:
    "the workbook or the sheet is protected or may only be read; unprotect it or save a copy, then try again",
  InvalidOperationInCellEditMode: "a cell is being edited; press Enter or Esc, then try again",
  RequestAborted: "Excel broke off the request; try again",
  ApiNotFound: "this version of Excel is too old for it; update Excel",
  RequestPayloadSizeLimitExceeded:
    "it is more than Excel takes at once; on the web that is 5 MB: do it in Excel on a desktop, or with fewer rows",
  ResponsePayloadSizeLimitExceeded:
    "it is more than Excel gives at once; on the web that is 5 MB: do it in Excel on a desktop, or empty rows and columns that are not needed",
  UndoNotSupported: "this Excel cannot take it back in one step; update Excel",
  InactiveWorkbook:
    "this workbook is not the one in front, or a dialog is open in it; choose its window, close the dialog, then try again",
  InvalidArgument:
    "this Excel does not take what Downfeed sent, which is a fault of Downfeed; please report these words",
};

function hostError(error: OfficeExtension.Error): HostError {
  const advice = ADVICE[error.code];
  const { errorLocation = "" } = error.debugInfo;
  const where = errorLocation === "" ? "" : ` at ${errorLocation}`;
  const what = `${error.message} (${error.code}${where})`;
  return new HostError(advice === undefined ? `Excel refused: ${what}` : `${advice}: ${what}`, {
    cause: error,
  });
}
