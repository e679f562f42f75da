/**
 * What an engineer meets on a first day with a feed of one's own: typed, added to, renamed, overloaded, retitled. Figures
 * are worked out by hand beside each test.
 */
import assert from "node:assert/strict";
import { afterAll, beforeAll, describe, it } from "vitest";
import { evaluate } from "../../functions/runner.js";
import { cellAddress, cellPlace } from "../../src/plans/addresses.js";
import { budgetPlan } from "../../taskpane/budgets/budget-plan.js";
import { Places } from "../../taskpane/budgets/places.js";
import type { BudgetSample, ScheduleName } from "../../taskpane/budgets/sample.js";
import { riverFerry } from "../../taskpane/budgets/samples/river-ferry.js";
import { counts, type Warning } from "../../taskpane/budgets/warnings/warning.js";
import { warningsOf } from "../../taskpane/budgets/warnings/warnings.js";
import { askedColumn } from "../../taskpane/workbook/entries/asked-column.js";
import { entryFor } from "../../taskpane/workbook/entries/entry-text.js";
import { ownFeed } from "../feeds/own-feed.js";
import { type OpenBudget, openBudget } from "./open-budget.js";

const LONGEST_MS = 120_000;

/** Sheet and address of a figure in a schedule of the plan. */
function cellOf(
  sample: BudgetSample,
  block: ScheduleName,
  item: string,
  header: string,
): readonly [sheet: string, address: string] {
  const cell = new Places(sample).block(block).cell(item, header);
  const [, key = "", address = ""] = /^\{(\w+)\}!(.+)$/.exec(cell) ?? [];
  return [key.charAt(0).toUpperCase() + key.slice(1), address.replaceAll("$", "")];
}

const own = (block: ScheduleName, item: string, header: string) =>
  cellOf(ownFeed, block, item, header);

function near(found: unknown, wanted: number, share = 1e-9): void {
  assert.ok(
    typeof found === "number" && Math.abs(found - wanted) <= share * Math.abs(wanted),
    `${JSON.stringify(found)} is not ${wanted}`,
  );
}

/** Inserts a row above that of an item and types into it, by heading. */
async function insertAbove(
  { workbook }: OpenBudget,
  block: ScheduleName,
  item: string,
  typed: Readonly<Record<string, string | number>>,
): Promise<void> {
  const [sheet, address] = own(block, item, block);
  const { row } = cellPlace(address);
  await workbook.insertRow(sheet, row + 1);
  for (const [header, value] of Object.entries(typed)) {
    const { column } = cellPlace(own(block, item, header)[1]);
    await workbook.set(sheet, cellAddress({ row, column }), value);
  }
}

const of = (warnings: readonly Warning[], check: string) =>
  warnings.filter((one) => one.check === check);

const LOADS = new Set([...ownFeed.schedules.Load!.map((row) => String(row["Load"])), "Camera"]);

const findingsOf = (warnings: readonly Warning[]) => warnings.flatMap(({ findings }) => findings);

describe("a feed of one's own", () => {
  let budget: OpenBudget;
  let warnings: readonly Warning[];
  const rows = (spill: string) =>
    ({
      checks: () => budget.table("Checks", "Item", "Check"),
      solved: () => budget.table("Budget", "Item", "Input V"),
      bands: () => budget.table("Bands", "Item", "In service V"),
    })[spill]!();
  const row = (spill: string, item: string) => rows(spill).find(({ Item }) => Item === item)!;

  beforeAll(async () => {
    budget = await openBudget(budgetPlan(ownFeed));
    warnings = warningsOf(budget.found());
  }, LONGEST_MS);
  afterAll(() => budget.workbook.dispose());

  it("warns of a stage that is overloaded in the worst case only, in the pane and on Budget's front", () => {
    // Nominal 1.2 · 166 W / 24 V = 8.3 A is within 9 A; at peak 1.2 · 322.4 W at 24 V less 2 % is 16.45 A of 10 A.
    near(row("solved", "24 V stage")["Output A"], 8.3, 1e-9);
    const [overload] = findingsOf(of(warnings, "Loading")).filter(
      ({ item }) => item === "24 V stage",
    );
    assert.ok(overload);
    near(overload.found, (1.2 * 322.4) / (24 * 0.98) / 10, 1e-9);
    assert.match(overload.worstIn, /peak/);
    const failing = rows("checks").filter(({ Verdict }) => Verdict === "fails");
    assert.equal(budget.balance("Checks that fail in some case"), failing.length);
    const listed = findingsOf(warnings.filter(({ severity }) => severity !== "not determined"));
    assert.equal(listed.length, failing.length);
  });

  it("is judged by its cable's heat, its fuse, its faults and its discharge, or says what to enter", () => {
    const judged = new Set(rows("checks").map(({ Check }) => Check));
    for (const check of [
      "Conductor temperature",
      "Fuse carries the load",
      "Fuse breaks the fault",
      "Far-end fault blows the fuse",
      "Cable withstands a fault",
      "Share of the worst unit",
      "One unit lost",
      "Stage in its ambient",
      "Stability margin",
      "Discharge time",
      "Stored energy",
      "Altitude",
    ])
      assert.ok(judged.has(check), check);
    for (const one of rows("checks"))
      if (one["Verdict"] === "not determined")
        assert.match(String(one["Enter or try"]), /^enter /i, JSON.stringify(one));
  });

  it("asks for no enclosure where its places are enclosed, and counts no note", () => {
    assert.deepEqual(of(warnings, "Band in service"), []);
    const notes = warnings.filter(({ severity }) => severity === "note");
    assert.equal(warnings.filter(counts).length, warnings.length - notes.length);
  });

  it(
    "says of a collapse once that there is no operating point, not of every item behind it",
    async () => {
      const length = own("Cable", "Trackside cable", "Length");
      await budget.workbook.set(...length, 60_000);
      const dangers = warningsOf(budget.found()).filter(({ severity }) => severity === "danger");
      await budget.workbook.set(...length, 180);
      assert.deepEqual(
        dangers.map(({ check, findings }) => [check, findings.length]),
        [["Operating point", 1]],
      );
    },
    LONGEST_MS,
  );

  it(
    "has the one place to mend when a stage is renamed, and no total that leaves its loads out",
    async () => {
      await budget.workbook.set(...own("Stage", "5 V stage", "Stage"), "Logic stage");
      const after = warningsOf(budget.found());
      const lost = findingsOf(after).filter(({ remedy }) => /5 V stage/.test(remedy));
      const loads = budget.balance("All loads");
      const errors = findingsOf(after).filter(({ remedy }) => /shows #/.test(remedy));
      await budget.workbook.set(...own("Stage", "5 V stage", "Stage"), "5 V stage");
      assert.deepEqual(errors, []);
      assert.ok(lost.length > 0, JSON.stringify(after.map(({ check }) => check)));
      const places = lost.map(({ toChange }) => toChange);
      for (const load of ["Radio", "Axle counters"]) {
        const [sheet, address] = own("Load", load, "Fed from");
        assert.ok(
          places.some((place) => place?.sheet === sheet && place.address === address),
          `${load}: ${JSON.stringify(places)}`,
        );
      }
      // Two loads are not solved: their sum with the others is not a smaller number.
      assert.deepEqual(loads, { error: "#VALUE!" });
    },
    LONGEST_MS,
  );

  it(
    "counts a load with its margin as soon as its row is typed, and nothing else has to be filled",
    async () => {
      const { workbook } = budget;
      const before = budget.balance("All loads");
      await insertAbove(budget, "Load", "Radio", {
        Load: "Camera",
        "Fed from": "24 V stage",
        Kind: "power",
        Nominal: 12,
      });
      near(row("solved", "Camera")["Input W"], 1.2 * 12);
      const sum = rows("solved").reduce(
        (watts, one) => watts + (LOADS.has(String(one["Item"])) ? Number(one["Input W"]) : 0),
        0,
      );
      near(budget.balance("All loads"), sum);
      assert.ok(Math.abs(Number(budget.balance("Closing error"))) < 1e-6);
      assert.deepEqual(
        findingsOf(warningsOf(budget.found())).filter(({ item }) => item === "Camera").length > 0,
        rows("checks").some(({ Item, Verdict }) => Item === "Camera" && Verdict !== "holds"),
      );
      for (let undone = 0; undone < 5; undone += 1) await workbook.undo();
      assert.equal(budget.balance("All loads"), before);
    },
    LONGEST_MS,
  );

  it(
    "has the band of a load that hangs on a stage typed below it",
    async () => {
      const { workbook } = budget;
      await insertAbove(budget, "Stage", "5 V stage", {
        Stage: "Camera stage",
        "Fed from": "24 V stage",
        Type: "5 V 10 A",
        Tolerance: 0.02,
      });
      await workbook.set(...down(own("Load", "Radio", "Fed from"), 0), "Camera stage");
      // 5 V and 2 %, whatever is typed above or below it.
      near(row("bands", "Radio")["In service V"], 5.1, 1e-9);
      near(row("solved", "Radio")["Input V"], 5, 1e-9);
      for (let undone = 0; undone < 6; undone += 1) await workbook.undo();
    },
    LONGEST_MS,
  );

  it(
    "keeps every figure when its front line is typed over, and says so of a figure that is",
    async () => {
      const { workbook } = budget;
      const before = budget.balance("Supply power");
      await workbook.set("Budget", "A3", "Base case, issue A");
      assert.equal(budget.balance("Supply power"), before);
      assert.deepEqual(
        warningsOf(budget.found()).map(({ id }) => id),
        warnings.map(({ id }) => id),
      );
      await workbook.undo();
      const at = budget.rows("Budget").findIndex(([label]) => label === "Supply power") + 1;
      await workbook.set("Budget", `B${at}`, 400);
      const told = warningsOf(budget.found()).flatMap(({ findings }) => findings[0]?.remedy ?? []);
      await workbook.undo();
      assert.ok(
        told.some((remedy) => remedy.startsWith(`Budget!B${at} holds no formula any more`)),
        told.join("; "),
      );
    },
    LONGEST_MS,
  );

  it("is called by its title wherever the budget speaks of itself", () => {
    for (const { name } of budget.plan.sheets)
      assert.match(String(budget.rows(name)[0]?.[0]), /^Trackside hut 7: /, name);
    const title = budget.found().ranges["Title"]?.values[0]?.[0];
    assert.equal(title, "Trackside hut 7");
  });
});

function down([sheet, address]: readonly [string, string], rowsBelow: number) {
  const { row, column } = cellPlace(address);
  return [sheet, cellAddress({ row: row + rowsBelow, column })] as const;
}

describe("the sheets of a schedule", () => {
  const { sheets } = budgetPlan(ownFeed);
  const schedules = sheets.filter(({ key }) => ["feed", "loads", "types"].includes(key));

  it("keep the item in sight, and say on every heading what it means", () => {
    for (const { key, frozenColumns, frozenRows, cells } of schedules) {
      assert.equal(frozenColumns, 1, key);
      assert.ok(frozenRows > 0, key);
      for (const { at, style, note, value } of cells)
        if (style === "tableHeading" && !at.startsWith("A"))
          assert.ok(note, `${key}!${at}, ${String(value)}`);
    }
  });

  it("offer the items that are there for what feeds a row, and take another name too", () => {
    const feed = schedules.find(({ key }) => key === "feed")!;
    const offers = feed.validations.filter(
      ({ kind, range }) => kind === "offer" && range.startsWith("B"),
    );
    // Stage, Cable, In line; a supply is fed from nothing.
    assert.equal(offers.length, 3);
    for (const offer of offers) {
      assert.match(offer.range, /^B\d+:B\d+$/);
      assert.ok(offer.kind === "offer" && offer.source.startsWith("{table}!$A$"));
    }
  });

  it("offer the tables of disconnection times beside a figure, and tell them in the note", () => {
    const inputs = sheets.find(({ key }) => key === "inputs")!;
    const label = inputs.cells.find(({ value }) => value === "Far-end fault cleared within")!;
    assert.match(label.note ?? "", /"table 41\.1" takes .+ TN, "table 41\.1 TT" those for TT/);
    const cell = label.at.replace("A", "B");
    const rule = inputs.validations.find(({ range }) => range.split(":")[0] === cell);
    assert.ok(rule?.kind === "figure");
    assert.deepEqual(rule.words, ["table 41.1", "table 41.1 TT", "not asked"]);
    for (const word of rule.words) {
      const entry = entryFor(askedColumn("Far-end fault cleared within"), word);
      assert.deepEqual(entry, { content: word.toLowerCase() });
    }
  });

  it("offer locations, stage types and sizes from lists, and take another text too", () => {
    const sources = (field: string) =>
      schedules.flatMap(({ validations }) =>
        validations.flatMap((one) =>
          one.kind === "offer" && one.message.startsWith(`${field}:`) ? [one.source] : [],
        ),
      );
    // Supply, Stage, In line, Load; a cable may lie in several.
    assert.equal(sources("Location").length, 4);
    for (const source of [...sources("Location"), ...sources("Type")])
      assert.match(source, /^\{types\}!\$A\$\d+:\$A\$\d+$/);
    const [size] = sources("Size");
    const [, top, bottom] = /^\{notes\}!\$F\$(\d+):\$F\$(\d+)$/.exec(size ?? "") ?? [];
    const notes = sheets.find(({ key }) => key === "notes")!;
    const listed = notes.cells.flatMap(({ at, value }) => {
      const row = Number(/^F(\d+)$/.exec(at)?.[1]);
      return row >= Number(top) && row <= Number(bottom) ? [String(value)] : [];
    });
    assert.equal(listed.length, Number(bottom) - Number(top) + 1);
    assert.ok(
      listed.includes("2.5 mm²") && listed.includes("12 AWG") && listed.includes("4/0 AWG"),
    );
    for (const text of listed)
      assert.ok(evaluate("CONDUCTOR_RESISTANCE", [100, text, 20]).ok, text);
  });

  it("grey out what the kind of a row has no use for", () => {
    const grey = schedules.flatMap(({ conditionalFormats }) => conditionalFormats);
    assert.ok(grey.length >= 6);
    for (const { paint } of grey) assert.equal(paint, "unused");
    // Only a heater has watts at a voltage of its own.
    const [column] = /[A-Z]+/.exec(own("Load", "Radio", "Rated V")[1])!;
    const formulas = grey.flatMap((rule) =>
      rule.kind === "formula" && rule.range.startsWith(column) ? [rule.formula] : [],
    );
    const rule = formulas.find((formula) => /heater/.test(formula));
    assert.match(rule ?? "", /^AND\(\$D\d+<>"",\$D\d+<>"heater"\)$/);
  });
});

describe("what nobody has entered", () => {
  it(
    "is not 0: no mass, no price, no day without hours",
    async () => {
      const budget = await openBudget(budgetPlan(riverFerry));
      const { workbook, found } = budget;
      const day = () => found().ranges["Day"]!.values;
      try {
        const head = day()[0]!.indexOf("Energy lost (kWh)");
        assert.ok(Number(day()[1]?.[head]) > 0);
        const inputs = budget.rows("Inputs");
        const hours = inputs.findIndex(([label]) => label === "Hours") + 1;
        await workbook.clear("Inputs", `B${hours}`);
        assert.equal(day()[1]?.[head], "–");
        const price = inputs.findIndex(([label]) => label === "Price of energy") + 1;
        const cost = () =>
          day().find(([label]) => /^Cost of it in a year/.test(String(label)))?.[1];
        assert.equal(cost(), "–");
        await workbook.undo();
        assert.ok(Number(cost()) > 0);
        await workbook.clear("Inputs", `B${price}`);
        assert.equal(cost(), "–");
      } finally {
        workbook.dispose();
      }
      const feed = await openBudget(budgetPlan(ownFeed));
      try {
        // No mass and no price stands in this feed but that of its cable's metal.
        assert.equal(feed.balance("Price"), "–");
        near(feed.balance("Mass"), 2 * 180 * 4e-6 * 8890, 0.02);
        const stages = feed.rows("Schedule").find(([label]) => label === "Stages");
        assert.deepEqual(stages?.slice(1, 4), ["–", "–", "–"]);
      } finally {
        feed.workbook.dispose();
      }
    },
    LONGEST_MS,
  );
});
