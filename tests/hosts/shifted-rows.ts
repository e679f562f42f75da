/** Rows inserted into a workbook in memory or removed from it: cells, formulas and names follow. */
import { parseA1Ref, stringifyA1Ref, tokenize } from "@borgar/fx";
import {
  areaAddress,
  areaPlace,
  cellAddress,
  cellPlace,
  quotedSheet,
} from "../../src/plans/addresses.js";
import { plainArea } from "../../taskpane/hosts/areas.js";
import { isFormula, type StoredCell, type StoredSheet } from "./memory-calculation.js";

export interface RowShift {
  readonly kind: "insert rows" | "remove rows";
  readonly sheet: string;
  readonly row: number;
  readonly count: number;
}

export function shiftedSheets(
  sheets: ReadonlyMap<string, StoredSheet>,
  shift: RowShift,
): Map<string, Map<string, StoredCell>> {
  return new Map(
    [...sheets].map(([name, cells]) => {
      const kept = [...cells].flatMap(([address, cell]): [string, StoredCell][] => {
        const content = isFormula(cell.content)
          ? shiftedFormula(cell.content, name, shift)
          : cell.content;
        const at = name === shift.sheet ? shiftedCell(address, shift) : address;
        return at === undefined ? [] : [[at, { ...cell, content }]];
      });
      if (name === shift.sheet && shift.kind === "insert rows") kept.push(...looks(cells, shift));
      return [name, new Map(kept)];
    }),
  );
}

/** A name's area after the shift; undefined where all of it is gone. */
export function shiftedArea(address: string, shift: RowShift): string | undefined {
  const place = areaPlace(address);
  const rows = shiftedSpan(place.top, place.bottom, shift);
  return rows && areaAddress({ ...place, ...rows });
}

/** As a spreadsheet writes a name's area: the sheet in front, `$` everywhere. */
export function shiftedReference(formula: string, shift: RowShift): string {
  const area = plainArea(formula);
  return area?.sheet === shift.sheet ? shiftedFormula(formula, shift.sheet, shift) : formula;
}

/** New rows look like the one above them. */
function looks(cells: StoredSheet, { row, count }: RowShift): [string, StoredCell][] {
  return [...cells].flatMap(([address, { format }]) => {
    const place = cellPlace(address);
    if (place.row !== row - 1 || format === undefined) return [];
    return Array.from({ length: count }, (_, index): [string, StoredCell] => [
      cellAddress({ row: row + index, column: place.column }),
      { content: "", format },
    ]);
  });
}

function shiftedCell(address: string, shift: RowShift): string | undefined {
  const { row, column } = cellPlace(address);
  const rows = shiftedSpan(row, row, shift);
  return rows && cellAddress({ row: rows.top, column });
}

function shiftedSpan(
  top: number,
  bottom: number,
  { kind, row, count }: RowShift,
): { readonly top: number; readonly bottom: number } | undefined {
  if (kind === "insert rows") {
    const moved = (at: number) => (at >= row ? at + count : at);
    return { top: moved(top), bottom: moved(bottom) };
  }
  const behind = row + count;
  if (top >= row && bottom < behind) return undefined;
  return {
    top: top >= behind ? top - count : Math.min(top, row),
    bottom: bottom >= behind ? bottom - count : Math.min(bottom, row - 1),
  };
}

function shiftedFormula(formula: string, ownSheet: string, shift: RowShift): `=${string}` {
  const text = tokenize(formula, { mergeRefs: true })
    .map(({ type, value }) => (type === "range" ? shiftedText(value, ownSheet, shift) : value))
    .join("");
  return text as `=${string}`;
}

function shiftedText(text: string, ownSheet: string, shift: RowShift): string {
  const reference = parseA1Ref(text);
  if (!reference || !("range" in reference)) return text;
  const { range } = reference;
  if (range.top === null || range.top === undefined) return text;
  const sheet = reference.context?.at(-1) ?? ownSheet;
  if (sheet !== shift.sheet) return text;
  const rows = shiftedSpan(range.top, range.bottom ?? range.top, shift);
  if (!rows) return "#REF!";
  const moved = stringifyA1Ref({ range: { ...range, ...rows } });
  return reference.context?.length ? `${quotedSheet(sheet)}!${moved}` : moved;
}
