import assert from "node:assert/strict";
import { describe, it } from "vitest";
import type { FeedItem } from "../../src/network/feed-item.js";
import { operatingPoint } from "../../src/network/operating-point.js";
import { assertPrinted } from "../helpers/assert-printed.js";
import { type FeederCase, meshOfCase, requireSolved } from "../helpers/feed.js";
import { withLoads } from "../helpers/random-feed.js";
import feedIns from "../reference/dc21_variant23_with_sources.json" with { type: "json" };
import constantPower from "../reference/meshed-constant-power.json" with { type: "json" };
import meshed from "../reference/meshed-networks.json" with { type: "json" };
import terminals from "../reference/mtdc_mesh3_slack.json" with { type: "json" };

type Case = FeederCase & {
  readonly id: string;
  readonly computed_by_us: {
    readonly V: Readonly<Record<string, number | undefined>>;
    readonly loss_W: number;
    readonly branch_A?: Readonly<Record<string, number | undefined>>;
  };
};

const LINEAR = meshed.cases as unknown as readonly Case[];
const POWER = constantPower.cases as unknown as readonly (Case & {
  readonly computed_by_us: {
    readonly smallest_pivot_S: number;
    readonly load_multiple_at_collapse?: number;
    readonly source_A: Readonly<Record<string, number | undefined>>;
  };
})[];

function solve(feeder: FeederCase | readonly FeedItem[]) {
  const items = "network" in feeder ? meshOfCase(feeder) : feeder;
  const { rows, totals, solutions } = operatingPoint(items);
  const solved = rows.map(requireSolved);
  const voltageAt = (node: string) =>
    solved.find(({ item }) => item.item === node)!.output!.voltage;
  // From one node to another, whichever way its row counts.
  const currentIn = (from: string, to: string) => {
    const of = (one: string, other: string) =>
      solved.find(
        ({ item }) =>
          (item.item === other && item.fedFrom === one) || item.fedFrom === `${one}; ${other}`,
      )?.output?.current;
    return of(from, to) ?? -of(to, from)!;
  };
  const suppliedBy = (node: string) =>
    solved.find(({ item }) => item.item === node)!.output!.current;
  return { totals, solutions, voltageAt, currentIn, suppliedBy };
}

function caseOf<One extends { readonly id: string }>(cases: readonly One[], id: string): One {
  return cases.find((one) => one.id === id)!;
}

// B. L. Theraja, A. K. Theraja, A Textbook of Electrical Technology III, chapter 40, and V. K. Mehta, R. Mehta, Principles
// of Power System, chapter 13: data and answers seen in the FOSSEE textbook companion (commit d34b2ae7), not the pages.
describe("operatingPoint against published meshes", () => {
  const PRINTED: Readonly<
    Record<string, { V?: Record<string, string>; A?: Record<string, string>; kW?: string }>
  > = {
    // Fed at both ends.
    theraja_40_6: {
      V: { C: "195.6", D: "192.9", E: "194.7" },
      A: { "A C": "88.6", "C D": "38.6", "D E": "-61.4", "E B": "-211.4" },
    },
    theraja_40_7: { V: { D: "246.0" } },
    theraja_40_8: { V: { C: "250.13", D: "247.73" } },
    mehta_13_12: { A: { "A C": "437.5", "F B": "-412.5" }, kW: "14.706" },
    // Rings.
    theraja_40_17: { V: { B: "236.9", C: "235.98", D: "237.45" } },
    theraja_40_18: { V: { B: "394.2", C: "393.42" }, A: { "B C": "43.33" } },
    theraja_40_19_ring: {
      V: { B: "217.1", C: "216.14", D: "216.15", E: "216.93" },
      A: { "A B": "29.04", "B C": "19.04", "C D": "-0.96", "D E": "-30.96", "E A": "-40.96" },
    },
    // With a link across.
    theraja_40_19_link: {
      V: { B: "217.23", C: "216.34", E: "216.83" },
      A: { "A B": "27.72", "B C": "17.72", "C E": "-9.76", "E A": "-42.28" },
    },
    mehta_13_25_link: { A: { "B D": "9.8" } },
  };

  for (const [id, { V = {}, A = {}, kW }] of Object.entries(PRINTED))
    it(`gives ${id} to its printed digits`, () => {
      const found = solve(caseOf(LINEAR, id));
      for (const [node, printed] of Object.entries(V))
        assertPrinted(found.voltageAt(node), printed);
      for (const [branch, printed] of Object.entries(A)) {
        const [from = "", to = ""] = branch.split(" ");
        assertPrinted(found.currentIn(from, to), printed);
      }
      if (kW) assertPrinted(found.totals.loss / 1000, kW);
    });

  it("does not give what is printed wrong: D of the linked ring, where the currents at E do not add up", () => {
    const { voltageAt, currentIn } = solve(caseOf(LINEAR, "theraja_40_19_link"));
    // Printed are 216.02 V and 32.28 A; but 42.28 A arrive at E, 10 are drawn there and 9.76 go on to C.
    assertPrinted(voltageAt("D"), "216.26647");
    assertPrinted(currentIn("E", "D"), "22.515");
    assertPrinted(currentIn("A", "E") - 10 - currentIn("E", "C"), "22.515");
  });

  it("gives every one of them as a direct solution and ngspice do", () => {
    for (const feeder of LINEAR) {
      const { voltageAt, currentIn, totals } = solve(feeder);
      const { V, branch_A, loss_W } = feeder.computed_by_us;
      for (const [node, voltage] of Object.entries(V))
        assert.ok(Math.abs(voltageAt(node) - voltage!) <= 5e-8, `${feeder.id} ${node}`);
      for (const [branch, current] of Object.entries(branch_A ?? {}))
        assert.ok(Math.abs(currentIn(branch[0]!, branch[1]!) - current!) <= 5e-7, feeder.id);
      assert.ok(Math.abs(totals.loss - loss_W) <= 6e-6, feeder.id);
    }
  });
});

// Not published: computed twice, by Newton's method from open circuit in another language and by ngspice.
describe("operatingPoint of meshes with loads of constant power", () => {
  for (const feeder of POWER)
    it(`gives ${feeder.id} as two other engines do`, () => {
      const { voltageAt, totals, solutions, suppliedBy } = solve(feeder);
      const { V, loss_W, smallest_pivot_S, source_A } = feeder.computed_by_us;
      for (const [node, voltage] of Object.entries(V))
        assert.ok(Math.abs(voltageAt(node) - voltage!) <= 6e-8, node);
      for (const [node, current] of Object.entries(source_A))
        assert.ok(Math.abs(suppliedBy(node) - current!) <= 6e-6, node);
      assert.ok(Math.abs(totals.loss - loss_W) <= 6e-6);
      assert.ok(Math.abs(totals.closingError) <= 1e-9 * totals.loss);
      const [found] = solutions;
      assert.ok(found?.outcome === "solved");
      // Pivots depend on the order of elimination; all are above 0.
      assert.ok(found.mesh!.leastPivot > 0 && smallest_pivot_S > 0);
      const gives = feeder.network.loads.some(({ P_W = 0 }) => P_W < 0);
      assert.equal(found.mesh!.claim, gives ? "only one at or above" : "upper");
    });

  for (const feeder of POWER.filter(({ computed_by_us: { load_multiple_at_collapse: m } }) => m))
    it(`carries ${feeder.id} up to its collapse and no further`, () => {
      const multiple = feeder.computed_by_us.load_multiple_at_collapse!;
      const items = meshOfCase(feeder);
      const outcome = (times: number) => operatingPoint(withLoads(items, times)).faults.size;
      assert.equal(outcome(0.9999 * multiple), 0);
      assert.ok(outcome(1.0001 * multiple) > 0);
    });

  it("lets unequal supplies circulate 26.67 A and 533 W without any load, which blocked reverse flow ends", () => {
    const feeder = caseOf(POWER, "two_fed_unloaded_circulating");
    const { totals, currentIn } = solve(feeder);
    assertPrinted(currentIn("A", "C"), "26.67");
    assertPrinted(totals.loss, "533.33333");
    const items = meshOfCase(feeder).map((item) =>
      item.kind === "supply" ? { ...item, reverseFlow: "blocked" as const } : item,
    );
    const blocked = solve(items);
    assert.equal(blocked.totals.loss, 0);
    assert.equal(blocked.voltageAt("D"), 400);
  });
});

describe("operatingPoint of published networks that give power back", () => {
  // MatACDC test case (J. Beerten, KU Leuven; network of Beerten, Van Hertem, Belmans, IEEE PowerTech Trondheim 2011): results
  // seen as MATLAB's own output, stored in github.com/slazar394/acdc-power-flow (commit b3eb0c47).
  it("gives the meshed three-terminal grid to its eight decimals", () => {
    const { voltageAt, currentIn } = solve(terminals as unknown as FeederCase);
    const BASE = 345_000;
    assertPrinted(voltageAt("1") / BASE, "1.00791028");
    assertPrinted(voltageAt("3") / BASE, "0.99778406");
    // Both poles, at the end where the power enters.
    const power = (from: string, to: string) => (2 * voltageAt(from) * currentIn(from, to)) / 1e6;
    assertPrinted(power("1", "2"), "30.6648277");
    assertPrinted(power("2", "3"), "8.5228478");
    assertPrinted(power("1", "3"), "27.96253245");
  });

  // A. Garces, github.com/alejandrogarces/SOC_DCDistribution (commit 1cbd6de6): table, dispatch and all 21 voltages seen.
  it("gives the 21 voltages of the feeder with four loads that give power back, to their six decimals", () => {
    const { voltageAt, totals, solutions } = solve(feedIns as unknown as FeederCase);
    for (const [node, printed] of Object.entries(feedIns.published.node_V_pu))
      assertPrinted(voltageAt(node) / 1000, printed === 1 ? "1" : printed.toFixed(6));
    assertPrinted(totals.supplyPower / 1e5, "0.9361");
    const [found] = solutions;
    assert.ok(found?.outcome === "solved");
    assert.equal(found.mesh!.claim, "only one at or above");
  });
});
