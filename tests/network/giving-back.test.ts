import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, it } from "vitest";
import { compiledFeed } from "../../src/network/compiled-feed.js";
import { columnsOf } from "../../src/network/feed-columns.js";
import { carriesTimes, feedHeadroom } from "../../src/network/feed-headroom.js";
import type { FeedItem } from "../../src/network/feed-item.js";
import type { MeshProof } from "../../src/network/feed-solver.js";
import { feedWorst } from "../../src/network/feed-worst.js";
import { type OperatingPoint, operatingPoint } from "../../src/network/operating-point.js";
import { feedCircuits } from "../../src/safety/circuits.js";
import { assertPrinted } from "../helpers/assert-printed.js";
import { feedNetlist } from "../helpers/feed-netlist.js";
import { feedItem, requireSolved } from "../helpers/feed.js";
import { nearbyOperatingPoint, operatingPoint as ngspice } from "../helpers/ngspice.js";
import { withLoads } from "../helpers/random-feed.js";
import { givingBack, randomMesh } from "../helpers/random-mesh.js";

const FEEDS = Number(process.env["DOWNFEED_GIVING"] ?? 50);
const SEED = 20261130;

const isPower = ({ kind }: FeedItem) => kind === "power load";

/** Multiple at which a mesh collapses; of one that does not, one at which its loads are as large as those of others. */
function multipleOf(items: readonly FeedItem[]): number {
  return feedHeadroom(columnsOf(items), "nominal").collapse?.multiple ?? 20;
}

function proofsOf({ solutions }: OperatingPoint): readonly MeshProof[] {
  return solutions.flatMap((one) => (one.outcome === "solved" && one.mesh ? [one.mesh] : []));
}

function blockedIn(point: OperatingPoint): ReadonlySet<number> {
  return new Set(proofsOf(point).flatMap(({ blocked }) => blocked));
}

/** By row: voltage at its output. */
function voltagesOf({ rows }: OperatingPoint): Map<number, number> {
  return new Map(
    rows
      .map(requireSolved)
      .flatMap(({ item, output }, row) =>
        output && item.kind !== "tie" ? [[row, output.voltage] as const] : [],
      ),
  );
}

function messageOf({ faults }: OperatingPoint): string {
  return faults.values().next().value!.error.message;
}

function blamedBy(point: OperatingPoint): number {
  return point.faults.values().next().value!.row;
}

/** Largest closing error as a part of what loads take and give. */
function assertClosed({ rows, totals }: OperatingPoint): void {
  const passed = rows
    .map(requireSolved)
    .reduce((sum, { output, inputPower }) => sum + (output ? 0 : Math.abs(inputPower)), 0);
  assert.ok(
    Math.abs(totals.closingError) <= 1e-9 * passed,
    `${totals.closingError} of ${passed} W`,
  );
}

/**
 * Parts by which voltages differ, by row; undefined where ngspice finds nothing from its starting voltages. Loads and
 * stages hold their power down to half of their voltage only, so that it comes back from far below; where it ends nothing
 * stands there, or it counts as another one.
 */
async function differencesFrom(
  solve: typeof ngspice,
  items: readonly FeedItem[],
  point: OperatingPoint,
  start = voltagesOf(point),
): Promise<ReadonlyMap<number, number> | undefined> {
  const voltages = voltagesOf(point);
  const netlist = feedNetlist(items, start, blockedIn(point)).replace(
    /\/v\((n(\d+))\)/g,
    (_, node: string, row: string) => `/max(v(${node}),${voltages.get(Number(row))! / 2})`,
  );
  const found = await solve(netlist).catch(() => undefined);
  return (
    found &&
    new Map([...voltages].map(([row, voltage]) => [row, found[`v(n${row})`]! / voltage - 1]))
  );
}

function isSame(differences: ReadonlyMap<number, number>): boolean {
  return [...differences.values()].every((one) => Math.abs(one) <= 1e-6);
}

/** @returns whether ngspice finds anything. */
async function assertAsNgspice(
  items: readonly FeedItem[],
  point: OperatingPoint,
): Promise<boolean> {
  // From our own solution it may find nothing at first.
  const found =
    (await differencesFrom(nearbyOperatingPoint, items, point)) ??
    (await differencesFrom(ngspice, items, point));
  assert.ok(!found || isSame(found), `another one in ${JSON.stringify(items)}`);
  return found !== undefined;
}

describe("operatingPoint of random meshes in which loads give power back", () => {
  const feeds = fc
    .sample(fc.tuple(randomMesh, fc.noBias(fc.nat(1000))), { numRuns: FEEDS, seed: SEED })
    .map(([base, thousandths], seed) => {
      const drawn = withLoads(base, multipleOf(base) / (1.3 + thousandths / 100));
      const items = givingBack(drawn, seed);
      return { items, point: operatingPoint(items) };
    })
    .filter(({ items }) => items.some(({ load = 0 }) => load < 0));
  const solved = feeds.filter(({ point }) => point.faults.size === 0);
  const refused = feeds.filter(({ point }) => point.faults.size > 0);
  /** With the power loads that some test keeps. */
  const only = (items: readonly FeedItem[], keeps: (load: number) => boolean) =>
    items.map((item) => (isPower(item) && !keeps(item.load!) ? { ...item, load: 0 } : item));

  it("has some of each outcome: proven, not proven, blocked rows, and power that nothing takes", () => {
    const proofs = solved.flatMap(({ point }) => proofsOf(point));
    const claims = (name: MeshProof["claim"]) => proofs.filter(({ claim }) => claim === name);
    assert.ok(solved.length >= 0.5 * feeds.length, `${solved.length} of ${feeds.length}`);
    assert.ok(claims("only one at or above").length >= 0.2 * feeds.length);
    assert.ok(claims("not proven").length >= 0.1 * feeds.length);
    assert.equal(claims("upper").length, 0);
    assert.ok(proofs.filter(({ blocked }) => blocked.length > 0).length >= 0.1 * feeds.length);
    assert.ok(refused.length >= 0.1 * feeds.length, `${refused.length} refused`);
  });

  it("agrees with ngspice to 1e-6 in every voltage", async () => {
    let missed = 0;
    for (const { items, point } of solved) if (!(await assertAsNgspice(items, point))) missed++;
    assert.ok(missed <= 0.01 * solved.length, `${missed} of ${solved.length} not found by ngspice`);
  }, 900_000);

  it("is where ngspice comes to from the voltages with nothing given back, and from those with nothing but that", async () => {
    const met = { without: 0, alone: 0 };
    const tried = { without: 0, alone: 0 };
    for (const { items, point } of solved) {
      const starts = {
        without: operatingPoint(only(items, (load) => load > 0)),
        alone: operatingPoint(only(items, (load) => load < 0)),
      };
      for (const name of ["without", "alone"] as const) {
        if (starts[name].faults.size > 0) continue;
        tried[name]++;
        const start = voltagesOf(starts[name]);
        const found = await differencesFrom(nearbyOperatingPoint, items, point, start);
        if (found === undefined) continue;
        met[name]++;
        assert.ok(isSame(found), `another one from ${name} in ${JSON.stringify(items)}`);
      }
    }
    for (const name of ["without", "alone"] as const) {
      assert.ok(tried[name] >= 0.5 * solved.length, `${tried[name]} of ${solved.length} ${name}`);
      assert.ok(met[name] >= 0.85 * tried[name], `${met[name]} of ${tried[name]} ${name}`);
    }
  }, 900_000);

  it("closes each to 1e-9 of what its loads take and give", () => {
    for (const { point } of solved) assertClosed(point);
  });

  it("stands nowhere below the voltages with nothing given back, which it names where it is proven", () => {
    for (const { items, point } of solved) {
      const without = voltagesOf(operatingPoint(only(items, (load) => load > 0)));
      for (const [row, voltage] of voltagesOf(point))
        assert.ok(voltage >= without.get(row)! * (1 - 1e-10), items[row]!.item);
      for (const { claim, floor } of proofsOf(point)) {
        assert.equal(floor.size > 0, claim === "only one at or above");
        const isParted = items.some(({ kind }) => kind === "regulated");
        for (const [row, voltage] of floor) {
          const above = voltage / without.get(row)! - 1;
          // Before a regulated stage it counts what is given back behind that.
          assert.ok(isParted ? above >= -1e-10 : Math.abs(above) <= 1e-10, items[row]!.item);
        }
      }
    }
  });

  it("lets no current flow back where that is blocked", () => {
    for (const { items, point } of solved)
      point.rows.map(requireSolved).forEach(({ item, output }) => {
        const ofKind = ["ratio", "regulated"].includes(item.kind) || (item.voltage ?? 0) > 0;
        const oneWay =
          item.reverseFlow ?? (ofKind && item.kind !== "supply" ? "blocked" : "allowed");
        if (output && oneWay === "blocked")
          assert.ok(output.current >= -1e-9, `${item.item} of ${items.length}`);
      });
  });

  it("finds one where it refused, once the rows that block let current back, or a clamp takes it", () => {
    for (const { items, point } of refused) {
      assert.match(
        messageOf(point),
        /^no operating point: nothing takes [\d.]+ W that "x\d+" gives back/,
      );
      let allowed = items;
      let clamped = items;
      for (let turn = 0; turn < items.length; turn++) {
        const one = operatingPoint(allowed);
        // What a diode drops backwards is not known.
        if (one.faults.size > 0)
          allowed = allowed.map((item, row) =>
            row === blamedBy(one)
              ? {
                  ...item,
                  reverseFlow: "allowed",
                  ...(item.kind === "series" && { voltage: undefined }),
                }
              : item,
          );
        const other = operatingPoint(clamped);
        if (other.faults.size > 0) {
          const [, watts, giving] = /takes ([\d.]+) W that "(\w+)"/.exec(messageOf(other))!;
          const { fedFrom } = items.find(({ item }) => item === giving)!;
          clamped = [
            ...clamped,
            feedItem(`clamp ${turn}`, fedFrom, "resistance load", {
              load: 400 ** 2 / Number(watts),
            }),
          ];
        }
      }
      for (const mended of [allowed, clamped]) {
        const found = operatingPoint(mended);
        assert.equal(found.faults.size, 0);
        assertClosed(found);
      }
    }
  });

  it("finds the one of loads that live on what is given back where they draw, and does not call it proven", () => {
    for (const base of fc.sample(randomMesh, { numRuns: FEEDS / 5, seed: SEED + 1 })) {
      const drawn = withLoads(base, 3 * multipleOf(base)).map((item) =>
        !isPower(item) && item.kind.endsWith("load")
          ? { ...item, load: item.kind === "resistance load" ? item.load! * 10 : item.load! / 10 }
          : item,
      );
      assert.ok(operatingPoint(drawn).faults.size > 0);
      // Nine tenths of it come from a second load at the same place.
      const given = drawn
        .filter(isPower)
        .map((item) => ({ ...item, item: `${item.item} back`, load: -0.9 * item.load! }));
      const point = operatingPoint([...drawn, ...given]);
      const net = operatingPoint(
        drawn.map((item) => (isPower(item) ? { ...item, load: 0.1 * item.load! } : item)),
      );
      const netVoltages = voltagesOf(net);
      for (const [row, voltage] of voltagesOf(point))
        assert.ok(Math.abs(voltage - netVoltages.get(row)!) <= 1e-9 * voltage);
      for (const { claim } of proofsOf(point)) assert.equal(claim, "not proven");
    }
  });
});

/** A supply, what is in line, a run, and behind it a drive that gives back 5 kW, with a load of 1 kW beside it. */
function drive(
  inLine: Partial<FeedItem> = {},
  givenBack = 5000,
  ...others: readonly FeedItem[]
): FeedItem[] {
  return [
    feedItem("Supply", undefined, "supply", { voltage: 400, resistance: 0.1 }),
    feedItem("In line", "Supply", "series", { resistance: 0.01, ...inLine }),
    feedItem("Cable", "In line", "run", { resistance: 0.5 }),
    feedItem("Drive", "Cable", "power load", { load: -givenBack }),
    feedItem("Hotel", "Cable", "power load", { load: 1000 }),
    ...others,
  ];
}

const STAGE_LOSSES = {
  fixedLoss: 5,
  linearLoss: 0.1,
  quadraticLoss: 0.02,
  reverseFlow: "allowed",
} as const;

describe("operatingPoint of trees with one load that gives power back", () => {
  it("gives the drive's power back to the supply: V² − V₀·V − R·P = 0, its root above V₀", () => {
    const point = operatingPoint(drive());
    const [supply, , cable] = point.rows.map(requireSolved);
    assertPrinted(cable!.output!.voltage, (200 + Math.sqrt(200 ** 2 + 0.61 * 4000)).toFixed(8));
    assert.ok(supply!.output!.current < 0);
    assertClosed(point);
    const [proof] = proofsOf(point);
    assert.equal(proof!.claim, "only one at or above");
    assertPrinted(proof!.floor.get(2)!, (200 + Math.sqrt(200 ** 2 - 0.61 * 1000)).toFixed(8));
  });

  it("passes it back through stages that allow it, whose losses count by the current's magnitude, as ngspice does", async () => {
    const feeds = [
      [feedItem("Stage", "In line", "ratio", { ratio: 0.5, resistance: 0.02, ...STAGE_LOSSES })],
      [
        feedItem("Stage", "In line", "regulated", {
          voltage: 200,
          lowestVoltage: 300,
          highestVoltage: 500,
          ...STAGE_LOSSES,
        }),
      ],
    ].map(([stage]) => [
      ...drive().slice(0, 2),
      stage!,
      feedItem("Cable", "Stage", "run", { resistance: 0.1 }),
      ...drive().slice(3),
    ]);
    for (const items of feeds) {
      const point = operatingPoint(items);
      const [, , stage] = point.rows.map(requireSolved);
      const back = -stage!.output!.current;
      assert.ok(back > 15);
      const ownLoss = stage!.loss - 5 - 0.1 * back - 0.02 * back ** 2;
      assert.ok(Math.abs(ownLoss) <= 1e-9, `${ownLoss} W`);
      assertClosed(point);
      assert.ok(await assertAsNgspice(items, point));
    }
  });

  it("refuses what nothing takes, and names the load, the row that blocks and what to do", () => {
    const words = (blocking: string) =>
      `no operating point: nothing takes 4000 W that "Drive" gives back, and "${blocking}" lets none of it through: allow Reverse flow of "${blocking}", or add a load or clamp that takes 4000 W`;
    // A forward drop is a diode's.
    const diode = operatingPoint(drive({ voltage: 0.7 }));
    assert.equal(messageOf(diode), words("In line"));
    assert.equal(diode.faults.size, 5);
    const supply = drive().map((item) =>
      item.kind === "supply" ? { ...item, reverseFlow: "blocked" as const } : item,
    );
    assert.equal(messageOf(operatingPoint(supply)), words("Supply"));
    assert.equal(messageOf(operatingPoint(drive({ reverseFlow: "blocked" }))), words("In line"));
  });

  it("finds the voltage to which a load behind a row that blocks clamps it", () => {
    const clamped = operatingPoint(
      drive({ voltage: 0.7 }, 5000, feedItem("Clamp", "Cable", "resistance load", { load: 100 })),
    );
    const [supply, , cable] = clamped.rows.map(requireSolved);
    // 5000 W = 1000 W + V² ÷ 100 Ω.
    assertPrinted(cable!.output!.voltage, "632.45553203");
    assert.equal(supply!.output!.current, 0);
    assert.deepEqual([...blockedIn(clamped)], [1]);
    assertClosed(clamped);
    const drawing = operatingPoint(
      drive({ voltage: 0.7 }, 5000, feedItem("Clamp", "Cable", "current load", { load: 5 })),
    );
    // 5000 W = 1000 W + V · 5 A.
    assertPrinted(drawing.rows.map(requireSolved)[2]!.output!.voltage, "800.0000000");
  });

  it("lets a diode conduct where the others on its side draw more", () => {
    const point = operatingPoint(drive({ voltage: 0.7 }, 400));
    const [, inLine, cable] = point.rows.map(requireSolved);
    assert.ok(inLine!.output!.current > 0);
    const open = 400 - 0.7;
    assertPrinted(
      cable!.output!.voltage,
      (open / 2 + Math.sqrt(open ** 2 / 4 - 0.61 * 600)).toFixed(8),
    );
    // The diode is the only way in, so that it conducts at every voltage.
    assert.equal(proofsOf(point)[0]!.claim, "only one at or above");
  });

  it("finds the point at which losses on the way take more than is left over, as ngspice does, and does not call it the only one", async () => {
    // 5050 W are given back, 5000 W taken, 316 W lost between them; far above 400 V there is another, unstable one.
    const items = [
      ...drive({ voltage: 0.7 }, 0).slice(0, 3),
      feedItem("Hotel", "Cable", "power load", { load: 5000 }),
      feedItem("Branch", "Cable", "run", { resistance: 2 }),
      feedItem("Drive", "Branch", "power load", { load: -5050 }),
    ];
    const point = operatingPoint(items);
    const [supply] = point.rows.map(requireSolved);
    assert.ok(supply!.output!.current > 0.5);
    assert.ok(await assertAsNgspice(items, point));
    assert.equal(proofsOf(point)[0]!.claim, "not proven");
  });

  it("solves a drive on a supply without resistance, and one that stands still", () => {
    const items = [
      feedItem("Supply", undefined, "supply", { voltage: 400 }),
      feedItem("Drive", "Supply", "power load", { load: 0, lightLoad: -4000, peakLoad: 8000 }),
    ];
    const currentAt = (loads: "light" | "nominal" | "peak") =>
      requireSolved(operatingPoint(items, { loads, supply: "nominal" }).rows[0]).output!.current;
    assert.deepEqual([currentAt("light"), currentAt("nominal"), currentAt("peak")], [-10, 0, 20]);
  });

  it("solves two meshes of one table apart", () => {
    const named = (name: string) =>
      drive().map((item) => ({
        ...item,
        item: `${name} ${item.item}`,
        fedFrom: item.fedFrom && `${name} ${item.fedFrom}`,
      }));
    const { rows } = operatingPoint([...named("A"), ...named("B")]);
    const [one, other] = [rows[2], rows[7]].map((row) => requireSolved(row).output!.voltage);
    assert.equal(one, other);
    assert.equal(one, requireSolved(operatingPoint(drive()).rows[2]).output!.voltage);
  });

  it("leaves trees without such a load to the solver of trees, also where a figure changes its sign", () => {
    const meshes = (feed: ReturnType<typeof compiledFeed>) => feed.trees.filter(({ mesh }) => mesh);
    const drawing = compiledFeed(columnsOf(drive({}, -5000)));
    assert.equal(meshes(drawing).length, 0);
    const giving = compiledFeed(columnsOf(drive()), drawing);
    assert.equal(meshes(giving).length, 1);
    assert.equal(meshes(compiledFeed(columnsOf(drive({}, -5000)), giving)).length, 0);
  });
});

describe("what is refused where a load gives power back", () => {
  const refusal = (items: readonly FeedItem[]) => messageOf(operatingPoint(items));

  it("is any other kind of load below 0", () => {
    for (const kind of ["current load", "resistance load"] as const)
      for (const figure of ["load", "lightLoad", "peakLoad"] as const)
        assert.equal(
          refusal(drive({}, 0, feedItem("Heater", "Cable", kind, { [figure]: -5 }))),
          `${figure} must be 0 or more (a load of kind "power load" may give power back), got -5`,
        );
  });

  it("is a stage whose losses backwards are not known, and a forward drop that is passed backwards", () => {
    const stage = (figures: Partial<FeedItem>) => [
      ...drive().slice(0, 2),
      feedItem("Cable", "In line", "regulated", {
        voltage: 200,
        lowestVoltage: 300,
        highestVoltage: 500,
        ...figures,
      }),
      ...drive().slice(3),
    ];
    assert.match(
      refusal(stage({ efficiency: 0.95, reverseFlow: "allowed" })),
      /^efficiency must be blank, with losses given instead, where Reverse flow is allowed: .*, got 0.95$/,
    );
    assert.match(
      refusal(drive({ voltage: 0.7, reverseFlow: "allowed" })),
      /^reverseFlow must be blocked where Voltage is a forward drop: .*, got "allowed"$/,
    );
    assert.match(
      refusal([
        ...drive().slice(0, 2),
        feedItem("Cable", "In line", "ratio", { ratio: 0.5, efficiency: 0.95 }),
        ...drive().slice(3),
      ]),
      /^resistance must be given, above 0, of a stage that feeds .* a load that gives power back/,
    );
  });

  it("is headroom, by the load's name, but not where it gives back at light load alone", () => {
    const words = /as "Drive" does/;
    assert.throws(() => feedHeadroom(columnsOf(drive()), "nominal"), words);
    assert.throws(() => carriesTimes(columnsOf(drive()), "nominal", 2), words);
    const light = drive().map((item) =>
      item.item === "Drive" ? { ...item, load: 500, lightLoad: -500 } : item,
    );
    const exact = 400 ** 2 / (4 * 0.61 * 1500);
    const { collapse } = feedHeadroom(columnsOf(light), "nominal");
    assert.ok(Math.abs(collapse!.multiple / exact - 1) <= 1e-9);
  });

  it("are the bands of its circuits, which it lifts above their voltage without load", () => {
    const { ofRow } = feedCircuits(columnsOf(drive()));
    for (const one of ofRow) assert.ok("error" in one && one.blamed === "Drive");
  });
});

describe("feedWorst where a load gives power back", () => {
  it("tries every set of loads and proves nothing", () => {
    // By magnitude alone the nominal and the light load would stand for all.
    const items = drive().map((item) =>
      item.kind === "supply"
        ? { ...item, lowestVoltage: 380, highestVoltage: 420 }
        : item.item === "Drive"
          ? { ...item, load: -5000, lightLoad: 0, peakLoad: -2000, tolerance: 0.1 }
          : item.item === "Hotel"
            ? { ...item, load: 1000, lightLoad: 1000, peakLoad: 1000 }
            : item,
    );
    const { rows, extremeOf, isProven } = feedWorst(columnsOf(items), 0);
    const drives = rows[3]!;
    assert.ok(rows.every(({ proven }, row) => !proven && !isProven(row)));
    const highest = extremeOf(3, "highestVoltage");
    assert.equal(highest.at.loads, "nominal");
    assertPrinted(highest.value, (210 + Math.sqrt(210 ** 2 + 0.61 * 4500)).toFixed(8));
    assert.equal(extremeOf(3, "lowestVoltage").at.loads, "light");
    assertPrinted(drives.lowestInputVoltage, (190 + Math.sqrt(190 ** 2 - 0.61 * 1000)).toFixed(8));
    assertPrinted(
      extremeOf(2, "highestFlow").value,
      (4500 / (190 + Math.sqrt(190 ** 2 + 0.61 * 4500))).toFixed(8),
    );
  });
});
