import assert from "node:assert/strict";
import { describe, expect, it } from "vitest";
import { lossByVoltage } from "../../src/tradeoffs/least-loss.js";
import { tradeEvaluation } from "../../src/tradeoffs/trade-evaluation.js";
import { tradeSearch } from "../../src/tradeoffs/trade-search.js";
import { tradePlace } from "../../src/tradeoffs/trade-space.js";
import { request } from "./trade-request.js";

describe("lossByVoltage", () => {
  const search = tradeSearch(request);
  search.advance(Infinity);
  const { space } = search;
  const { front, leastLosses } = search.findings();
  const judge = tradeEvaluation(request, space);

  /** Every kept candidate that has what is asked for, one after the other. */
  function leastOf(has: (index: number) => boolean): number {
    let least = Infinity;
    for (let index = 0; index < space.count; index++) {
      if (!has(index)) continue;
      const { verdict, loss } = judge(index);
      if (verdict === "kept") least = Math.min(least, loss);
    }
    return least;
  }

  it("is the least of all candidates that a loop keeps at each voltage", () => {
    const found = lossByVoltage(space, leastLosses, undefined);
    expect(found.length).toBe(space.supplies.length);
    let kept = 0;
    for (const { supply, least, alike } of found) {
      const byLoop = leastOf((index) => tradePlace(space, index).supply === supply);
      expect(least?.loss ?? Infinity).toBe(byLoop);
      if (least) expect(judge(least.index).loss).toBe(least.loss);
      expect(alike).toBeUndefined();
      if (least) kept++;
    }
    assert.ok(kept >= 3, `${kept}`);
  });

  it("finds the best ratio for the chosen cable and units at the other voltages", () => {
    const chosen = front[front.length >> 1]!;
    const own = tradePlace(space, chosen.index);
    for (const { supply, alike } of lossByVoltage(space, leastLosses, chosen))
      if (supply === own.supply) expect(alike).toBe(chosen);
      else
        expect(alike?.loss ?? Infinity).toBe(
          leastOf((index) => {
            const place = tradePlace(space, index);
            return (
              place.supply === supply &&
              place.cable === own.cable &&
              place.inParallel === own.inParallel
            );
          }),
        );
  });
});
