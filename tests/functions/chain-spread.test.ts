import assert from "node:assert/strict";
import { describe, it } from "vitest";
import type { CellTable } from "../../functions/cells.js";
import { evaluate } from "../../functions/downfeed.js";
import { UNCERTAINTY_COLUMNS } from "../../functions/families/chain-spread.js";
import { histogram } from "../../src/spread/histogram.js";

const SAMPLES = 2 ** 14;

/** A window of the supply, a tolerance of the cable; `load` W at the end. */
function feed(
  lowest: number | "",
  highest: number | "",
  tolerance: number | "exact",
  load = 10_000,
) {
  return [
    [
      "Item",
      "Fed from",
      "Kind",
      "Voltage",
      "Resistance",
      "Load",
      "Lowest V",
      "Highest V",
      "Tolerance",
    ],
    ["Bus", "", "supply", 400, "", "", lowest, highest, ""],
    ["Cable", "Bus", "run", "", 2, "", "", "", tolerance],
    ["Camp", "Cable", "power load", "", "", load, "", "", "exact"],
  ] satisfies CellTable;
}

function table(id: string, args: Parameters<typeof evaluate>[1]): CellTable {
  const outcome = evaluate(id, args);
  assert.ok(outcome.ok, outcome.ok ? "" : outcome.message);
  return outcome.value as CellTable;
}

function figures(args: Parameters<typeof evaluate>[1]): ReadonlyMap<string, number> {
  return new Map(
    table("CHAIN_UNCERTAINTY", args).map(([name, value]) => [String(name), Number(value)]),
  );
}

function near(found: number | undefined, wanted: number, within: number): void {
  assert.ok(found !== undefined && Math.abs(found - wanted) <= within, `${found}, not ${wanted}`);
}

function refusal(args: Parameters<typeof evaluate>[1]): string {
  const outcome = evaluate("CHAIN_UNCERTAINTY", args);
  assert.ok(!outcome.ok);
  return outcome.message;
}

describe("the spread of a feed", () => {
  // Computed here: V = (E + √(E² − 4RP))/2 by Gauss-Legendre quadrature, 200 × 200 points, percentiles on a grid of
  // 4000 × 4000 midpoints (± 0.05 W, ± 0.005 V).
  it("is that of the quadrature, for the loss", () => {
    const found = figures([feed(380, 420, 0.1), "loss", "", "", SAMPLES]);
    near(found.get("As entered"), 1715.7287525, 1e-6);
    near(found.get("Mean"), 1729.41292, 0.2);
    near(found.get("Standard uncertainty"), 201.67783, 0.2);
    near(found.get("P05"), 1419.64, 1);
    near(found.get("P50"), 1713.72, 1);
    near(found.get("P95"), 2094.09, 1);
    near(found.get("Lowest extreme"), 1303.84635, 1e-5);
    near(found.get("Highest extreme"), 2307.95458, 1e-5);
    near(found.get("Standard uncertainty, first order"), 198.11529, 1e-5);
    near(found.get("Root of the sum of squares, ±"), 343.14575, 1e-4);
  });

  it("is that of the quadrature, for the voltage of the load", () => {
    const found = figures([feed(380, 420, 0.1), "input voltage", "Camp", "", SAMPLES]);
    near(found.get("Mean"), 341.24229, 0.02);
    near(found.get("Standard uncertainty"), 14.55426, 0.02);
    near(found.get("P05"), 317.89, 0.05);
    near(found.get("P95"), 363.91, 0.05);
    near(found.get("Lowest extreme"), 308.74342, 1e-5);
    near(found.get("Highest extreme"), 371.55494, 1e-5);
  });

  // The lesser of the margins to 320 and to 360 V is greatest between the two, where no tolerance ends: the voltage goes
  // from 308.7 to 371.6 V (the quadrature above), beyond either end.
  it("has its extremes within the tolerances where a result is greatest between their ends", () => {
    const cells = feed(380, 420, 0.1).map((row, index) =>
      index === 3 ? row.map((cell, place) => [320, 360][place - 6] ?? cell) : row,
    );
    const rows = table("CHAIN_UNCERTAINTY", [cells, "lowest margin", "", "", SAMPLES]);
    const row = (name: string) => rows.find(([first]) => first === name)!;
    const value = (name: string) => Number(row(name)[1]);
    assert.ok(value("Highest extreme") >= value("P95") && value("Lowest extreme") <= value("P05"));
    assert.equal(
      row("Highest extreme")[3],
      "of the samples, between the corners: more is possible",
    );
    assert.equal(row("Lowest extreme")[3], "at a corner");
    assert.ok(value("Lowest extreme") < 0);
  });

  // A result that rises with its only input has the percentiles of that input.
  it("is exact where one input varies", () => {
    const args = [feed("", "", 0.1), "loss", "", "", SAMPLES];
    near(figures(args).get("P95"), 1943.6008014, 0.02);
    near(
      figures([feed("", "", 0.1), "input voltage", "Camp", "", SAMPLES]).get("P05"),
      334.9073756,
      0.001,
    );
  });

  // P·(E/V − 1) at 380 V of R = 2 · (1 + 0.1 · 0.9) Ω: a result that rises with its only input.
  it("is of the loads and the supply that are asked for", () => {
    const cells = feed(380, 420, 0.1).map((row, index) => [
      ...row,
      index === 0 ? "Peak load" : row[0] === "Camp" ? 12_000 : "",
    ]);
    const voltage = (380 + Math.sqrt(380 ** 2 - 4 * 2.18 * 12_000)) / 2;
    const found = figures([cells, "loss", "", "", SAMPLES, "", "peak", "lowest"]);
    near(found.get("P95"), 12_000 * (380 / voltage - 1), 0.05);
    const [, ...shares] = table("CHAIN_SHARES", [cells, "loss", "", "", "", "", "peak", "lowest"]);
    assert.deepEqual(
      shares.map(([input]) => input),
      ["Cable · Resistance", "Left of 1"],
    );
    near(Number(shares[0]![1]), 1, 0.002);
    assert.match(String(shares[1]![3]), /supply lowest, loads peak$/);
  });

  it("shows the same numbers again, and others by another seed", () => {
    const args = [feed(380, 420, 0.1), "loss"];
    assert.deepEqual(table("CHAIN_UNCERTAINTY", args), table("CHAIN_UNCERTAINTY", args));
    const other = figures([...args, "", "", "", 7]);
    assert.notEqual(other.get("Mean"), figures(args).get("Mean"));
    near(other.get("Mean"), 1729.41292, 1);
  });

  it("takes the nominal voltage as entered beside a window that is not even about it", () => {
    const found = figures([feed(300, 420, "exact"), "supply power"]);
    assert.equal(
      found.get("As entered"),
      figures([feed(400, 420, "exact"), "supply power"]).get("As entered"),
    );
    assert.notEqual(found.get("Middle of the tolerances"), found.get("As entered"));
  });

  it("counts samples without an operating point, and says so", () => {
    // Up to 20 kW are carried at 400 V and 2 Ω.
    const args = [feed("", "", 0.2, 19_000), "loss", "", "", SAMPLES];
    const found = figures(args);
    // R above 400²/(4 · 19 kW) = 2.10526 Ω collapses: (2.4 − 2.10526)/0.8 of a flat tolerance.
    near(found.get("Samples without an answer")! / SAMPLES, 0.36842, 1e-3);
    const outcome = evaluate("CHAIN_UNCERTAINTY", args);
    assert.ok(outcome.ok && outcome.caveats.some(({ code }) => code === "samples-unanswered"));
  });

  it("moves inputs of one group together", () => {
    const cells: CellTable = [
      ["Item", "Fed from", "Kind", "Voltage", "Resistance", "Load", "Tolerance"],
      ["Bus", "", "supply", 400, "", "", ""],
      ["First", "Bus", "run", "", 1, "", 0.1],
      ["Second", "First", "run", "", 1, "", 0.1],
      ["Camp", "Second", "current load", "", "", 10, "exact"],
    ];
    const apart = figures([cells, "loss", "", "", SAMPLES]);
    // Loss is 10² · (R₁ + R₂): T/√3 of each, squared and added, against both together.
    near(apart.get("Standard uncertainty"), Math.sqrt(2 * (10 / Math.sqrt(3)) ** 2), 0.01);
    const batch: CellTable = [
      ["Item", "Column", "Tolerance", "Distribution", "Group"],
      ["First", "Resistance", "", "", "batch"],
      ["Second", "Resistance", "", "", "batch"],
    ];
    const together = figures([cells, "loss", "", batch, SAMPLES]);
    near(together.get("Standard uncertainty"), 20 / Math.sqrt(3), 0.01);
    near(together.get("Root of the sum of squares, ±"), 20, 1e-6);
    const [, only] = table("CHAIN_SHARES", [cells, "loss", "", batch]);
    assert.equal(only![0], "batch");
    near(Number(only![1]), 1, 0.002);
    assert.equal(only![3], "together: First · Resistance, Second · Resistance");
  });

  it("has no answer where a normal figure lies where its row may have none", () => {
    const cells: CellTable = [
      [
        "Item",
        "Fed from",
        "Kind",
        "Voltage",
        "Lowest V",
        "Highest V",
        "Efficiency",
        "Load",
        "Tolerance",
      ],
      ["Bus", "", "supply", 400, "", "", "", "", ""],
      ["Stage", "Bus", "regulated", 24, 300, 500, 0.99, "", "exact"],
      ["Camp", "Stage", "current load", "", "", "", "", 10, "exact"],
    ];
    const normal: CellTable = [
      ["Item", "Column", "Tolerance", "Distribution"],
      ["Stage", "Efficiency", 0.01, "normal"],
    ];
    const found = figures([cells, "loss", "", normal, SAMPLES]);
    // Above 1 lie those beyond (1/0.99 − 1)/0.01 = 1.0101 tolerances, 3.03 standard uncertainties: 0.122 % of them.
    near(found.get("Samples without an answer")! / SAMPLES, 0.00122, 2e-4);
    assert.ok(found.get("P05")! > 0);
  });

  it("lets a normal supply leave its window, which bounds nothing", () => {
    const normal: CellTable = [
      ["Item", "Column", "Tolerance", "Distribution"],
      ["Bus", "Voltage", "", "normal"],
    ];
    const found = figures([feed(380, 420, "exact"), "loss", "", normal, SAMPLES]);
    assert.equal(found.get("Samples without an answer"), 0);
  });

  it("names the items of which nothing says how far they may vary", () => {
    const cells: CellTable = [
      ["Item", "Fed from", "Kind", "Voltage", "Resistance", "Load", "Lowest V", "Tolerance"],
      ["Bus", "", "supply", 400, "", "", 380, ""],
      ["Cable", "Bus", "run", "", 2, "", "", ""],
      ["Camp", "Cable", "power load", "", "", 10_000, "", "exact"],
    ];
    const told = "no Tolerance or full window, so taken as exact: Bus, Cable";
    assert.equal(table("CHAIN_UNCERTAINTY", [cells, "loss"])[1]![3], told);
    assert.ok(String(table("CHAIN_TORNADO", [cells, "loss"])[1]!.at(-1)).endsWith(`; ${told}`));
    assert.ok(String(table("CHAIN_SHARES", [cells, "loss"]).at(-1)![3]).endsWith(`; ${told}`));
    for (const id of ["CHAIN_UNCERTAINTY", "CHAIN_TORNADO", "CHAIN_SHARES"]) {
      const outcome = evaluate(id, [cells, "loss"]);
      assert.ok(outcome.ok && outcome.caveats.some(({ text }) => text === told), id);
    }
    const spread: CellTable = [
      ["Item", "Column", "Tolerance"],
      ["Bus", "Voltage", 0.05],
      ["Cable", "Resistance", "exact"],
    ];
    assert.equal(table("CHAIN_UNCERTAINTY", [cells, "loss", "", spread])[1]![3], "");
  });

  it("is refused for more inputs than there are axes of points", () => {
    const cells: CellTable = [
      ["Item", "Fed from", "Kind", "Voltage", "Load", "Tolerance"],
      ["Bus", "", "supply", 400, "", ""],
      ...Array.from({ length: 257 }, (_, at) => [`Lamp ${at}`, "Bus", "power load", "", 1, 0.1]),
    ];
    assert.match(
      refusal([cells, "loss"]),
      /256 or fewer that vary \(a Group counts as one, what is exact as none\), got 257/,
    );
    const outcome = evaluate("CHAIN_SHARES", [cells, "loss"]);
    assert.ok(!outcome.ok && /128 or fewer/.test(outcome.message));
  });

  it("is refused where nothing varies, and for samples that are too few", () => {
    assert.match(refusal([feed("", "", "exact"), "loss"]), /nothing varies/);
    assert.match(refusal([feed(380, 420, 0.1), "loss", "", "", 5]), /samples/);
  });

  it("has all samples in its classes, from extreme to extreme", () => {
    const rows = table("CHAIN_UNCERTAINTY", [feed(380, 420, 0.1), "loss"]).slice(1);
    const column = (name: (typeof UNCERTAINTY_COLUMNS)[number]) =>
      rows.map((row) => Number(row[UNCERTAINTY_COLUMNS.indexOf(name)]));
    near(
      column("Share of samples").reduce((sum, share) => sum + share, 0),
      1,
      1e-12,
    );
    near(column("From")[0], 1303.84635, 1e-5);
    near(column("To").at(-1), 2307.95458, 1e-5);
    assert.deepEqual(column("From").slice(1), column("To").slice(0, -1));
  });
});

describe("classes of answers", () => {
  it("hold what lies on a border once", () => {
    const answers = Float64Array.from([0, 1, 1, 2, 4]);
    assert.deepEqual(histogram(answers, [0, 4], 4), [
      { from: 0, to: 1, share: 0.2 },
      { from: 1, to: 2, share: 0.4 },
      { from: 2, to: 3, share: 0.2 },
      { from: 3, to: 4, share: 0.2 },
    ]);
    assert.deepEqual(histogram(Float64Array.from([3, 3]), [3, 3], 4), [
      { from: 3, to: 3, share: 1 },
    ]);
  });
});

describe("the shares of a feed's inputs", () => {
  it("are those of the quadrature", () => {
    const shares = (quantity: string, item: string) =>
      new Map(
        table("CHAIN_SHARES", [feed(380, 420, 0.1), quantity, item, "", SAMPLES]).map((row) => [
          String(row[0]),
          row.slice(1, 3).map(Number),
        ]),
      );
    const loss = shares("loss", "");
    for (const [name, alone, total] of [
      ["Bus · Voltage", 0.4989, 0.50511],
      ["Cable · Resistance", 0.49489, 0.5011],
    ] as const) {
      near(loss.get(name)![0], alone, 0.002);
      near(loss.get(name)![1], total, 0.002);
    }
    const voltage = shares("input voltage", "Camp");
    near(voltage.get("Bus · Voltage")![0], 0.92024, 0.002);
    near(voltage.get("Cable · Resistance")![0], 0.07949, 0.002);
  });

  it("stand with the greatest first", () => {
    const [, first] = table("CHAIN_SHARES", [feed(380, 420, 0.1), "input voltage", "Camp"]);
    assert.equal(first![0], "Bus · Voltage");
  });
});
