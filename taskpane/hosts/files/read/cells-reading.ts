/** One cell of a file at a time: its value, formula and look. */
import {
  rangeAddress,
  rangePlace,
  cellAddress,
  cellPlace,
  type CellPlace,
} from "../../../../src/plans/addresses.js";
import { FILE_LIMITS, requireAtMost } from "../file-limits.js";
import { refusedFormula, typedFormula } from "../file-formulas.js";
import { typedText } from "../file-text.js";
import type { LeftOutList } from "../left-out.js";
import { movedFormula } from "./shared-formulas.js";
import type { StylesRead } from "./styles-reading.js";
import { type StoredText, storedTextOf } from "./texts-reading.js";
import { damaged } from "./unpacking.js";
import type { CellSnapshot, SnapshotValue } from "../workbook-snapshot.js";
import { childOf, type XmlElement } from "./xml-reading.js";

/** What is the same for all sheets of a file, and what is counted over all of them. */
export interface CellContext {
  readonly texts: readonly StoredText[];
  readonly styles: StylesRead;
  readonly leftOut: LeftOutList;
  /** Days between the file's day 0 and the usual one. */
  readonly dayShift: number;
  readonly counted: {
    cells: number;
    formulas: number;
    characters: number;
    spilled: number;
    sharedCharacters: number;
  };
}

/** Reads the cells of one sheet in the order they stand in. */
export interface CellReader {
  /** @throws {FileRefusedError} */
  read(element: XmlElement, place: CellPlace): CellSnapshot | undefined;
}

interface Shared {
  readonly formula: string;
  readonly place: CellPlace;
}

export function cellReader(sheet: string, context: CellContext): CellReader {
  const { styles, leftOut, counted } = context;
  const shared = new Map<string, Shared>();

  function formulaOf(
    element: XmlElement | undefined,
    place: CellPlace,
  ): Pick<CellSnapshot, "formula" | "spill"> {
    if (!element) return {};
    const where = `${sheet}!${cellAddress(place)}`;
    const { t: kind, si = "", ref } = element.attributes;
    if (kind === "dataTable") {
      leftOut.add("what-if tables (their values are kept)", where);
      return {};
    }
    const stored = typedText(element.text) || sharedFormula(si, place);
    if (stored === "") return {};
    const reason = refusedFormula(stored);
    if (reason) {
      leftOut.add(reason, where);
      return {};
    }
    if (kind === "shared" && element.text !== "") shared.set(si, { formula: stored, place });
    const formula = typedFormula(stored);
    counted.formulas += 1;
    requireAtMost(counted.formulas, FILE_LIMITS.formulas, "formulas");
    countCharacters(formula);
    const spill = kind === "array" ? spillRange(ref, place) : undefined;
    if (spill !== undefined) countSpilled(spill);
    return { formula, ...(spill !== undefined && { spill }) };
  }

  function countSpilled(range: string): void {
    const { top, left, bottom, right } = rangePlace(range);
    counted.spilled += (bottom - top + 1) * (right - left + 1);
    requireAtMost(counted.spilled, FILE_LIMITS.cells, "cells that its formulas fill");
  }

  function sharedFormula(index: string, place: CellPlace): string {
    const first = shared.get(index);
    if (!first) return "";
    counted.sharedCharacters += first.formula.length;
    requireAtMost(
      counted.sharedCharacters,
      FILE_LIMITS.sharedCharacters,
      "characters in shared formulas",
    );
    return movedFormula(
      first.formula,
      place.row - first.place.row,
      place.column - first.place.column,
    );
  }

  function textOf({ text, isMixed }: StoredText, where: string): string {
    if (isMixed) leftOut.add("different looks within one cell (the text is kept)", where);
    if (text.length > FILE_LIMITS.textLength)
      leftOut.add("ends of texts that are too long for a cell", where);
    const kept = text.slice(0, FILE_LIMITS.textLength);
    countCharacters(kept);
    return kept;
  }

  function countCharacters(text: string): void {
    counted.characters += text.length;
    requireAtMost(counted.characters, FILE_LIMITS.characters, "characters in its cells");
  }

  function valueOf(element: XmlElement, where: string): SnapshotValue | undefined {
    const inline = childOf(element, "is");
    if (element.attributes["t"] === "inlineStr") return textOf(storedTextOf(inline), where);
    const stored = childOf(element, "v")?.text;
    if (stored === undefined) return undefined;
    switch (element.attributes["t"]) {
      case "s": {
        const text = context.texts[Number(stored)];
        if (!text) throw damaged(`${where} refers to a text that is not in it`);
        return textOf(text, where);
      }
      case "str":
        return textOf({ text: typedText(stored), isMixed: false }, where);
      case "b":
        return stored === "1" || stored === "true";
      case "e":
        return { error: stored.slice(0, 32) };
      case "d":
        return serialDay(stored, where);
      default:
        return numberOf(stored, where);
    }
  }

  function numberOf(stored: string, where: string): number | undefined {
    if (stored.trim() === "") return undefined;
    const value = Number(stored);
    if (!Number.isFinite(value)) throw damaged(`${where} holds a number that is none`);
    return value;
  }

  return {
    read(element, place) {
      counted.cells += 1;
      requireAtMost(counted.cells, FILE_LIMITS.cells, "cells");
      const at = cellAddress(place);
      const where = `${sheet}!${at}`;
      const style = Number(element.attributes["s"] ?? 0);
      const look = styles.looks[style];
      if (styles.isReduced[style])
        leftOut.add("turned or indented text, and patterned fills", where);
      const content = formulaOf(childOf(element, "f"), place);
      const value = shiftedDay(valueOf(element, where), look?.format, context);
      const isEmpty = value === undefined || (value === "" && content.formula === undefined);
      const cell: CellSnapshot = {
        at,
        ...(!isEmpty && { value }),
        ...content,
        ...(look !== undefined && { look }),
      };
      return Object.keys(cell).length > 1 ? cell : undefined;
    },
  };
}

/** More than one cell, from this one on. */
function spillRange(ref: string | undefined, place: CellPlace): string | undefined {
  try {
    const range = rangePlace(ref ?? "");
    const isHere = range.top === place.row && range.left === place.column;
    const isOne = range.bottom === range.top && range.right === range.left;
    return isHere && !isOne && isWithin(range.bottom, range.right)
      ? rangeAddress(range)
      : undefined;
  } catch {
    return undefined;
  }
}

export function isWithin(row: number, column: number): boolean {
  return row < FILE_LIMITS.rows && column < FILE_LIMITS.columns;
}

/** @throws {FileRefusedError} */
export function placeIn(sheet: string, address: string): CellPlace {
  try {
    return cellPlace(address);
  } catch {
    throw damaged(`there is a cell without a proper address on ${sheet}`);
  }
}

const MS_PER_DAY = 86_400_000;
const DAYS_TO_1970 = 25_569;

/** @throws {FileRefusedError} */
function serialDay(text: string, where: string): number {
  const time = Date.parse(/[zZ]|[+-]\d\d:?\d\d$/.test(text) ? text : `${text}Z`);
  if (Number.isNaN(time)) throw damaged(`${where} holds a date that is none`);
  return time / MS_PER_DAY + DAYS_TO_1970;
}

/** Days of a workbook that counts from 1904, as one from 1900 counts them. */
function shiftedDay(
  value: SnapshotValue | undefined,
  format: string | undefined,
  { dayShift }: CellContext,
): SnapshotValue | undefined {
  const isDay =
    dayShift !== 0 &&
    typeof value === "number" &&
    /[dmyh]/i.test((format ?? "").replace(/"[^"]*"|\[[^\]]*\]|\\./g, ""));
  return isDay ? value + dayShift : value;
}
