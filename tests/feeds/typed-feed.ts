/** A feed as somebody types it: blocks of cells, each closed by an empty row, and what is asked for beside them. */
import type { Cell, CellTable } from "../../functions/cells.js";

export interface TypedFeed {
  readonly blocks: readonly CellTable[];
  readonly askedFor: CellTable;
}

/** Header, rows, and the empty row that closes a block; short rows are filled up. */
export function block(
  headers: readonly string[],
  ...rows: readonly (readonly Cell[])[]
): CellTable {
  const blank = headers.map(() => null);
  return [headers, ...rows.map((row) => headers.map((_, column) => row[column] ?? null)), blank];
}

/** What is asked of both feeds, as printed; what the lists leave open is not asked. */
export function askedFor(own: Readonly<Record<string, Cell>>): CellTable {
  const values: Readonly<Record<string, Cell>> = {
    Framework: "IEC 62368-1",
    "Largest drop of a cable": 0.05,
    "Largest drop of a voltage level": 0.05,
    "Largest loading of a stage": 0.8,
    "Largest loading of a supply": "not asked",
    "Largest loading of a cable": "not asked",
    "Largest loading of a contact": "not asked",
    "Spare capacity of the supply": 0.2,
    "Margin to each window": 0.03,
    "Efficiency, supply to load": "not asked",
    "Largest loss at one location": "not asked",
    "Headroom to collapse": 2,
    "Stability margin": 2,
    "Ripple of a bus": "not asked",
    "Units lost": 1,
    "Load current of a fuse, at most": 1,
    "Contacts at end of life, times new": 1,
    "Conductor at the end of a fault": "not asked",
    "Discharge to": 60,
    "Discharge within": 5,
    "Stored energy": 20,
    "Altitude, clearances hold up to": 2000,
    "Largest mass": "not asked",
    "Largest price": "not asked",
    Currency: "EUR",
    ...own,
  };
  return block(["Asked for", "Value", "Unit", "Citation"], ...Object.entries(values));
}

/** A solved case as printed: the case, supply W, load W, then figures of items. */
export interface PrintedCase {
  readonly loads: "light" | "nominal" | "peak";
  readonly supply: "lowest" | "nominal" | "highest";
  readonly supplyPower: string;
  readonly loadPower: string;
  /** Item, column of CHAIN_SOLVE, digits. */
  readonly items: readonly (readonly [string, string, string])[];
}
