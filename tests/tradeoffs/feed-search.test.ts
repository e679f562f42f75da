import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, it } from "vitest";
import { requirementsOf } from "../../functions/reading/asked-for.js";
import { type TypedVariation, variedFeed } from "../../functions/tradeoffs/varied-blocks.js";
import type { CheckName } from "../../src/judgement/check-row.js";
import { judgedRows } from "../../src/judgement/checks.js";
import { CandidateJudge, checksToHold } from "../../src/tradeoffs/candidate-judge.js";
import type { FeedSearchRequest } from "../../src/tradeoffs/feed-search.js";
import { tallied } from "../../src/tradeoffs/left-out.js";
import { nextChanges } from "../../src/tradeoffs/next-changes.js";
import type { Objective } from "../../src/tradeoffs/objectives.js";
import { MOST_COUNTED, SearchRounds } from "../../src/tradeoffs/search-rounds.js";
import { candidateCount, choicesAt, StandingFeed } from "../../src/tradeoffs/varied-feed.js";
import { randomFeed } from "../helpers/random-feed.js";
import { blocksOf } from "../helpers/schedule-of-feed.js";
import type { TypedFeed } from "../feeds/typed-feed.js";
import { judgedFeed as judgedAlone } from "../judgement/judged.js";
import { searched } from "./ended-search.js";
import { allChoices, feedWith, keyOf, oneByOne, unbeatenByDefinition } from "./one-by-one.js";
import { quarry, SIZES, TYPES, UNITS, VOLTAGES } from "./quarry-feed.js";

const HELD: readonly CheckName[] = [
  "Input above lowest",
  "Input below highest",
  "Loading",
  "Drop",
  "Drop of a voltage level",
  "Headroom to collapse",
];

function requested(
  feed: TypedFeed,
  variations: readonly TypedVariation[],
  objectives: readonly Objective[],
  checks = HELD,
): FeedSearchRequest {
  const blocks = [...feed.blocks, feed.askedFor];
  return {
    varied: variedFeed(blocks, variations),
    requirements: requirementsOf(feed.askedFor),
    checks,
    objectives,
  };
}

function openRows(feed: TypedFeed): ReadonlySet<string> {
  return new Set(
    judgedAlone(feed)
      .filter((row) => row["Verdict"] === "not determined")
      .map(keyOf),
  );
}

const BOTH = [VOLTAGES, SIZES, TYPES, UNITS];

describe("a search through what varies in a feed", () => {
  it("finds the front that comparing every candidate with every other one finds, each worked out as on a sheet", () => {
    const some = ({ name, choices }: TypedVariation) =>
      fc
        .subarray([...choices], { minLength: 1 })
        .map((kept): TypedVariation => ({ name, choices: kept }));
    fc.assert(
      fc.property(
        fc.tuple(some(VOLTAGES), some(SIZES), some(TYPES), some(UNITS)),
        fc.subarray<Objective>(["loss", "mass", "volume", "price", "worst margin"], {
          minLength: 2,
          maxLength: 3,
        }),
        fc.subarray([...HELD]),
        fc.record({ drop: fc.constantFrom(0.03, 0.08, 0.2), load: fc.constantFrom(0, 0.1, 0.6) }),
        fc.integer({ min: 1, max: 2 }),
        (variations, objectives, held, { drop, load }, threads) => {
          const feed = quarry({ "Largest drop of a cable": drop, "Load margin": load });
          const request = requested(feed, variations, objectives, held);
          const open = openRows(feed);
          const all = allChoices(variations).map((at) =>
            oneByOne(feedWith(feed, variations, at), held, objectives, open),
          );
          const { found } = searched(request, threads);
          assert.equal(candidateCount(request.varied), all.length);
          const { unbeaten, beaten, stopped } = tallied(found.outcomes(), request.varied).counts;
          assert.equal(unbeaten + beaten + stopped, all.length);
          const front = found.front.map(({ index }) => index).sort((one, other) => one - other);
          assert.deepEqual(front, unbeatenByDefinition(all));
          for (const { index, values } of found.front)
            values.forEach((value, at) => close(value, all[index]!.values[at]!));
          all.forEach(({ broken }, index) => {
            const outcome = found.outcomeAt(index)!;
            if (outcome.kind === "stopped")
              assert.ok(
                broken.includes(`${outcome.by.item}|${outcome.by.check}`) ||
                  // In a worse case it has no operating point, and its judgement says no more.
                  broken.some((one) => one.endsWith("|Operating point")),
              );
          });
        },
      ),
      { numRuns: 25 },
    );
  }, 240_000);

  it("finds the same front on feeds of any shape", () => {
    fc.assert(
      fc.property(randomFeed, fc.integer({ min: 1, max: 2 }), (items, threads) => {
        const feed = { blocks: blocksOf(items, 0.1), askedFor: quarry().askedFor };
        const firstOf = (kind: string) => items.find((one) => one.kind === kind);
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
        const supply = firstOf("supply")!;
        const variations = [
          ...figure("Supply", supply.item, "Voltage", [supply.voltage!, supply.voltage! * 0.7]),
          ...figure("Cable", firstOf("run")?.item, "Resistance", [0.1, 1, 4]),
          ...figure("Stage", firstOf("ratio")?.item, "In parallel", [1, 3]),
        ];
        const blocks = feed.blocks.filter(([headers]) => headers?.[0] !== "Asked for");
        const typed = { blocks, askedFor: feed.askedFor };
        const request = requested(typed, variations, ["loss", "worst margin"]);
        const open = openRows(typed);
        const all = allChoices(variations).map((at) =>
          oneByOne(feedWith(typed, variations, at), HELD, ["loss", "worst margin"], open),
        );
        const front = searched(request, threads).found.front.map(({ index }) => index);
        assert.deepEqual(
          [...front].sort((one, other) => one - other),
          unbeatenByDefinition(all),
        );
      }),
      { numRuns: 25 },
    );
  }, 120_000);

  it("says why not of any candidate what its judgement by itself says, word for word", () => {
    const feed = quarry();
    const request = requested(feed, BOTH, ["loss", "price"]);
    const judge = new CandidateJudge(request.varied, request);
    const open = openRows(feed);
    const indices = allChoices(BOTH);
    let stopped = 0;
    indices.forEach((at, index) => {
      if (index % 7 !== 0) return;
      const alone = feedWith(feed, BOTH, at);
      const rows = judgedAlone(alone).filter((row) =>
        oneByOne(alone, HELD, ["loss"], open).broken.includes(keyOf(row)),
      );
      const told = judge.whyNot(at);
      assert.deepEqual(
        told.map(({ item, check, enterOrTry, worstIn }) => [item, check, enterOrTry, worstIn]),
        rows.map((row) => [row["Item"], row["Check"], row["Enter or try"], row["Worst in"]]),
      );
      told.forEach(({ margin, found }, place) => {
        assert.equal(margin ?? "–", rows[place]!["Margin"]);
        assert.equal(found, rows[place]!["Found"]);
      });
      if (told.length > 0) stopped += 1;
    });
    assert.ok(stopped > 3, `${stopped} stopped`);
  }, 60_000);

  it("holds what the feed holds today, and not what it breaks already", () => {
    const feed = quarry({ "Largest drop of a cable": 0.01 });
    const present = judgedRows(
      variedFeed([...feed.blocks, feed.askedFor], []).present,
      requirementsOf(feed.askedFor),
    );
    const held = checksToHold(present);
    assert.ok(!held.includes("Drop"));
    assert.ok(held.includes("Input above lowest"));
  });

  // A higher voltage that costs nothing wins every trade: its stages and its supply have prices of their own.
  it("has more than one voltage on the front where the higher one costs more, and says so where nobody typed what it costs", () => {
    const { found } = searched(requested(quarry(), BOTH, ["loss", "price"]));
    const voltages = new Set(
      found.front.map(({ index }) => choicesAt({ variations: namesOf(BOTH) }, index)[0]),
    );
    assert.deepEqual([...voltages].sort(), [0, 1]);
    const noPrice: TypedFeed = {
      ...quarry(),
      blocks: quarry().blocks.map(([headers = [], ...rows]) =>
        headers[0] === "Stage type"
          ? [
              headers,
              ...rows.map((row) =>
                row.map((one, at) =>
                  row[0] === "16 to 1" && headers[at] === "Price" ? null : one,
                ),
              ),
            ]
          : [headers, ...rows],
      ),
    };
    assert.throws(
      () => searched(requested(noPrice, BOTH, ["loss", "price"])),
      /Pump stage has none/,
    );
    assert.ok(searched(requested(noPrice, BOTH, ["loss", "mass"])).found.front.length > 0);
  });

  it("moves a stage along its route: metres before it and metres behind it together stay the same", () => {
    const feed = quarry();
    const split: TypedVariation = {
      name: "Place of Pump stage",
      choices: [320, 160, 20].map((before) => ({
        name: `${before} m before it`,
        cells: [
          { block: "Cable" as const, row: "Pit cable", header: "Length", value: before },
          { block: "Cable" as const, row: "Pump lead", header: "Length", value: 340 - before },
        ],
      })),
    };
    const request = requested(feed, [split], ["loss", "mass"], []);
    const { found } = searched(request);
    const metres = request.varied.alone[0]!.map(({ details }) =>
      details.reduce((sum, { figures }) => sum + (figures.length ?? 0), 0),
    );
    assert.deepEqual(metres, [340, 340, 340]);
    const all = allChoices([split]).map((at) =>
      oneByOne(feedWith(feed, [split], at), [], ["loss", "mass"], openRows(feed)),
    );
    assert.deepEqual(found.front.map(({ index }) => index).sort(), unbeatenByDefinition(all));
  });

  it("names the cheapest single choice that mends a broken drop, which holds then", () => {
    const feed = quarry({ "Largest drop of a cable": 0.06 });
    const request = requested(feed, [SIZES, UNITS], ["loss", "price"]);
    const present = judgedAlone(feed).find(
      (row) => row["Item"] === "Pit cable" && row["Check"] === "Drop",
    );
    assert.equal(present?.["Verdict"], "fails");
    const changes = nextChanges(request.varied, request).filter(({ mends }) =>
      mends.some(({ item, check }) => item === "Pit cable" && check === "Drop"),
    );
    const [first] = changes;
    assert.equal(request.varied.variations[first!.variation]!.choices[first!.choice], "4 mm²");
    // 320 m of 4.6 − 3.1 in price and 0.22 − 0.16 kg.
    close(first!.price!, 480);
    close(first!.mass!, 19.2);
    for (const { variation, choice } of changes) {
      const cells = [SIZES, UNITS][variation]!.choices[choice]!.cells;
      const mended = feedWith(feed, [{ name: "", choices: [{ name: "", cells }] }], [0]);
      const drop = judgedAlone(mended).find(
        (row) => row["Item"] === "Pit cable" && row["Check"] === "Drop",
      );
      assert.equal(drop?.["Verdict"], "holds");
    }
  });

  it("tells no price of a choice that nobody priced, and puts it last", () => {
    const feed = quarry({ "Largest drop of a cable": 0.06 });
    const unpriced = {
      ...SIZES,
      choices: SIZES.choices.map((choice) => ({
        ...choice,
        cells: choice.cells.map((cell) =>
          choice.name === "4 mm²" && cell.header === "Price per m"
            ? { ...cell, value: null }
            : cell,
        ),
      })),
    };
    const request = requested(feed, [unpriced], ["loss", "mass"]);
    const changes = nextChanges(request.varied, request);
    const names = changes.map(({ choice }) => SIZES.choices[choice]!.name);
    assert.ok(names.length > 1);
    assert.equal(names.at(-1), "4 mm²");
    assert.equal(changes.at(-1)!.price, undefined);
    close(changes.at(-1)!.mass!, 19.2);
  });

  it("refuses more combinations than can be numbered, and says how many they are", () => {
    const { varied } = requested(quarry(), BOTH, ["loss", "mass"]);
    const choices = Array.from({ length: 1000 }, String);
    const grown = {
      ...varied,
      variations: Array.from({ length: 6 }, () => ({ name: "", choices })),
    };
    assert.ok(candidateCount(grown) > MOST_COUNTED);
    assert.throws(() => new SearchRounds(grown), /combinations must be .*1000000000000000000/);
  });

  // Alone, neither choice moves what the other one does.
  it("gives a stage the ratio of the type that is chosen for it, in every order", () => {
    const feed = quarry();
    const ratios: TypedVariation = {
      name: "Ratio of 16 to 1",
      choices: [16, 15].map((value) => ({
        name: String(value),
        cells: [{ block: "Stage type", row: "16 to 1", header: "Steps down by", value }],
      })),
    };
    for (const variations of [
      [TYPES, ratios],
      [ratios, VOLTAGES, TYPES],
    ]) {
      const { varied } = requested(feed, variations, ["loss", "mass"]);
      const standing = new StandingFeed(varied);
      const all = allChoices(variations);
      // There and back, so that what one candidate changed is undone by the next.
      for (const at of [...all, ...[...all].reverse()]) {
        const blocks = [...feedWith(feed, variations, at).blocks, feed.askedFor];
        const alone = variedFeed(blocks, []).present;
        const { columns, details } = standing.at(at);
        assert.deepEqual(columns.figures, alone.columns.figures);
        assert.deepEqual(details, alone.details);
      }
    }
  });

  it("refuses a cell that is not there, one that two variations change, and a change of who feeds whom", () => {
    const blocks = quarry().blocks;
    const one = (header: string, value: string | number): TypedVariation => ({
      name: header,
      choices: [{ name: "", cells: [{ block: "Cable", row: "Pit cable", header, value }] }],
    });
    assert.throws(() => variedFeed(blocks, [one("Colour", 1)]), /Colour of Pit cable/);
    assert.throws(
      () => variedFeed(blocks, [one("Length", 100), { ...one("Length", 200), name: "again" }]),
      /in one variation only/,
    );
    assert.throws(() => variedFeed(blocks, [one("Fed from", "Pump stage")]), /fed as it is/);
  });
});

function namesOf(variations: readonly TypedVariation[]) {
  return variations.map(({ name, choices }) => ({ name, choices: choices.map((one) => one.name) }));
}

function close(found: number, wanted: number): void {
  assert.ok(
    found === wanted || Math.abs(found - wanted) <= 1e-9 * Math.max(1, Math.abs(wanted)),
    `${found} is not ${wanted}`,
  );
}
