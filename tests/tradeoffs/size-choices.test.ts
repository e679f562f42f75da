import assert from "node:assert/strict";
import { describe, it } from "vitest";
import { sizeChoices } from "../../functions/tradeoffs/size-choices.js";
import { variedFeed } from "../../functions/tradeoffs/varied-blocks.js";
import { quarry, SIZES } from "./quarry-feed.js";

const { blocks } = quarry();

/** Place of the pit cable in the feed table. */
const ROW = 1;

function figuresAt(sizes: Parameters<typeof sizeChoices>[2]) {
  const variations = [sizeChoices(blocks, "Pit cable", sizes)];
  return variedFeed(blocks, variations).alone[0]!.map(({ details }) => details[ROW]!.figures);
}

describe("sizes to choose between for a cable", () => {
  it("bring the figures that are offered with them, as if each had been typed", () => {
    const offered = SIZES.choices.map(({ name, cells }) => ({
      size: name,
      figures: Object.fromEntries(cells.slice(1).map(({ header, value }) => [header, value])),
    }));
    assert.deepEqual(
      figuresAt(offered),
      variedFeed(blocks, [SIZES]).alone[0]!.map(({ details }) => details[ROW]!.figures),
    );
  });

  it("leave the price of the cable's own size behind, and weigh their metal", () => {
    const [own, other] = figuresAt([{ size: "2.5 mm²" }, { size: "4 mm²" }]);
    // As typed: 320 m of 3.1 and of 0.16 kg.
    assert.equal(own!.price, 992);
    assert.ok(Math.abs(own!.mass! - 51.2) < 1e-9);
    assert.equal(other!.price, undefined);
    // 2 · 4 mm² · 320 m of copper at 8.89 g/cm³ (NBS Handbook 100, 1966, seen second-hand).
    assert.ok(Math.abs(other!.mass! - 22.7584) < 1e-9, String(other!.mass));
  });

  it("take those of a cable of the feed that is like it", () => {
    const [like] = figuresAt([{ size: "35 mm²" }]);
    // The lead's 16 a metre, over 320 m.
    assert.equal(like!.price, 5120);
  });

  it("are refused for a cable that is not there", () => {
    assert.throws(() => sizeChoices(blocks, "Sea cable", []), /Sea cable/);
  });
});
