import assert from "node:assert/strict";
import { describe, it } from "vitest";
import { differenceText } from "../../../taskpane/tradeoffs/objective-figures.js";

describe("a difference of what is traded", () => {
  it("has the prefix of the figure that it stands under", () => {
    assert.equal(differenceText("loss", 32.25, 33.0759), "− 0.8259\u00a0W");
    assert.equal(differenceText("loss", 1250, 1249.5), "+ 0.0005\u00a0kW");
    assert.equal(differenceText("mass", 55.31, 16.91), "+ 38.4\u00a0kg");
    assert.equal(differenceText("worst margin", -0.05, -0.02), "+ 3\u00a0%");
    assert.equal(differenceText("loss", 5, 5), "");
  });
});
