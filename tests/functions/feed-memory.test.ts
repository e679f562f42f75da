import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Cell, CellTable } from "../../functions/cells.js";
import { knownTable } from "../../functions/reading/feed-memory.js";
import { evaluate } from "../../functions/runner.js";

/** Seven tables that differ in one cell only, so that answers of one could be taken for another's. */
const tables: readonly CellTable[] = [0.5, 1, 2, 3, 4, 5, 6].map((ohms) => [
  ["Item", "Fed from", "Kind", "Voltage", "Resistance", "Load", "Tolerance", "Highest V"],
  ["Bus", "", "supply", 48, "", "", "", 55],
  ["Cable", "Bus", "run", "", ohms, "", 0.05, ""],
  ["Camp", "Cable", "power load", "", "", 50, 0.1, 60],
]);

/** Two that judge one feed differently: 55 V may be touched dry, not wet; the drop is more than one allows. */
const requirements: readonly CellTable[] = [
  [
    ["Framework", "IEC 62368-1"],
    ["Place", "dry"],
    ["Largest drop of a cable", 0.2],
  ],
  [
    ["Framework", "US workplace"],
    ["Place", "wet"],
    ["Largest drop of a cable", 0.001],
  ],
];

type Question = readonly [id: string, asked?: CellTable];

const questions: readonly Question[] = [
  ["CHAIN_WORST"],
  ["CHAIN_HEADROOM"],
  ["CHAIN_SOLVE"],
  ["CHAIN_CASES"],
  ...["CHAIN_BANDS", "CHAIN_CHECKS"].flatMap((id) =>
    requirements.map((asked): Question => [id, asked]),
  ),
];

const call = fc.record({
  question: fc.nat({ max: questions.length - 1 }),
  table: fc.nat({ max: tables.length - 1 }),
});

function answer([id, asked]: Question, table: CellTable): Cell | CellTable {
  const outcome = evaluate(id, asked ? [table, asked] : [table]);
  assert.ok(outcome.ok, JSON.stringify(outcome));
  return outcome.value;
}

describe("what is known of the last few feed tables", () => {
  // Each table asked for the first time, before any of it is known.
  const first = questions.map((question) => tables.map((table) => answer(question, table)));

  it("never changes an answer, in whatever order tables and functions come", () => {
    fc.assert(
      fc.property(fc.array(call, { maxLength: 40 }), (calls) => {
        for (const { question, table } of calls)
          expect(answer(questions[question]!, tables[table]!)).toEqual(first[question]![table]);
      }),
      { numRuns: 20, seed: 20261128 },
    );
  });

  it("judges one feed by what each asks for", () => {
    for (const id of ["CHAIN_BANDS", "CHAIN_CHECKS"]) {
      const [one, other] = questions.flatMap(([name], at) => (name === id ? [first[at]!] : []));
      tables.forEach((_, at) => {
        expect(one![at]).not.toEqual(other![at]);
      });
    }
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
