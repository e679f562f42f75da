/** What COUNTIF and its like count: a value, a text with wildcards, or a comparison such as `>=0`. */
import { type Cell, isCellError } from "../../functions/downfeed.js";
import { UnreadError, cellOrder } from "./cell-arithmetic.js";

const COMPARISON = /^(<=|>=|<>|<|>|=)(.*)$/s;
const NUMBER = /^\s*[-+]?(\d+(\.\d*)?|\.\d+)(e[-+]?\d+)?\s*$/i;

/** @throws {UnreadError} for a criterion on which spreadsheets differ. */
export function criterion(wanted: Cell): (cell: Cell) => boolean {
  if (wanted === null || isCellError(wanted) || typeof wanted === "boolean")
    throw new UnreadError("counts by what is no number and no text");
  if (typeof wanted === "number") return (cell) => cell === wanted;
  const [, operator, behind] = COMPARISON.exec(wanted) ?? [];
  if (operator === undefined) return NUMBER.test(wanted) ? isNumber(wanted) : like(wanted);
  if (behind === undefined || !NUMBER.test(behind))
    throw new UnreadError(`counts by "${wanted}", which is not worked out here`);
  const limit = Number(behind);
  // All that is not the number, empty cells too.
  if (operator === "<>") return (cell) => cell !== limit;
  return (cell) => typeof cell === "number" && holds(operator, cellOrder(cell, limit));
}

/** Criterion of a text that is a number: cells that hold that number. */
function isNumber(wanted: string): (cell: Cell) => boolean {
  const number = Number(wanted);
  return (cell) => cell === number;
}

/** `*` stands for any letters, `?` for one, `~` before them for themselves. */
function like(wanted: string): (cell: Cell) => boolean {
  if (wanted === "") throw new UnreadError("counts empty cells");
  const pattern = wanted
    .replace(/~?[\s\S]/g, (letters) => {
      if (letters === "*") return "\u0000";
      if (letters === "?") return "\u0001";
      return letters.replace(/^~(?=[*?~])/, "").replace(/[.*+?^${}()|[\]\\]/g, "\\$&");
    })
    .replaceAll("\u0000", "[\\s\\S]*")
    .replaceAll("\u0001", "[\\s\\S]");
  const whole = new RegExp(`^${pattern}$`, "i");
  return (cell) => typeof cell === "string" && whole.test(cell);
}

function holds(operator: string, order: number): boolean {
  switch (operator) {
    case "<":
      return order < 0;
    case ">":
      return order > 0;
    case "<=":
      return order <= 0;
    case ">=":
      return order >= 0;
    default:
      return order === 0;
  }
}
