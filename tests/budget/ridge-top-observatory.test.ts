/** The ridge-top observatory's budget, calculated by the workbench's engine with the real cell functions. */
import assert from "node:assert/strict";
import { afterAll, beforeAll, describe, it } from "vitest";
import { feedTable } from "../../functions/reading/feed-table.js";
import { budgets } from "../../src/budget/budgets.js";
import { columnLetters, cellPlace } from "../../src/plans/addresses.js";
import { faultPath } from "../../src/safety/fault-path.js";
import type { HostValue } from "../../taskpane/hosts/host.js";
import { type OpenBudget, openBudget } from "./open-budget.js";

const LOADS = ["light", "nominal", "peak"] as const;
const SUPPLIES = ["lowest", "nominal", "highest"] as const;

let budget: OpenBudget;
beforeAll(async () => {
  budget = await openBudget(budgets[0]!);
});
afterAll(() => budget.workbook.dispose());

async function choose(loads: string, supply: string): Promise<void> {
  if (budget.read("Loads") !== loads) await budget.enter("Loads", loads);
  if (budget.read("Supply voltage") !== supply)
    await budget.enter("Supply voltage", supply);
}

function results() {
  return budget.table("Budget", "Item", "Check");
}

function row(item: string) {
  const found = results().find((one) => one["Item"] === item);
  assert.ok(found, item);
  return found;
}

function bands() {
  return budget.table("Bands", "Item", "In service V");
}

function near(actual: unknown, expected: number, share: number) {
  assert.ok(
    Math.abs(Number(actual) - expected) <= share * expected,
    `${String(actual)} is not within ${share} of ${expected}`,
  );
}

describe("the figures of a reviewer", () => {
  // Worked out by hand, before the budget was written, for 1570 W of loads behind 0.3 Ω, 3.48 Ω, a ratio of 1/8 with
  // 15 mΩ and 18 W, and some 30 W lost in the regulated stages; the hut's fuse and connectors were left out there.
  const BY_HAND = {
    lowest: { input: 341.8, bus: 42.2, current: 4.8 },
    nominal: { input: 383.9, bus: 47.5, current: 4.26 },
    highest: { input: 425.5, bus: 52.7, current: 3.84 },
  } as const;

  for (const supply of SUPPLIES) {
    it(`are near at the ${supply} supply voltage`, async () => {
      await choose("nominal", supply);
      const { input, bus, current } = BY_HAND[supply];
      const stage = row("Summit stage");
      near(stage["Input (V)"], input, 0.001);
      near(stage["Output (V)"], bus, 0.002);
      near(row("Valley bus")["Output (A)"], current, 0.003);
    });
  }

  // IEC 60228 class 2, 4 mm²: at most 4.61 Ω/km at 20 °C (values of its Table 2); 0.7 km, 1 + 0.00393 · 20.
  it("have a cable of 4.61 Ω/km at 20 °C", () => {
    const feed = budget.table("Budget", "Item", "Fed from");
    const cable = feed.find((one) => one["Item"] === "Cable to the summit");
    near(cable?.["Resistance (Ω)"], 0.7 * 4.61 * 1.0786, 1e-12);
  });

  it("agree with the solved rows in every check by hand", async () => {
    for (const supply of SUPPLIES) {
      await choose("peak", supply);
      const checks = budget.table("Budget", "Figure", "By hand");
      assert.equal(checks.length, 4);
      for (const { Figure, "By hand": byHand, Solved } of checks)
        assert.ok(
          Math.abs(Number(byHand) - Number(Solved)) <= 1e-9 * Number(Solved),
          String(Figure),
        );
    }
  });
});

describe("every case that can be chosen", () => {
  for (const loads of LOADS)
    for (const supply of SUPPLIES)
      it(`closes at ${loads} loads on the ${supply} supply, without an error in any cell`, async () => {
        await choose(loads, supply);
        const power = Number(budget.balance("Supply power"));
        assert.ok(power > 300);
        near(budget.balance("Loads and losses together"), power, 1e-9);
        const error = Math.abs(Number(budget.balance("Closing error")));
        assert.ok(error <= 1e-9 * power, `${error} W`);
        assert.equal(budget.balance("Closing check"), "✔ closes");
        const losses = results().map((one) => Number(one["Loss (W)"]));
        const sum = losses.reduce((total, loss) => total + loss, 0);
        near(budget.balance("All losses, given off as heat"), sum, 1e-12);
        assertNoErrors();
      });

  it("says in a line what is solved", async () => {
    await choose("peak", "lowest");
    assert.equal(
      budget.workbook.value("Budget", "A3"),
      "Solved for peak loads with 25 % margin for growth and ageing, supply at its lowest voltage, 360 V. Both are chosen on Inputs.",
    );
  });

  it("has the margin in every load", async () => {
    // 960, 192, 72 and 32 W with 25 % more.
    await choose("nominal", "nominal");
    near(budget.balance("All loads"), 1200 + 240 + 90 + 40, 1e-12);
    await budget.enter("Margin for growth and ageing, on each load", 0);
    near(budget.balance("All loads"), 960 + 192 + 72 + 32, 1e-12);
    await budget.enter("Margin for growth and ageing, on each load", 0.25);
  });

  function assertNoErrors() {
    for (const { name } of budget.plan.sheets)
      budget
        .rows(name)
        .forEach((cells, index) =>
          cells.forEach((cell, column) =>
            assert.notEqual(
              typeof cell,
              "object",
              `${name}!${columnLetters(column)}${index + 1}: ${JSON.stringify(cell)}`,
            ),
          ),
        );
  }
});

describe("the cells", () => {
  it("hold a formula wherever a number is shown that is not an input", () => {
    for (const sheet of budget.plan.sheets) {
      const spills = sheet.cells.filter(({ spill }) => spill);
      const inputs = new Set(
        sheet.cells
          .filter(({ style }) => style === "input")
          .map(({ at }) => at),
      );
      budget.rows(sheet.name).forEach((cells, index) =>
        cells.forEach((cell, column) => {
          const at = `${columnLetters(column)}${index + 1}`;
          if (typeof cell !== "number" || inputs.has(at)) return;
          const spilled = spills.some(
            ({ at: anchor, spill: [height, width] = [0, 0] }) => {
              const place = cellPlace(anchor);
              return (
                index >= place.row &&
                index < place.row + height &&
                column >= place.column &&
                column < place.column + width
              );
            },
          );
          const formula = budget.workbook.formula(sheet.name, at);
          assert.ok(spilled || formula.startsWith("="), `${sheet.name}!${at}`);
        }),
      );
    }
  });

  it("give the mass and cost of what is bought", () => {
    // 0.19 · 350 + 3.2 + 0.6 + 0.31 · 15 + 0.4 + 0.3 kg; 9.5 · 350 + 1150 + 180 + 6.5 · 15 + 140 + 95.
    near(budget.balance("Mass of cables and stages"), 75.65, 1e-12);
    near(budget.balance("Cost of cables and stages"), 4987.5, 1e-12);
  });
});

describe("a longer cable", () => {
  it("drops more, and is warned of above the limit", async () => {
    await choose("nominal", "nominal");
    const before = Number(row("Cable to the summit")["Drop (V)"]);
    assert.match(String(row("Cable to the summit")["Check"]), /^✔/);
    assert.equal(budget.balance("Rows with a warning below"), 0);
    await budget.enter("Route length, one way", 600);
    const after = row("Cable to the summit");
    assert.ok(Number(after["Drop (V)"]) > 1.7 * before);
    assert.match(String(after["Check"]), /^▲ drop \d\.?\d* %, above 5 %$/);
    assert.equal(budget.balance("Rows with a warning below"), 1);
    await budget.enter("Route length, one way", 350);
    near(row("Cable to the summit")["Drop (V)"], before, 1e-12);
  });

  it("that cannot carry the load says so in every row of its tree", async () => {
    await budget.enter("Route length, one way", 5000);
    for (const { Item, Check } of results())
      assert.equal(Check, "✖ not solved: see its note", String(Item));
    assert.equal(
      budget.balance("Closing check"),
      "✖ not solved: see the notes",
    );
    await budget.enter("Route length, one way", 350);
    assert.equal(budget.balance("Closing check"), "✔ closes");
  });
});

describe("the bands", () => {
  it("keep the warning of a 50 V bus outdoors at 56.1 V", async () => {
    await choose("nominal", "nominal");
    const bus = bands().find((one) => one["Item"] === "Summit stage");
    near(bus?.["In service V"], 56.1, 1e-12);
    assert.equal(bus?.["Limit V"], 30);
    near(-Number(bus["Margin in service"]), 56.1 / 30 - 1, 1e-12);
    assert.equal(bus["Band in service"], "extra-low");
    assert.match(
      String(bus["Note"]),
      /extra-low live parts enclosed or insulated/,
    );
  });

  it("are those of the dry place indoors, where 56.1 V is within 60 V", async () => {
    await budget.enter("Place where people can touch", "dry");
    const bus = bands().find((one) => one["Item"] === "Summit stage");
    for (const heading of ["Band in service", "Band after one fault"])
      assert.equal(bus?.[heading], "bare");
    near(bus?.["Margin after one fault"], 1 - 56.1 / 60, 1e-12);
    await budget.enter("Place where people can touch", "wet");
  });

  const CHANGES: readonly (readonly [
    string,
    string,
    string | number,
    number?,
  ])[] = [
    ["as entered", "Cables in parallel", 1],
    ["with basic isolation", "Isolation, input to output", "basic"],
    ["with a ratio of 1 to 9", "Steps the voltage down by", 9],
    ["without a tolerance", "Tolerance of the ratio", ""],
    ["with a higher trip", "Output stopped at, regulation lost", 70, 0],
    ["with a higher bus", "Valley bus, open circuit", 520, 2],
  ];
  for (const [what, label, content, value = 0] of CHANGES) {
    it(`are those of the engine's own fault path, ${what}`, async () => {
      const [before, bandsBefore] = [budget.read(label, value), bands()];
      await enterAt(label, content, value);
      assertFaultPath();
      if (content === before) assert.deepEqual(bands(), bandsBefore);
      else assert.notDeepEqual(bands(), bandsBefore);
      await enterAt(label, before as string | number, value);
    });
  }

  /** An emptied input is found again by where it was. */
  const addresses = new Map<string, string>();
  async function enterAt(
    label: string,
    content: string | number,
    value: number,
  ) {
    const key = `${label} ${value}`;
    const rows = budget.rows("Inputs");
    const line = rows.findIndex(([first]) => first === label);
    const column = [1, 2, 3].filter(
      (candidate) => rows[line]?.[candidate] !== "",
    )[value];
    const at =
      addresses.get(key) ?? `${columnLetters(column ?? -1)}${line + 1}`;
    addresses.set(key, at);
    if (content === "") await budget.workbook.clear("Inputs", at);
    else await budget.workbook.set("Inputs", at, content);
  }

  function assertFaultPath() {
    const area = budget.found().areas["Feed"]!;
    const table = feedTable(
      area.values.map((cells) =>
        cells.map((cell) => (typeof cell === "object" ? null : cell)),
      ),
    );
    const nodes = faultPath(table.feed);
    const found = bands();
    assert.equal(found.length, nodes.length);
    nodes.forEach(({ item, normal, afterFault }, index) => {
      assert.equal(found[index]?.["Item"], item);
      for (const [heading, expected] of [
        ["In service V", normal],
        ["After one fault V", afterFault],
      ] as const) {
        const cell: HostValue | undefined = found[index]?.[heading];
        if (expected.outcome === "not determined")
          assert.equal(cell, "not determined", `${item}, ${heading}`);
        else near(cell, expected.voltage, 1e-12);
      }
    });
  }

  it("call a fault through basic isolation what it is", async () => {
    await budget.enter("Isolation, input to output", "basic");
    const bus = bands().find((one) => one["Item"] === "Summit stage");
    assert.equal(bus?.["After one fault V"], 440);
    assert.equal(bus["Band after one fault"], "low");
    assert.equal(bus["Which fault"], "Summit stage: input and output joined");
    await budget.enter("Isolation, input to output", "reinforced");
  });
});

describe("the notes", () => {
  it("hold plan, plan version and the engine that calculated it", () => {
    const about = budget.found().areas["About"]?.values[0];
    assert.deepEqual(about?.slice(0, 2), ["ridge-top-observatory", "1.2.0"]);
    assert.match(String(about?.[2]), /^\d+\.\d+\.\d+/);
  });

  it("defer to the code and to licensed people", () => {
    const text = budget.rows("Notes").flat().join(" ");
    for (const word of [
      "local code",
      "licensed",
      "verify by measurement",
      "certifies nothing",
    ])
      assert.ok(text.includes(word), word);
  });
});
