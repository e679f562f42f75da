/** Native formulas out of their pieces: where each piece stands in the workbook that is written. */
import { fixedAddress } from "../../../src/plans/addresses.js";
import { quoted } from "../../../src/plans/sheet-builder.js";
import type { CallPart, FormulaPart, SheetRange } from "../lines/call-tree.js";
import type { Native, NativePiece } from "../lines/working-lines.js";

/** The longest formula that spreadsheets take. */
const MOST_CHARACTERS = 8192;

export class TooLongError extends RangeError {
  override readonly name = "TooLongError";
}

export interface Surroundings {
  /** A range as a formula here names it. `dollars` keeps the `$` of the original text. */
  readonly range: (range: SheetRange, address: string) => string;
  /** What stands for the result of a call: a cell, a range, or `NA()`. */
  readonly result: (call: CallPart) => string;
}

/** A part of a formula as native text. */
export function partNative(part: FormulaPart, around: Surroundings): string {
  switch (part.kind) {
    case "literal":
      return part.text;
    case "reference":
      return part.range ? around.range(part.range, addressIn(part.text, part.range)) : part.text;
    case "expression":
      return part.pieces
        .map((piece) => (typeof piece === "string" ? piece : partNative(piece, around)))
        .join("");
    case "call":
      return around.result(part);
  }
}

const PLAIN_ADDRESS = /^\$?[A-Z]{1,3}\$?\d+(:\$?[A-Z]{1,3}\$?\d+)?$/i;

/** With the `$` that the formula has; a name's range stays in place when the formula is copied. */
function addressIn(text: string, { address }: SheetRange): string {
  const behind = text.slice(text.lastIndexOf("!") + 1);
  return PLAIN_ADDRESS.test(behind) ? behind : fixedAddress(address);
}

/** The longest text that a formula may hold in one piece. */
const MOST_IN_ONE = 255;

/** As it stands in a formula. */
export function textLiteral(text: string): string {
  if (text.length <= MOST_IN_ONE) return quoted(text);
  // Quotation marks in it are written twice.
  const pieces = text.match(/[\s\S]{1,120}/g) ?? [];
  return pieces.map(quoted).join("&");
}

/** A native formula as the text of a cell, without `=`. @throws {TooLongError} */
export function nativeText(
  native: Native,
  around: Surroundings,
  lineAt: (line: string) => string,
): string {
  return notTooLong(native.map((piece) => pieceText(piece, around, lineAt)).join(""));
}

function pieceText(
  piece: NativePiece,
  around: Surroundings,
  lineAt: (line: string) => string,
): string {
  if (typeof piece === "string") return piece;
  if ("cell" in piece) return around.range(piece.cell, piece.cell.address);
  if ("line" in piece) return lineAt(piece.line);
  const text = partNative(piece.part, around);
  return piece.part.kind === "expression" ? `(${text})` : text;
}

/** @throws {TooLongError} */
export function notTooLong(formula: string): string {
  if (formula.length <= MOST_CHARACTERS) return formula;
  throw new TooLongError(
    `a formula of ${formula.length} characters would be needed, and spreadsheets take ${MOST_CHARACTERS} at most`,
  );
}

/** Whether two cells hold the same: numbers to a share of the largest of the first one and the given terms. */
export function sameCell(
  first: string,
  second: string,
  share: string,
  terms: readonly string[] = [],
): string {
  const sizes = [first, ...terms].map((term) => `ABS(${term})`);
  const size = sizes.length === 1 ? sizes[0] : `MAX(${sizes.join(",")})`;
  const near = `ABS(${first}-${second})<=${share}*${size}`;
  return `IF(ISNUMBER(${first}),IF(ISNUMBER(${second}),${near},FALSE),IF(ISERROR(${first}),ISERROR(${second}),EXACT(${first},${second})))`;
}

/** `yes` or `no`; what cannot be worked out is no. */
export function yesOrNo(condition: string): string {
  return notTooLong(`IFERROR(IF(${condition},"yes","no"),"no")`);
}

/** Solved numbers carry what their iteration left over. */
export function near(first: string, second: string, sizes: readonly string[] = []): string {
  const size = [first, second, ...sizes].map((one) => `ABS(${one})`).join(",");
  return `ABS(${first}-${second})<=1E-9*MAX(${size})`;
}
