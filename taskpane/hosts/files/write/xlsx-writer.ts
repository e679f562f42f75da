/** A workbook snapshot as an .xlsx file, packed. The same snapshot gives the same bytes. */
import { strToU8, zipSync } from "fflate";
import { textsTable, type WritingContext } from "./cells-writing.js";
import { refusedFormula, storedFormula } from "../file-formulas.js";
import { FILE_LIMITS, FileRefusedError } from "../file-limits.js";
import { drawingPart, imageBytes } from "./images-writing.js";
import { type LeftOut, leftOutList } from "../left-out.js";
import { commentsPart, notedCells, noteBoxesPart } from "./notes-writing.js";
import { PRINT_TITLES, titleRows } from "../page-setup.js";
import { type PartsWriter, partsWriter } from "./parts-writing.js";
import { sheetPart } from "./sheet-writing.js";
import { SPILL_METADATA } from "./spill-metadata.js";
import { stylesTable } from "./styles-writing.js";
import type { SheetSnapshot, WorkbookSnapshot } from "../workbook-snapshot.js";
import { xml, XML_HEAD, xmlText } from "./xml-writing.js";

export interface WrittenFile {
  readonly bytes: Uint8Array;
  readonly leftOut: readonly LeftOut[];
}

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const RELATIONS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const WORKBOOK = "xl/workbook.xml";
const PROPERTIES = "docProps/app.xml";

/** @throws {FileRefusedError} for more than a file of ours may hold. */
export function writeXlsx(snapshot: WorkbookSnapshot): WrittenFile {
  requireWritable(snapshot);
  const leftOut = leftOutList();
  const context: WritingContext = {
    styles: stylesTable(),
    texts: textsTable(),
    leftOut,
    spills: false,
  };
  const parts = partsWriter();
  parts.relate("", "officeDocument", WORKBOOK);
  const firstShown = snapshot.sheets.findIndex(({ hidden }) => !hidden);
  const ids = snapshot.sheets.map((sheet, index) =>
    addSheet(parts, sheet, index, index === firstShown, context),
  );
  const add = (name: string, kind: string, text: string) => {
    parts.add(name, kind, text);
    parts.relate(WORKBOOK, kind, name);
  };
  add("xl/styles.xml", "styles", XML_HEAD + context.styles.text());
  add("xl/sharedStrings.xml", "sharedStrings", XML_HEAD + context.texts.part());
  if (context.spills) add("xl/metadata.xml", "sheetMetadata", XML_HEAD + SPILL_METADATA);
  parts.add(WORKBOOK, "workbook", workbookPart(snapshot, ids, context));
  parts.add(PROPERTIES, "extended-properties", propertiesPart());
  parts.relate("", "extended-properties", PROPERTIES);
  return { bytes: packed(parts), leftOut: leftOut.items };
}

function requireWritable({ sheets }: WorkbookSnapshot): void {
  const cells = sheets.reduce((sum, sheet) => sum + sheet.cells.length, 0);
  if (sheets.length > FILE_LIMITS.sheets || cells > FILE_LIMITS.cells)
    throw new FileRefusedError(
      `The workbook has more than ${FILE_LIMITS.sheets} sheets or ${FILE_LIMITS.cells.toLocaleString("en")} cells, which is more than could be opened again.`,
    );
}

/** @returns the relation by which the workbook knows the sheet */
function addSheet(
  parts: PartsWriter,
  sheet: SheetSnapshot,
  index: number,
  isFirstShown: boolean,
  context: WritingContext,
): string {
  const number = index + 1;
  const name = `xl/worksheets/sheet${number}.xml`;
  const drawing = addImages(parts, sheet, name, number);
  const noteBoxes = addNotes(parts, sheet, name, number);
  const text = sheetPart(sheet, isFirstShown, { drawing, noteBoxes }, context);
  parts.add(name, "worksheet", text);
  return parts.relate(WORKBOOK, "worksheet", name);
}

function addImages(
  parts: PartsWriter,
  { images }: SheetSnapshot,
  sheet: string,
  number: number,
): string | undefined {
  if (images.length === 0) return undefined;
  const drawing = `xl/drawings/drawing${number}.xml`;
  for (const [index, image] of images.entries()) {
    const media = `xl/media/image${number}-${index + 1}.${image.type}`;
    parts.addBytes(media, image.type, imageBytes(image));
    parts.relate(drawing, "image", media);
  }
  parts.add(drawing, "drawing", drawingPart(images));
  return parts.relate(sheet, "drawing", drawing);
}

function addNotes(
  parts: PartsWriter,
  { cells }: SheetSnapshot,
  sheet: string,
  number: number,
): string | undefined {
  const noted = notedCells(cells);
  if (noted.length === 0) return undefined;
  const comments = `xl/comments${number}.xml`;
  const boxes = `xl/drawings/vmlDrawing${number}.vml`;
  parts.add(comments, "comments", commentsPart(noted));
  parts.addBytes(boxes, "vml", strToU8(noteBoxesPart(noted)));
  parts.relate(sheet, "comments", comments);
  return parts.relate(sheet, "vmlDrawing", boxes);
}

function workbookPart(
  snapshot: WorkbookSnapshot,
  ids: readonly string[],
  context: WritingContext,
): string {
  const sheets = snapshot.sheets.map(({ name, hidden }, index) =>
    xml("sheet", {
      name,
      sheetId: index + 1,
      state: hidden ? "hidden" : undefined,
      "r:id": ids[index],
    }),
  );
  const active = snapshot.sheets.findIndex(({ hidden }) => !hidden);
  return (
    XML_HEAD +
    xml(
      "workbook",
      { xmlns: MAIN, "xmlns:r": RELATIONS },
      // The name of the format, which readers go by when they decide whether stored results hold.
      xml("fileVersion", {
        appName: "xl",
        lastEdited: 7,
        lowestEdited: 7,
        rupBuild: 22228,
      }),
      xml("workbookPr"),
      xml("bookViews", {}, xml("workbookView", { activeTab: active })),
      xml("sheets", {}, ...sheets),
      namesText(snapshot, context),
      xml("calcPr", { calcId: 191029 }),
    )
  );
}

/**
 * Whose kind of file it is: some spreadsheets keep the stored texts of formulas that they do not know only in files that
 * say so, and show `#NAME?` in all others.
 */
function propertiesPart(): string {
  return (
    XML_HEAD +
    xml(
      "Properties",
      {
        xmlns: "http://schemas.openxmlformats.org/officeDocument/2006/extended-properties",
      },
      xml("Application", {}, "Microsoft Excel"),
      xml("AppVersion", {}, "16.0300"),
    )
  );
}

function namesText({ names, sheets }: WorkbookSnapshot, { leftOut }: WritingContext): string {
  const written = names.flatMap(({ name, refersTo, sheet }) => {
    const stored = storedFormula(refersTo);
    const index = sheets.findIndex((each) => each.name === sheet);
    if (refusedFormula(stored) !== undefined || (sheet !== undefined && index < 0)) {
      leftOut.add("names that refer to other files or tables", name);
      return [];
    }
    const localSheetId = sheet === undefined ? undefined : index;
    return [xml("definedName", { name, localSheetId }, xmlText(stored))];
  });
  const titles = sheets.flatMap((sheet, localSheetId) => {
    const rows = titleRows(sheet);
    return rows === undefined
      ? []
      : [xml("definedName", { name: PRINT_TITLES, localSheetId }, xmlText(rows))];
  });
  const all = [...titles, ...written];
  return all.length === 0 ? "" : xml("definedNames", {}, ...all);
}

/** The earliest day that a packed file can name: when it was saved is no part of it. */
const NO_DAY = new Date(1980, 0, 1);

function packed(parts: PartsWriter): Uint8Array {
  return zipSync(Object.fromEntries(parts.all()), { level: 6, mtime: NO_DAY });
}
