import assert from "node:assert/strict";
import { describe, it } from "vitest";
import { tradeSearch } from "../../src/tradeoffs/trade-search.js";
import {
  TRADE_FIELDS,
  TradeFieldError,
  tradeRequest,
} from "../../taskpane/tradeoffs/trade-fields.js";

const start = new Map(
  TRADE_FIELDS.flatMap(({ fields }) =>
    fields.map(({ key, start: text }): [string, string] => [key, text]),
  ),
);

function withField(key: string, text: string) {
  return tradeRequest(new Map([...start, [key, text]]));
}

describe("the fields of a trade-off", () => {
  it("make a request that can be searched", () => {
    const search = tradeSearch(tradeRequest(start));
    search.advance(search.space.count);
    assert.ok(search.findings().front.length > 0);
  });

  for (const [key, text] of [
    ["stages", "3"],
    ["stages", "0"],
    ["mostSteps", "20.5"],
    ["mostSteps", "-3"],
    ["mostSteps", "1000000000"],
    ["units", "0"],
    ["units", "65"],
    ["jacket", "-1"],
    ["nominal", ""],
    ["ambient", "70"],
  ] as const)
    it(`refuse ${key} ${text === "" ? "left empty" : text}, and name the field`, () => {
      assert.throws(
        () => withField(key, text),
        (error) =>
          error instanceof TradeFieldError &&
          [key, "hot"].includes(error.key) &&
          error.message !== "",
      );
    });

  it("count a stage in line twice only when asked", () => {
    assert.equal(withField("stages", "1").mostStages, 1);
    assert.equal(withField("stages", "2").mostStages, 2);
  });
});
