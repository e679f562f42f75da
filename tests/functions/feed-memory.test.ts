import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Cell, CellTable } from "../../functions/cells.js";
import { knownTable } from "../../functions/reading/feed-memory.js";
import { evaluate } from "../../functions/runner.js";

/** Seven tables that differ in one cell only, so that answers of one could be taken for another's. */
const tables: readonly CellTable[] = [0.5, 1, 2, 3, 4, 5, 6].map((ohms) => [
  ["Item", "Fed from", "Kind", "Voltage", "Resistance", "Load", "Tolerance"],
  ["Bus", "", "supply", 400, "", "", ""],
  ["Cable", "Bus", "run", "", ohms, "", 0.05],
  ["Camp", "Cable", "power load", "", "", 2000, 0.1],
]);

const call = fc.record({
  id: fc.constantFrom("CHAIN_WORST", "CHAIN_HEADROOM", "CHAIN_SOLVE"),
  table: fc.nat({ max: tables.length - 1 }),
});

function answer(id: string, table: CellTable): Cell | CellTable {
  const outcome = evaluate(id, [table]);
  assert.ok(outcome.ok);
  return outcome.value;
}

describe("what is known of the last few feed tables", () => {
  // Each table asked for the first time, before any of it is known.
  const first = new Map(
    ["CHAIN_WORST", "CHAIN_HEADROOM", "CHAIN_SOLVE"].flatMap((id) =>
      tables.map((table, at): [string, Cell | CellTable] => [`${id} ${at}`, answer(id, table)]),
    ),
  );

  it("never changes an answer, in whatever order tables and functions come", () => {
    fc.assert(
      fc.property(fc.array(call, { maxLength: 40 }), (calls) => {
        for (const { id, table } of calls)
          expect(answer(id, tables[table]!)).toEqual(first.get(`${id} ${table}`));
      }),
      { numRuns: 20, seed: 20261128 },
    );
  });

  it("answers a question about a table once, and forgets the table after four others", () => {
    let asked = 0;
    const ask = () => knownTable(tables[0]!).once("test", () => ++asked);
    expect([ask(), ask()]).toEqual([1, 1]);
    for (const other of tables.slice(1, 4)) knownTable(other);
    expect(ask()).toBe(1);
    for (const other of tables.slice(1, 5)) knownTable(other);
    expect(ask()).toBe(2);
  });

  it("tells a table from one that only looks like it", () => {
    const like = (cell: Cell): CellTable =>
      tables[0]!.map((row, at) => (at === 3 ? [...row.slice(0, -1), cell] : row));
    const different: Cell[] = ["", null, 0, 0.1, "exact", { error: "#N/A" }];
    const known = different.map((cell) => knownTable(like(cell)));
    // Blank and "" read alike; they may be one table or two, but never one with a value.
    expect(new Set(known.slice(2)).size).toBe(4);
    expect(known.slice(2)).not.toContain(known[0]);
  });
});
