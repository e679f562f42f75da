/** What a thread answers about a search, and what comes of it: told, held over, and typed into the schedules. */
import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, it } from "vitest";
import { changedBlocks } from "../../../functions/tradeoffs/varied-blocks.js";
import type { CellTable } from "../../../functions/cells.js";
import { UnknownFigureError } from "../../../src/tradeoffs/objectives.js";
import { candidateCount, indexOf } from "../../../src/tradeoffs/varied-feed.js";
import { blockTables } from "../../../taskpane/budgets/reading/block-tables.js";
import {
  cellsAt,
  optionChanges,
  presentIndex,
} from "../../../taskpane/tradeoffs/option-changes.js";
import { typeCells } from "../../../taskpane/tradeoffs/option-writing.js";
import { searchAnswers } from "../../../taskpane/tradeoffs/search-answers.js";
import { heldChecks, optionName } from "../../../taskpane/tradeoffs/search-job.js";
import type { SearchJob } from "../../../taskpane/tradeoffs/search-messages.js";
import { TypedSheets } from "../../../taskpane/workbook/typed-sheets.js";
import { budgetOf } from "../../helpers/budget-of-feed.js";
import type { TypedFeed } from "../../feeds/typed-feed.js";
import { judgedFeed } from "../../judgement/judged.js";
import { ended } from "../../tradeoffs/ended-search.js";
import { quarry, SIZES, TYPES, UNITS, VOLTAGES } from "../../tradeoffs/quarry-feed.js";

const VARIATIONS = [VOLTAGES, SIZES, TYPES, UNITS];

function jobOf(feed: TypedFeed, more: Partial<SearchJob> = {}): SearchJob {
  return {
    blocks: feed.blocks,
    askedFor: feed.askedFor,
    variations: VARIATIONS,
    checks: ["Input above lowest", "Input below highest", "Loading", "Drop"],
    objectives: ["loss", "mass", "price"],
    ...more,
  };
}

/** A search that has ended, and what is told of it. */
function answered(job: SearchJob, threads = 1) {
  const answers = searchAnswers(job);
  const rounds = ended(answers.rounds(), answers.settling, threads);
  return {
    result: answers.result(rounds),
    option: (index: number) => answers.option(rounds, index),
  };
}

describe("a search of several threads", () => {
  it("comes to the same as in one, and all that is said between them can be handed over", () => {
    const [alone, shared] = [1, 3].map((threads) => answered(jobOf(quarry()), threads).result);
    // Which of several checks is found first may differ, and no more than that.
    const summed = ({ leftOut, ...more }: typeof alone & object) => ({
      ...more,
      leftOut: leftOut.map(({ stops, ...choice }) => ({
        ...choice,
        stopped: stops.reduce((sum, { count }) => sum + count, 0),
      })),
    });
    assert.deepEqual(summed(shared!), summed(alone!));
    assert.deepEqual(structuredClone(alone), alone);
  });

  it("counts what became of every combination with a choice that is on no option of the front", () => {
    const answers = answered(jobOf(quarry()), 2);
    const { leftOut, front, counts } = answers.result;
    const told = Array.from({ length: candidateCount({ variations: VARIATIONS }) }, (_, index) =>
      answers.option(index),
    );
    assert.equal(front.length, counts.unbeaten);
    const choicesOf = (index: number) =>
      optionName(VARIATIONS, index)
        .split(" · ")
        .map((name, at) => VARIATIONS[at]!.choices.findIndex((choice) => choice.name === name));
    for (const [variation, { choices }] of VARIATIONS.entries())
      for (const choice of choices.keys()) {
        const own = told.filter(({ index }) => choicesOf(index)[variation] === choice);
        const of = (kind: string) => own.filter(({ outcome }) => outcome.kind === kind).length;
        const line = leftOut.find((one) => one.variation === variation && one.choice === choice);
        if (of("unbeaten") > 0) assert.equal(line, undefined);
        else {
          assert.equal(line?.beaten, of("beaten"));
          assert.equal(
            line?.stops.reduce((sum, { count }) => sum + count, 0),
            of("stopped"),
          );
        }
      }
    assert.ok(leftOut.length > 0);
  });

  it("tells of any combination its figures, and every held check that stops it with the found figure", () => {
    const feed = quarry();
    const answers = answered(jobOf(feed, { objectives: ["loss", "price", "worst margin"] }));
    const { front } = answers.result;
    for (const { index, values } of front) assert.deepEqual(answers.option(index).figures, values);
    // 400 V, 1.5 mm², the type for 400 V, one unit.
    const index = indexOf({ variations: VARIATIONS }, [0, 0, 0, 0]);
    const { outcome, figures, broken } = answers.option(index);
    assert.notEqual(outcome.kind, "unbeaten");
    assert.equal(figures[2], undefined);
    const rows = judgedFeed({
      ...feed,
      blocks: changedBlocks(feed.blocks, cellsAt(VARIATIONS, index)),
    });
    const drop = rows.find((row) => row["Item"] === "Pit cable" && row["Check"] === "Drop");
    const own = broken.find(({ item, check }) => item === "Pit cable" && check === "Drop");
    assert.equal(own?.found, drop?.["Found"]);
    assert.equal(own?.margin, drop?.["Margin"]);
    assert.deepEqual(structuredClone(answers.option(index)), answers.option(index));
  });

  // A higher voltage that costs nothing would win every trade.
  it("is refused for a price that nobody typed, and names the item that lacks it", () => {
    const feed = quarry();
    const blocks = feed.blocks.map((rows): CellTable =>
      rows[0]?.[0] === "Supply" ? rows.map((row) => row.slice(0, -1)) : rows,
    );
    const variations = [
      {
        ...VOLTAGES,
        choices: VOLTAGES.choices.map((choice) => ({
          ...choice,
          cells: choice.cells.slice(0, -1),
        })),
      },
      SIZES,
    ];
    assert.throws(
      () => answered(jobOf({ ...feed, blocks }, { variations })),
      (error) => {
        assert.ok(error instanceof UnknownFigureError);
        assert.deepEqual(error.figure, { objective: "price", item: "Mains rectifier", size: "" });
        return true;
      },
    );
  });

  it("tells no price of the feed as it is where only the choices have one", () => {
    const feed = quarry();
    const blocks = feed.blocks.map((rows): CellTable =>
      rows[0]?.[0] === "Supply"
        ? rows.map((row, at) => (at === 0 ? row : [...row.slice(0, -1), null]))
        : rows,
    );
    const variations = [VOLTAGES, SIZES];
    const job = jobOf({ ...feed, blocks }, { variations, objectives: ["loss", "price"] });
    const { front, present } = answered(job).result;
    assert.ok(front.every(({ values }) => Number.isFinite(values[1])));
    assert.ok(Number.isFinite(present[0]));
    assert.equal(present[1], undefined);
  });

  it("holds what holds now, and offers what fails now to be held", () => {
    const checks = heldChecks(budgetOf(quarry({ "Largest drop of a cable": 0.01 })));
    const drop = checks.find(({ check }) => check === "Drop");
    assert.equal(drop?.isHeld, false);
    assert.ok(drop.failsAt.includes("Pit cable"));
    assert.equal(checks.find(({ check }) => check === "Loading")?.isHeld, true);
    assert.ok(!checks.some(({ check }) => check === "Operating point"));
  });
});

describe("a combination typed into the schedules", () => {
  const feed = quarry();
  const budget = budgetOf(feed);

  it("is what the search read, cell by cell", () => {
    const count = candidateCount({ variations: VARIATIONS });
    fc.assert(
      fc.property(fc.nat(count - 1), (index) => {
        const cells = cellsAt(VARIATIONS, index);
        const sheets = TypedSheets.of(budget);
        typeCells(sheets, cells);
        for (const [block, now] of blockTables(budget)) {
          if (block === "Asked for") continue;
          const wanted = changedBlocks(
            [now],
            cells.filter((cell) => cell.block === block),
          )[0]!;
          wanted.forEach((row, at) =>
            assert.deepEqual(
              sheets.cells(block, at),
              row.map((cell) => cell ?? ""),
            ),
          );
        }
        assert.equal(
          new Set(sheets.edits.map((edit) => edit.kind === "write" && JSON.stringify(edit.range)))
            .size,
          optionChanges(budget, cells).length,
        );
      }),
    );
  });

  it("knows the one that changes nothing", () => {
    const index = presentIndex(budget, VARIATIONS);
    assert.equal(optionName(VARIATIONS, index!), "400 V · 2.5 mm² · 8 to 1 · 2");
    assert.deepEqual(optionChanges(budget, cellsAt(VARIATIONS, index!)), []);
    assert.equal(presentIndex(budget, [{ ...UNITS, choices: UNITS.choices.slice(2) }]), undefined);
  });
});
