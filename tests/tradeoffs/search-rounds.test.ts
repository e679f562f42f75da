/** The search above what can be counted through: what it states, held against every combination by itself. */
import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, it } from "vitest";
import { requirementsOf } from "../../functions/reading/asked-for.js";
import { type TypedVariation, variedFeed } from "../../functions/tradeoffs/varied-blocks.js";
import type { CheckName } from "../../src/judgement/check-row.js";
import type { FeedSearchRequest } from "../../src/tradeoffs/feed-search.js";
import type { Objective } from "../../src/tradeoffs/objectives.js";
import { SearchRounds } from "../../src/tradeoffs/search-rounds.js";
import { choicesAt, indexOf } from "../../src/tradeoffs/varied-feed.js";
import { randomFeed } from "../helpers/random-feed.js";
import { blocksOf } from "../helpers/schedule-of-feed.js";
import type { TypedFeed } from "../feeds/typed-feed.js";
import { judgedFeed } from "../judgement/judged.js";
import { searched } from "./ended-search.js";
import { feedWith, keyOf, type OneByOne, oneByOne } from "./one-by-one.js";
import { quarry, SIZES, TYPES, UNITS, VOLTAGES } from "./quarry-feed.js";

const HELD: readonly CheckName[] = [
  "Input above lowest",
  "Input below highest",
  "Loading",
  "Drop",
  "Drop of a voltage level",
  "Headroom to collapse",
];

const OBJECTIVES: readonly Objective[] = ["loss", "mass", "volume", "price", "worst margin"];

/** Of the lead behind the stage, each size with what a metre weighs and costs; invented. */
const LEADS: TypedVariation = {
  name: "Size of Pump lead",
  choices: (
    [
      ["16 mm²", 70, 0.45, 8],
      ["25 mm²", 90, 0.66, 12],
      ["35 mm²", 110, 0.9, 16],
      ["50 mm²", 140, 1.25, 22],
    ] as const
  ).map(([size, rated, mass, price]) => ({
    name: size,
    cells: (
      [
        ["Size", size],
        ["Rated A", rated],
        ["Mass", mass],
        ["Price per m", price],
      ] as const
    ).map(([header, value]) => ({ block: "Cable", row: "Pump lead", header, value })),
  })),
};

const ALL = [VOLTAGES, SIZES, TYPES, UNITS, LEADS];

interface Space {
  readonly feed: TypedFeed;
  readonly variations: readonly TypedVariation[];
  readonly objectives: readonly Objective[];
  readonly held: readonly CheckName[];
}

function requested({ feed, variations, objectives, held }: Space): FeedSearchRequest {
  return {
    varied: variedFeed([...feed.blocks, feed.askedFor], variations),
    requirements: requirementsOf(feed.askedFor),
    checks: held,
    objectives,
  };
}

/** Any combination of a space worked out by itself, once. */
function alone({ feed, variations, objectives, held }: Space): (index: number) => OneByOne {
  const open = new Set(
    judgedFeed(feed)
      .filter((row) => row["Verdict"] === "not determined")
      .map(keyOf),
  );
  const known = new Map<number, OneByOne>();
  return (index) => {
    const own =
      known.get(index) ??
      oneByOne(
        feedWith(feed, variations, choicesAt({ variations }, index)),
        held,
        objectives,
        open,
      );
    known.set(index, own);
    return own;
  };
}

function besideOf(variations: readonly TypedVariation[], index: number): number[] {
  const at = choicesAt({ variations }, index);
  return variations.flatMap(({ choices }, place) =>
    choices.flatMap((_, choice) =>
      choice === at[place]
        ? []
        : [
            indexOf(
              { variations },
              at.map((one, other) => (other === place ? choice : one)),
            ),
          ],
    ),
  );
}

/** By the definition: at least as good in everything, and better in something or the earlier one of equals. */
function isBeaten(index: number, other: number, of: (index: number) => OneByOne): boolean {
  if (of(other).broken.length > 0) return false;
  const [own, its] = [of(index).values, of(other).values];
  const noWorse = its.every((value, at) => value <= own[at]!);
  return noWorse && (its.some((value, at) => value < own[at]!) || other < index);
}

function close(found: number, wanted: number): void {
  assert.ok(
    found === wanted || Math.abs(found - wanted) <= 1e-9 * Math.max(1, Math.abs(wanted)),
    `${found} is not ${wanted}`,
  );
}

/** What a search states of what it shows. @returns how many of it a neighbour beats. */
function assertStated({ found, extent }: SearchRounds, space: Space, most: number): number {
  const of = alone(space);
  assert.ok(extent.settled <= most, `${extent.settled} settled of ${most}`);
  const beaten = found.front.filter(({ index, values }) => {
    assert.deepEqual(of(index).broken, []);
    values.forEach((value, at) => close(value, of(index).values[at]!));
    return besideOf(space.variations, index).some((other) => isBeaten(index, other, of));
  });
  assert.ok(beaten.length <= extent.unproven, `${beaten.length} of ${extent.unproven}`);
  // What it did not come to is only ever beside those of which it says so.
  const open = found.front.filter(({ index }) =>
    besideOf(space.variations, index).some((other) => !found.has(other)),
  );
  assert.equal(open.length, extent.unproven);
  if (extent.unproven > 0) assert.equal(extent.settled, most);
  return beaten.length;
}

const some = ({ name, choices }: TypedVariation) =>
  fc
    .subarray([...choices], { minLength: Math.min(2, choices.length) })
    .map((kept): TypedVariation => ({ name, choices: kept }));

const quarrySpace: fc.Arbitrary<Space> = fc
  .record({
    variations: fc.tuple(some(VOLTAGES), some(SIZES), some(TYPES), some(UNITS), some(LEADS)),
    objectives: fc.subarray([...OBJECTIVES], { minLength: 2, maxLength: 3 }),
    held: fc.subarray([...HELD]),
    drop: fc.constantFrom(0.03, 0.08, 0.2),
  })
  .map(({ drop, ...more }) => ({ ...more, feed: quarry({ "Largest drop of a cable": drop }) }));

const anySpace: fc.Arbitrary<Space> = randomFeed.map((items): Space => {
  const firstOf = (kind: string) => items.find((one) => one.kind === kind);
  const supply = firstOf("supply")!;
  const figure = (
    block: "Supply" | "Cable" | "Stage",
    row: string | undefined,
    header: string,
    values: readonly number[],
  ): TypedVariation[] =>
    row === undefined
      ? []
      : [
          {
            name: header,
            choices: values.map((value) => ({
              name: String(value),
              cells: [{ block, row, header, value }],
            })),
          },
        ];
  const blocks = blocksOf(items, 0.1).filter(([headers]) => headers?.[0] !== "Asked for");
  const volts = supply.voltage!;
  return {
    feed: { blocks, askedFor: quarry().askedFor },
    variations: [
      ...figure("Supply", supply.item, "Voltage", [volts, volts * 0.8, volts * 0.6, volts * 1.2]),
      ...figure("Cable", firstOf("run")?.item, "Resistance", [0.1, 1, 4, 16]),
      ...figure("Stage", firstOf("ratio")?.item, "In parallel", [1, 3, 5]),
    ],
    objectives: ["loss", "worst margin"],
    held: HELD,
  };
});

describe("a search above what can be counted through", () => {
  it("shows nothing that a combination differing in one figure beats, and says of how many that is not proven", () => {
    fc.assert(
      fc.property(quarrySpace, fc.integer({ min: 1, max: 90 }), (space, most) => {
        const request = requested(space);
        const [one, three] = [1, 3].map((threads) => searched(request, threads, most));
        // The shares of threads change nothing.
        assert.deepEqual(three!.found.front, one!.found.front);
        assert.deepEqual(three!.extent, one!.extent);
        assertStated(one!, space, most);
      }),
      { numRuns: 20 },
    );
  }, 240_000);

  it("does so on feeds of any shape", () => {
    fc.assert(
      fc.property(anySpace, fc.integer({ min: 1, max: 30 }), (space, most) => {
        assertStated(searched(requested(space), 2, most), space, most);
      }),
      { numRuns: 20 },
    );
  }, 240_000);

  it("ends by itself long before all are judged, with the whole front of this feed", () => {
    const space: Space = {
      feed: quarry(),
      variations: ALL,
      objectives: ["loss", "price"],
      held: HELD,
    };
    const request = requested(space);
    const whole = searched(request);
    const local = searched(request, 1, 200);
    assert.equal(whole.extent.settled, 240);
    assert.equal(local.extent.unproven, 0);
    assert.ok(local.extent.settled < 200, `${local.extent.settled}`);
    // No promise of the search, but so it is here.
    assert.deepEqual(local.found.front, whole.found.front);
  });

  it("goes from what breaks checks to what holds", () => {
    const space: Space = {
      feed: quarry({
        "Largest drop of a cable": 0.016,
        "Largest drop of a voltage level": 0.2,
      }),
      variations: ALL,
      objectives: ["loss", "price"],
      held: ["Input above lowest", "Input below highest", "Loading", "Drop"],
    };
    const request = requested(space);
    const of = alone(space);
    const start = new SearchRounds(request.varied, 40).round!;
    for (const index of start.candidates) assert.ok(of(index).broken.length > 0, `${index} holds`);
    const rounds = searched(request, 2, 40);
    assert.ok(rounds.found.front.length > 0);
    assert.equal(rounds.extent.nearest, undefined);
    assertStated(rounds, space, 40);
  });

  it("says which is nearest to holding where it finds none, and no more than that", () => {
    const space: Space = {
      feed: quarry({ "Largest drop of a cable": 0.0001 }),
      variations: ALL,
      objectives: ["loss", "price"],
      held: HELD,
    };
    const { found, extent } = searched(requested(space), 2, 150);
    assert.equal(found.front.length, 0);
    const of = alone(space);
    const broken = of(extent.nearest!).broken.length;
    for (const other of besideOf(ALL, extent.nearest!))
      assert.ok(of(other).broken.length >= broken, `${other} breaks fewer`);
  });
});
