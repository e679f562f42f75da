/**
 * Which line of a working each number of a result is. What a cell shows is picked out of a record by code, so it is
 * found by trying: a number of the record is changed, and the cell that changes with it shows that number.
 */
import {
  type Cell,
  type CellTable,
  type Entry,
  type Working,
  isCellTable,
} from "../downfeed.js";
import type { CallAnswer } from "./call-answer.js";
import { lineKey } from "./working-lines.js";

/** The cell shows the line's value times `factor`. */
export interface ResultLine {
  readonly line: string;
  readonly factor: number;
}

/** In the shape of the result; undefined for text, and for a number that no step of the working gives. */
export type ResultLines = readonly (readonly (ResultLine | undefined)[])[];

/** Trying takes one pick for each number; a large solved table is matched by its own columns instead. */
const MOST_NUMBERS = 400;
const SAME = 1e-13;

export function resultLines({
  entry,
  outcome,
  workings,
}: CallAnswer): ResultLines {
  if (!entry || !outcome.ok) return [];
  const cells = tableOf(outcome.value);
  const shown = leavesShown(entry, outcome.record, cells);
  const taken = new Set<string>();
  const solved = workings.some(({ steps }) =>
    Object.values(steps).some(({ kind }) => kind === "solved"),
  );
  return cells.map((row, rowIndex) =>
    row.map((cell, column) => {
      if (typeof cell !== "number") return undefined;
      const leaf = shown.get(`${rowIndex},${column}`);
      // A closed form is not guessed from equal numbers: it has to stay right when they change.
      if (leaf === "several" || (leaf === undefined && !solved))
        return undefined;
      const candidates = stepsThat(workings, cell, leaf).filter(
        ({ line }) => leaf !== undefined || !taken.has(line),
      );
      const [found] = candidates;
      if (found) taken.add(found.line);
      return found;
    }),
  );
}

export function tableOf(value: Cell | CellTable): CellTable {
  return isCellTable(value) ? value : [[value]];
}

interface Leaf {
  readonly path: readonly (string | number)[];
  readonly value: number;
}

/** By `row,column`: the number of the record that the cell shows, or that it is made of several. */
function leavesShown(
  { shownOf }: Entry,
  record: unknown,
  cells: CellTable,
): ReadonlyMap<string, Leaf | "several"> {
  const shown = new Map<string, Leaf | "several">();
  const leaves = leavesOf(record);
  if (leaves.length > MOST_NUMBERS) return shown;
  for (const leaf of leaves) {
    const other = leaf.value * 1.375 + 1.25;
    const changed = tableOf(shownOf(withLeaf(record, leaf.path, other)));
    cells.forEach((row, rowIndex) =>
      row.forEach((cell, column) => {
        if (typeof cell !== "number" || changed[rowIndex]?.[column] === cell)
          return;
        const at = `${rowIndex},${column}`;
        shown.set(at, shown.has(at) ? "several" : leaf);
      }),
    );
  }
  return shown;
}

function leavesOf(record: unknown, path: Leaf["path"] = []): Leaf[] {
  if (typeof record === "number") return [{ path, value: record }];
  if (Array.isArray(record))
    return record.flatMap((inner, index) => leavesOf(inner, [...path, index]));
  if (typeof record !== "object" || record === null) return [];
  if (Object.getPrototypeOf(record) !== Object.prototype) return [];
  return Object.entries(record).flatMap(([field, inner]) =>
    leavesOf(inner, [...path, field]),
  );
}

function withLeaf(record: unknown, path: Leaf["path"], value: number): unknown {
  const [first, ...rest] = path;
  if (first === undefined) return value;
  if (Array.isArray(record))
    return record.map((inner, index) =>
      index === first ? withLeaf(inner, rest, value) : inner,
    );
  const fields = record as Readonly<Record<string, unknown>>;
  return { ...fields, [first]: withLeaf(fields[first], rest, value) };
}

/** Later workings and steps first: what a function gives comes at the end. */
function stepsThat(
  workings: readonly Working[],
  cell: number,
  leaf: Leaf | undefined,
): ResultLine[] {
  const names = leaf && namesOf(leaf);
  const found = workings.flatMap(({ steps, values }, index) =>
    Object.entries(steps).flatMap(([field, step]) => {
      const value = values[field];
      if (typeof value !== "number") return [];
      if (names && !(names.includes(field) && value === leaf.value)) return [];
      const factor = factorOf(cell, value, step.shown?.perUnit);
      return factor === undefined
        ? []
        : [{ line: lineKey(index, field), factor }];
    }),
  );
  return names ? found.reverse() : found;
}

/** `units, 0, current` is called `current` or `current1`. */
function namesOf({ path }: Leaf): string[] {
  const words = path.filter((part) => typeof part === "string");
  const last = words.at(-1) ?? "";
  const places = path.filter((part) => typeof part === "number");
  return [last, ...places.map((place) => `${last}${place + 1}`)];
}

function factorOf(
  cell: number,
  value: number,
  perUnit: number | undefined,
): number | undefined {
  return [1, ...(perUnit === undefined ? [] : [perUnit])].find(
    (factor) => Math.abs(value * factor - cell) <= SAME * Math.abs(cell),
  );
}
