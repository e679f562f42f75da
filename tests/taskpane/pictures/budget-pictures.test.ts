/** The pictures of every worked budget, opened and calculated: what is drawn is what the sheet shows. */
import assert from "node:assert/strict";
import { afterAll, beforeAll, describe, it } from "vitest";
import { type CellTable, evaluate, type Outcome } from "../../../functions/downfeed.js";
import { budgets } from "../../../taskpane/budgets/budgets.js";
import { planFaults } from "../../../src/plans/plan-faults.js";
import { rangeRows } from "../../../taskpane/budgets/reading/range-table.js";
import type { FoundBudget } from "../../../taskpane/budgets/reading/found-budget.js";
import { spreadPictures } from "../../../taskpane/pictures/spread/spread-picture.js";
import { tornadoPictures } from "../../../taskpane/pictures/spread/tornado-picture.js";
import { drawingPart } from "../../../taskpane/pictures/parts/drawing.js";
import { PANE_PALETTE, SHEET_PALETTE } from "../../../taskpane/pictures/parts/palettes.js";
import type {
  OfferedPictures,
  Picture,
  PictureOffer,
} from "../../../taskpane/pictures/parts/picture.js";
import { readPictures } from "../../../taskpane/pictures/picture-offers.js";
import { picturePlan } from "../../../taskpane/pictures/picture-plan.js";
import { svgText } from "../../../taskpane/pictures/parts/svg-parts.js";
import { type OpenBudget, openBudget } from "../../budgets/open-budget.js";
import { budgetHost } from "../../helpers/copied-budget.js";

function near(actual: unknown, expected: unknown, relative = 1e-9): void {
  const [one, other] = [Number(actual), Number(expected)];
  assert.ok(Math.abs(one - other) <= relative * Math.abs(other), `${one}, expected ${other}`);
}

function valueOf(outcome: Outcome): number {
  assert.ok(outcome.ok);
  return Number(outcome.value);
}

/** As the sheet's format 0.0 shows it. */
function shown(value: unknown): string {
  return `${Number(value).toFixed(1)}\u00a0W`;
}

const worked = budgets.filter(({ id }) => id !== "blank-budget");

describe.each(worked.map((plan) => [plan.title, plan] as const))(
  "the pictures of %s",
  (_, plan) => {
    let budget: OpenBudget;
    let read: OfferedPictures;
    beforeAll(async () => {
      budget = await openBudget(plan);
      read = await readPictures(budgetHost(budget), budget.found());
    }, 60_000);
    afterAll(() => budget.workbook.dispose());

    const offer = (id: PictureOffer["id"]) => {
      const found = read.offers.find((one) => one.id === id);
      assert.ok(found, id);
      return found;
    };
    const picture = (id: PictureOffer["id"]): Picture => {
      const [first] = offer(id).variants;
      assert.ok(first);
      return first.picture;
    };
    const drawnText = (one: Picture, width: number) =>
      svgText(drawingPart(one, { width, palette: SHEET_PALETTE, stem: "test" }));

    it("print the sums that the sheet's balance shows, and tell them in words", () => {
      const watts = picture("watts");
      const sums = ["Supply power", "All loads", "All losses, given off as heat"].map(
        budget.balance,
      );
      const [, ...together] = watts.table.rows.at(-1) ?? [];
      assert.equal(together.length, sums.length);
      together.forEach((sum, index) => near(sum, sums[index]));
      for (const sum of sums) {
        assert.ok(watts.alternative.includes(shown(sum)), watts.alternative);
        for (const width of [318, 868]) {
          const lines = drawnText(watts, width).replace(/<[^>]*>/g, " ");
          assert.ok(lines.replace(/\s+/g, " ").includes(shown(sum).slice(0, -2)));
        }
      }
    });

    it("offer the path to every load, the one nearest to an end of its window first", () => {
      const feed = budget.found().ranges["Feed"];
      assert.ok(feed);
      const solved = budget.table("Budget", "Item", "Input V");
      const margins = rangeRows(feed)
        .filter(({ value }) => String(value("Kind")).endsWith("load"))
        .map(({ item, value }) => {
          const row = solved.find((one) => one["Item"] === item);
          const volts = Number(row?.["Input V"]);
          return {
            item,
            margin: Math.min(
              volts / Number(value("Lowest V")) - 1,
              1 - volts / Number(value("Highest V")),
            ),
          };
        })
        .sort((one, other) => one.margin - other.margin);
      assert.deepEqual(
        offer("voltage").variants.map(({ name }) => name),
        margins.map(({ item }) => item),
      );
    });

    it("follow each path by the sheet's own voltages, each item fed by the one before", () => {
      const solved = budget.table("Budget", "Item", "Input V");
      for (const { picture: path } of offer("voltage").variants) {
        const rows = path.table.rows;
        assert.ok(rows.length >= 3);
        rows.forEach(([item, input, output], index) => {
          const row = solved.find((one) => one["Item"] === item);
          near(input, row?.["Input V"]);
          if (index < rows.length - 1) {
            near(output, row?.["Output V"]);
            near(rows[index + 1]?.[1], output);
          } else assert.equal(output, "");
        });
      }
    });

    it("show what varies the feed's own results, as the functions tell it", () => {
      const feed = budget.found().ranges["Feed"];
      assert.ok(feed);
      const cells = feed.values.map((row) => row.map((value) => (value === "" ? null : value)));
      const spread = budget
        .found()
        .ranges["Spread"]!.values.map((row) => row.map((value) => (value === "" ? null : value)));
      const asked = (id: string, quantity: string): CellTable => {
        const outcome = evaluate(id, [cells as CellTable, quantity, null, spread as CellTable]);
        assert.ok(outcome.ok);
        return (outcome.value as CellTable).slice(1);
      };
      const quantities = ["loss", "lowest margin"];
      assert.equal(offer("tornado").variants.length, quantities.length);
      offer("tornado").variants.forEach(({ picture: tornado }, index) => {
        const wanted = asked("CHAIN_TORNADO", quantities[index]!)
          .slice(1)
          .filter(([, , , , low, high]) => typeof low === "number" && low !== high)
          .map(([input, , , , low, high]) => [input, low, high]);
        assert.ok(wanted.length > 0);
        assert.deepEqual(
          tornado.table.rows.map((row) => row.slice(0, 3)),
          wanted.slice(0, 12),
        );
        const swings = tornado.table.rows.map((row) => Number(row[3]));
        assert.deepEqual(
          swings,
          [...swings].sort((one, other) => other - one),
        );
        const [input] = wanted[0]!;
        assert.ok(tornado.alternative.includes(`${String(input)} moves it most`));
        for (const width of [318, 868]) assert.ok(!drawnText(tornado, width).includes("NaN"));
      });
      assert.equal(offer("spread").variants.length, quantities.length);
      offer("spread").variants.forEach(({ picture: spread }, index) => {
        const rows = asked("CHAIN_UNCERTAINTY", quantities[index]!);
        assert.deepEqual(
          spread.table.rows,
          rows.map((row) => row.slice(4)),
        );
        for (const width of [318, 868]) assert.ok(!drawnText(spread, width).includes("NaN"));
      });
    });

    it("sweep the feed itself: every point is what CHAIN_TOTAL gives for that voltage", () => {
      const feed = budget.found().ranges["Feed"];
      assert.ok(feed);
      const cells = feed.values as CellTable;
      const { rows } = picture("sweep").table;
      const supply = rangeRows(feed).find(({ value }) => value("Kind") === "supply");
      const [low, high] = [supply?.value("Lowest V"), supply?.value("Highest V")];
      assert.ok(Number(high) > Number(low));
      near(rows[0]?.[0], low);
      near(rows.at(-1)?.[0], high);
      for (const [voltage, line, stages, total] of rows) {
        const loss = evaluate("CHAIN_TOTAL", [cells, "loss", "nominal", voltage]);
        near(total, valueOf(loss), 1e-12);
        near(Number(line) + Number(stages), valueOf(loss), 1e-12);
      }
    });

    it("mark in the sweep what the sheet is solved for", () => {
      const sweep = picture("sweep");
      const loss = budget.balance("All losses, given off as heat");
      assert.ok(sweep.alternative.includes(shown(loss)));
      assert.ok(drawnText(sweep, 868).includes(shown(loss)));
      const volts = Number(budget.balance("Supply voltage, open circuit"));
      assert.equal(
        read.solvedFor,
        `Solved for nominal loads, supply at ${volts.toFixed(1)}\u00a0V.`,
      );
    });

    it("become sheets that every host can write, with fixed colours, their numbers and their words", () => {
      for (const { variants } of read.offers)
        for (const { picture: one } of variants) {
          const made = picturePlan(one, budget.found(), {
            title: plan.title,
            solvedFor: read.solvedFor,
          });
          assert.deepEqual(planFaults(made), []);
          const [sheet] = made.sheets;
          assert.ok(sheet);
          const drawn = [...sheet.pictures, ...(sheet.charts ?? [])];
          assert.equal(drawn.length, 1);
          assert.ok(!drawn[0]?.svg.includes("var("));
          assert.ok(drawn[0]?.alternative.includes(one.alternative));
          const texts = sheet.cells.map(({ value }) => value);
          assert.ok(texts.join(" ").includes(one.alternative));
          assert.ok(texts.some((text) => /do not follow/.test(String(text))));
          for (const cell of one.table.rows.flat())
            if (cell !== "") assert.ok(texts.includes(cell));
        }
    });

    it("are drawn in the pane's own colours and in no others", () => {
      for (const { variants, id } of read.offers) {
        const [first] = variants;
        assert.ok(first);
        const drawn = svgText(
          drawingPart(first.picture, {
            width: 318,
            palette: PANE_PALETTE,
            stem: id,
          }),
        );
        assert.doesNotMatch(drawn, /"#[\da-f]{3,6}"|rgb/i);
        assert.doesNotMatch(drawn, /NaN|undefined|Infinity/);
      }
    });
  },
);

describe("the pictures of units in parallel", () => {
  it("hold each unit against the rating of its own item, the solved load apart from other cases", async () => {
    const plan = worked.find(({ id }) => id === "harbour-survey-crawler");
    assert.ok(plan);
    const budget = await openBudget(plan);
    const { offers } = await readPictures(budgetHost(budget), budget.found());
    const rated = Number(
      budget.table("Table", "Item", "Fed from").find(({ Item }) => Item === "Ratio units")?.[
        "Rated A"
      ],
    );
    budget.workbook.dispose();
    const variants = offers
      .filter(({ id }) => id === "share" || id === "worst")
      .flatMap((offer) => offer.variants);
    const answers = variants.filter(({ name }) => name.startsWith("Answers"));
    assert.equal(answers.length, 2);
    for (const { picture } of answers) {
      assert.match(picture.title, /Ratio units$/);
      for (const row of picture.table.rows) assert.equal(row.at(-1), rated);
    }
    for (const { picture } of variants) assert.doesNotMatch(picture.title, /Quay supply/);
  }, 60_000);
});

describe("the spread over the tolerances", () => {
  const feed = (loads: number): Pick<FoundBudget, "ranges"> => ({
    ranges: {
      Feed: {
        sheet: "Table",
        address: `A1:G${loads + 3}`,
        values: [
          ["Item", "Fed from", "Kind", "Voltage", "Resistance", "Load", "Tolerance"],
          ["Bus", "", "supply", 400, "", "", ""],
          ["Cable", "Bus", "run", "", 0.1, "", "exact"],
          ...Array.from({ length: loads }, (_, index) => {
            const lamp = `Lamp ${index}`;
            return [lamp, "Cable", "current load", "", "", 1, 0.1];
          }),
        ],
      },
    },
  });

  it("is drawn of as many inputs as there are axes for, and beyond them says why it is not", () => {
    const names = spreadPictures(feed(256)).variants.map(({ name }) => name);
    assert.deepEqual(names, ["Loss of the feed"]);
    const beyond = spreadPictures(feed(257));
    assert.deepEqual(beyond.variants, []);
    assert.match(
      String(beyond.missing),
      /^The spread over the tolerances is not drawn: .*256 or fewer .*a Group counts as one.* got 257\.$/,
    );
  });

  it("is drawn of mass and price too, where a row of Spread says how far one of them may vary", () => {
    const { Feed } = feed(3).ranges;
    assert.ok(Feed);
    const [headers = [], ...rows] = Feed.values;
    const priced = {
      ranges: {
        Feed: {
          ...Feed,
          values: [
            [...headers, "Price", "Mass (kg)"],
            ...rows.map((row) => [...row, ...(row[2] === "run" ? [400, 25] : ["", ""])]),
          ],
        },
        Spread: {
          sheet: "Types",
          address: "A1:C2",
          values: [
            ["Spread", "Column", "Tolerance"],
            ["Cable", "Price", 0.1],
          ],
        },
      },
    };
    const results = ["Loss of the feed", "Price of the feed, in its currency"];
    for (const { variants } of [spreadPictures(priced), tornadoPictures(priced)])
      assert.deepEqual(
        variants.map(({ name }) => name),
        results,
      );
    const { alternative, table } = tornadoPictures(priced).variants[1]!.picture;
    assert.match(alternative, /^Price of the feed, in its currency is 400 as entered\./);
    const [[input, ...numbers] = [], ...others] = table.rows;
    assert.deepEqual([input, others], ["Cable · Price", []]);
    for (const [at, wanted] of [360, 440, 80].entries()) near(numbers[at], wanted);
  });

  it("is missing with its reason where nothing varies, and where a row of Spread is wrong", () => {
    const still = spreadPictures(feed(0));
    assert.match(String(still.missing), /nothing varies/);
    const { ranges } = feed(3);
    const wrong = {
      ranges: {
        ...ranges,
        Spread: {
          sheet: "Types",
          address: "A1:C2",
          values: [
            ["Spread", "Column", "Tolerance"],
            ["Lamp 9", "Load", 0.1],
          ],
        },
      },
    };
    assert.match(
      String(spreadPictures(wrong).missing),
      /holds in its row 1 an item .*got "Lamp 9"/,
    );
    assert.match(String(tornadoPictures(wrong).missing), /^Which inputs matter is not drawn: /);
  });
});

describe("the pictures of the blank budget", () => {
  it("are none as long as nothing is fed", async () => {
    const plan = budgets.find(({ id }) => id === "blank-budget");
    assert.ok(plan);
    const budget = await openBudget(plan);
    const { offers } = await readPictures(budgetHost(budget), budget.found());
    budget.workbook.dispose();
    assert.deepEqual(offers, []);
  }, 60_000);
});
