/** The header cells of a feed table: which figure each column holds, and in which unit. */
import type { FeedKind } from "../../src/network/feed-item.js";
import { InputError } from "../../src/quantities/errors.js";
import { type Column, TABLE_COLUMNS } from "../../src/schedules/columns.js";
import { FEED_FIELDS, type FeedField, plainHeader } from "./feed-columns.js";
import {
  figureInSi as inSi,
  HEADER_UNITS,
  hasUnits,
  headerParts,
  unitInSi,
} from "../../src/quantities/header-units.js";

export interface FeedHeader {
  readonly field: FeedField;
  /** As it stands in the header's brackets; "" where there are none. */
  readonly unit: string;
  /** What one of the unit is in SI, or in the kind's own unit for a load. */
  readonly toSi: number;
  /** A unit of power over loads of any kind: figures of other loads do not go below it. */
  readonly powerOnly: boolean;
}

const fieldOf: ReadonlyMap<string, FeedField> = new Map(
  Object.entries(FEED_FIELDS).map(([field, { header }]) => [
    plainHeader(header),
    field as FeedField,
  ]),
);

/**
 * @returns "unknown" for a column that is not of a feed table: it is left alone.
 * @throws {InputError} for a known header with a unit that is not one of its figures', and for one letter wrong, missing,
 * too many or swapped with its neighbour in a known header: a column that is passed over takes its figures with it.
 */
export function feedColumnOf(text: string): FeedHeader | "unknown" {
  const field = fieldOf.get(plainHeader(text));
  if (field === undefined) {
    refuseSlip(text);
    return "unknown";
  }
  const { header, quantity } = FEED_FIELDS[field];
  const { unit } = headerParts(text);
  if (!hasUnits(quantity)) return { field, unit, toSi: 1, powerOnly: false };
  const toSi = unitInSi(quantity, unit);
  if (toSi === undefined) {
    const known = Object.keys(HEADER_UNITS[quantity]);
    const units = known.map((one) => `(${one})`).join(" or ");
    throw new InputError(
      "feedTable",
      text,
      `a range whose header "${header}" names its unit as ${units} or not at all`,
    );
  }
  return { field, unit, toSi, powerOnly: quantity === "load" && toSi !== 1 };
}

/** A column of the user's own: never held against the known ones. */
const OWN = "#";

function refuseSlip(text: string): void {
  if (text.trim().startsWith(OWN)) return;
  const key = plainHeader(text);
  if (isOfWholeTable(text, key)) return;
  const meant = Object.values(FEED_FIELDS)
    .map(({ header }) => header)
    .filter((header) => isSlipOf(key, header));
  if (meant.length === 0) return;
  throw new InputError(
    "feedTable",
    text,
    `a range with its headers as they are spelt, ${meant.map((header) => `"${header}"`).join(" or ")} (one of your own begins with ${OWN})`,
  );
}

/** Columns that CHAIN_TABLE makes, by their headers as they are compared. */
const TABLE_COLUMNS_BY_HEADER = columnsByHeader();

function columnsByHeader(): ReadonlyMap<string, readonly Column[]> {
  const columns = new Map<string, Column[]>();
  for (const column of TABLE_COLUMNS) {
    const key = plainHeader(column.header);
    columns.set(key, [...(columns.get(key) ?? []), column]);
  }
  return columns;
}

/** Whether CHAIN_TABLE makes such a header: `Lowest (°C)` is no slip of "Lowest V", "Lowest" and `Lowest (V)` are. */
function isOfWholeTable(text: string, key: string): boolean {
  const { unit } = headerParts(text);
  const columns = TABLE_COLUMNS_BY_HEADER.get(key) ?? [];
  return columns.some(
    (column) =>
      (column.unit === "") === (unit === "") &&
      (!hasUnits(column.quantity) || unitInSi(column.quantity, unit) !== undefined),
  );
}

function isSlipOf(key: string, header: string): boolean {
  // A letter alone is a unit: "Rated V" is another figure than "Rated A", no slip of it.
  const anyUnit = header.toLowerCase().replace(/\b[a-z]\b/g, ".");
  if (new RegExp(`^${anyUnit.replaceAll(" ", "")}$`).test(key)) return false;
  return isOneSlip(key, plainHeader(header));
}

/** One letter wrong, missing, too many, or two neighbours swapped. */
function isOneSlip(a: string, b: string): boolean {
  const [short, long] = a.length < b.length ? [a, b] : [b, a];
  const from = short.split("").findIndex((letter, at) => letter !== long[at]);
  const at = from < 0 ? short.length : from;
  const rest = (text: string, dropped: number) => text.slice(at + dropped);
  if (short.length < long.length) return rest(short, 0) === rest(long, 1);
  const swapped = `${short[at + 1] ?? ""}${short[at] ?? ""}${rest(short, 2)}`;
  return rest(short, 1) === rest(long, 1) || swapped === rest(long, 0);
}

/**
 * Up to this a figure below % is taken for the part of 1 that a cell formatted as a percentage holds: 95 % is 0.95 there,
 * 2 % is 0.02.
 */
const PART_OF_ONE: Partial<Readonly<Record<FeedField, number>>> = {
  efficiency: 1,
  tolerance: 0.1,
};

/** @throws {InputError} below % for a figure that looks like a part of 1. */
export function requirePartBelowPercent(field: string, figure: number, part: number): void {
  if (figure !== 0 && Math.abs(figure) <= part)
    throw new InputError(
      field,
      figure,
      `above ${part} below a header in % (2 for 2 %; a cell that shows 2 % holds 0.02: take % out of the header)`,
    );
}

/**
 * A figure of the column in SI, a load in its kind's own unit.
 * @throws {InputError} for a load that is not a power below a unit of power, and below % for a figure that looks like a
 * part of 1.
 */
export function figureInSi(
  { field, unit, toSi, powerOnly }: FeedHeader,
  figure: number,
  kind: FeedKind,
): number {
  if (toSi === 1) return figure;
  if (powerOnly && kind !== "power load")
    throw new InputError(field, figure, `that of a power load below a header in ${unit}`);
  const part = PART_OF_ONE[field];
  if (part !== undefined) requirePartBelowPercent(field, figure, part);
  return inSi(figure, toSi);
}
