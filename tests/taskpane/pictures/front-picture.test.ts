/** The front of a search as a picture: what is drawn and listed is what the search found. */
import assert from "node:assert/strict";
import { describe, it } from "vitest";
import { planFaults } from "../../../src/plans/plan-faults.js";
import { drawingPart } from "../../../taskpane/pictures/parts/drawing.js";
import { SHEET_PALETTE } from "../../../taskpane/pictures/parts/palettes.js";
import { svgText } from "../../../taskpane/pictures/parts/svg-parts.js";
import { frontPicture } from "../../../taskpane/pictures/front/front-picture.js";
import { picturePlan } from "../../../taskpane/pictures/picture-plan.js";
import { searchAnswers } from "../../../taskpane/tradeoffs/search-answers.js";
import type { SearchJob } from "../../../taskpane/tradeoffs/search-messages.js";
import { budgetOf } from "../../helpers/budget-of-feed.js";
import { ended } from "../../tradeoffs/ended-search.js";
import { quarry, SIZES, TYPES, VOLTAGES } from "../../tradeoffs/quarry-feed.js";

const feed = quarry();
const job: SearchJob = {
  blocks: feed.blocks,
  askedFor: feed.askedFor,
  variations: [VOLTAGES, SIZES, TYPES],
  checks: ["Input above lowest", "Input below highest", "Loading", "Drop"],
  objectives: ["loss", "price", "worst margin"],
};
const answers = searchAnswers(job);
const rounds = ended(answers.rounds(), answers.settling);
const result = answers.result(rounds);

function pictureOf(index: number) {
  const chosen = answers.option(rounds, index);
  return frontPicture({ job, result, chosen, up: "loss", across: "price", by: 0 });
}

describe("the picture of a front", () => {
  const { front } = result;
  const beside = Array.from({ length: 20 }, (_, index) => index).find(
    (index) => !front.some((point) => point.index === index),
  )!;

  it("lists the feed as it is and every option of the front, the margin as it is read", () => {
    const { table } = pictureOf(front[0]!.index);
    assert.equal(table.rows.length, 1 + front.length);
    front.forEach(({ values }, at) => {
      const [, loss, price, margin] = table.rows[at + 1]!;
      assert.deepEqual([loss, price, margin], [values[0], values[1], -100 * values[2]!]);
    });
    // As the supply, the cables and both stages are priced: 900 + 320 · 3.1 + 20 · 16 + 2 · 310.
    assert.equal(table.rows[0]![2], 2832);
  });

  it("draws a mark for each, a ring around the chosen one, and adds that where it lies beside the front", () => {
    for (const [index, marks] of [
      [front[0]!.index, front.length],
      [beside, front.length + 1],
    ] as const)
      for (const width of [318, 780]) {
        const picture = pictureOf(index);
        const drawing = svgText(drawingPart(picture, { width, palette: SHEET_PALETTE, stem: "f" }));
        const figures = picture.table.rows
          .slice(1)
          .filter(([, loss, price]) => loss !== "" && price !== "");
        const legends = new Set(drawing.match(/Voltage of Mains rectifier: \d+ V/g)).size;
        const drawn = drawing.match(/<path[^>]*translate/g)?.length ?? 0;
        assert.equal(drawn, figures.length + legends);
        assert.ok(figures.length <= marks);
        assert.equal(drawing.match(/<circle/g)?.length, 1);
      }
  });

  it("tells what was varied and held, and what is chosen, and goes on a sheet", () => {
    const picture = pictureOf(front[0]!.index);
    assert.match(picture.alternative, /Size of Pit cable: 1\.5 mm², 2\.5 mm²/);
    assert.match(
      picture.alternative,
      /Held: Input above lowest, .*Chosen: \d+ V · .+: loss .+\sW, price/,
    );
    const plan = picturePlan(picture, budgetOf(feed), { title: "Quarry", solvedFor: "" });
    assert.deepEqual(planFaults(plan), []);
  });
});
