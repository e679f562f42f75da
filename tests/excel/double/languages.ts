/** How an Excel of another language or style writes what the API otherwise tells in en-US and A1. */
import { cellPlace } from "../../../src/plans/addresses.js";

/** With semicolons between arguments and decimal commas; names of functions stay as they are. */
export function localFormula(formula: string, separator: "," | ";"): string {
  if (separator === ",") return formula;
  return formula.replace(/"(?:[^"]|"")*"|(\d)\.(\d)|,/g, (piece, whole?: string, part?: string) => {
    if (whole !== undefined) return `${whole},${part}`;
    return piece === "," ? ";" : piece;
  });
}

/** `=Inputs!$A$1:$B$2` as `=Inputs!R1C1:R2C2`. */
export function r1c1(reference: string): string {
  return reference.replace(
    /\$([A-Z]+)\$(\d+)/g,
    (_, letters: string, row: string) => `R${row}C${cellPlace(`${letters}1`).column + 1}`,
  );
}
