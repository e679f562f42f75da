/**
 * A cell's formula as its calls of cell functions and what they are called with, without a word of any parser or
 * spreadsheet. Whoever reads formulas builds it; the working of a cell, its layout and the plain copy are made from it.
 */
import type { Cell, CellTable } from "../../downfeed.js";

export interface SheetRange {
  readonly sheet: string;
  /** A1 without sheet, `B2:D9`. */
  readonly address: string;
}

export type CellValue = Cell | CellTable;

interface Written {
  /** As it stands in the formula, brackets that belong to it included. */
  readonly text: string;
}

export interface LiteralPart extends Written {
  readonly kind: "literal";
  readonly value: CellValue;
}

export interface ReferencePart extends Written {
  readonly kind: "reference";
  /** Undefined where the reference cannot be followed: another workbook, a whole column, an unknown name. */
  readonly range: SheetRange | undefined;
  readonly value: CellValue | undefined;
}

/** Native text with the references and calls in it; the pieces in a row are the text. */
export interface ExpressionPart extends Written {
  readonly kind: "expression";
  readonly pieces: readonly (string | FormulaPart)[];
  /** Undefined where it could not be worked out. */
  readonly value: CellValue | undefined;
}

export interface CallPart extends Written {
  readonly kind: "call";
  /** Without the namespace. */
  readonly id: string;
  /** Undefined for a place left empty. */
  readonly args: readonly (FormulaPart | undefined)[];
  /** In a branch of a condition that is not taken, as the cells stand. */
  readonly untaken?: true;
}

export type FormulaPart = LiteralPart | ReferencePart | ExpressionPart | CallPart;

export interface FormulaTree {
  /** The cell that the formula stands in. */
  readonly at: SheetRange;
  /** en-US, with `=`. */
  readonly text: string;
  readonly whole: FormulaPart;
}

/** A call and how many other calls it stands in. */
export interface PlacedCall {
  readonly call: CallPart;
  readonly depth: number;
}

/** In the order in which they are worked out: inner ones first. */
export function callsIn(part: FormulaPart, depth = 0): PlacedCall[] {
  if (part.kind !== "call") return partsOf(part).flatMap((inner) => callsIn(inner, depth));
  const inside = partsOf(part).flatMap((inner) => callsIn(inner, depth + 1));
  return [...inside, { call: part, depth }];
}

/** Every reference, those inside calls too. */
export function referencesOf(part: FormulaPart): ReferencePart[] {
  if (part.kind === "reference") return [part];
  return partsOf(part).flatMap(referencesOf);
}

function partsOf(part: FormulaPart): readonly FormulaPart[] {
  if (part.kind === "call") return part.args.filter((argument) => argument !== undefined);
  if (part.kind === "expression") return part.pieces.filter((piece) => typeof piece !== "string");
  return [];
}
