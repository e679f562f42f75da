import assert from "node:assert/strict";
import { describe, it } from "vitest";
import { planFaults } from "../../src/plans/plan-faults.js";
import { tradeSearch } from "../../src/tradeoffs/trade-search.js";
import { tradeCandidate } from "../../src/tradeoffs/trade-space.js";
import { frontPlan } from "../../taskpane/tradeoffs/front-plan.js";
import { request } from "./trade-request.js";

describe("frontPlan", () => {
  const search = tradeSearch(request);
  search.advance(Infinity);
  const findings = search.findings();
  const plan = frontPlan(request, findings);
  const cells = new Map(plan.sheets[0]?.cells.map(({ at, value }) => [at, value]));

  it("can be written by every host", () => {
    assert.deepEqual(planFaults(plan), []);
  });

  it("holds every candidate of the front with its figures, under headings with their units", () => {
    const head = [...cells].find(([, value]) => value === "Distribution (V)");
    const row = Number(head?.[0].slice(1));
    assert.equal(cells.get(`H${row}`), "Loss (W)");
    assert.equal(cells.get(`I${row}`), "Mass (kg)");
    findings.front.forEach(({ index, loss, mass, cost }, place) => {
      const { supply, cable, inParallel } = tradeCandidate(search.space, index);
      const at = row + 1 + place;
      assert.equal(cells.get(`A${at}`), supply.voltage);
      assert.equal(cells.get(`C${at}`), cable.size);
      assert.equal(cells.get(`G${at}`), inParallel);
      assert.deepEqual(
        ["H", "I", "J"].map((column) => cells.get(`${column}${at}`)),
        [loss, mass, cost],
      );
    });
    assert.equal(cells.has(`A${row + 1 + findings.front.length}`), false);
  });

  it("says what was asked, and leaves out limits that were not", () => {
    const labels = [...cells.values()];
    assert.ok(labels.includes("Mass at most"));
    assert.ok(!labels.includes("Distribution at most"));
  });
});
