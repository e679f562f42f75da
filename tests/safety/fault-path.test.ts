import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, it } from "vitest";
import {
  FEED_KINDS,
  type FeedItem,
  type Isolation,
  ISOLATIONS,
} from "../../src/network/feed-item.js";
import {
  faultPath,
  type HighestVoltage,
  type NodeVoltages,
} from "../../src/safety/fault-path.js";
import { assertPrinted } from "../helpers/assert-printed.js";
import { everyFault } from "./every-fault.js";
import { feedItem } from "../helpers/feed.js";

// Invented feeds; the rule they are held against is IEC 60364-4-41 411.7.4 and IEC 62368-1 5.2.1 worked out for chains,
// the hand figures beside them.
const supply = (highestVoltage: number | undefined = 440) =>
  feedItem("hut", undefined, "supply", { voltage: 400, highestVoltage });
const ratio = (
  item: string,
  fedFrom: string,
  given: Partial<FeedItem> = {},
): FeedItem =>
  feedItem(item, fedFrom, "ratio", {
    ratio: 1 / 8,
    tolerance: 0.02,
    isolation: "reinforced",
    ...given,
  });
const regulated = (
  item: string,
  fedFrom: string,
  given: Partial<FeedItem> = {},
): FeedItem =>
  feedItem(item, fedFrom, "regulated", {
    voltage: 24,
    tolerance: 0.05,
    isolation: "reinforced",
    tripVoltage: 30,
    ...given,
  });
const run = (item: string, fedFrom: string) =>
  feedItem(item, fedFrom, "run", { resistance: 3.48 });
const load = (item: string, fedFrom: string) =>
  feedItem(item, fedFrom, "power load", { load: 100 });

function nodeOf(items: readonly FeedItem[], name: string): NodeVoltages {
  const found = faultPath(items).find(({ item }) => item === name);
  assert.ok(found);
  return found;
}

function voltsOf(voltage: HighestVoltage): number {
  assert.equal(voltage.outcome, "determined");
  return voltage.outcome === "determined" ? voltage.voltage : Number.NaN;
}

function reasonOf(voltage: HighestVoltage): string {
  assert.equal(voltage.outcome, "not determined");
  return voltage.outcome === "not determined" ? voltage.reason : "";
}

function failedOf(voltage: HighestVoltage): string | undefined {
  return voltage.outcome === "determined" ? voltage.failed : "?";
}

describe("faultPath in service", () => {
  it("takes supply highest × ratio × (1 + tolerance) with no drop: 440 V × 1/8 × 1.02 = 56.1 V", () => {
    const items = [
      supply(),
      run("line", "hut"),
      ratio("summit stage", "line"),
      feedItem("fuse", "summit stage", "series", { voltage: 0.5 }),
      load("drives", "fuse"),
    ];
    assert.equal(voltsOf(nodeOf(items, "line").normal), 440);
    for (const name of ["summit stage", "fuse", "drives"])
      assertPrinted(voltsOf(nodeOf(items, name).normal), "56.1");
  });

  it("takes 706 V × 1/12 × 1.01 = 59.4 V", () => {
    const items = [
      supply(706),
      ratio("pack stage", "hut", { ratio: 1 / 12, tolerance: 0.01 }),
    ];
    assertPrinted(voltsOf(nodeOf(items, "pack stage").normal), "59.4");
  });

  it("takes set point × (1 + tolerance) behind a regulated stage: 24 V + 5 % = 25.2 V", () => {
    const items = [supply(), regulated("lights", "hut")];
    assertPrinted(voltsOf(nodeOf(items, "lights").normal), "25.2");
  });

  it("takes 0 as an exact tolerance and a missing one as not determined", () => {
    const exact = [supply(), ratio("stage", "hut", { tolerance: 0 })];
    assert.equal(voltsOf(nodeOf(exact, "stage").normal), 55);
    const missing = [
      supply(),
      ratio("stage", "hut", { tolerance: undefined }),
      load("drives", "stage"),
    ];
    for (const name of ["stage", "drives"])
      assert.equal(
        reasonOf(nodeOf(missing, name).normal),
        '"stage" has no Tolerance',
      );
  });

  it("never takes a supply's highest voltage below its open-circuit voltage", () => {
    assert.equal(voltsOf(nodeOf([supply(380)], "hut").normal), 400);
  });

  it("is not determined without the supply's highest voltage, save behind a regulated stage", () => {
    const items = [
      supply(undefined),
      ratio("stage", "hut"),
      regulated("lights", "stage"),
    ].map((row) =>
      row.kind === "supply" ? { ...row, highestVoltage: undefined } : row,
    );
    assert.equal(
      reasonOf(nodeOf(items, "stage").normal),
      '"hut" has no Highest V',
    );
    assertPrinted(voltsOf(nodeOf(items, "lights").normal), "25.2");
  });
});

describe("faultPath after one fault", () => {
  for (const isolation of ["none", "functional", "basic", undefined] as const)
    it(`${isolation ?? "unknown"} isolation of a ratio stage: the input, 440 V`, () => {
      const items = [supply(), ratio("stage", "hut", { isolation })];
      const { afterFault } = nodeOf(items, "stage");
      assert.equal(voltsOf(afterFault), 440);
      assert.equal(failedOf(afterFault), "stage");
    });

  it("reinforced isolation of a ratio stage: its own 56.1 V", () => {
    const { afterFault } = nodeOf([supply(), ratio("stage", "hut")], "stage");
    assertPrinted(voltsOf(afterFault), "56.1");
    assert.equal(failedOf(afterFault), undefined);
  });

  it("two basic stages do not make a reinforced one", () => {
    const items = [
      supply(),
      ratio("first", "hut", { isolation: "basic" }),
      regulated("second", "first", { isolation: "basic" }),
    ];
    const { afterFault } = nodeOf(items, "second");
    assert.equal(voltsOf(afterFault), 440);
    assert.equal(failedOf(afterFault), "first");
  });

  it("a reinforced ratio below a stage without isolation follows what that lets through, and is to be insulated for it", () => {
    const items = [
      supply(),
      ratio("first", "hut", { isolation: "none" }),
      ratio("second", "first", { ratio: 1 / 2, tolerance: 0 }),
      load("camera", "second"),
    ];
    const second = nodeOf(items, "second");
    assertPrinted(voltsOf(second.normal), "28.05");
    assert.equal(voltsOf(second.afterFault), 220);
    assert.equal(failedOf(second.afterFault), "first");
    assert.deepEqual(
      second.notes.map(({ text }) => text),
      [
        'its insulation is to be reinforced for 440.0 V, not 56.1 V: a fault of "first" puts that on its input',
      ],
    );
    assert.equal(voltsOf(nodeOf(items, "camera").afterFault), 220);
  });

  it("a reinforced regulated stage there keeps what its own trip allows", () => {
    const items = [
      supply(),
      ratio("first", "hut", { isolation: "none" }),
      regulated("second", "first"),
    ];
    const second = nodeOf(items, "second");
    assert.equal(voltsOf(second.afterFault), 30);
    assert.equal(failedOf(second.afterFault), "second");
    assert.equal(second.notes[0]?.code, "insulation-for-upstream");
  });

  it("a reinforced stage below another reinforced one needs no such note", () => {
    const items = [supply(), ratio("first", "hut"), ratio("second", "first")];
    assert.deepEqual(nodeOf(items, "second").notes, []);
  });

  it("a regulated stage rises to Trip V whatever its isolation, and without one is not determined", () => {
    for (const isolation of ISOLATIONS) {
      const trips = [supply(), regulated("lights", "hut", { isolation })];
      const expected = isolation === "reinforced" ? 30 : 440;
      assert.equal(voltsOf(nodeOf(trips, "lights").afterFault), expected);
      const blank = [
        supply(),
        regulated("lights", "hut", { isolation, tripVoltage: undefined }),
        load("lamp", "lights"),
      ];
      for (const name of ["lights", "lamp"])
        assert.equal(
          reasonOf(nodeOf(blank, name).afterFault),
          '"lights" has no Trip V',
        );
    }
  });

  it("passes a lost regulation on through a stage that is not reinforced", () => {
    const items = [
      supply(),
      regulated("bus", "hut", { voltage: 48, tripVoltage: 58 }),
      regulated("five", "bus", {
        voltage: 5,
        isolation: "none",
        tripVoltage: 6,
      }),
    ];
    const { afterFault } = nodeOf(items, "five");
    assert.equal(voltsOf(afterFault), 58);
    assert.equal(failedOf(afterFault), "bus");
  });

  it("notes a Trip V below the highest set point, and takes the set point", () => {
    const items = [supply(), regulated("lights", "hut", { tripVoltage: 25 })];
    const { afterFault, notes } = nodeOf(items, "lights");
    assertPrinted(voltsOf(afterFault), "25.2");
    assert.equal(notes[0]?.code, "trips-in-service");
  });

  it("notes isolation that is not given", () => {
    const items = [supply(), ratio("stage", "hut", { isolation: undefined })];
    assert.equal(nodeOf(items, "stage").notes[0]?.code, "isolation-unknown");
  });
});

describe("faultPath over a table that is not right", () => {
  const SUPPLIED = [supply(), ratio("stage", "hut")];

  it("says what an item lacks or has wrong, and answers for the others", () => {
    const cases: readonly (readonly [FeedItem, string])[] = [
      [
        run("stray", "attic"),
        '"stray" is fed from "attic", which is not in the table',
      ],
      [feedItem("stray", undefined, "run"), '"stray" is fed from nothing'],
      [
        feedItem("stray", "hut", "supply", { highestVoltage: 50 }),
        '"stray" is a supply and fed from "hut"',
      ],
      [ratio("stray", "hut", { ratio: undefined }), '"stray" has no Ratio'],
      [
        ratio("stray", "hut", { ratio: -1 }),
        'Ratio of "stray" must be above 0, got -1',
      ],
      [
        ratio("stray", "hut", { tolerance: 2 }),
        'Tolerance of "stray" must be a fraction below 1, got 2',
      ],
      [
        ratio("stray", "hut", { tolerance: Number.NaN }),
        'Tolerance of "stray" must be a fraction below 1, got NaN',
      ],
      [
        regulated("stray", "hut", { voltage: Infinity }),
        'Voltage of "stray" must be above 0, got Infinity',
      ],
      [run("stray", "stray"), '"stray" is fed by a loop'],
    ];
    for (const [row, reason] of cases) {
      const items = [...SUPPLIED, row, regulated("below", "stray")];
      assert.equal(reasonOf(nodeOf(items, "stray").normal), reason);
      assert.equal(reasonOf(nodeOf(items, "stray").afterFault), reason);
      assertPrinted(voltsOf(nodeOf(items, "stage").normal), "56.1");
    }
  });

  it("does not let a regulated stage hide that it hangs on no supply", () => {
    const items = [run("stray", "attic"), regulated("below", "stray")];
    assert.match(reasonOf(nodeOf(items, "below").normal), /not in the table/);
  });

  it("finds a loop of several items and what hangs on it", () => {
    const items = [...SUPPLIED, run("a", "b"), run("b", "a"), run("c", "b")];
    for (const name of ["a", "b", "c"])
      assert.match(reasonOf(nodeOf(items, name).normal), /by a loop/);
  });

  it("refuses two items of one name, without case or spaces at the ends, and what they feed", () => {
    const items = [...SUPPLIED, run("Stage ", "hut"), load("x", "stage")];
    for (const node of faultPath(items).slice(1))
      assert.match(reasonOf(node.normal), /^two items are called/);
  });

  it("answers in the table's order, children above their parents too", () => {
    const items = [load("drives", "Stage"), ratio("stage", " hut"), supply()];
    const nodes = faultPath(items);
    assert.deepEqual(
      nodes.map(({ item }) => item),
      ["drives", "stage", "hut"],
    );
    assertPrinted(voltsOf(nodes[0]!.normal), "56.1");
  });

  it("answers an empty table with nothing", () => {
    assert.deepEqual(faultPath([]), []);
  });
});

describe("faultPath over random trees", () => {
  const anyRow = fc.record({
    kind: fc.constantFrom(...FEED_KINDS.filter((kind) => kind !== "supply")),
    parent: fc.nat(),
    ratio: fc.constantFrom(1 / 16, 1 / 8, 1 / 3, 1, 2),
    voltage: fc.double({ min: 3, max: 100, noNaN: true }),
    tolerance: fc.constantFrom(0, 0.01, 0.05),
    isolation: fc.constantFrom(...ISOLATIONS, undefined),
    trip: fc.double({ min: 3, max: 150, noNaN: true }),
  });

  /** Loads feed nothing; the rest hangs anywhere above. */
  function treeOf(
    rows: readonly (typeof anyRow extends fc.Arbitrary<infer T> ? T : never)[],
  ): FeedItem[] {
    const items = [
      feedItem("0", undefined, "supply", { voltage: 300, highestVoltage: 400 }),
    ];
    for (const row of rows) {
      const feeding = items.filter(({ kind }) => !kind.endsWith("load"));
      const parent = feeding[row.parent % feeding.length]!;
      items.push(
        feedItem(String(items.length), parent.item, row.kind, {
          ratio: row.ratio,
          voltage: row.voltage,
          tolerance: row.tolerance,
          isolation: row.isolation,
          tripVoltage: row.trip,
        }),
      );
    }
    return items;
  }
  const anyTree = fc.array(anyRow, { minLength: 1, maxLength: 25 }).map(treeOf);

  it("equals every stage of every path failed alone", () => {
    fc.assert(
      fc.property(anyTree, (items) => {
        faultPath(items).forEach(({ normal, afterFault }, index) => {
          const expected = everyFault(items, index);
          assertClose(voltsOf(normal), expected.normal);
          assertClose(voltsOf(afterFault), expected.afterFault);
        });
      }),
      { numRuns: 400 },
    );
  });

  it("does not depend on the order of the rows", () => {
    fc.assert(
      fc.property(anyTree, fc.nat(), (items, seed) => {
        const moved = [...items].sort(
          (a, b) => order(a.item, seed) - order(b.item, seed),
        );
        const byName = new Map(faultPath(moved).map((n) => [n.item, n]));
        for (const node of faultPath(items))
          assert.deepEqual(byName.get(node.item), node);
      }),
    );
  });

  it("is never below the voltage in service, and never higher for more isolation", () => {
    fc.assert(
      fc.property(anyTree, fc.nat(), (items, pick) => {
        const stages = items.filter(
          ({ kind }) => kind === "ratio" || kind === "regulated",
        );
        const chosen = stages[pick % Math.max(1, stages.length)];
        const after = (isolation: Isolation | undefined) =>
          faultPath(
            items.map((one) => (one === chosen ? { ...one, isolation } : one)),
          );
        let weaker = after(undefined);
        for (const isolation of ISOLATIONS) {
          const stronger = after(isolation);
          stronger.forEach(({ normal, afterFault }, index) => {
            assert.ok(voltsOf(afterFault) >= voltsOf(normal));
            assert.ok(
              voltsOf(afterFault) <= voltsOf(weaker[index]!.afterFault),
            );
          });
          weaker = stronger;
        }
      }),
    );
  });

  it("never names a failed stage where a fault raises nothing, and names one that is on the path", () => {
    fc.assert(
      fc.property(anyTree, (items) => {
        for (const { normal, afterFault } of faultPath(items))
          assert.equal(
            failedOf(afterFault) !== undefined,
            voltsOf(afterFault) > voltsOf(normal),
          );
      }),
    );
  });

  it("takes a chain and a comb of 100 000 items without recursion and in far less than the square of the time", () => {
    const count = 100_000;
    const chain = [supply()];
    for (let at = 1; at < count; at++)
      chain.push(run(`r${at}`, at === 1 ? "hut" : `r${at - 1}`));
    const comb = [supply()];
    for (let at = 1; at < count; at++) comb.push(load(`l${at}`, "hut"));
    for (const items of [chain, comb]) {
      const nodes = faultPath(items);
      assert.equal(voltsOf(nodes.at(-1)!.afterFault), 440);
    }
  });

  function assertClose(actual: number, expected: number): void {
    assert.ok(
      Math.abs(actual - expected) <= 1e-12 * expected,
      `${actual}, ${expected}`,
    );
  }

  function order(name: string, seed: number): number {
    return ((Number(name) + 1) * 7919 + seed) % 101;
  }
});
