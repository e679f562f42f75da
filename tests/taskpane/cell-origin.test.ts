/** Where each number of a budget comes from, read in the workbench's own calculation as the pane reads it. */
import assert from "node:assert/strict";
import { afterAll, beforeAll, describe, it } from "vitest";
import { type Outcome, evaluate } from "../../functions/downfeed.js";
import { workingOf } from "../../functions/working/text/working-of.js";
import { cellAddress } from "../../src/plans/addresses.js";
import { budgets } from "../../taskpane/budgets/budgets.js";
import {
  type CellOrigin,
  type CellTrail,
  readTrail,
} from "../../taskpane/formula-reading/cell-origin.js";
import { type Evaluate, readCellAt } from "../../taskpane/formula-reading/cell-reading.js";
import type { Host } from "../../taskpane/hosts/host.js";
import { type OpenBudget, openBudget } from "../budgets/open-budget.js";
import { budgetHost } from "../helpers/copied-budget.js";
import { readOnce } from "../helpers/read-once.js";
import { MemoryHost } from "../hosts/memory-host.js";

let budget: OpenBudget;
let host: Host;

beforeAll(async () => {
  const [ridgeTop] = budgets;
  assert.ok(ridgeTop);
  budget = await openBudget(ridgeTop);
  host = readOnce(budgetHost(budget));
});
afterAll(() => budget.workbook.dispose());

/** The same call over the same cells is evaluated once. */
const outcomes = new Map<string, Outcome>();

function known(...[id, args]: Parameters<Evaluate>): Outcome {
  const key = JSON.stringify([id, args]);
  const outcome = outcomes.get(key) ?? evaluate(id, args);
  outcomes.set(key, outcome);
  return outcome;
}

async function trailOf(sheet: string, address: string): Promise<CellTrail> {
  return readTrail(host, await readCellAt(host, { sheet, address }, known), known);
}

/** The cell beside a label of Budget. */
function balanceAt(label: string): string {
  const row = budget.rows("Budget").findIndex(([first]) => first === label);
  assert.ok(row >= 0, label);
  return cellAddress({ row, column: 1 });
}

async function balanceTrail(label: string): Promise<CellTrail> {
  return trailOf("Budget", balanceAt(label));
}

function cellsOf(origin: CellOrigin | undefined) {
  assert.ok(origin);
  return origin.parts.flatMap(({ cells }) => cells);
}

function sumOf(cells: readonly { readonly value: unknown }[]): number {
  return cells.reduce((sum, { value }) => sum + Number(value), 0);
}

describe("where a number of the budget comes from", () => {
  for (const sheet of ["Budget", "Bands", "Cases", "Checks"])
    it(`is told for every number of ${sheet}`, async () => {
      let numbers = 0;
      for (const [row, cells] of budget.rows(sheet).entries())
        for (const [column, value] of cells.entries()) {
          if (typeof value !== "number") continue;
          const address = cellAddress({ row, column });
          const { origins, end } = await trailOf(sheet, address);
          numbers += 1;
          for (const origin of origins) {
            assert.equal(origin.unread, undefined, `${sheet}!${address}`);
            assert.ok(cellsOf(origin).length > 0 || origin.value === 0, `${sheet}!${address}`);
          }
          assert.ok(end !== undefined || origins.length > 0, `${sheet}!${address}`);
        }
      assert.ok(numbers > 40, String(numbers));
    }, 120_000);

  it("of the supply power is the input power of every supply", async () => {
    const { origins, end } = await balanceTrail("Supply power");
    assert.equal(origins[0]?.parts[0]?.way, "summed");
    assert.deepEqual(
      cellsOf(origins[0]).map(({ name }) => name),
      ["Valley bus, Input W"],
    );
    // Of one cell alone it leads on to the call, at that row.
    assert.equal(end?.item, "Valley bus");
    assert.ok(workingOf(end.tree, { row: end.row }).some(({ id }) => id === "CHAIN_SOLVE"));
  });

  it("of the loads is every row that is a load, and they sum to it", async () => {
    const { origins, end } = await balanceTrail("All loads");
    const cells = cellsOf(origins[0]);
    const solved = budget.table("Budget", "Item", "Input V");
    const kinds = new Map(
      budget.table("Table", "Item", "Fed from").map((row) => [row.Item, String(row.Kind)]),
    );
    assert.deepEqual(
      cells.map(({ name }) => name),
      solved
        .filter(({ Item }) => kinds.get(Item!)?.endsWith("load"))
        .map(({ Item }) => `${String(Item)}, Input W`),
    );
    assert.ok(Math.abs(sumOf(cells) - Number(budget.balance("All loads"))) < 1e-9);
    assert.equal(end, undefined);
  });

  it("of the losses is the loss of every row, and they sum to it", async () => {
    const [origin] = (await balanceTrail("All losses, given off as heat")).origins;
    const cells = cellsOf(origin);
    assert.ok(cells.every(({ name }) => name.endsWith(", Loss W")));
    const total = Number(budget.balance("All losses, given off as heat"));
    assert.ok(Math.abs(sumOf(cells) - total) < 1e-9);
  });

  it("of the supply voltage is the row that is looked up, not what is looked through", async () => {
    const { origins, end } = await balanceTrail("Supply voltage, open circuit");
    assert.equal(origins[0]?.parts[0]?.way, "found");
    assert.deepEqual(
      cellsOf(origins[0]).map(({ name }) => name),
      ["Valley bus, Input V"],
    );
    assert.equal(end?.item, "Valley bus");
  });

  it("of a count of checks is each check that counts", async () => {
    const verdictRow = budget.rows("Checks").findIndex(([first]) => first === "holds");
    for (const [column, verdict] of ["holds", "fails", "not determined"].entries()) {
      const at = cellAddress({ row: verdictRow + 1, column });
      const [origin] = (await trailOf("Checks", at)).origins;
      const cells = cellsOf(origin);
      assert.equal(cells.length, budget.workbook.value("Checks", at), verdict);
      assert.ok(cells.every(({ value }) => value === verdict));
      // Item and check.
      assert.ok(cells.every(({ name }) => name.split(", ").length >= 2));
    }
  });

  it("leaves out the branches that are not taken", async () => {
    const [origin] = (await balanceTrail("Efficiency, supply to loads")).origins;
    const [supply, loads] = ["Supply power", "All loads"].map(balanceAt);
    assert.equal(origin?.taken.replaceAll("$", ""), `${loads}/${supply}`);
    assert.deepEqual(
      cellsOf(origin).map(({ cell }) => cell.address),
      [loads, supply],
    );
  });

  it("of a number that is worked out by hand names the figures of its own item", async () => {
    const row = budget.rows("Budget").findIndex((cells) => cells[13] === "Summit stage");
    const { origins } = await trailOf("Budget", cellAddress({ row, column: 14 }));
    const names = cellsOf(origins[0]).map(({ name }) => name);
    assert.ok(names.length > 1);
    assert.ok(
      names.every((name) => name.startsWith("Summit stage, ")),
      names.join("; "),
    );
  });
});

describe("where a number of any sheet comes from", () => {
  async function originOf(formula: string) {
    const memory = new MemoryHost();
    const write = (address: string, content: string | number) =>
      memory.write({ sheet: "Start", address }, [[content]], { overwrite: true });
    await write("A1", 4);
    await write("A2", -1);
    await write("A3", 9);
    await write("C1", formula);
    return (await readTrail(memory, await readCellAt(memory, { sheet: "Start", address: "C1" })))
      .origins[0];
  }

  const followed: readonly (readonly [formula: string, taken: string, cells: string])[] = [
    ["=IF(A1>3,A2,A3)", "A2", "A2"],
    ["=2*IF(A1<3,A2,A3+1)", "2*(A3+1)", "A3"],
    ["=IFERROR(A1/0,A3)", "A3", "A3"],
    ["=MAX(A1:A3)", "MAX(A1:A3)", "A3"],
    ["=MIN(A1:A3)*A1", "MIN(A1:A3)*A1", "A2 A1"],
    ["=INDEX(A1:A3,2)", "INDEX(A1:A3,2)", "A2"],
    ['=SUMIF(A1:A3,">0")', 'SUMIF(A1:A3,">0")', "A1 A3"],
    ["=IF(A1>3,,A2)", "FALSE", ""],
  ];
  for (const [formula, taken, cells] of followed)
    it(formula, async () => {
      const origin = await originOf(formula);
      assert.equal(origin?.taken, taken);
      assert.deepEqual(
        cellsOf(origin)
          .map(({ cell }) => cell.address)
          .join(" "),
        cells,
      );
    });

  it("says what cannot be followed", async () => {
    const memory = new MemoryHost();
    memory.read = async (ranges) =>
      ranges.map((range) => ({
        range,
        values: [[5]],
        formulas: [["=SUM(A:A)"]],
        formats: [["General"]],
      }));
    const { origins } = await readTrail(
      memory,
      await readCellAt(memory, { sheet: "Start", address: "C1" }),
    );
    assert.match(origins[0]?.unread ?? "", /whole rows or columns/);
  });
});
