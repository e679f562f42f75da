/** Changes to a typed feed: whatever is added, renamed, fed from elsewhere, copied or taken out, the sheets hold what was meant. */
import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, it } from "vitest";
import type { CellTable } from "../../functions/cells.js";
import { evaluate } from "../../functions/runner.js";
import type { WorkbookPlan } from "../../src/plans/sheet-plan.js";
import { TABLE_BLOCKS } from "../../src/schedules/columns.js";
import { budgetPlan } from "../../taskpane/budgets/budget-plan.js";
import { BLOCK_AREAS } from "../../taskpane/budgets/names.js";
import { rangeRows, sameItem } from "../../taskpane/budgets/reading/range-table.js";
import {
  feedOutline,
  type TypedItem,
  typedItems,
  withAllItFeeds,
} from "../../taskpane/budgets/reading/feed-outline.js";
import type { ReadRange } from "../../taskpane/budgets/reading/found-budget.js";
import { blank } from "../../taskpane/budgets/samples/blank.js";
import { ridgeTop } from "../../taskpane/budgets/samples/ridge-top.js";
import {
  addRow,
  duplicateItem,
  feedFrom,
  freshName,
  possibleFeeders,
  removeItem,
  renamedAcceptances,
  renameItem,
  renameShared,
} from "../../taskpane/workbook/feed-edits.js";
import { TypedSheets } from "../../taskpane/workbook/typed-sheets.js";
import { MemoryHost } from "../hosts/memory-host.js";

/** The sheets that a feed is typed on, without those that calculate. */
function typedPlan(sample: typeof ridgeTop): WorkbookPlan {
  const plan = budgetPlan(sample);
  const keys = ["inputs", "feed", "loads", "types"];
  const sheets = plan.sheets.filter(({ key }) => keys.includes(key));
  return {
    ...plan,
    sheets: sheets.map((sheet) => ({
      ...sheet,
      cells: sheet.cells.filter(({ formula }) => formula === undefined),
      validations: [],
    })),
    names: plan.names.filter(({ name }) => (Object.values(BLOCK_AREAS) as string[]).includes(name)),
  };
}

class TypedFeed {
  readonly host = new MemoryHost();
  private stem = "";

  static async of(sample: typeof ridgeTop): Promise<TypedFeed> {
    const feed = new TypedFeed();
    feed.stem = (await feed.host.insert(typedPlan(sample))).stem;
    return feed;
  }

  async ranges(): Promise<Readonly<Record<string, ReadRange>>> {
    const names = await this.host.names();
    const contents = await this.host.read(names.map(({ range }) => range));
    return Object.fromEntries(
      names.map(({ name }, index) => {
        const { range, values } = contents[index]!;
        return [name.slice(this.stem.length + 1), { ...range, values }];
      }),
    );
  }

  async items(): Promise<readonly TypedItem[]> {
    return typedItems({ ranges: await this.ranges() });
  }

  async change(make: (sheets: TypedSheets, items: readonly TypedItem[]) => void): Promise<void> {
    const ranges = await this.ranges();
    const sheets = await TypedSheets.read(this.host, { ranges });
    make(sheets, typedItems({ ranges }));
    await this.host.edit(sheets.edits);
  }

  /** Input volts and amperes of every item. */
  async solved(): Promise<ReadonlyMap<string, readonly unknown[]>> {
    const ranges = await this.ranges();
    const blocks = TABLE_BLOCKS.map((name) =>
      ranges[BLOCK_AREAS[name]]!.values.map((row) =>
        row.map((cell) => (cell === "" ? null : cell)),
      ),
    ) as unknown as CellTable[];
    const table = evaluate("CHAIN_TABLE", blocks);
    assert.ok(table.ok, JSON.stringify(table));
    const result = evaluate("CHAIN_SOLVE", [table.value as CellTable]);
    assert.ok(result.ok, JSON.stringify(result));
    const rows = (result.value as CellTable).slice(1);
    return new Map(rows.map((row) => [String(row[0]), row.slice(1)]));
  }
}

/** Items that the rows of Spread are about. */
function spreadNames(ranges: Readonly<Record<string, ReadRange>>): string[] {
  return rangeRows(ranges["Spread"]!).map(({ item }) => item);
}

const named = (items: readonly TypedItem[], name: string) =>
  items.find((item) => item.name === name)!;

describe("a typed feed", () => {
  it("is listed in feeding order, with what is not fed behind it", async () => {
    const feed = await TypedFeed.of(blank);
    await feed.change((sheets) => {
      addRow(sheets, "Load", { Load: "Lamp", "Fed from": "Run", Kind: "power", Nominal: 10 });
      addRow(sheets, "Cable", { Cable: "Run", "Fed from": "Supply", Resistance: 1 });
      addRow(sheets, "Load", { Load: "Spare" });
    });
    const outline = feedOutline({ ranges: await feed.ranges() });
    assert.deepEqual(
      outline.map(({ name, depth, isFed }) => [name, depth, isFed]),
      [
        ["Supply", 0, true],
        ["Run", 1, true],
        ["Lamp", 2, true],
        ["Spare", 0, false],
      ],
    );
  });

  it("takes more rows than stood empty: the block grows above its closing row", async () => {
    const feed = await TypedFeed.of(blank);
    const before = (await feed.ranges())["Loads"]!.values.length;
    await feed.change((sheets) => {
      for (let index = 1; index <= before + 5; index += 1)
        addRow(sheets, "Load", { Load: `Lamp ${index}`, "Fed from": "Supply" });
    });
    const { values } = (await feed.ranges())["Loads"]!;
    assert.equal(values.length, before + 5 + 2);
    assert.equal((await feed.items()).length, before + 5 + 1);
    assert.ok(values.at(-1)!.every((cell) => cell === ""));
  });

  it("solves the same under another name, and what hangs on it follows", async () => {
    const feed = await TypedFeed.of(ridgeTop);
    const before = await feed.solved();
    const items = await feed.items();
    const stage = items.find(({ block }) => block === "Stage")!;
    await feed.change((sheets, all) => renameItem(sheets, all, named(all, stage.name), "Renamed"));
    const after = await feed.solved();
    assert.ok(!after.has(stage.name));
    for (const [name, figures] of before)
      assert.deepEqual(after.get(name === stage.name ? "Renamed" : name), figures, name);
  });

  it("solves the same under another name of a place and of a type", async () => {
    const feed = await TypedFeed.of(ridgeTop);
    const before = await feed.solved();
    await feed.change((sheets) => {
      renameShared(sheets, "Location", 1, "Elsewhere");
      renameShared(sheets, "Stage type", 1, "Another type");
    });
    assert.deepEqual(await feed.solved(), before);
    assert.equal((await feed.ranges())["Types"]!.values[1]![0], "Another type");
  });

  it("gives a copy of a supply and all that it feeds the same figures", async () => {
    const feed = await TypedFeed.of(ridgeTop);
    const [supply] = (await feed.items()).filter(({ block }) => block === "Supply");
    assert.ok(supply);
    const before = await feed.solved();
    let copy = "";
    await feed.change((sheets, all) => {
      copy = duplicateItem(sheets, all, named(all, supply.name));
    });
    const after = await feed.solved();
    // All but the share of the whole loss, which there is twice of.
    assert.deepEqual(after.get(copy)?.slice(0, 6), before.get(supply.name)?.slice(0, 6));
    assert.equal(after.size, 2 * before.size);
  });

  it("is undone as one step", async () => {
    const feed = await TypedFeed.of(ridgeTop);
    const before = await feed.ranges();
    const [supply] = await feed.items();
    await feed.change((sheets, all) => removeItem(sheets, all, supply!, "goes too"));
    assert.equal((await feed.items()).length, 0);
    feed.host.undo();
    assert.deepEqual(await feed.ranges(), before);
  });

  it("keeps a formula where it feeds by one", async () => {
    const feed = await TypedFeed.of(blank);
    await feed.change((sheets) => {
      addRow(sheets, "Cable", { Cable: "Run", "Fed from": "=A5", Resistance: 1 });
    });
    await feed.change((sheets, all) => renameItem(sheets, all, named(all, "Supply"), "Hut"));
    assert.equal(named(await feed.items(), "Run").fedFrom, "Hut");
    const run = named(await feed.items(), "Run");
    const [content] = await feed.host.read([
      { sheet: run.at.sheet, address: run.at.address.replace("A", "B") },
    ]);
    assert.match(content!.formulas[0]![0]!, /^=A\d+$/);
  });

  it("copies a row's formulas relative to where they come to stand", async () => {
    const feed = await TypedFeed.of(blank);
    await feed.change((sheets) => {
      addRow(sheets, "Load", { Load: "Lamp", "Fed from": "Supply", Nominal: 40, Peak: "=H5*2" });
    });
    const ranges = await feed.ranges();
    const header = ranges["Loads"]!.values[0]!.map(String);
    assert.ok(header[7]!.startsWith("Nominal"), header.join());
    await feed.change((sheets, all) => {
      duplicateItem(sheets, all, named(all, "Lamp"));
    });
    const sheets = await TypedSheets.read(feed.host, { ranges: await feed.ranges() });
    assert.equal(sheets.cells("Load", 2)[sheets.columnOf("Load", "Peak")], "=H6*2");
  });

  it("holds what was meant after any changes", async () => {
    interface Meant {
      name: string;
      fedFrom: string;
    }
    const step = fc.record({
      what: fc.constantFrom("add", "rename", "feed", "copy", "remove", "remove all"),
      pick: fc.nat(),
      other: fc.nat(),
    });
    await fc.assert(
      fc.asyncProperty(fc.array(step, { minLength: 1, maxLength: 12 }), async (steps) => {
        const feed = await TypedFeed.of(ridgeTop);
        let meant: Meant[] = (await feed.items()).map(({ name, fedFrom }) => ({ name, fedFrom }));
        let varied = spreadNames(await feed.ranges());
        assert.equal(varied.length, 5);
        let count = 0;
        for (const { what, pick, other } of steps) {
          await feed.change((sheets, items) => {
            const item = items[pick % Math.max(1, items.length)];
            count += 1;
            if (what === "add" || !item) {
              const name = `New ${count}`;
              const feeder = item && item.block !== "Load" ? item.name : "";
              addRow(sheets, "In line", { "In line": name, "Fed from": feeder });
              meant.push({ name, fedFrom: feeder });
            } else if (what === "rename") {
              const name = `Other ${count}`;
              renameItem(sheets, items, item, name);
              varied = varied.map((one) => (one === item.name ? name : one));
              meant = meant.map((one) => ({
                name: one.name === item.name ? name : one.name,
                fedFrom: sameItem(one.fedFrom, item.name) ? name : one.fedFrom,
              }));
            } else if (what === "feed") {
              const feeders = possibleFeeders(items, item);
              const feeder = feeders[other % Math.max(1, feeders.length)];
              if (item.block === "Supply" || !feeder) return;
              feedFrom(sheets, item, feeder.name);
              meant = meant.map((one) =>
                one.name === item.name ? { ...one, fedFrom: feeder.name } : one,
              );
            } else if (what === "copy") {
              const tree = withAllItFeeds(item, items);
              if (items.length + tree.length > 60) return;
              const taken = meant.map(({ name }) => name);
              const copies = new Map<string, string>();
              for (const { name } of tree) {
                copies.set(name, freshName(name, taken));
                taken.push(copies.get(name)!);
              }
              duplicateItem(sheets, items, item);
              varied.push(...varied.flatMap((one) => copies.get(one) ?? []));
              for (const one of tree)
                meant.push({
                  name: copies.get(one.name)!,
                  fedFrom: one === item ? one.fedFrom : (copies.get(one.fedFrom) ?? one.fedFrom),
                });
            } else {
              const fate = what === "remove" ? "is fed by the one before" : "goes too";
              removeItem(sheets, items, item, fate);
              const gone = (fate === "goes too" ? withAllItFeeds(item, items) : [item]).map(
                ({ name }) => name,
              );
              varied = varied.filter((one) => !gone.includes(one));
              meant = meant
                .filter(({ name }) => !gone.includes(name))
                .map((one) =>
                  sameItem(one.fedFrom, item.name) ? { ...one, fedFrom: item.fedFrom } : one,
                );
            }
          });
          const items = await feed.items();
          const sorted = (list: readonly Meant[]) =>
            list.map(({ name, fedFrom }) => `${name} < ${fedFrom}`).sort();
          assert.deepEqual(sorted(items), sorted(meant), what);
          assert.deepEqual(spreadNames(await feed.ranges()).sort(), varied.sort(), what);
        }
      }),
      { numRuns: 40 },
    );
  });
});

describe("an acceptance", () => {
  it("follows a renamed item, in its key and in what was found", () => {
    const accepted: ReadRange = {
      sheet: "Notes",
      address: "A1:D3",
      values: [
        ["Warning", "Accepted", "Reason", "As it was found"],
        [
          "Loading|fails|Bus|0.8|Bus",
          "AB, today",
          "short",
          "Bus: 0.93 against 0.8, in peak, one Bus unit lost",
        ],
        ["Loading|fails|Busbar|0.8|Busbar", "AB, today", "short", "Busbar: 0.9 against 0.8"],
      ],
    };
    assert.deepEqual(renamedAcceptances(accepted, "Bus", "Rail $1"), [
      {
        kind: "write",
        range: { sheet: "Notes", address: "A2" },
        cells: [["Loading|fails|Rail $1|0.8|Rail $1"]],
      },
      {
        kind: "write",
        range: { sheet: "Notes", address: "D2" },
        cells: [["Rail $1: 0.93 against 0.8, in peak, one Rail $1 unit lost"]],
      },
    ]);
  });
});
