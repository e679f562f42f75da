/** The formula behind a cell, also of one that another cell spills into. */
import type { FormulaTree } from "../../functions/working/lines/call-tree.js";
import { rangePlace } from "../../src/plans/addresses.js";
import type { CellRange } from "../hosts/host.js";
import { callTree } from "./call-tree-reading.js";
import type { CellReading } from "./cell-reading.js";

export interface ReadWorking {
  readonly at: CellRange;
  /** Where the formula stands; of a spilled cell, its anchor. */
  readonly anchor: CellRange;
  /** The item whose row a spilled cell stands in. */
  readonly item: string | undefined;
  /** Row of the cell in its spill, from 0. */
  readonly row: number;
  readonly tree: FormulaTree;
}

/** Nothing where the cell calls no function. */
export function workingOfCell(reading: CellReading): ReadWorking | undefined {
  if (reading.kind !== "read" && reading.kind !== "spilled") return undefined;
  const { at } = reading.cell;
  const anchor = reading.kind === "spilled" ? reading.anchor : at;
  const item = reading.kind === "spilled" ? reading.item : undefined;
  const { formula, tree, around } = reading.source;
  const row = rangePlace(at.address).top - rangePlace(anchor.address).top;
  return { at, anchor, item, row, tree: callTree(formula, tree, anchor, around) };
}
