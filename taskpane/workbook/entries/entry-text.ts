/** What a user types for a figure of a schedule: a number, with its unit or without, as the number that its cell holds. */
import {
  figureFromSi,
  figureInSi,
  hasUnits,
  HEADER_UNITS,
  unitInSi,
} from "../../../src/quantities/header-units.js";
import { type BlockColumn, ownUnitInSi } from "../../../src/schedules/columns.js";
import { offeredSpelling } from "../../budgets/offered-sizes.js";
import type { CellWrite } from "../../hosts/host.js";
import type { EntryAnswer } from "../../hosts/typed-entry.js";
import { entryWords } from "../../words/entry-words.js";
import { typedNumber } from "../../words/shown-numbers.js";

const said = entryWords;

const NUMBER_AND_UNIT = /^([-+−]?[\d.,]+(?:e[-+]?\d+)?)\s*([\p{L}%°Ω].*)?$/iu;

/** Units of a load by its kind; the others are watts. */
const UNITS_OF_KIND: Readonly<Record<string, Readonly<Record<string, number>>>> = {
  current: { A: 1, mA: 1e-3 },
  resistance: { Ω: 1, mΩ: 1e-3, kΩ: 1e3 },
};

/** What stands in a cell as it is typed there: a part of one in per cent. */
export function typedText(column: BlockColumn, content: CellWrite): string {
  const isPart =
    typeof content === "number" && column.quantity === "fraction" && ownUnitInSi(column) === 1;
  return isPart ? `${Number((100 * content).toPrecision(12))} %` : String(content);
}

/**
 * Formulas and words stay as they are; the schedule itself judges them.
 * @param column As the sheet heads it.
 * @param kind Of the row, where it has one: figures of a load are in its unit.
 */
export function entryFor(column: BlockColumn, text: string, kind = ""): EntryAnswer {
  const typed = text.trim();
  const { content } = column;
  if (typed === "" || typed.startsWith("=")) return { content: typed };
  // A bare number of mm² is another size than its text.
  if (content.holds === "size") {
    const bare = typedNumber(typed);
    return { content: typeof bare === "number" ? bare : offeredSpelling(typed) };
  }
  if (content.holds !== "figure") return { content: typed };
  if (content.words && typed.toLowerCase() in content.words)
    return { content: typed.toLowerCase() };
  const [, figure = "", unit = ""] = NUMBER_AND_UNIT.exec(typed) ?? [];
  const number = typedNumber(figure);
  if (number === "ambiguous") return { refused: said.twoWays(figure) };
  if (number === undefined) return { refused: noNumber(column, typed) };
  const isPart = column.quantity === "fraction" && ownUnitInSi(column) === 1;
  if (unit === "") return isPart ? partEntry(number, figure) : { content: number };
  const toSi = unitOf(column, unit, kind);
  if (toSi === undefined) return { refused: noUnit(column, unit, kind) };
  return { content: figureFromSi(figureInSi(number, toSi), ownUnitInSi(column)) };
}

/** 25 in a cell that is shown in per cent is 25 %; 1.25 may be a factor, and is asked about. */
export function partEntry(number: number, figure: string): EntryAnswer {
  const size = Math.abs(number);
  if (size < 1) return { content: number };
  if (size < 2) return { refused: said.part(figure, tidy(100 * number)) };
  return { content: tidy(number / 100) };
}

/** The number without the last digits of a conversion. */
function tidy(number: number): number {
  return Number(number.toPrecision(15));
}

function noNumber({ field }: BlockColumn, typed: string): string {
  if (field === "stepsDownBy" && /^[\d.,]+\s*[/:]\s*[\d.,]+$/.test(typed))
    return said.twoNumbers(typed);
  return said.noNumber(typed);
}

function unitOf({ quantity }: BlockColumn, unit: string, kind: string): number | undefined {
  const own = quantity === "load" ? UNITS_OF_KIND[kind] : undefined;
  if (own) return Object.entries(own).find(([name]) => sameUnit(name, unit))?.[1];
  return hasUnits(quantity) ? unitInSi(quantity, unit) : undefined;
}

function sameUnit(one: string, other: string): boolean {
  const plain = (unit: string) => unit.normalize("NFKC").replace(/ohms?/i, "Ω").replace(/\s/g, "");
  return plain(one) === plain(other);
}

function noUnit(column: BlockColumn, unit: string, kind: string): string {
  const { quantity } = column;
  const ofKind = quantity === "load" ? UNITS_OF_KIND[kind] : undefined;
  const known = ofKind ?? (hasUnits(quantity) ? HEADER_UNITS[quantity] : {});
  const units = Object.keys(known).filter((one) => one !== "1" && !one.includes(","));
  if (units.length === 0) return said.noUnits(unit);
  const told = said.otherUnits(unit, column.unit || units[0] || "", units);
  return quantity === "load" && Object.values(UNITS_OF_KIND).some((own) => unit in own)
    ? said.kindFirst(told, unit)
    : told;
}
