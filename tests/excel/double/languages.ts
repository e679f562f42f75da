/** How an Excel of another language or style writes what the API otherwise tells in en-US and A1. */
import { cellPlace } from "../../../src/plans/addresses.js";
import type { PretendedExcel } from "./pretended-excel.js";

/** Names of native functions in German Excel, from memory. */
const GERMAN: readonly (readonly [RegExp, string])[] = [
  [/\bIF\(/g, "WENN("],
  [/\bSUM\(/g, "SUMME("],
];

/** As an Excel writes it that parts arguments and numbers so; with decimal commas it is German. */
export function localFormula(
  formula: string,
  { separator, decimal }: Pick<PretendedExcel, "separator" | "decimal">,
): string {
  const parted = formula.replace(
    /"(?:[^"]|"")*"|(\d)\.(\d)|,/g,
    (piece, whole?: string, part?: string) => {
      if (whole !== undefined) return `${whole}${decimal}${part}`;
      return piece === "," ? separator : piece;
    },
  );
  if (decimal === ".") return parted;
  return GERMAN.reduce((text, [english, german]) => text.replace(english, german), parted);
}

/** `=Inputs!$A$1:$B$2` as `=Inputs!R1C1:R2C2`. */
export function r1c1(reference: string): string {
  return reference.replace(
    /\$([A-Z]+)\$(\d+)/g,
    (_, letters: string, row: string) => `R${row}C${cellPlace(`${letters}1`).column + 1}`,
  );
}
