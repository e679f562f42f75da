import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Cell, type CellTable, isCellError } from "../../functions/cells.js";
import { CASES_COLUMNS } from "../../functions/families/chain-cases.js";
import { SOLVED_COLUMNS } from "../../functions/families/chain.js";
import { evaluate } from "../../functions/runner.js";
import { feedTableOf } from "../helpers/feed-cells.js";
import { randomFeed } from "../helpers/random-feed.js";

const SUPPLIES = ["lowest", "nominal", "highest"] as const;
const LOADS = ["light", "nominal", "peak"] as const;
const CASES = SUPPLIES.flatMap((supply) => LOADS.map((loads) => ({ supply, loads })));

function tableOf(id: string, ...args: Parameters<typeof evaluate>[1]) {
  const outcome = evaluate(id, args);
  assert.ok(outcome.ok, JSON.stringify(outcome));
  return outcome.value as CellTable;
}

const column = (name: (typeof CASES_COLUMNS)[number]) => CASES_COLUMNS.indexOf(name);

/** 400 V behind 4 Ω carries at most 400²/16 = 10 000 W; at 360 V 8 100 W. */
const EDGE: CellTable = [
  [
    "Item",
    "Fed from",
    "Kind",
    "Voltage",
    "Resistance",
    "Light load",
    "Load",
    "Peak load",
    "Lowest V",
    "Highest V",
  ],
  ["Bus", "", "supply", 400, "", "", "", "", 360, 420],
  ["Cable", "Bus", "run", "", 4, "", "", "", "", ""],
  ["Camp", "Cable", "power load", "", "", 0, 5000, 9000, "", ""],
];

function withCell(table: CellTable, row: number, name: string, cell: Cell) {
  const at = table[0]!.indexOf(name);
  return table.map((cells, index) =>
    index === row ? cells.map((old, k) => (k === at ? cell : old)) : cells,
  );
}

describe("CHAIN_CASES", () => {
  it("has nine rows under frozen headers", () => {
    const table = tableOf("CHAIN_CASES", EDGE);
    expect(table[0]).toEqual([
      "Case",
      "Supply W",
      "Load W",
      "Loss W",
      "Efficiency",
      "Least margin",
      "Least margin at",
      "Highest loading",
      "Highest loading at",
      "Closing error W",
      "Note",
    ]);
    expect(table.slice(1).map(([first]) => first)).toEqual(
      CASES.map(({ supply, loads }) => `supply ${supply}, loads ${loads}`),
    );
  });

  it("says in its row why a case collapses, and solves the others", () => {
    const table = tableOf("CHAIN_CASES", EDGE);
    const collapsed = table.filter((row) => isCellError(row[1] ?? null));
    expect(collapsed.map(([first]) => first)).toEqual(["supply lowest, loads peak"]);
    // 8 100 W of 9 000 W, never rounded up.
    expect(collapsed[0]?.at(-1)).toMatch(/at most 0\.8999 times.*"Camp"/);
    const nominal = table[5]!;
    expect(nominal[column("Supply W")]).toBeCloseTo(5857.8644, 4);
  });

  it("refuses the cases of a voltage that the supply does not have, and no other", () => {
    const table = tableOf("CHAIN_CASES", withCell(EDGE, 1, "Highest V", ""));
    for (const row of table.slice(1)) {
      const isHighest = String(row[0]).includes("highest");
      const isCollapse = row[0] === "supply lowest, loads peak";
      expect(isCellError(row[1] ?? null), String(row[0])).toBe(isHighest || isCollapse);
      if (isHighest) expect(row.at(-1)).toMatch(/"Bus".*Highest V/);
    }
  });

  it("passes on why a row is refused, by its name", () => {
    const table = tableOf("CHAIN_CASES", withCell(EDGE, 2, "Resistance", ""));
    for (const row of table.slice(1)) {
      assert.ok(isCellError(row[1] ?? null));
      expect(row.at(-1)).toMatch(/^"Cable": Resistance must be given/);
    }
  });

  it("is CHAIN_TOTAL and the extremes of CHAIN_SOLVE, case by case", () => {
    const solvedColumn = (name: (typeof SOLVED_COLUMNS)[number]) => SOLVED_COLUMNS.indexOf(name);
    fc.assert(
      fc.property(randomFeed, (items) => {
        const feed = feedTableOf(
          items.map((item, index) =>
            item.kind === "supply" && item.voltage !== undefined
              ? {
                  ...item,
                  lowestVoltage: item.voltage * 0.95,
                  highestVoltage: item.voltage * 1.05,
                }
              : index % 2 === 0
                ? { ...item, ratedCurrent: 1 + index }
                : item,
          ),
        );
        const table = tableOf("CHAIN_CASES", feed);
        CASES.forEach(({ supply, loads }, index) => {
          const row = table[index + 1]!;
          const total = evaluate("CHAIN_TOTAL", [feed, "supply power", loads, supply]);
          if (!total.ok) {
            const cell = row[column("Supply W")] ?? null;
            assert.ok(isCellError(cell));
            expect(cell.error).toBe(total.code);
            return;
          }
          for (const [name, quantity] of [
            ["Supply W", "supply power"],
            ["Load W", "load power"],
            ["Loss W", "loss"],
            ["Efficiency", "efficiency"],
            ["Least margin", "lowest margin"],
            ["Closing error W", "closing error"],
          ] as const) {
            const each = evaluate("CHAIN_TOTAL", [feed, quantity, loads, supply]);
            expect(row[column(name)]).toBe(each.ok ? each.value : "–");
          }
          const solved = tableOf("CHAIN_SOLVE", feed, loads, supply).slice(1);
          const loadings = solved.flatMap((cells) => {
            const loading = cells[solvedColumn("Loading")];
            return typeof loading === "number" ? [loading] : [];
          });
          expect(row[column("Highest loading")]).toBe(
            loadings.length > 0 ? Math.max(...loadings) : "–",
          );
          const at = solved.find(([item]) => item === row[column("Highest loading at")]);
          if (at) expect(at[solvedColumn("Loading")]).toBe(row[column("Highest loading")]);
        });
      }),
      { numRuns: 25 },
    );
  });
});
