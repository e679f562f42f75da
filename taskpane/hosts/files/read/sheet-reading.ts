/** One sheet of a file. */
import { rangeAddress, rangePlace } from "../../../../src/plans/addresses.js";
import { type CellContext, cellReader, isWithin, placeIn } from "./cells-reading.js";
import type { ColourReader } from "./colours-reading.js";
import { FILE_LIMITS, FileRefusedError, requireAtMost } from "../file-limits.js";
import { readImages } from "./images-reading.js";
import { readNotes } from "./notes-reading.js";
import type { PartReader } from "./parts-reading.js";
import { readRules, readValidations } from "./rules-reading.js";
import { damaged } from "./unpacking.js";
import { listUnreadElements } from "../unread-parts.js";
import { PIXELS_PER_DIGIT, PIXELS_PER_POINT } from "../usual-look.js";
import type { CellSnapshot, SheetSnapshot } from "../workbook-snapshot.js";
import { childOf, childrenOf, type XmlElement } from "./xml-reading.js";

export interface SheetContext extends CellContext {
  readonly parts: PartReader;
  readonly colourOf: ColourReader;
}

/** @throws {FileRefusedError} */
export function readSheet(
  part: string,
  name: string,
  isHidden: boolean,
  context: SheetContext,
): SheetSnapshot {
  const { parts, leftOut, colourOf } = context;
  const grid = gridReader(name, context);
  const root = parts.xml(part, grid.takes);
  if (root?.name !== "worksheet") throw damaged(`the sheet ${name} is missing`);
  listUnreadElements(root, name, leftOut);
  const notes = readNotes(parts, part, name, leftOut);
  const tabColour = colourOf(childOf(root, "sheetPr", "tabColor"));
  const view = childOf(root, "sheetViews", "sheetView");
  const rules = { sheet: name, ...context };
  return {
    name,
    ...(isHidden && { hidden: true }),
    ...(tabColour !== undefined && { tabColour }),
    ...(view?.attributes["showGridLines"] === "0" && { gridlinesHidden: true }),
    cells: withNotes(grid.cells, notes),
    ...columnsOf(root),
    rowHeights: grid.rowHeights,
    hiddenRows: grid.hiddenRows,
    frozen: frozenOf(childOf(view, "pane")),
    merges: mergesOf(root, name, context),
    validations: readValidations(root, rules),
    rules: readRules(root, rules),
    images: readImages(parts, part, name, leftOut),
  };
}

/** Takes rows and cells as they come, so that the whole sheet need not be held as XML. */
function gridReader(sheet: string, context: SheetContext) {
  const reader = cellReader(sheet, context);
  const cells: CellSnapshot[] = [];
  const rowHeights: Record<number, number> = {};
  const hiddenRows: number[] = [];
  let row = -1;
  let column = -1;
  let current: XmlElement | undefined;

  function enter(element: XmlElement): void {
    if (element === current) return;
    current = element;
    const given = element.attributes["r"];
    const next = given === undefined ? row + 1 : Number(given) - 1;
    if (!Number.isInteger(next) || next <= row || next >= 1_048_576)
      throw damaged(`the rows of ${sheet} are not in order`);
    row = next;
    column = -1;
    if (row >= FILE_LIMITS.rows) return;
    const height = Number(element.attributes["ht"]);
    if (height > 0 && height <= 409.5) rowHeights[row] = Math.round(height * PIXELS_PER_POINT);
    if (isOn(element.attributes["hidden"])) hiddenRows.push(row);
  }

  function takeCell(element: XmlElement, parent: XmlElement): void {
    enter(parent);
    const at = element.attributes["r"];
    const place = at === undefined ? { row, column: column + 1 } : placeIn(sheet, at);
    if (place.row !== row || place.column <= column)
      throw damaged(`the cells of ${sheet} are not in order`);
    column = place.column;
    const cell = reader.read(element, place);
    if (!cell) return;
    if (isWithin(row, column)) cells.push(cell);
    else if (cell.value === undefined && cell.formula === undefined)
      context.leftOut.add("looks of empty cells far outside the used ones", sheet);
    else
      throw new FileRefusedError(
        `${sheet}!${cell.at} lies beyond row ${FILE_LIMITS.rows.toLocaleString("en")} or column ${FILE_LIMITS.columns.toLocaleString("en")}, where the workbench's sheets end.`,
      );
  }

  return {
    cells,
    rowHeights,
    hiddenRows,
    takes(element: XmlElement, parent: XmlElement): boolean {
      if (parent.name === "row" && element.name === "c") {
        takeCell(element, parent);
        return true;
      }
      if (element.name === "row" && parent.name === "sheetData") {
        enter(element);
        return true;
      }
      return false;
    },
  };
}

function isOn(value: string | undefined): boolean {
  return value === "1" || value === "true";
}

function columnsOf(root: XmlElement): Pick<SheetSnapshot, "columnWidths" | "hiddenColumns"> {
  const columnWidths: Record<number, number> = {};
  const hiddenColumns = new Set<number>();
  const elements = childrenOf(childOf(root, "cols"), "col");
  requireAtMost(elements.length, FILE_LIMITS.columns, "widths of columns");
  for (const { attributes } of elements) {
    const first = Math.max(1, Math.trunc(Number(attributes["min"] ?? 1)));
    const last = Math.min(Number(attributes["max"] ?? 0), FILE_LIMITS.columns);
    const width = Number(attributes["width"]);
    for (let column = first - 1; column < last; column += 1) {
      if (width > 0 && width <= 255) columnWidths[column] = Math.round(width * PIXELS_PER_DIGIT);
      if (isOn(attributes["hidden"])) hiddenColumns.add(column);
    }
  }
  return { columnWidths, hiddenColumns: [...hiddenColumns] };
}

function frozenOf(pane: XmlElement | undefined): SheetSnapshot["frozen"] {
  const { state, xSplit, ySplit } = pane?.attributes ?? {};
  const isFrozen = state === "frozen" || state === "frozenSplit";
  const count = (text: string | undefined) => {
    const lines = Math.trunc(Number(text ?? 0));
    return isFrozen && lines > 0 && lines <= 1_000 ? lines : 0;
  };
  return { rows: count(ySplit), columns: count(xSplit) };
}

function mergesOf(root: XmlElement, sheet: string, { leftOut }: SheetContext): readonly string[] {
  const elements = childrenOf(childOf(root, "mergeCells"), "mergeCell");
  requireAtMost(elements.length, FILE_LIMITS.merges, "merged areas on a sheet");
  const ranges = elements
    .flatMap(({ attributes }) => {
      try {
        return [rangePlace(attributes["ref"] ?? "")];
      } catch {
        throw damaged(`a merged area on ${sheet} has no proper address`);
      }
    })
    .sort((one, other) => one.top - other.top || one.left - other.left);
  let near: typeof ranges = [];
  return ranges.flatMap((range) => {
    near = near.filter(({ bottom }) => bottom >= range.top);
    const meets = near.some(({ left, right }) => left <= range.right && range.left <= right);
    if (meets || !isWithin(range.bottom, range.right)) {
      leftOut.add("merged areas that meet others or reach too far", sheet);
      return [];
    }
    near.push(range);
    return [rangeAddress(range)];
  });
}

/** Notes may lie on cells that hold nothing else. */
function withNotes(
  cells: readonly CellSnapshot[],
  notes: ReadonlyMap<string, string>,
): readonly CellSnapshot[] {
  if (notes.size === 0) return cells;
  const left = new Map(notes);
  const noted = cells.map((cell) => {
    const note = left.get(cell.at);
    left.delete(cell.at);
    return note === undefined ? cell : { ...cell, note };
  });
  const order = (at: string) => {
    const { top, left: column } = rangePlace(at);
    return top * FILE_LIMITS.columns + column;
  };
  const more = [...left].map(([at, note]) => ({ at, note }));
  return more.length === 0
    ? noted
    : [...noted, ...more].sort((one, other) => order(one.at) - order(other.at));
}
