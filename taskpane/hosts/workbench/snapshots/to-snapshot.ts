/** The workbench's workbook as a snapshot, and what a snapshot cannot say of it. */
import type {
  ICellData,
  IRange,
  IStyleData,
  IWorkbookData,
  IWorksheetData,
  Nullable,
} from "@univerjs/core";
import type { FWorksheet } from "@univerjs/sheets/facade";
import { rangePlace, cellAddress } from "../../../../src/plans/addresses.js";
import { type LeftOut, leftOutList, type LeftOutList } from "../../files/left-out.js";
import type {
  CellSnapshot,
  NameSnapshot,
  SheetSnapshot,
  SnapshotValue,
  WorkbookSnapshot,
} from "../../files/workbook-snapshot.js";
import { readCells, usedRange } from "../cells.js";
import { imageSnapshot, type StoredImage } from "./file-images.js";
import {
  ruleSnapshot,
  type StoredRule,
  type StoredValidation,
  validationSnapshot,
} from "./file-rules.js";
import { isMoreThanLook, lookOf } from "../looks.js";
import { addressOf } from "./snapshot.js";
import type { Spreadsheet } from "../spreadsheet.js";

export interface SnapshotTaken {
  readonly snapshot: WorkbookSnapshot;
  readonly leftOut: readonly LeftOut[];
}

/** What the spreadsheet's parts keep beside the sheets, by sheet. */
interface Kept {
  readonly validations: Record<string, readonly StoredValidation[]>;
  readonly rules: Record<string, readonly StoredRule[]>;
  readonly notes: Record<string, Record<string, Record<string, StoredNote>>>;
  readonly images: Record<
    string,
    {
      readonly data: Record<string, StoredImage>;
      readonly order?: readonly string[];
    }
  >;
  readonly names: Record<string, StoredName>;
}

interface StoredNote {
  readonly note?: string;
}

interface StoredName {
  readonly name: string;
  readonly formulaOrRefString: string;
  readonly localSheetId?: string;
}

export function takeSnapshot(spreadsheet: Spreadsheet): SnapshotTaken {
  const { workbook } = spreadsheet;
  const leftOut = leftOutList();
  const data = workbook.save();
  const kept = keptBeside(data);
  const sheets = workbook
    .getSheets()
    .map((sheet) => sheetSnapshot(spreadsheet, sheet, data, kept, leftOut));
  const names = Object.values(kept.names).map((stored) => nameSnapshot(stored, data));
  return { snapshot: { sheets, names }, leftOut: leftOut.items };
}

function keptBeside({ resources = [] }: IWorkbookData): Kept {
  const part = (name: string) => {
    const text = resources.find((each) => each.name === name)?.data;
    return (text ? JSON.parse(text) : {}) as never;
  };
  return {
    validations: part("SHEET_DATA_VALIDATION_PLUGIN"),
    rules: part("SHEET_CONDITIONAL_FORMATTING_PLUGIN"),
    notes: part("SHEET_NOTE_PLUGIN"),
    images: part("SHEET_DRAWING_PLUGIN"),
    names: part("SHEET_DEFINED_NAME_PLUGIN"),
  };
}

function nameSnapshot(
  { name, formulaOrRefString, localSheetId }: StoredName,
  { sheets }: IWorkbookData,
): NameSnapshot {
  const refersTo = formulaOrRefString.replace(/^=/, "");
  const sheet = sheets[localSheetId ?? ""]?.name;
  return { name, refersTo, ...(sheet !== undefined && { sheet }) };
}

function sheetSnapshot(
  spreadsheet: Spreadsheet,
  sheet: FWorksheet,
  { sheets, styles }: IWorkbookData,
  kept: Kept,
  leftOut: LeftOutList,
): SheetSnapshot {
  const id = sheet.getSheetId();
  const name = sheet.getSheetName();
  const data = sheets[id] ?? {};
  const notes = kept.notes[id] ?? {};
  const { data: images = {}, order = Object.keys(images) } = kept.images[id] ?? {};
  return {
    name,
    ...(data.hidden === 1 && { hidden: true }),
    ...(data.tabColor && { tabColour: data.tabColor.toLowerCase() }),
    ...(data.showGridlines === 0 && { gridlinesHidden: true }),
    cells: cellSnapshots(spreadsheet, sheet, { data, styles, notes, leftOut }),
    ...linesOf(data),
    frozen: {
      rows: Math.max(0, data.freeze?.ySplit ?? 0),
      columns: Math.max(0, data.freeze?.xSplit ?? 0),
    },
    merges: (data.mergeData ?? []).map(addressOf),
    validations: known(kept.validations[id] ?? [], validationSnapshot, () =>
      leftOut.add("validations of a kind that files have not", name),
    ),
    rules: known(kept.rules[id] ?? [], ruleSnapshot, () =>
      leftOut.add("conditional formats that cannot be saved here", name),
    ),
    images: known(
      order.flatMap((key) => images[key] ?? []),
      imageSnapshot,
      () => leftOut.add("pictures of a kind that files have not", name),
    ),
  };
}

/** What could be taken over; each of the others is told of. */
function known<From, To>(
  items: readonly From[],
  take: (item: From) => To | undefined,
  lose: () => void,
): readonly To[] {
  return items.flatMap((item) => {
    const taken = take(item);
    if (taken === undefined) lose();
    return taken === undefined ? [] : [taken];
  });
}

type Lines = Pick<SheetSnapshot, "columnWidths" | "hiddenColumns" | "rowHeights" | "hiddenRows">;

/** Heights that follow from the text are left to whoever opens the file. */
function linesOf({ columnData = {}, rowData = {} }: Partial<IWorksheetData>): Lines {
  const columns = Object.entries(columnData);
  const rows = Object.entries(rowData);
  const numbers = (entries: readonly (readonly [string, unknown])[]) =>
    entries.map(([line]) => Number(line));
  return {
    columnWidths: Object.fromEntries(
      columns.flatMap(([column, line]) => (line?.w ? [[column, line.w]] : [])),
    ),
    hiddenColumns: numbers(columns.filter(([, line]) => line?.hd === 1)),
    rowHeights: Object.fromEntries(
      rows.flatMap(([row, line]) => (line?.h && line.ia !== 1 ? [[row, line.h]] : [])),
    ),
    hiddenRows: numbers(rows.filter(([, line]) => line?.hd === 1)),
  };
}

interface SheetParts {
  readonly data: Partial<IWorksheetData>;
  readonly styles: IWorkbookData["styles"];
  readonly notes: Record<string, Record<string, StoredNote>>;
  readonly leftOut: LeftOutList;
}

function cellSnapshots(
  { vendor, injector, workbook }: Spreadsheet,
  sheet: FWorksheet,
  { data, styles, notes, leftOut }: SheetParts,
): readonly CellSnapshot[] {
  const spills = injector.get(vendor.FormulaDataModel);
  const extents = spills.getArrayFormulaRange()[workbook.getId()]?.[sheet.getSheetId()] ?? {};
  const { address } = usedRange(sheet, spills);
  const used = readCells(sheet, spills, address);
  const { bottom, right } = rangePlace(address);
  const stored = (data.cellData ?? {}) as Record<string, Record<string, Nullable<ICellData>>>;
  const rows = linesUpTo(bottom, [stored, notes]);
  return rows.flatMap((row) => {
    const columns = linesUpTo(row > bottom ? -1 : right, [stored[row] ?? {}, notes[row] ?? {}]);
    return columns.flatMap((column) => {
      const own = stored[row]?.[column];
      const at = cellAddress({ row, column });
      const where = `${sheet.getSheetName()}!${at}`;
      const style = styleIn(own, styles);
      if (isMoreThanLook(style)) leftOut.add("turned, raised or lowered text", where);
      const look = lookOf(style);
      const formula = used.formulas[row]?.[column] ?? "";
      const value = valueOf(own, used.values[row]?.[column] ?? "", where, leftOut);
      const extent = extents[row]?.[column];
      const note = notes[row]?.[column]?.note;
      const cell: CellSnapshot = {
        at,
        ...((value !== "" || formula !== "") && { value }),
        ...(formula !== "" && { formula: formula.replace(/^=/, "") }),
        ...(formula !== "" && isRange(extent) && { spill: addressOf(extent) }),
        ...(look && { look }),
        ...(note && { note }),
      };
      return Object.keys(cell).length > 1 ? [cell] : [];
    });
  });
}

/** Every line up to one, and those beyond it that something is kept of. */
function linesUpTo(last: number, kept: readonly Readonly<Record<string, unknown>>[]): number[] {
  const beyond = kept
    .flatMap((lines) => Object.keys(lines).map(Number))
    .filter((line) => line > last);
  const within = Array.from({ length: last + 1 }, (_, line) => line);
  return [...within, ...[...new Set(beyond)].sort((one, other) => one - other)];
}

function styleIn(cell: Nullable<ICellData>, styles: IWorkbookData["styles"]): Nullable<IStyleData> {
  return typeof cell?.s === "string" ? styles[cell.s] : cell?.s;
}

/** Text that is looked at letter by letter is kept in a document of its own. */
function valueOf(
  cell: Nullable<ICellData>,
  value: SnapshotValue,
  where: string,
  leftOut: LeftOutList,
): SnapshotValue {
  const { body } = cell?.p ?? {};
  if (!body) return value;
  if ((body.textRuns ?? []).length > 0)
    leftOut.add("different looks within one cell (the text is kept)", where);
  if ((body.customRanges ?? []).length > 0)
    leftOut.add("links on cells (their text is kept)", where);
  return body.dataStream.replace(/\r\n$/, "").replaceAll("\r", "\n");
}

function isRange(extent: Nullable<IRange>): extent is IRange {
  return !!extent && (extent.startRow !== extent.endRow || extent.startColumn !== extent.endColumn);
}
