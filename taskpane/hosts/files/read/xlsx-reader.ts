/**
 * An .xlsx file as a workbook snapshot.
 *
 * Read with a reader of our own, counted from the first byte: what comes from elsewhere never reaches a library that
 * believes a file's own sizes.
 */
import { colourReader } from "./colours-reading.js";
import { refusedFormula, typedFormula } from "../file-formulas.js";
import { FILE_LIMITS, FileRefusedError, requireAtMost } from "../file-limits.js";
import { typedText } from "../file-text.js";
import { type LeftOut, leftOutList, type LeftOutList } from "../left-out.js";
import { PRINT_TITLES, titleRows } from "../page-setup.js";
import { type PartReader, partReader, workbookPart } from "./parts-reading.js";
import { readSheet, type SheetContext } from "./sheet-reading.js";
import { readStyles } from "./styles-reading.js";
import { type StoredText, storedTextOf } from "./texts-reading.js";
import { damaged, unpack } from "./unpacking.js";
import { listUnreadParts } from "../unread-parts.js";
import type { NameSnapshot, SheetSnapshot, WorkbookSnapshot } from "../workbook-snapshot.js";
import { childOf, childrenOf, type XmlElement } from "./xml-reading.js";

export interface OpenedFile {
  readonly snapshot: WorkbookSnapshot;
  readonly leftOut: readonly LeftOut[];
}

/** @throws {FileRefusedError} with a sentence for the user. */
export function readXlsx(bytes: Uint8Array): OpenedFile {
  const parts = partReader(unpack(bytes));
  const leftOut = leftOutList();
  const main = workbookPart(parts);
  const book = parts.xml(main);
  if (book?.name !== "workbook")
    throw new FileRefusedError(
      "The file is not an .xlsx workbook: its main part is of another kind.",
    );
  listUnreadParts(parts.names, leftOut);
  const colourOf = colourReader(parts.relatedXml(main, "theme"));
  const context: SheetContext = {
    parts,
    leftOut,
    colourOf,
    texts: sharedTexts(parts, main),
    styles: readStyles(parts.relatedXml(main, "styles"), colourOf),
    dayShift: isFrom1904(book) ? DAYS_BETWEEN_1900_AND_1904 : 0,
    counted: {
      cells: 0,
      formulas: 0,
      characters: 0,
      spilled: 0,
      sharedCharacters: 0,
    },
  };
  const elements = childrenOf(childOf(book, "sheets"), "sheet");
  requireAtMost(elements.length, FILE_LIMITS.sheets, "sheets");
  const sheets = readSheets(elements, main, context);
  const names = namesIn(
    book,
    elements.map(({ attributes }) => typedText(attributes["name"] ?? "")),
    sheets,
    leftOut,
  );
  return { snapshot: { sheets, names }, leftOut: leftOut.items };
}

const DAYS_BETWEEN_1900_AND_1904 = 1_462;

function isFrom1904(book: XmlElement): boolean {
  const from = childOf(book, "workbookPr")?.attributes["date1904"];
  return from === "1" || from === "true";
}

function sharedTexts(parts: PartReader, main: string): readonly StoredText[] {
  const texts: StoredText[] = [];
  parts.relatedXml(main, "sharedStrings", (element, parent) => {
    if (element.name !== "si" || parent.name !== "sst") return false;
    texts.push(storedTextOf(element));
    requireAtMost(texts.length, FILE_LIMITS.cells, "texts");
    return true;
  });
  return texts;
}

function readSheets(
  elements: readonly XmlElement[],
  main: string,
  context: SheetContext,
): readonly SheetSnapshot[] {
  const related = context.parts.related(main);
  const taken = new Set<string>();
  const sheets = elements.flatMap(({ attributes }) => {
    const { name: stored = "", id, state } = attributes;
    const name = typedText(stored);
    if (!/^[^[\]:*?/\\]{1,31}$/.test(name) || taken.has(name.toLowerCase()))
      throw damaged("its sheets have no proper names");
    taken.add(name.toLowerCase());
    const found = related.find((each) => each.id === id && !each.isOutside);
    if (found?.type === "worksheet") {
      const isHidden = state === "hidden" || state === "veryHidden";
      return [readSheet(found.target, name, isHidden, context)];
    }
    if (!found) throw damaged(`the sheet ${name} is missing`);
    context.leftOut.add(
      found.type === "chartsheet" ? "sheets of charts" : "sheets of macros",
      name,
    );
    return [];
  });
  if (sheets.length === 0) throw new FileRefusedError("There is no sheet of cells in the file.");
  return sheets;
}

function namesIn(
  book: XmlElement,
  sheetNames: readonly string[],
  sheets: readonly SheetSnapshot[],
  leftOut: LeftOutList,
): readonly NameSnapshot[] {
  const elements = childrenOf(childOf(book, "definedNames"), "definedName");
  requireAtMost(elements.length, FILE_LIMITS.names, "names");
  const taken = new Set<string>();
  return elements.flatMap(({ attributes, text: stored }) => {
    const { name = "", localSheetId } = attributes;
    const text = typedText(stored).trim();
    const sheet = localSheetId === undefined ? undefined : sheetNames[Number(localSheetId)];
    const reason = refusedName(name, attributes, text);
    const isKnown = sheet === undefined || sheets.some((each) => each.name === sheet);
    const key = `${sheet ?? ""}!${name}`.toLowerCase();
    const own = sheets.find((each) => each.name === sheet);
    if (name === PRINT_TITLES && own && isTitleRows(text, own)) return [];
    if (reason !== undefined || !isKnown || taken.has(key)) {
      leftOut.add(reason ?? "names that cannot be used here", name.slice(0, 64));
      return [];
    }
    taken.add(key);
    const refersTo = typedFormula(text);
    return [{ name, refersTo, ...(sheet !== undefined && { sheet }) }];
  });
}

/** Spreadsheets leave quotes out that a sheet's name does not need. */
function isTitleRows(text: string, sheet: SheetSnapshot): boolean {
  const plain = (reference: string | undefined) => reference?.replaceAll("'", "");
  return plain(text) === plain(titleRows(sheet));
}

function refusedName(
  name: string,
  attributes: XmlElement["attributes"],
  text: string,
): string | undefined {
  if (name.startsWith("_xlnm.")) return "areas for printing and filters";
  if (attributes["vbProcedure"] ?? attributes["xlm"] ?? attributes["function"])
    return "macros (they are not run)";
  if (!/^[\p{L}_\\][\p{L}\p{N}_.\\?]{0,254}$/u.test(name) || text === "")
    return "names that cannot be used here";
  return refusedFormula(text) === undefined
    ? undefined
    : "names that refer to other files or tables";
}
