/** A formula that a file writes once for many cells, as it reads in one of them. */
import { cellPlace, columnLetters } from "../../../../src/plans/addresses.js";
import { FILE_LIMITS } from "../file-limits.js";

const QUOTED_OR_REFERENCE =
  /"(?:[^"]|"")*"|'(?:[^']|'')*'|(?<![\w.$])(\$?)([A-Z]{1,3})(\$?)([1-9]\d{0,6})(?![\w.(!])|(?<![\w.$])(\$?)([A-Z]{1,3}):(\$?)([A-Z]{1,3})(?![\w.(!])|(?<![\w.$:])(\$?)([1-9]\d{0,6}):(\$?)([1-9]\d{0,6})(?![\w.(!])/gi;

/** Relative references move with the cell; one that would leave the sheet becomes `#REF!`. */
export function movedFormula(formula: string, rows: number, columns: number): string {
  const column = (fixed: string, letters: string) => {
    if (fixed) return fixed + letters;
    const moved = cellPlace(`${letters.toUpperCase()}1`).column + columns;
    return moved < 0 || moved >= 16_384 ? undefined : columnLetters(moved);
  };
  const row = (fixed: string, digits: string) => {
    if (fixed) return fixed + digits;
    const moved = Number(digits) + rows;
    return moved < 1 || moved > 1_048_576 ? undefined : String(moved);
  };
  const moved = formula.replace(QUOTED_OR_REFERENCE, (found, ...groups: (string | undefined)[]) => {
    const [c, letters, r, digits, c1, from, c2, to, r1, first, r2, last] = groups;
    if (letters !== undefined && digits !== undefined)
      return joined("", column(c ?? "", letters), row(r ?? "", digits));
    if (from !== undefined && to !== undefined)
      return joined(":", column(c1 ?? "", from), column(c2 ?? "", to));
    if (first !== undefined && last !== undefined)
      return joined(":", row(r1 ?? "", first), row(r2 ?? "", last));
    return found;
  });
  return moved.slice(0, FILE_LIMITS.formulaLength + 1);
}

function joined(between: string, first: string | undefined, second: string | undefined): string {
  return first === undefined || second === undefined ? "#REF!" : `${first}${between}${second}`;
}
