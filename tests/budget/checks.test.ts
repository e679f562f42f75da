/** The checks of the worked budgets, beside figures found by hand from their invented inputs. */
import assert from "node:assert/strict";
import { afterAll, beforeAll, describe, it } from "vitest";
import { budgets } from "../../src/budget/budgets.js";
import { CHECK_KINDS } from "../../src/warnings/check-kinds.js";
import { warningsOf } from "../../src/warnings/warnings.js";
import { type OpenBudget, openBudget } from "./open-budget.js";

const opened = new Map<string, OpenBudget>();
beforeAll(async () => {
  for (const plan of budgets) opened.set(plan.stem, await openBudget(plan));
}, 60_000);
afterAll(() => {
  for (const { workbook } of opened.values()) workbook.dispose();
});

function rowOf(stem: string, check: string) {
  const row = budgetOf(stem)
    .table("Checks", "Item", "Check")
    .find((one) => one["Check"] === check);
  assert.ok(row, check);
  return row;
}

function budgetOf(stem: string): OpenBudget {
  const budget = opened.get(stem);
  assert.ok(budget, stem);
  return budget;
}

function numberOf(stem: string, check: string, heading: string): number {
  const value = rowOf(stem, check)[heading];
  assert.equal(typeof value, "number", `${check}, ${heading}`);
  return Number(value);
}

function found(stem: string, check: string): number {
  return numberOf(stem, check, "Found");
}

function limit(stem: string, check: string): number {
  return numberOf(stem, check, "Limit");
}

function how(stem: string, check: string): string {
  return String(rowOf(stem, check)["How it is found"]);
}

/** As typed by a user, and taken back. */
async function whileEntered(
  stem: string,
  label: string,
  content: string | number,
  look: () => void | Promise<void>,
): Promise<void> {
  const budget = budgetOf(stem);
  const before = budget.read(label);
  assert.ok(typeof before === "string" || typeof before === "number", label);
  await budget.enter(label, content);
  try {
    await look();
  } finally {
    await budget.enter(label, before);
  }
}

function near(value: number, byHand: number, share: number): void {
  assert.ok(
    Math.abs(value - byHand) <= share * byHand,
    `${value}, by hand ${byHand}`,
  );
}

describe("the ridge-top observatory's checks", () => {
  // 4.61 Ω/km · 0.7 km · (1 + 0.00393 · 20) = 3.4806 Ω; with 0.3 and 0.02 Ω, 360/3.8006.
  it("find the current of a far-end fault", () => {
    near(found("Ridge", "Far-end fault blows the fuse"), 94.72, 1e-4);
  });

  // k = 226 · √ln(1 + (160 − 40)/(234.5 + 40)) = 136.1 A√s/mm² (IEC 60364-5-54 annex A); 440 V across the bus's least
  // 0.25 Ω and the fuse's 0.02 Ω: 1630 A; (136.1 · 4/1630)² s.
  it("find how long the cable withstands the greatest fault at its near end", () => {
    near(found("Ridge", "Cable withstands a fault"), 0.1116, 5e-3);
  });

  // (136.1 · 4/45)² s: 45 A are the least that blow the fuse, in 5 s.
  it("find how long the cable withstands a fault that only just blows the fuse", () => {
    near(found("Ridge", "Cable withstands a slow fault"), 146.4, 5e-3);
    assert.equal(limit("Ridge", "Cable withstands a slow fault"), 5);
  });

  // 440 V/0.25 Ω.
  it("hold the fuse's breaking capacity against the supply's least resistance alone", () => {
    near(limit("Ridge", "Fuse breaks the fault"), 1760, 1e-9);
  });

  // NFPA 70E:2021 article 360, from memory: a shock hazard above 0.25 J at 400 V or more.
  it("hold stored energy against what is a shock hazard", () => {
    for (const stem of ["Ridge", "Crawler", "Ferry"])
      assert.equal(limit(stem, "Stored energy"), 0.25);
  });

  // 6800 Ω · 330 µF · ln(440/60); ½ · 330 µF · 440².
  it("find discharge time and stored energy", () => {
    near(found("Ridge", "Discharge time"), 4.471, 1e-4);
    near(found("Ridge", "Stored energy"), 31.944, 1e-9);
  });

  // 360²/(4 · 3.8006) = 8525 W at the stage at most, at the pole between resistance and load. Peak loads with the margin
  // of 25 % are 1816 · 1.25 W; they collapse the feed before the nominal ones do.
  it("find a headroom that the largest power of supply and cable allows", () => {
    const loads = (1440 + 240 + 96 + 40) * 1.25;
    const times = found("Ridge", "Headroom to collapse");
    assert.ok(times * loads < 8525, "above what the path can carry");
    assert.ok(times * loads > 0.6 * 8525, "far below what it can carry");
    assert.match(how("Ridge", "Headroom to collapse"), /nominal or peak/);
  });

  it("are one warning: what is stored is hazardous", () => {
    const budget = opened.get("Ridge");
    assert.ok(budget);
    const checks = warningsOf(budget.found()).filter(({ id }) =>
      id.startsWith("check "),
    );
    assert.deepEqual(
      checks.map(({ id }) => id),
      ["check Stored energy Summit stage"],
    );
    assert.match(checks[0]?.remedy ?? "", /verify by measurement/);
  });
});

describe("the crawler's checks", () => {
  // Of two units of 30 mΩ ± 10 %, 0.2 % apart in ratio: below the whole current, above its half.
  it("load the worst unit by more than its half, and the one left by all", () => {
    const [share, alone] = [
      found("Crawler", "Share of the worst unit"),
      found("Crawler", "One unit lost"),
    ];
    assert.ok(share > alone / 2 && share < alone);
  });

  // The supply gives 30 A into any fault, less than 840 V/0.46 Ω and than 760 V over all of the umbilical.
  it("hold the supply's limit for the current of a fault", () => {
    assert.equal(found("Crawler", "Far-end fault blows the fuse"), 30);
  });
});

describe("the time to disconnection", () => {
  const TIME = "Fuse clears in time";
  const CIRCUIT = "Disconnection by IEC 60364-4-41, kind of circuit";

  // IEC 60364-4-41, Table 41.1 and 411.3.2.3, from memory: 5 s in a distribution circuit, 0.1 s in a final one above 400 V.
  it("is that of the circuit that is chosen, at the highest supply voltage", async () => {
    for (const stem of ["Ridge", "Crawler", "Ferry"]) {
      assert.equal(limit(stem, TIME), 5);
      assert.match(String(rowOf(stem, TIME)["Verdict"]), /holds/);
      assert.match(how(stem, TIME), /only a fault between the poles/);
      await whileEntered(stem, CIRCUIT, "TN final", () => {
        assert.equal(limit(stem, TIME), 0.1);
        assert.match(String(rowOf(stem, TIME)["Verdict"]), /✖ above/);
      });
    }
  });
});

describe("both ends of what is not known for certain", () => {
  const MARGIN = "Stability margin";

  it("tells that the hot cable decides where the feed collapses first", () => {
    for (const stem of ["Ridge", "Crawler", "Ferry"])
      assert.match(how(stem, MARGIN), /; here the hot cable$/);
  });

  // With no resistance in the capacitor a constant power P at V behind R and L stands up to P = R·C·V²/L, the trace of
  // the two state equations; V is the upper root of V² − 360·V + P·R = 0. Cold: the bus's least 0.25 Ω, the fuse's
  // 0.02 Ω and 4.61 Ω/km · 0.7 km · (1 − 0.00393 · 40); L = 350 m · µ0/π · (ln(4.2/1.275) + 1/4).
  it("takes the coldest cable where damping decides, and says so", async () => {
    await whileEntered(
      "Ridge",
      "Series resistance of that capacitance",
      0,
      () =>
        whileEntered("Ridge", "Capacitance at the stage's input", 2e-6, () => {
          const worst = budgetOf("Ridge")
            .table("Cases", "Item", "Lowest input V")
            .find(({ Item }) => Item === "Summit stage");
          const power =
            Number(worst?.["Lowest input V"]) *
            Number(worst?.["Highest input A"]);
          const resistance = 0.27 + 4.61 * 0.7 * (1 - 0.00393 * 40);
          const inductance = 350 * 4e-7 * (Math.log(4.2 / 1.275) + 0.25);
          const most = found("Ridge", MARGIN) * power;
          const volts = 180 + Math.sqrt(180 ** 2 - most * resistance);
          near(most, (resistance * 2e-6 * volts ** 2) / inductance, 1e-6);
          assert.match(how("Ridge", MARGIN), /; here the coldest cable/);
        }),
    );
  });

  // Two units of 30 mΩ, 0.2 % apart each way: what they differ by drives 0.004 · V/(2 R) between them, more at 24 mΩ.
  it("shares between cold units where their resistance is entered, or says that it was not", async () => {
    const SHARE = "Share of the worst unit";
    const cold = found("Crawler", SHARE);
    assert.match(how("Crawler", SHARE), /with the cold output resistance/);
    await whileEntered("Crawler", "Output resistance, cold", "", () => {
      assert.ok(found("Crawler", SHARE) < cold - 0.5);
      assert.match(how("Crawler", SHARE), /none is entered cold/);
    });
  });
});

describe("ripple", () => {
  it("of supply and stages reaches the feed table, and none is left where none is entered", async () => {
    const feed = (stem: string) =>
      budgetOf(stem).table("Budget", "Item", "Fed from");
    const supply = () => feed("Ridge")[0] ?? {};
    assert.equal(supply()["Ripple V rms"], 2);
    assert.equal(supply()["Ripple V peak"], 4.5);
    for (const stem of ["Ridge", "Crawler", "Ferry"])
      for (const row of feed(stem))
        assert.equal(
          typeof row["Ripple V rms"] === "number",
          /^(supply|ratio|regulated)$/.test(String(row["Kind"])),
          `${stem}, ${String(row["Item"])}`,
        );
    await whileEntered("Ridge", "Ripple of the bus, rms", "", () => {
      assert.equal(supply()["Ripple V rms"], "");
    });
  });
});

describe("every budget's checks", () => {
  it("are of kinds that the pane knows, and none is without a number", () => {
    for (const [stem, budget] of opened) {
      const rows = budget.table("Checks", "Item", "Check");
      assert.ok(rows.length > 0, stem);
      for (const { Check, Found, Verdict } of rows) {
        assert.ok(Object.hasOwn(CHECK_KINDS, String(Check)), String(Check));
        if (Found !== "" && Found !== "–")
          assert.equal(typeof Found, "number", `${stem}, ${String(Check)}`);
        assert.doesNotMatch(String(Verdict), /not worked out/);
      }
    }
  });
});
