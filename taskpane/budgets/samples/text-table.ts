/** Rows as a table of text, columns parted by "|": a sample is read and checked as the schedules that it fills. */
import type { Entered, ScheduleRow } from "../sample.js";

/**
 * The first line has the headers. A figure is a number; an empty cell is not given.
 * @throws {RangeError} for a line that has more cells than there are headers.
 */
export function textTable(text: string): readonly ScheduleRow[] {
  const [headers = [], ...lines] = text
    .trim()
    .split("\n")
    .map((line) => line.split("|").map((cell) => cell.trim()));
  return lines.map((cells) => {
    if (cells.length > headers.length)
      throw new RangeError(`more cells than headers in "${cells.join(" | ")}"`);
    return Object.fromEntries(
      cells.flatMap((cell, index) => (cell === "" ? [] : [[headers[index]!, entered(cell)]])),
    );
  });
}

const NUMBER = /^-?\d+(\.\d+)?$/;

function entered(cell: string): Entered {
  return NUMBER.test(cell) ? Number(cell) : cell;
}
