/** Numbers of the front page audited to the bottom: each link of their workings followed until cells that are typed. */
import assert from "node:assert/strict";
import { afterAll, beforeAll, describe, it } from "vitest";
import { type Outcome, evaluate } from "../../functions/downfeed.js";
import { type CallSteps, isAboutItem, workingOf } from "../../functions/working/text/working-of.js";
import { repeatedCell } from "../../functions/working/text/working-of.js";
import { cellAddress, rangePlace } from "../../src/plans/addresses.js";
import { budgetPlan } from "../../taskpane/budgets/budget-plan.js";
import { ridgeTop } from "../../taskpane/budgets/samples/ridge-top.js";
import { readTrail } from "../../taskpane/formula-reading/cell-origin.js";
import { readCellAt } from "../../taskpane/formula-reading/cell-reading.js";
import type { ReadWorking } from "../../taskpane/formula-reading/read-working.js";
import type { CellRange, Host } from "../../taskpane/hosts/host.js";
import { type OpenBudget, openBudget } from "../budgets/open-budget.js";
import { readOnce } from "../helpers/read-once.js";
import { budgetHost } from "../helpers/copied-budget.js";

let budget: OpenBudget;
let host: Host;

beforeAll(async () => {
  budget = await openBudget(budgetPlan(ridgeTop));
  host = readOnce(budgetHost(budget));
}, 120_000);
afterAll(() => budget.workbook.dispose());

/** The same call over the same cells is evaluated once. */
const outcomes = new Map<string, Outcome>();
const known = (id: string, args: Parameters<typeof evaluate>[1]) => {
  const key = JSON.stringify([id, args]);
  const outcome = outcomes.get(key) ?? evaluate(id, args);
  outcomes.set(key, outcome);
  return outcome;
};

/** Where a given of a working may come from without a cell: other lines, a printed table, what is written in the formula. */
const WITHOUT_CELL =
  /^(as above|of another row|of other rows|default|written in the formula|for .+)$/;

class Audit {
  readonly typed = new Map<string, unknown>();
  readonly loose: string[] = [];
  private readonly seen = new Set<string>();

  async follow(cell: CellRange): Promise<void> {
    const key = `${cell.sheet}!${cell.address}`;
    if (this.seen.has(key)) return;
    this.seen.add(key);
    const [content] = await host.read([cell]);
    const { origins, end } = await readTrail(host, await readCellAt(host, cell, known), known);
    for (const origin of origins) {
      if (origin.unread !== undefined) this.loose.push(`${key}: ${origin.unread}`);
      for (const { cells } of origin.parts) for (const one of cells) await this.follow(one.cell);
    }
    if (end) return this.followCall(end, key);
    const value = content?.values[0]?.[0];
    if (origins.length === 0 && value !== "") this.typed.set(key, value);
  }

  private async followCall(end: ReadWorking, key: string): Promise<void> {
    const { tree, row, item, at, anchor } = end;
    const [own, first] = [rangePlace(at.address), rangePlace(anchor.address)];
    const repeated = repeatedCell(tree, own.top - first.top, own.left - first.left);
    if (repeated) return this.follow(repeated);
    const calls = workingOf(tree, { row });
    for (const call of calls) await this.followLines(call, item, key);
  }

  /** Of a feed that is solved, every row counts in every other. */
  private async followLines(call: CallSteps, item: string | undefined, key: string): Promise<void> {
    const isWhole = call.id === "CHAIN_SOLVE";
    const blocks = call.blocks.filter(
      ({ title }) => isWhole || title === "" || item === undefined || isAboutItem(title, item),
    );
    if (blocks.length === 0) this.loose.push(`${key}: no working of ${String(item)}`);
    for (const { title, rows } of blocks)
      for (const { kind, label, origin, cells, value } of rows) {
        if (kind !== "given") continue;
        for (const one of cells) await this.follow(one);
        // A figure that is not given counts as 0 or 1, and is told as such.
        const isNothing = value === 0 || value === 1;
        if (cells.length === 0 && !WITHOUT_CELL.test(origin) && !isNothing)
          this.loose.push(`${key}: ${title}, ${label} = ${String(value)} ${origin}`);
      }
  }
}

async function audited(label: string): Promise<Audit> {
  const row = budget.rows("Budget").findIndex(([first]) => first === label);
  assert.ok(row >= 0, label);
  const audit = new Audit();
  await audit.follow({ sheet: "Budget", address: cellAddress({ row, column: 1 }) });
  return audit;
}

describe("a number of the front page, followed to the bottom", () => {
  for (const label of [
    "Supply power",
    "All losses, given off as heat",
    "Efficiency, supply to loads",
    "Closing error",
    "Mass",
  ])
    it(
      label,
      async () => {
        const { typed, loose } = await audited(label);
        assert.deepEqual(loose, []);
        const sheets = new Set([...typed.keys()].map((key) => key.split("!")[0]));
        assert.ok([...sheets].every((sheet) => /^(Inputs|Feed|Loads|Types)$/.test(sheet ?? "")));
        assert.ok(typed.size >= (label === "Mass" ? 8 : 40), String(typed.size));
      },
      180_000,
    );
});
