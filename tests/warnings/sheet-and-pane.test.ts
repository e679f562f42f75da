/** A budget's own cells and the pane's warnings flag the same rows, whatever is typed into the inputs. */
import assert from "node:assert/strict";
import { afterAll, beforeAll, describe, it } from "vitest";
import { budgets } from "../../src/budget/budgets.js";
import type { Warning } from "../../src/warnings/warning.js";
import { warningsOf } from "../../src/warnings/warnings.js";
import { type OpenBudget, openBudget } from "../budget/open-budget.js";

/** Small linear congruential generator: the same inputs on every run. */
function drawer(seed: number) {
  let state = seed;
  return <T>(choices: readonly T[]): T => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return choices[Math.floor((state / 2 ** 32) * choices.length)]!;
  };
}

/** Label, which of its values, and what is typed there. */
const TYPED: Typed = [
  ["Loads", 0, ["light", "nominal", "peak"]],
  ["Supply voltage", 0, ["lowest", "nominal", "highest"]],
  [
    "Framework of the voltage bands",
    0,
    ["IEC 62368-1", "IEC 60364-4-41", "ISO 6469-3", "US workplace"],
  ],
  ["Place where people can touch", 0, ["dry", "wet", "dry"]],
  ["Largest drop of a run", 0, [0.01, 0.03, 0.05, 0.1]],
  ["Largest loading of anything with a rating", 0, [0.5, 0.8, 1]],
  ["Valley bus, open circuit", 2, [440, 475, 520]],
  ["Route length, one way", 0, [100, 350, 900, 1500, 4000]],
  ["Steps the voltage down by", 0, [6, 7, 8, 9, 10, 12]],
  ["Highest input", 0, [400, 460, 500]],
  ["Tolerance of the ratio", 0, [0.01, 0.02, 0.05]],
  ["Isolation, input to output", 0, ["reinforced", "basic", "none"]],
  ["Output stopped at, regulation lost", 0, [28, 70]],
  ["Dome and mount drives", 1, [400, 960, 2500]],
  ["5 V connector, both poles", 0, [0.005, 0.05]],
];

/** Each pushes one check over its limit, and is taken back. */
const CHECKED: Typed = [
  ["Air around it, hottest", 0, [30, 38, 69]],
  ["Rated current of the hut fuse", 0, [6.3, 10, 32]],
  ["Dc voltage that the fuse breaks", 0, [250, 500]],
  ["Current that blows it within the time below", 0, [45, 120]],
  ["Time in which that current blows it", 0, [5, 200]],
  ["Time in which it clears a fault at its own terminals", 0, [0.01, 0.5]],
  ["Breaking capacity of the fuse, at that dc voltage", 0, [1000, 10_000]],
  ["Headroom to collapse asked for, times every load", 0, [2, 6]],
  ["Stability margin asked for", 0, [2, 6]],
  ["Resistor that discharges it", 0, [6800, 10000]],
  ["Capacitance at the stage's input", 0, [0.0001, 0.00033]],
  ["Route length, one way", 0, [350, 4000]],
];

const SYMBOLS: Readonly<Record<string, string>> = {
  "✔": "nothing",
  "●": "note",
  "▲": "warning",
  "◇": "undetermined",
  "✖": "danger",
};

let budget: OpenBudget;
beforeAll(async () => {
  budget = await openBudget(budgets[0]!);
});
afterAll(() => budget.workbook.dispose());

/** The worst of an item's warnings, in the words of the symbols. */
function worst(warnings: readonly Warning[]): string {
  for (const severity of ["danger", "warning", "note"] as const) {
    const found = warnings.find((warning) => warning.severity === severity);
    if (!found) continue;
    return found.id.startsWith("band-undetermined") ? "undetermined" : severity;
  }
  return "nothing";
}

type Typed = readonly (readonly [
  label: string,
  value: number,
  choices: readonly (string | number)[],
])[];

async function typeDrawn(
  into: OpenBudget,
  draw: ReturnType<typeof drawer>,
  typed: Typed,
  count: number,
): Promise<void> {
  for (let change = 0; change < count; change += 1) {
    const [label, value, choices] = draw(typed);
    const content = draw(choices);
    if (into.read(label, value) !== content)
      await into.enter(label, content, value);
  }
}

/** @returns the kinds of rows on each of the two sheets. */
function assertRowsAgree(on: OpenBudget, round: number) {
  const seen = { Budget: new Set<string>(), Bands: new Set<string>() };
  const warnings = warningsOf(on.found());
  const ownOf = (item: string, ofBands: boolean) =>
    warnings.filter(
      (warning) =>
        warning.item === item &&
        !warning.id.startsWith("check ") &&
        warning.id.startsWith("band-") === ofBands,
    );
  for (const [item, symbol] of shown(on, "Budget")) {
    assert.equal(symbol, worst(ownOf(item, false)), `${item}, ${round}`);
    seen.Budget.add(symbol);
  }
  const bands = bandsShown(on);
  for (const [item, kind] of bands) {
    assert.equal(kind, worst(ownOf(item, true)), `Bands, ${item}, ${round}`);
    seen.Bands.add(kind);
  }
  assert.equal(
    on.balance("Rows with a warning on Bands"),
    [...bands.values()].filter((kind) => kind !== "nothing").length,
  );
  const counted = [...shown(on, "Budget").values()].filter(
    (symbol) => symbol !== "nothing" && symbol !== "note",
  ).length;
  assert.equal(on.balance("Rows with a warning below"), counted);
  return seen;
}

const BANDS: Readonly<Record<string, readonly string[]>> = {
  "IEC 62368-1": ["ES1", "ES2", "ES3"],
  "IEC 60364-4-41": ["bare", "extra-low", "low", "high"],
  "ISO 6469-3": ["A", "B", "above B"],
  "US workplace": ["below 50 V", "50 V or more"],
};
/** How many of a framework's bands, from the lowest up, a fault may lift a row to without danger. */
const LOW_BANDS: Readonly<Record<string, number>> = {
  "IEC 62368-1": 2,
  "IEC 60364-4-41": 2,
  "ISO 6469-3": 1,
  "US workplace": 1,
};

/** What the bands of each row ask for, from their order alone; a margin below 0 stands where one is beyond the lowest. */
function bandsShown(on: OpenBudget): ReadonlyMap<string, string> {
  const framework = String(on.read("Framework of the voltage bands"));
  const names = BANDS[framework] ?? [];
  const lowest = LOW_BANDS[framework] ?? 0;
  const spilled = on.table("Bands", "Item", "In service V");
  assert.ok(spilled.length > 5);
  return new Map(
    spilled.map((row) => {
      const [service, fault] = ["Band in service", "Band after one fault"].map(
        (heading) => names.indexOf(String(row[heading])),
      ) as [number, number];
      for (const [heading, rank] of [
        ["Margin in service", service],
        ["Margin after one fault", fault],
      ] as const) {
        const margin = row[heading];
        if (rank < 0) assert.equal(margin, "not determined");
        else if (rank === 0) assert.ok(Number(margin) >= 0);
        else assert.ok(Number(margin) <= 0);
      }
      const kind =
        service < 0
          ? "undetermined"
          : service < lowest && fault >= lowest
            ? "danger"
            : service > 0
              ? "warning"
              : fault < 0
                ? "undetermined"
                : fault > 0
                  ? "warning"
                  : "nothing";
      return [String(row["Item"]), kind];
    }),
  );
}

/** @returns check and what was found of it, `Stored energy warning`. */
function assertChecksAgree(on: OpenBudget, round: number): string[] {
  const warnings = warningsOf(on.found());
  return on.table("Checks", "Item", "Check").map(({ Item, Check, Verdict }) => {
    const symbol = SYMBOLS[String(Verdict).slice(0, 1)];
    const own = warnings.find(
      ({ id }) => id === `check ${String(Check)} ${String(Item)}`,
    );
    assert.equal(
      symbol,
      own?.severity ?? "nothing",
      `${String(Check)}, ${String(Item)}, ${round}`,
    );
    assert.equal(
      own?.text.includes("not worked out") ?? false,
      String(Verdict).includes("not worked out"),
    );
    return `${String(Check)} ${String(symbol)}`;
  });
}

function shown(on: OpenBudget, sheet: string): ReadonlyMap<string, string> {
  return new Map(
    on
      .table(sheet, "Item", "Check")
      .map(({ Item, Check }) => [
        String(Item),
        SYMBOLS[String(Check).slice(0, 1)] ?? `? ${JSON.stringify(Check)}`,
      ]),
  );
}

describe("sheet and pane", () => {
  it("flag the same rows over drawn inputs, and every kind of row is among them", async () => {
    const draw = drawer(2026);
    const seen = { Budget: new Set<string>(), Bands: new Set<string>() };
    for (let round = 0; round < 40; round += 1) {
      await typeDrawn(budget, draw, TYPED, 3);
      const { Budget, Bands } = assertRowsAgree(budget, round);
      for (const symbol of Budget) seen.Budget.add(symbol);
      for (const symbol of Bands) seen.Bands.add(symbol);
    }
    assert.deepEqual([...seen.Budget].sort(), [
      "danger",
      "note",
      "nothing",
      "warning",
    ]);
    assert.deepEqual([...seen.Bands].sort(), [
      "danger",
      "nothing",
      "undetermined",
      "warning",
    ]);
  }, 120_000);

  it("agree on every check, of each kind of verdict", async () => {
    const seen = new Set<string>();
    let round = 0;
    for (const [label, value, choices] of CHECKED)
      for (const content of [...choices, choices[0]!]) {
        if (budget.read(label, value) !== content)
          await budget.enter(label, content, value);
        for (const found of assertChecksAgree(budget, round)) seen.add(found);
        round += 1;
      }
    for (const fails of [
      "Conductor temperature warning",
      "Insulation temperature danger",
      "Fuse carries the load warning",
      "Fuse breaks the voltage danger",
      "Fuse protects the cable danger",
      "Far-end fault blows the fuse danger",
      "Fuse clears in time danger",
      "Fuse breaks the fault danger",
      "Cable withstands a fault danger",
      "Cable withstands a slow fault danger",
      "Headroom to collapse warning",
      "Stability margin warning",
      "Discharge time danger",
      "Stored energy warning",
    ])
      assert.ok(seen.has(fails), fails);
  }, 120_000);

  it("agree on the closing check, also where nothing is solved", async () => {
    for (const length of [100, 50_000]) {
      await budget.enter("Route length, one way", length);
      const closes = !warningsOf(budget.found()).some(({ id }) =>
        id.startsWith("closing"),
      );
      assert.equal(budget.balance("Closing check") === "✔ closes", closes);
    }
  });

  it("point to cells that show what the warnings say", () => {
    const found = warningsOf(budget.found());
    assert.ok(found.length > 10);
    for (const { at, value, unit } of found) {
      if (value === undefined || unit !== "V") continue;
      assert.equal(budget.workbook.value(at.sheet, at.address), value);
    }
  });
});

/** What every budget is asked, and of each of the others what its own feed hangs on. */
const ASKED: Typed = TYPED.slice(0, 6);
const OTHERS: readonly (readonly [stem: string, own: Typed])[] = [
  [
    "Crawler",
    [
      ["Quay supply, open circuit", 2, [840, 900]],
      ["Length paid out", 0, [150, 300, 900]],
      ["Units in parallel", 0, [1, 2, 3]],
      ["Steps the voltage down by", 0, [14, 16, 20]],
      ["Rated output current", 0, [35, 70]],
      ["Isolation, input to output", 0, ["reinforced", "none"]],
      ["Thrusters", 1, [400, 1400, 2600]],
    ],
  ],
  [
    "Ferry",
    [
      ["Traction pack, open circuit", 2, [706, 740]],
      ["Route length, one way", 0, [45, 400]],
      ["Steps the voltage down by", 0, [10, 12, 14]],
      ["Tolerance of the ratio", 0, [0.01, 0.03]],
      ["Isolation, input to output", 0, ["reinforced", "basic"]],
      [
        "Discharge resistor, switched in when the contactor opens",
        0,
        [1600, 2200],
      ],
      ["Galley and heating on the bus", 1, [300, 900, 4000]],
    ],
  ],
];

describe.each(OTHERS)("sheet and pane of %s", (stem, own) => {
  it("flag the same rows and checks over drawn inputs", async () => {
    const plan = budgets.find((one) => one.stem === stem);
    assert.ok(plan);
    const other = await openBudget(plan);
    const draw = drawer(7);
    const rows = new Set<string>();
    const checks = new Set<string>();
    for (let round = 0; round < 15; round += 1) {
      await typeDrawn(other, draw, [...ASKED, ...own], 3);
      const { Budget, Bands } = assertRowsAgree(other, round);
      for (const symbol of [...Budget, ...Bands]) rows.add(symbol);
      for (const found of assertChecksAgree(other, round)) checks.add(found);
    }
    other.workbook.dispose();
    for (const kind of ["nothing", "warning", "danger"])
      assert.ok(rows.has(kind), kind);
    assert.ok([...checks].some((found) => found.endsWith("warning")));
  }, 120_000);
});
