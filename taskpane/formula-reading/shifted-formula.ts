/** A formula as a spreadsheet leaves it when rows are inserted or removed. */
import { parseA1Ref, stringifyA1Ref, tokenize } from "@borgar/fx";
import { quotedSheet } from "../../src/plans/addresses.js";

export interface RowShift {
  readonly kind: "insert rows" | "remove rows";
  readonly sheet: string;
  /** From 0. */
  readonly row: number;
  readonly count: number;
}

/** The rows of a range after the shift; undefined where all of them are gone. */
export function shiftedSpan(
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

/** @param ownSheet That the formula stands on. */
export function shiftedFormula(formula: string, ownSheet: string, shift: RowShift): `=${string}` {
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
