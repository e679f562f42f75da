/** Which row of a pasted table heads it, and what its columns are: proposed, to be changed by who knows the list. */
import { headerParts } from "../../../src/quantities/header-units.js";
import { sameItem } from "../../budgets/reading/range-table.js";
import { listFigure } from "./list-figures.js";
import {
  columnOfRole,
  LEFT_OUT,
  LIST_BLOCKS,
  type ListBlock,
  OF_ALL,
  OWN,
  plainUnit,
  type Role,
  unitOfHeader,
  unitsOfRole,
  wordedRole,
} from "./list-words.js";

export type ListTable = readonly (readonly string[])[];

export interface ListColumn {
  /** Place in the table, from 0. */
  readonly at: number;
  /** As it stands in the list. */
  readonly header: string;
  readonly role: Role;
  /** "" where it is not known yet. */
  readonly unit: string;
  /** The first that stands below the header. */
  readonly example: string;
}

export interface ListHead {
  /** Row of the header, from 0. */
  readonly row: number;
  readonly columns: readonly ListColumn[];
}

/** What was chosen for a column of an earlier issue of the list. */
export interface KeptColumn {
  readonly header: string;
  readonly role: Role;
  readonly unit: string;
}

const MOST_ROWS_ABOVE = 20;
const SEEN_BELOW = 200;

/** The block whose words more headers of the list use. */
export function likelyBlock(table: ListTable): ListBlock {
  const [best] = LIST_BLOCKS.map((block) => ({ block, words: bestRow(table, block).words })).sort(
    (one, other) => other.words - one.words,
  );
  return best!.block;
}

/** @param row Of the header, where somebody chose it. */
export function proposedHead(
  table: ListTable,
  block: ListBlock,
  kept: readonly KeptColumn[],
  row = bestRow(table, block).row,
): ListHead {
  const header = table[row] ?? [];
  const units = isUnitRow(table[row + 1] ?? []) ? (table[row + 1] ?? []) : [];
  const below = table.slice(row + 1, row + 1 + SEEN_BELOW);
  const columns = header.flatMap((text, at): ListColumn[] => {
    const values = below.map((cells) => cells[at] ?? "").filter((value) => value !== "");
    if (text === "" && values.length === 0) return [];
    const named = text === "" ? `Column ${at + 1}` : text;
    const unit = plainUnit(units[at] ?? "") ?? unitOfHeader(text);
    const before = kept.find((one) => sameItem(one.header, named));
    const role = before?.role ?? wordedRole(block, named, unit) ?? OWN;
    const allowed = unitsOfRole(block, role);
    const known = allowed.includes(unit) ? unit : (before?.unit ?? unitInCells(values, allowed));
    const example = values.find((value) => plainUnit(value) === undefined) ?? "";
    return [{ at, header: named, role, unit: allowed.length === 0 ? "" : known, example }];
  });
  return { row, columns: kept.length > 0 ? columns : withOneOfEach(columns, block, below) };
}

/** A column whose every figure bears one unit needs none in its header. */
function unitInCells(values: readonly string[], allowed: readonly string[]): string {
  const found = values.flatMap((value) => {
    const read = listFigure(value, ".");
    return read.is === "figure" ? [plainUnit(read.unit) ?? ""] : [];
  });
  const [first = ""] = found;
  return found.every((unit) => unit !== "" && allowed.includes(unit)) ? first : "";
}

/** Every cell that holds something holds a unit, and there is one. */
export function isUnitRow(cells: readonly string[]): boolean {
  const filled = cells.filter((cell) => cell !== "");
  return (
    filled.length > 0 &&
    filled.every((cell) => plainUnit(cell) !== undefined) &&
    filled.some((cell) => !/^[-–]$/.test(cell))
  );
}

function bestRow(table: ListTable, block: ListBlock) {
  const [best = { row: 0, words: 0 }] = table
    .slice(0, MOST_ROWS_ABOVE)
    .map((cells, row) => ({ row, words: wordsIn(cells, block) }))
    .sort((one, other) => other.words - one.words || one.row - other.row);
  return best;
}

/** How many different columns of the block its cells name. */
function wordsIn(cells: readonly string[], block: ListBlock): number {
  const roles = cells
    .filter((cell) => cell !== "" && listFigure(cell, ".").is === "text")
    .map((cell) => wordedRole(block, cell, unitOfHeader(cell)))
    .filter((role) => role !== undefined);
  return new Set(roles).size + roles.filter((role) => role === OWN).length / 10;
}

/** Where several columns give the same figure, the best keeps it and the others are carried. */
function withOneOfEach(
  columns: readonly ListColumn[],
  block: ListBlock,
  below: ListTable,
): readonly ListColumn[] {
  const claims = columns.map((column) => column.role);
  const give = (to: ListColumn, role: Role) => {
    claims.forEach((claimed, index) => {
      if (claimed === role && columns[index] !== to) claims[index] = OWN;
    });
    claims[columns.indexOf(to)] = role;
  };
  const claiming = (role: Role) => columns.filter((_, index) => claims[index] === role);
  const named = [
    ...claiming(block).sort((one, other) => tagFirst(other) - tagFirst(one)),
    ...columns.filter(({ header }) => /descri|service|purpose/i.test(header)),
    ...columns.filter((_, index) => claims[index] === OWN),
  ].find((column) => isNaming(column, below));
  if (named) give(named, block);
  else for (const column of claiming(block)) claims[columns.indexOf(column)] = OWN;
  const of = (role: Role) => claiming(role).sort((one, other) => weight(other) - weight(one))[0];
  if (block === "Load") {
    const total = of(`Nominal${OF_ALL}`);
    const alone = of("Nominal");
    if (total && alone) claims[columns.indexOf(total)] = OWN;
    if (total && !alone && claiming("Quantity").length === 0) give(total, "Nominal");
    const peak = of("Peak");
    if (peak && !total && !alone) give(peak, "Nominal");
  }
  for (const role of new Set(claims)) {
    const best = role === OWN || role === LEFT_OUT ? undefined : of(role);
    if (best) give(best, role);
  }
  // Figures in amperes beside figures in watts would be of another kind of load.
  const nominal = columns.find((_, index) => claims[index]?.startsWith("Nominal"));
  return columns.map((column, index) => {
    const role = claims[index]!;
    const isLoad = columnOfRole(block, role)?.quantity === "load";
    const isOther = isLoad && nominal && isCurrent(column) !== isCurrent(nominal);
    const settled = isOther ? OWN : role;
    return {
      ...column,
      role: settled,
      unit: unitsOfRole(block, settled).length === 0 ? "" : column.unit,
    };
  });
}

function isCurrent({ unit }: ListColumn): boolean {
  return unit === "A" || unit === "mA";
}

function tagFirst({ header }: ListColumn): number {
  return /\btag\b/i.test(header) ? 1 : 0;
}

/** Watts before amperes, what is absorbed before what is installed. */
function weight({ header, unit }: ListColumn): number {
  const { name } = headerParts(header);
  return (
    (isPower(unit) ? 4 : 0) +
    (/absorbed|consum|demand|running|nominal|operating/i.test(name) ? 2 : 0) +
    (/each|unit/i.test(name) ? 1 : 0)
  );
}

function isPower(unit: string): boolean {
  return ["W", "kW", "mW"].includes(unit);
}

/** Names are mostly there, mostly different, and no running numbers. */
function isNaming({ at }: ListColumn, below: ListTable): boolean {
  const rows = below.filter((cells) => cells.filter((cell) => cell !== "").length > 1);
  const values = rows.map((cells) => cells[at] ?? "").filter((value) => value !== "");
  const words = values.filter((value) => !/^\d+([.,]\d+)?\.?$/.test(value));
  return (
    values.length >= 0.6 * rows.length &&
    words.length > 0.5 * values.length &&
    new Set(values).size > 0.5 * values.length
  );
}
