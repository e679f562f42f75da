import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, it } from "vitest";
import { columnsOf } from "../../src/network/feed-columns.js";
import { NOMINAL } from "../../src/network/feed-conditions.js";
import type { FeedItem } from "../../src/network/feed-item.js";
import { operatingPoint } from "../../src/network/operating-point.js";
import { outages } from "../../src/network/outage.js";
import { feedItem, type FeederCase, meshOfCase, requireSolved } from "../helpers/feed.js";

type Network = FeederCase["network"];

/** Supplies, lines between nodes and loads at them, more lines than a tree has. */
const network: fc.Arbitrary<Network> = fc
  .tuple(
    fc.integer({ min: 1, max: 3 }),
    fc.array(fc.tuple(fc.nat(), fc.noBias(fc.integer({ min: 1, max: 50 }))), {
      minLength: 3,
      maxLength: 12,
    }),
    fc.array(fc.tuple(fc.nat(), fc.nat(), fc.noBias(fc.integer({ min: 1, max: 50 }))), {
      minLength: 1,
      maxLength: 5,
    }),
    fc.array(fc.noBias(fc.integer({ min: 0, max: 300 })), { minLength: 12, maxLength: 12 }),
  )
  .map(([supplies, grown, extra, powers]) => {
    const sources = Array.from({ length: supplies }, (_, at) => ({
      node: `s${at}`,
      V: 400 - 3 * at,
      R_ohm: 0.1 + 0.02 * at,
    }));
    const nodes = sources.map(({ node }) => node);
    const branches = grown.map(([from, ohms], at) => {
      const branch = { from: nodes[from % nodes.length]!, to: `n${at}`, R_ohm: ohms / 100 };
      nodes.push(branch.to);
      return branch;
    });
    for (const [one, other, ohms] of extra) {
      const [from, to] = [nodes[one % nodes.length]!, nodes[other % nodes.length]!];
      if (from !== to) branches.push({ from, to, R_ohm: ohms / 100 });
    }
    const loads = grown.map((_, at) => ({ node: `n${at}`, P_W: 20 + powers[at]! }));
    return { sources, branches, loads };
  });

/** What still reaches a supply. */
function litNodes({ sources, branches }: Network): ReadonlySet<string> {
  const lit = new Set(sources.map(({ node }) => String(node)));
  for (let grew = true; grew;) {
    grew = false;
    for (const { from, to } of branches) {
      const ends = [String(from), String(to)];
      if (lit.has(ends[0]!) === lit.has(ends[1]!)) continue;
      ends.forEach((end) => lit.add(end));
      grew = true;
    }
  }
  return lit;
}

/** A supply that is out leaves its node, which others may hold. */
function without({ sources, branches, loads }: Network, lost: FeedItem): Network {
  const left = {
    sources: sources.filter(({ node }) => lost.kind !== "supply" || node !== lost.item),
    branches: branches.filter(
      ({ from, to }) =>
        lost.kind === "supply" ||
        (lost.kind === "tie"
          ? lost.fedFrom !== `${from}; ${to}`
          : ![`${from} ${to}`, `${to} ${from}`].includes(`${lost.fedFrom} ${lost.item}`)),
    ),
    loads,
  };
  const lit = litNodes(left);
  return {
    sources: left.sources,
    branches: left.branches.filter(({ from }) => lit.has(String(from))),
    loads: loads.filter(({ node }) => lit.has(String(node))),
  };
}

const networks = fc
  .sample(network, { numRuns: 200, seed: 20261129 })
  // Of two lines between the same nodes one would be taken for the other.
  .filter(({ branches }) => {
    const pairs = branches.map(({ from, to }) => [from, to].sort().join());
    return new Set(pairs).size === pairs.length;
  })
  .slice(0, 100);

describe("outages", () => {
  it("equal the network typed without the row, for every row of random networks", () => {
    let compared = 0;
    let dark = 0;
    for (const one of networks) {
      const items = meshOfCase({ network: one });
      const columns = columnsOf(items);
      for (const outage of outages(columns, NOMINAL)) {
        const left = without(one, items[outage.row]!);
        const typed = operatingPoint(meshOfCase({ network: left }));
        const rows = new Map(
          typed.rows.map((row) => [row.outcome === "solved" ? row.item.item : row.item, row]),
        );
        const loads = items.flatMap(({ kind, item }, row) =>
          kind.endsWith("load") ? [{ item, row }] : [],
        );
        assert.deepEqual(
          outage.dark,
          loads.filter(({ item }) => !rows.has(item)).map(({ row }) => row),
        );
        dark += outage.dark.length;
        if (typed.faults.size > 0) {
          assert.ok(outage.fault);
          continue;
        }
        assert.equal(outage.fault, undefined);
        if (left.loads.length === 0) continue;
        const { lowest } = outage;
        const voltage = requireSolved(rows.get(items[lowest!.row]!.item)).inputVoltage;
        assert.ok(Math.abs(voltage - lowest!.voltage) <= 1e-9 * voltage);
        for (const { item, kind, row } of items.map((each, row) => ({ ...each, row }))) {
          const other = rows.get(item);
          if (row === outage.row || kind !== "supply" || !other) continue;
          const current = requireSolved(other).output!.current;
          assert.ok(Math.abs(outage.current(row) - current) <= 1e-7 * Math.max(1, current), item);
        }
        compared++;
      }
    }
    assert.ok(compared >= 1000, `${compared}`);
    assert.ok(dark >= 300, `${dark}`);
  });

  it("name the load that falls most, the least margin and the highest loading of what is left", () => {
    const items = [
      feedItem("North", undefined, "supply", { voltage: 400, resistance: 0.1 }),
      feedItem("South", undefined, "supply", { voltage: 400, resistance: 0.1 }),
      feedItem("Line N", "North", "run", { resistance: 0.4, ratedCurrent: 30 }),
      feedItem("Line S", "South", "run", { resistance: 0.9, ratedCurrent: 30 }),
      feedItem("Bus", "Line N; Line S", "bus"),
      feedItem("Pumps", "Bus", "current load", { load: 20, lowestVoltage: 360 }),
    ];
    const [north, , lineNorth] = outages(columnsOf(items), NOMINAL);
    // 20 A by way of South alone: 400 − 20 · 1.0 = 380 V; 380 / 360 − 1; 20 of 30 A.
    for (const outage of [north!, lineNorth!]) {
      assert.equal(outage.lowest!.voltage, 380);
      assert.equal(items[outage.margin!.row]!.item, "Pumps");
      assert.ok(Math.abs(outage.margin!.value - 20 / 360) < 1e-15);
      assert.equal(items[outage.loading!.row]!.item, "Line S");
      assert.ok(Math.abs(outage.loading!.value - 2 / 3) < 1e-12);
      assert.deepEqual(outage.dark, []);
    }
  });

  it("leave dark what hangs on the row alone, and a regulated stage that has lost its input", () => {
    const items = [
      feedItem("A", undefined, "supply", { voltage: 400, resistance: 0.1 }),
      feedItem("Cable", "A", "run", { resistance: 0.4 }),
      feedItem("One", "Cable", "regulated", {
        voltage: 48,
        resistance: 0.02,
        lowestVoltage: 300,
        highestVoltage: 420,
      }),
      feedItem("B", undefined, "supply", { voltage: 48, resistance: 0.02 }),
      feedItem("Bus", "One; B", "bus"),
      feedItem("Lamp", "Bus", "power load", { load: 96 }),
      feedItem("Heater", "Cable", "resistance load", { load: 1600 }),
    ];
    const [, cable] = outages(columnsOf(items), NOMINAL);
    assert.deepEqual(cable!.dark, [6]);
    assert.equal(cable!.current(2), 0);
    assert.ok(Math.abs(cable!.current(3) - 96 / cable!.lowest!.voltage) < 1e-12);
  });
});
