/** Versions of a feed held against each other on a sheet that follows them. */
import assert from "node:assert/strict";
import { beforeEach, describe, it } from "vitest";
import { MARGIN_FORMAT } from "../../../taskpane/budgets/formats.js";
import { cellAddress, rangePlace } from "../../../src/plans/addresses.js";
import { planFaults } from "../../../src/plans/plan-faults.js";
import { BETTER_WORDS, WORSE_WORDS } from "../../../src/judgement/comparison/feed-comparison.js";
import { workingOf } from "../../../functions/working/text/working-of.js";
import { readCellAt } from "../../../taskpane/formula-reading/cell-reading.js";
import { readTrail } from "../../../taskpane/formula-reading/cell-origin.js";
import type { HostValue } from "../../../taskpane/hosts/host.js";
import { findBudgets } from "../../../taskpane/workbook/found-budgets.js";
import { versionsOf } from "../../../taskpane/workbook/versions/compared-versions.js";
import { comparisonPlan } from "../../../taskpane/workbook/versions/comparison-plan.js";
import { MemoryHost } from "../../hosts/memory-host.js";
import { callFaults, lengthFaults, nativeFaults, spareFaults } from "../../plans/plan-rules.js";
import { smallBudget } from "./small-budget.js";

let host: MemoryHost;
beforeEach(async () => {
  host = new MemoryHost();
  await host.insert(smallBudget("Quay", 2));
  await host.insert(smallBudget("Thicker cable", 1));
});

async function planOf() {
  const [first, ...others] = versionsOf((await findBudgets(host)).budgets);
  assert.ok(first);
  return comparisonPlan(first, others);
}

/** Rows below the headings of a block, by heading; blocks are counted from 0. */
async function records(sheet: string, block = 0): Promise<Record<string, HostValue>[]> {
  const [content] = await host.read([await host.used(sheet)]);
  const values = content!.values;
  const head = values.findIndex(([first]) => first === "Item");
  const left = block * 9;
  const headings = values[head]!.slice(left, left + 8);
  return values.slice(head + 1).flatMap((cells) => {
    const own = cells.slice(left, left + 8);
    return own[0] === ""
      ? []
      : [Object.fromEntries(headings.map((heading, at) => [String(heading), own[at] ?? ""]))];
  });
}

function found(rows: readonly Record<string, HostValue>[], item: string, figure: string) {
  const row = rows.find(({ Item, Figure }) => Item === item && Figure === figure);
  assert.ok(row, `no ${figure} of ${item}`);
  return row;
}

async function write(sheet: string, address: string, value: string | number): Promise<void> {
  await host.write({ sheet, address }, [[value]], { overwrite: true });
}

describe("versions on a sheet of comparison", () => {
  it("is a plan that every host can write, and that keeps the rules of a budget's sheets", async () => {
    await host.insert(smallBudget("Third", 3));
    const plan = await planOf();
    for (const faults of [planFaults, callFaults, lengthFaults, nativeFaults, spareFaults])
      assert.deepEqual(faults(plan), []);
  });

  it("shows the figures of the whole feed first, then items, then checks, with their words", async () => {
    const { sheets } = await host.insert(await planOf());
    assert.equal(sheets["compare"], "Compare");
    const rows = await records("Compare");
    assert.deepEqual(rows[1], {
      Item: "Whole feed",
      Figure: "Highest supply power",
      // 420 V · 10 A.
      ...{ A: 4200, B: 4200, Difference: 0, "Relative difference": 0, Unit: "W", Verdict: "same" },
    });
    // 10² · 2 Ω and 10² · 1 Ω.
    const loss = found(rows, "Whole feed", "Highest loss");
    assert.deepEqual([loss["A"], loss["B"], loss["Verdict"]], [200, 100, "better"]);
    const items = rows.findIndex(({ Item }) => Item === "Bus");
    assert.ok(rows.slice(0, items).every(({ Item }) => Item === "Whole feed"));
    // 380 V − 10 A · 2 Ω is below 365 V, with 1 Ω it is above.
    assert.equal(rows.at(-1)?.["Verdict"], "now holds");
  });

  it("follows what is typed in either version, its title too, and the case that is asked for", async () => {
    await host.insert(await planOf());
    await write("Feed 2", "E5", 4);
    const loss = found(await records("Compare"), "Cable", "Loss W");
    assert.deepEqual([loss["A"], loss["B"], loss["Verdict"]], [200, 400, "worse"]);
    await write("Inputs 2", "B1", "Thinner cable");
    const [content] = await host.read([{ sheet: "Compare", address: "A1:C7" }]);
    const texts = content!.values.flat().map(String);
    assert.ok(texts.includes("A: Quay · Quay; B: Thinner cable · Quay2"));
    const supply = content!.values.findIndex(([label]) => /supply voltage$/.test(String(label)));
    await write("Compare", cellAddress({ row: supply, column: 2 }), "lowest");
    assert.equal(found(await records("Compare"), "Bus", "Input V")["A"], 380);
  });

  it("holds each further version against the first, side by side", async () => {
    await host.insert(smallBudget("Third", 3));
    await host.insert(await planOf());
    for (const [block, loss] of [
      [0, 100],
      [1, 300],
    ] as const) {
      const row = found(await records("Compare", block), "Whole feed", "Highest loss");
      assert.deepEqual([row["A"], row["B"]], [200, loss]);
    }
  });

  it("shows figures of the whole feed in their own formats, whatever else is not known yet", async () => {
    await write("Feed", "C5", "no such kind");
    const plan = await planOf();
    const [sheet] = plan.sheets;
    const head = sheet!.cells.find(({ formula }) => formula?.includes("CHAIN_COMPARE"))!;
    const { top } = rangePlace(head.at);
    const formats = (row: number) =>
      sheet!.cells.find(({ at }) => at === cellAddress({ row: top + row, column: 2 }))?.format;
    assert.deepEqual([1, 2, 3, 4, 5, 7].map(formats), [
      "0",
      "0.0",
      "0.0",
      MARGIN_FORMAT,
      MARGIN_FORMAT,
      MARGIN_FORMAT,
    ]);
    await host.insert(plan);
    // The function itself says what it refuses; the sheet is right once that is mended.
    await write("Feed", "C5", "run");
    const rows = await records("Compare");
    assert.deepEqual(
      rows.slice(0, 5).map(({ Figure }) => Figure),
      [
        "Cases solved, of nine",
        "Highest supply power",
        "Highest loss",
        "Least efficiency at nominal loads",
        "Least margin to a window",
      ],
    );
  });

  it("reads sheets whatever they are called", async () => {
    await host.insert(smallBudget("Odd", 5, "Feed #1 @ {Feed}"));
    await host.insert(await planOf());
    const row = found(await records("Compare", 1), "Whole feed", "Highest loss");
    assert.equal(row["B"], 500);
  });

  it("paints what is better and what is worse, each in the column of its words", async () => {
    const [sheet] = (await planOf()).sheets;
    const head = sheet!.cells.find(({ formula }) => formula?.includes("CHAIN_COMPARE"))!;
    const { top } = rangePlace(head.at);
    const first = `H${top + 2}`;
    assert.deepEqual(
      sheet!.conditionalFormats.map(({ range, paint }) => [range.split(":")[0], paint]),
      [
        [first, "good"],
        [first, "warning"],
      ],
    );
    const [good, warning] = sheet!.conditionalFormats.map((rule) =>
      rule.kind === "formula" ? rule.formula : "",
    );
    for (const word of BETTER_WORDS) assert.ok(good!.includes(`${first}="${word}"`), word);
    for (const word of WORSE_WORDS) assert.ok(warning!.includes(`${first}="${word}"`), word);
  });

  it("leads from a difference to the item in the feed table of each version", async () => {
    await host.insert(await planOf());
    const [content] = await host.read([await host.used("Compare")]);
    const row = content!.values.findIndex(
      ([item, figure]) => item === "Cable" && figure === "Loss W",
    );
    const cell = { sheet: "Compare", address: cellAddress({ row, column: 4 }) };
    const { end } = await readTrail(host, await readCellAt(host, cell));
    assert.ok(end);
    const [call] = workingOf(end.tree, { row: end.row });
    const rows = call!.blocks.flatMap((block) => block.rows);
    const led = (label: string) => rows.find((one) => one.label === label)!.cells;
    assert.deepEqual(led("In A"), [{ sheet: "Feed", address: "A5" }]);
    assert.deepEqual(led("In B"), [{ sheet: "Feed 2", address: "A5" }]);
  });
});
