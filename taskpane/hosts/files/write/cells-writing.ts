/** The rows and cells of a sheet as a file holds them. */
import { rangePlace, cellAddress, cellPlace } from "../../../../src/plans/addresses.js";
import { refusedFormula, storedFormula, worksThroughArrays } from "../file-formulas.js";
import { FILE_LIMITS } from "../file-limits.js";
import type { LeftOutList } from "../left-out.js";
import type { StylesTable } from "./styles-writing.js";
import { PIXELS_PER_POINT } from "../usual-look.js";
import type { CellSnapshot, SheetSnapshot, SnapshotValue } from "../workbook-snapshot.js";
import { xml, xmlText, xmlTextElement } from "./xml-writing.js";

/** What all sheets of a file write to. */
export interface WritingContext {
  readonly styles: StylesTable;
  readonly texts: TextsTable;
  readonly leftOut: LeftOutList;
  /** Whether a formula was written that fills a range by itself, which a part of the file has to explain. */
  spills: boolean;
}

export interface TextsTable {
  numberOf(text: string): number;
  part(): string;
}

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";

export function textsTable(): TextsTable {
  const numbers = new Map<string, number>();
  let count = 0;
  return {
    numberOf(text) {
      count += 1;
      const number = numbers.get(text) ?? numbers.size;
      numbers.set(text, number);
      return number;
    },
    part: () =>
      xml(
        "sst",
        { xmlns: MAIN, count, uniqueCount: numbers.size },
        ...[...numbers.keys()].map((text) => xml("si", {}, xmlTextElement(text))),
      ),
  };
}

export function writeRows(sheet: SheetSnapshot, context: WritingContext): string {
  const hidden = new Set(sheet.hiddenRows);
  const cells = new Map<number, string[]>();
  for (const cell of inOrder(sheet.cells)) {
    const text = cellText(cell, sheet.name, context);
    if (text === "") continue;
    const { row } = cellPlace(cell.at);
    const ofRow = cells.get(row);
    if (ofRow) ofRow.push(text);
    else cells.set(row, [text]);
  }
  const rows = new Set([...cells.keys(), ...Object.keys(sheet.rowHeights).map(Number), ...hidden]);
  return [...rows]
    .sort((one, other) => one - other)
    .map((row) => {
      const height = sheet.rowHeights[row];
      return xml(
        "row",
        {
          r: row + 1,
          ht: height === undefined ? undefined : height / PIXELS_PER_POINT,
          customHeight: height === undefined ? undefined : 1,
          hidden: hidden.has(row) ? 1 : undefined,
        },
        ...(cells.get(row) ?? []),
      );
    })
    .join("");
}

function inOrder(cells: readonly CellSnapshot[]): readonly CellSnapshot[] {
  return cells
    .map((cell) => ({ cell, place: cellPlace(cell.at) }))
    .sort(({ place: one }, { place: other }) => one.row - other.row || one.column - other.column)
    .map(({ cell }) => cell);
}

/** Nothing for a cell that carries only a note. */
function cellText(cell: CellSnapshot, sheet: string, context: WritingContext): string {
  const where = `${sheet}!${cell.at}`;
  const s = context.styles.lookNumber(cell.look);
  if ((cell.look?.format?.length ?? 0) > FILE_LIMITS.formatLength)
    context.leftOut.add("number formats that are too long for a file", where);
  const formula = formulaText(cell, where, context);
  const { type, text } = valueText(cell.value, formula.text !== "", where, context);
  if (s === 0 && formula.text === "" && text === "") return "";
  return xml(
    "c",
    {
      r: cell.at,
      s: s || undefined,
      t: type,
      cm: formula.isArray ? 1 : undefined,
    },
    formula.text,
    text,
  );
}

/** A formula that fills a range, or works through arrays on its way, is marked as one: a file would else take single cells out of its ranges. */
function formulaText(
  { at, formula, spill }: CellSnapshot,
  where: string,
  context: WritingContext,
): { readonly text: string; readonly isArray: boolean } {
  if (formula === undefined) return { text: "", isArray: false };
  const stored = storedFormula(formula);
  const reason = refusedFormula(stored);
  if (reason !== undefined) {
    context.leftOut.add(reason, where);
    return { text: "", isArray: false };
  }
  const isArray = spill !== undefined || worksThroughArrays(formula);
  context.spills ||= isArray;
  const attributes = isArray ? { t: "array", ref: spill ?? at } : {};
  return { text: xml("f", attributes, xmlText(stored)), isArray };
}

/** Codes that every reader of the format knows (ECMA-376 18.18.11); newer ones stand for a value error. */
const ERRORS = new Set(["#NULL!", "#DIV/0!", "#VALUE!", "#REF!", "#NAME?", "#NUM!", "#N/A"]);

function valueText(
  value: SnapshotValue | undefined,
  isResult: boolean,
  where: string,
  { texts, leftOut }: WritingContext,
): { readonly type?: string; readonly text: string } {
  const v = (inside: string | number) => xml("v", {}, String(inside));
  switch (typeof value) {
    case "undefined":
      return { text: "" };
    case "number":
      return { text: v(value) };
    case "boolean":
      return { type: "b", text: v(Number(value)) };
    case "object":
      return {
        type: "e",
        text: v(ERRORS.has(value.error) ? value.error : "#VALUE!"),
      };
    case "string": {
      if (value.length > FILE_LIMITS.textLength)
        leftOut.add("ends of texts that are too long for a cell", where);
      const kept = value.slice(0, FILE_LIMITS.textLength);
      return isResult
        ? { type: "str", text: v(xmlText(kept)) }
        : { type: "s", text: v(texts.numberOf(kept)) };
    }
  }
}

/** The range from the first to the last cell that is written; `A1` for an empty sheet. */
export function usedAddress(cells: readonly CellSnapshot[]): string {
  if (cells.length === 0) return "A1";
  let [top, left, bottom, right] = [Infinity, Infinity, 0, 0];
  for (const { at, spill } of cells) {
    const place = rangePlace(spill ?? at);
    top = Math.min(top, place.top);
    left = Math.min(left, place.left);
    bottom = Math.max(bottom, place.bottom);
    right = Math.max(right, place.right);
  }
  const from = cellAddress({ row: top, column: left });
  return `${from}:${cellAddress({ row: bottom, column: right })}`;
}
