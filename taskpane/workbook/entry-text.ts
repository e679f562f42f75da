/** What a user types for a figure of a schedule: a number, with its unit or without, as the number that its cell holds. */
import {
  figureFromSi,
  figureInSi,
  hasUnits,
  HEADER_UNITS,
  unitInSi,
} from "../../src/quantities/header-units.js";
import { type BlockColumn, ownUnitInSi } from "../../src/schedules/columns.js";
import type { CellWrite } from "../hosts/host.js";
import { typedNumber } from "../words/shown-numbers.js";

export type EntryAnswer =
  | { readonly content: CellWrite }
  /** Why it cannot stand in the cell. */
  | { readonly refused: string };

const NUMBER_AND_UNIT = /^([-+−]?[\d.,]+(?:e[-+]?\d+)?)\s*(\D.*)?$/i;

/** Formulas and words stay as they are; the schedule itself judges them. */
export function entryFor(column: BlockColumn, text: string): EntryAnswer {
  const typed = text.trim();
  const { content } = column;
  if (typed === "" || typed.startsWith("=")) return { content: typed };
  // A bare number of mm² is another size than its text.
  if (content.holds === "size") {
    const bare = typedNumber(typed);
    return { content: typeof bare === "number" ? bare : typed };
  }
  if (content.holds !== "figure") return { content: typed };
  if (content.words && typed.toLowerCase() in content.words)
    return { content: typed.toLowerCase() };
  const [, figure = "", unit = ""] = NUMBER_AND_UNIT.exec(typed) ?? [];
  const number = typedNumber(figure);
  if (number === "ambiguous")
    return { refused: `“${figure}” can be read in two ways: leave the comma out` };
  if (number === undefined) return { refused: `a number is wanted, not “${typed}”` };
  const own = column.unit === "" ? "" : ` ${column.unit}`;
  if (unit === "") {
    // A part of one: 25 would be 2500 %.
    if (column.quantity === "fraction" && Math.abs(number) > 1)
      return { refused: `write ${figure} % or ${number / 100}` };
    return { content: number };
  }
  const toSi = hasUnits(column.quantity) ? unitInSi(column.quantity, unit) : undefined;
  if (toSi === undefined) {
    const units = hasUnits(column.quantity)
      ? Object.keys(HEADER_UNITS[column.quantity]).filter((one) => one !== "1")
      : [];
    return {
      refused:
        units.length === 0
          ? `“${unit}” is no unit of it: leave the unit off`
          : `“${unit}” is no unit of it; it is typed in${own || ` ${units[0]}`}, or with ${units.join(", ")}`,
    };
  }
  return { content: figureFromSi(figureInSi(number, toSi), ownUnitInSi(column)) };
}
