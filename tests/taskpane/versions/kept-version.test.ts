/** Versions of a feed that are kept in a workbook, each under a title of its own. */
import assert from "node:assert/strict";
import { beforeEach, describe, it } from "vitest";
import { findBudgets, titleOf } from "../../../taskpane/workbook/found-budgets.js";
import { proposedTitle, versionPlan } from "../../../taskpane/workbook/versions/kept-version.js";
import { MemoryHost } from "../../hosts/memory-host.js";
import { smallBudget } from "./small-budget.js";

let host: MemoryHost;
beforeEach(async () => {
  host = new MemoryHost();
  await host.insert(smallBudget("Quay", 2));
});

const budgets = async () => (await findBudgets(host)).budgets;

async function keep(title: string): Promise<void> {
  const all = await budgets();
  await host.insert(await versionPlan(host, all[0]!, title, all));
}

describe("a version that is kept", () => {
  it("is a budget of its own under its title, and stays as it is when the first one changes", async () => {
    await keep(" Option B, 750 V ");
    assert.deepEqual((await budgets()).map(titleOf), ["Quay", "Option B, 750 V"]);
    await host.write({ sheet: "Feed", address: "E5" }, [[7]], { overwrite: true });
    const [first, kept] = (await budgets()).map(({ ranges }) => ranges["Feed"]!.values[2]?.[4]);
    assert.deepEqual([first, kept], [7, 2]);
  });

  it("is gone again in one step", async () => {
    await keep("Option B");
    host.undo();
    assert.equal((await budgets()).length, 1);
    assert.deepEqual(host.sheetNames(), ["Start", "Inputs", "Feed"]);
  });

  it("needs a title that no other budget has, whatever its capitals", async () => {
    await assert.rejects(keep("  "), /needs a title/);
    await assert.rejects(keep("QUAY"), /a budget called QUAY already/);
    assert.equal((await budgets()).length, 1);
  });

  it("is proposed the next number of the first one's title", async () => {
    const proposed = async (at: number) => {
      const all = await budgets();
      return proposedTitle(all[at]!, all);
    };
    assert.equal(await proposed(0), "Quay, version 2");
    await keep("Quay, version 2");
    assert.equal(await proposed(0), "Quay, version 3");
    assert.equal(await proposed(1), "Quay, version 3");
  });
});
