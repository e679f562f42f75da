/** One sheet as a part of a file. */
import { cellAddress } from "../../../../src/plans/addresses.js";
import { usedAddress, writeRows, type WritingContext } from "./cells-writing.js";
import { fitToPageText, pageSetupText } from "../page-setup.js";
import { writeRules, writeValidations } from "./rules-writing.js";
import { PIXELS_PER_DIGIT } from "../usual-look.js";
import type { SheetSnapshot } from "../workbook-snapshot.js";
import { storedColour, xml, XML_HEAD, xmlList } from "./xml-writing.js";

/** Ids of the parts that a sheet refers to; nothing where it has none. */
export interface SheetRelations {
  readonly drawing: string | undefined;
  readonly noteBoxes: string | undefined;
}

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const RELATIONS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";

/** Its elements stand in the order that the format asks for (ECMA-376 18.3.1.99). */
export function sheetPart(
  sheet: SheetSnapshot,
  isFirstShown: boolean,
  relations: SheetRelations,
  context: WritingContext,
): string {
  const relation = (name: string, id: string | undefined) =>
    id === undefined ? "" : xml(name, { "r:id": id });
  return (
    XML_HEAD +
    xml(
      "worksheet",
      { xmlns: MAIN, "xmlns:r": RELATIONS },
      xml(
        "sheetPr",
        {},
        sheet.tabColour === undefined ? "" : xml("tabColor", storedColour(sheet.tabColour)),
        fitToPageText(),
      ),
      xml("dimension", { ref: usedAddress(sheet.cells) }),
      viewText(sheet, isFirstShown),
      xml("sheetFormatPr", { defaultRowHeight: 15 }),
      columnsText(sheet),
      xml("sheetData", {}, writeRows(sheet, context)),
      xmlList(
        "mergeCells",
        sheet.merges.map((ref) => xml("mergeCell", { ref })),
      ),
      writeRules(sheet, context),
      writeValidations(sheet, context),
      pageSetupText(),
      relation("drawing", relations.drawing),
      relation("legacyDrawing", relations.noteBoxes),
    )
  );
}

function viewText({ frozen, gridlinesHidden }: SheetSnapshot, isFirstShown: boolean): string {
  return xml(
    "sheetViews",
    {},
    xml(
      "sheetView",
      {
        showGridLines: gridlinesHidden ? 0 : undefined,
        tabSelected: isFirstShown ? 1 : undefined,
        workbookViewId: 0,
      },
      paneText(frozen),
    ),
  );
}

function paneText({ rows, columns }: SheetSnapshot["frozen"]): string {
  if (rows === 0 && columns === 0) return "";
  const activePane = rows === 0 ? "topRight" : columns === 0 ? "bottomLeft" : "bottomRight";
  return (
    xml("pane", {
      xSplit: columns || undefined,
      ySplit: rows || undefined,
      topLeftCell: cellAddress({ row: rows, column: columns }),
      activePane,
      state: "frozen",
    }) + xml("selection", { pane: activePane })
  );
}

/** What a hidden column without a width of its own is wide when it is shown again. */
const USUAL_WIDTH = 64;

function columnsText({ columnWidths, hiddenColumns }: SheetSnapshot): string {
  const hidden = new Set(hiddenColumns);
  const columns = [...new Set([...Object.keys(columnWidths).map(Number), ...hidden])].sort(
    (one, other) => one - other,
  );
  if (columns.length === 0) return "";
  const written = columns.map((column) => {
    const width = columnWidths[column];
    return xml("col", {
      min: column + 1,
      max: column + 1,
      width: (width ?? USUAL_WIDTH) / PIXELS_PER_DIGIT,
      hidden: hidden.has(column) ? 1 : undefined,
      customWidth: width === undefined ? undefined : 1,
    });
  });
  return xml("cols", {}, ...written);
}
