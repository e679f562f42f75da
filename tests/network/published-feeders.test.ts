import assert from "node:assert/strict";
import { describe, expect, it } from "vitest";
import { operatingPoint } from "../../src/network/operating-point.js";
import { assertPrinted } from "../helpers/assert-printed.js";
import { feedItem, feedOfCase, requireSolved, type FeederCase } from "../helpers/feed.js";
import das from "../reference/dc12_das.json" with { type: "json" };
import garces from "../reference/dc21_base.json" with { type: "json" };
import mehtaDistributor from "../reference/mehta_13_1.json" with { type: "json" };
import mehtaTraction from "../reference/mehta_13_3_traction.json" with { type: "json" };
import poeType1 from "../reference/poe_type1.json" with { type: "json" };
import poeType2 from "../reference/poe_type2.json" with { type: "json" };

function solve(feeder: FeederCase) {
  const { rows, totals } = operatingPoint(feedOfCase(feeder));
  const voltageAt = (node: string) => {
    const { output, inputVoltage } = requireSolved(rows.find((row) => nameOf(row) === node));
    return output?.voltage ?? inputVoltage;
  };
  return { rows, totals, voltageAt };
}

function nameOf(row: ReturnType<typeof operatingPoint>["rows"][number]): string {
  return row.outcome === "solved" ? row.item.item : row.item;
}

describe("operatingPoint against published feeders", () => {
  // 21 nodes, 1 kV, 554 kW of constant power, the version with the branch 1-3. Table of resistances and powers seen in
  // github.com/alejandrogarces/SOC_DCDistribution (commit 1cbd6de6), whose own second branch is 2-3; the branch 1-3 and
  // the loss of 27.6034 kW from memory of A. Garces, EPSR 151 (2017) 149-153 and of papers that use the feeder since.
  it("gives the 27.6034 kW of the 21-node feeder with branch 1-3 (from memory)", () => {
    assertPrinted(solve(garces).totals.loss / 1000, "27.6034");
  });

  it("gives the 21-node feeder's voltages as two other methods found them, to 1e-6", () => {
    // Not published: Newton with a complex-step Jacobian and a backward/forward sweep, which agree to 8e-12 V.
    const { voltageAt } = solve(garces);
    for (const [node, voltage] of Object.entries(garces.computed_by_us.node_V)) {
      assert.ok(Math.abs(voltageAt(node) - voltage) <= 1e-6 * voltage, `node ${node}`);
    }
  });

  // D. Das, H. S. Nagi, D. P. Kothari, IEE Proc. C 141(4):291-298 (1994), resistances and powers only. No dc answer is
  // published; the table was seen in MATPOWER case12da.m and is confirmed by its well-known ac answers.
  it("agrees on the 12-node feeder with two other methods to 1e-6 V per volt and 1e-5 of the loss", () => {
    const { voltageAt, totals } = solve(das);
    for (const [node, voltage] of Object.entries(das.computed_by_us.node_V)) {
      assert.ok(Math.abs(voltageAt(node) - voltage) <= 1e-6 * voltage, `node ${node}`);
    }
    assert.ok(Math.abs(totals.loss - das.computed_by_us.branch_loss_W) <= 1e-5 * totals.loss);
  });

  // V. K. Mehta and R. Mehta, Principles of Power System, example 13.1 p.313 (data and answers seen in the FOSSEE
  // textbook companion, the page itself not seen).
  it("gives Mehta's 295.0, 291.0, 288.0 and 287.6 V along a 300 V distributor", () => {
    const { voltageAt, totals } = solve(mehtaDistributor);
    assertPrinted(voltageAt("C"), "295.0");
    assertPrinted(voltageAt("D"), "291.0");
    assertPrinted(voltageAt("E"), "288.0");
    assertPrinted(voltageAt("B"), "287.6");
    // Computed from the same figures: 500²·0.010 + 400²·0.010 + 250²·0.012 + 50²·0.008 W.
    expect(totals.loss).toBeCloseTo(4870, 9);
  });

  // Mehta, example 13.3 p.315 (seen as above).
  it("gives Mehta's 566.4 and 544.0 V on a 600 V traction feeder", () => {
    const { voltageAt } = solve(mehtaTraction);
    assertPrinted(voltageAt("A"), "566.4");
    assertPrinted(voltageAt("B"), "544.0");
  });

  // IEEE 802.3 type 1: 44 V least at the feeding end, 20 Ω loop, 12.95 W at the far end, 37 V and 0.350 A there
  // (second-hand table seen; the loop resistance from memory, and it gives the published power to the digit).
  it("gives the 37.0 V, 0.350 A and 2.45 W of Power over Ethernet type 1", () => {
    const { voltageAt, totals, rows } = solve(poeType1);
    assertPrinted(voltageAt("PD"), "37.0");
    assertPrinted(requireSolved(rows[0]).inputCurrent, "0.350");
    assertPrinted(totals.loss, "2.45");
  });

  it("gives the 42.5 V, 0.600 A and 4.5 W of Power over Ethernet type 2", () => {
    const { voltageAt, totals, rows } = solve(poeType2);
    assertPrinted(voltageAt("PD"), "42.5");
    assertPrinted(requireSolved(rows[0]).inputCurrent, "0.600");
    assertPrinted(totals.loss, "4.5");
  });

  // Stages in a mixed chain have no published case: random-trees.test.ts holds them against ngspice.
});

describe("operatingPoint at two roots", () => {
  const camp = (load: number, supply: { voltage: number; resistance?: number }, loop: number) => [
    feedItem("Bus", undefined, "supply", supply),
    feedItem("Cable", "Bus", "run", { resistance: loop }),
    feedItem("Camp", "Cable", "power load", { load }),
  ];

  // Closed form V = (V₀ + √(V₀² − 4RP))/2, the textbook quadratic: 400 V, 4 Ω, 5 kW: 341.421356 V and 58.578644 V.
  it("takes 341.421356 V, not 58.578644 V", () => {
    const { rows } = operatingPoint(camp(5000, { voltage: 400 }, 4));
    assertPrinted(requireSolved(rows[2]).inputVoltage, "341.421356");
  });

  // J. Bird, Electrical Circuit Theory and Technology, examples 13.20 and 13.21: greatest power of 6 V behind 2.5 Ω is
  // 3.6 W, of 30 V behind 1.5 Ω is 150 W (seen in the FOSSEE textbook companion).
  it.each([
    [6, 2.5, 3.6],
    [30, 1.5, 150],
    [400, 4, 10_000],
  ])("%d V behind %d Ω carries just under %d W and refuses just over", (voltage, loop, most) => {
    const carried = operatingPoint(camp(most * (1 - 1e-9), { voltage }, loop)).rows[2];
    assert.ok(Math.abs(requireSolved(carried).inputVoltage - voltage / 2) < 1e-3 * voltage);
    const refused = operatingPoint(camp(most * (1 + 1e-9), { voltage }, loop)).rows[2];
    assert.equal(refused?.outcome, "refused");
  });

  it("says by how much 10 001 W is too much for 400 V behind 4 Ω, and where it collapses", () => {
    const [row] = operatingPoint(camp(10_001, { voltage: 400 }, 4)).rows;
    assert.ok(row?.outcome === "refused");
    expect(row.error.message).toMatch(
      /no operating point that is reached from no load: the feed can supply at most 0\.9998 times these loads; .*"Camp"/,
    );
    const [twice] = operatingPoint(camp(20_000, { voltage: 400 }, 4)).rows;
    assert.ok(twice?.outcome === "refused");
    expect(twice.error.message).toMatch(/at most 0\.4999 times/);
  });

  it("warns of latching where the lower root lies above the load's window", () => {
    const caveats = (lowestVoltage: number) => {
      const [supply, cable, load] = camp(5000, { voltage: 400 }, 4);
      const { rows } = operatingPoint([supply!, cable!, { ...load!, lowestVoltage }]);
      return requireSolved(rows[2]).caveats.map(({ text }) => text);
    };
    expect(caveats(58)).toContain("may latch at 58.58 V on start");
    expect(caveats(59)).toEqual([]);
  });
});
