import assert from "node:assert/strict";
import { describe, it } from "vitest";
import {
  rangeAddress,
  rangePlace,
  cellAddress,
  cellPlace,
  fixedAddress,
} from "../../src/plans/addresses.js";
import { fillPlaceholders, freshNames, plainNames } from "../../src/plans/placeholders.js";
import { planFaults } from "../../src/plans/plan-faults.js";
import type {
  PlanCell,
  PlanChart,
  PlanPicture,
  SheetPlan,
  WorkbookPlan,
} from "../../src/plans/sheet-plan.js";

function planWith(...cells: readonly PlanCell[]): WorkbookPlan {
  return {
    id: "sample",
    title: "Sample",
    stem: "Ridge",
    names: [{ name: "Feed", sheet: "budget", range: "A1:B2" }],
    sheets: ["inputs", "budget"].map((key) => ({
      key,
      name: key === "inputs" ? "Inputs" : "Budget",
      columnWidths: [],
      frozenRows: 0,
      cells: key === "inputs" ? cells : [],
      merges: [],
      validations: [],
      conditionalFormats: [],
      pictures: [],
    })),
  };
}

const used = plainNames(planWith(), "FEED");

describe("addresses", () => {
  // Columns of a sheet run A to XFD, rows 1 to 1,048,576 (ECMA-376 part 1, section 18.17.2.3.1; from memory).
  it("count rows and columns from 0, to the last cell of a sheet", () => {
    assert.deepEqual(cellPlace("A1"), { row: 0, column: 0 });
    assert.deepEqual(cellPlace("$AA$10"), { row: 9, column: 26 });
    assert.deepEqual(cellPlace("XFD1048576"), { row: 1048575, column: 16383 });
    assert.throws(() => cellPlace("XFE1"), RangeError);
    assert.throws(() => cellPlace("A0"), RangeError);
  });

  it("come back as they went in", () => {
    for (const column of [0, 25, 26, 701, 702, 16383]) {
      assert.deepEqual(cellPlace(cellAddress({ row: 4, column })), {
        row: 4,
        column,
      });
    }
    assert.equal(rangeAddress(rangePlace("D9:B2")), "B2:D9");
    assert.equal(rangeAddress(rangePlace("C3")), "C3");
    assert.equal(fixedAddress("B2:D9"), "$B$2:$D$9");
  });
});

describe("fillPlaceholders", () => {
  it("fills in sheets, names and the namespace", () => {
    const formula = '{FEED}.CHAIN_SOLVE({Feed})+{inputs}!$B$4&"{Feed}"';
    assert.equal(
      fillPlaceholders(formula, used),
      "FEED.CHAIN_SOLVE(Ridge_Feed)+'Inputs'!$B$4&\"{Feed}\"",
    );
  });

  it("leaves arrays of constants alone and refuses an unknown word", () => {
    assert.equal(fillPlaceholders('SUM({1,2;3,4},{"a"})', used), 'SUM({1,2;3,4},{"a"})');
    assert.throws(() => fillPlaceholders("{Solved}", used), /\{Solved\}/);
    assert.throws(() => fillPlaceholders("{budgets}!A1", used), /\{budgets\}/);
  });
});

describe("freshNames", () => {
  it("numbers stem and sheets when they are taken, without case", () => {
    const { stem, used: second } = freshNames(planWith(), "FEED", {
      sheets: ["BUDGET"],
      names: ["ridge_solved"],
    });
    assert.equal(stem, "Ridge2");
    assert.deepEqual(second.names, { Feed: "Ridge2_Feed" });
    assert.deepEqual(second.sheets, { inputs: "Inputs 2", budget: "Budget 2" });
  });
});

describe("a sheet's name in a formula", () => {
  it("may hold anything that a sheet may be called, a placeholder among it", () => {
    const formula = "'Feed #1 @ {inputs}'!B4+'O''Hara {Feed}'!C5+{inputs}!B4";
    assert.deepEqual(planFaults(planWith({ at: "B1", formula, style: "result" })), []);
    assert.equal(
      fillPlaceholders(formula, used),
      "'Feed #1 @ {inputs}'!B4+'O''Hara {Feed}'!C5+'Inputs'!B4",
    );
  });
});

describe("planFaults", () => {
  it("finds none in a plain plan", () => {
    const cell: PlanCell = {
      at: "A1",
      formula: 'INDEX({budget}!$A$1:$B$9,2,2)&"a@b #1"',
      style: "result",
    };
    assert.deepEqual(planFaults(planWith(cell)), []);
  });

  it.each([
    ["A1#", "refers to a spill"],
    ["@A1", "holds @"],
    ["SUM(A:A)", "whole columns"],
    ["SUM(3:4)", "whole rows"],
    ["Table1[Voltage]", "structured"],
    ["LET(x,1,x)", "uses LET"],
    ['IF(LEFT(A1,1)="?",1,2)', "use EXACT"],
    ["=A1", "starts with ="],
    ["{nowhere}!A1", "not in the plan"],
  ])("refuses %s", (formula, meaning) => {
    const faults = planFaults(planWith({ at: "B1", formula, style: "result" }));
    assert.equal(faults.length, 1, faults.join("; "));
    assert.ok(faults[0]?.includes(meaning), faults[0]);
  });

  it("finds a cell written twice and a spill that is blocked", () => {
    const faults = planFaults(
      planWith(
        { at: "A1", formula: "SEQUENCE(2,2)", spill: [2, 2], style: "result" },
        { at: "B2", value: 1, style: "input" },
        { at: "B2", style: "label" },
      ),
    );
    assert.deepEqual(faults, ["inputs!B2 is written twice", "inputs!A1 spills over B2"]);
  });

  const picture: PlanPicture = {
    at: "D1",
    size: [30, 20],
    svg: '<svg xmlns="http://www.w3.org/2000/svg"/>',
    alternative: "a field",
  };
  const chart: PlanChart = {
    ...picture,
    kind: "line",
    chartSize: [300, 200],
    title: "Volts",
    range: "A1:B2",
    categoryTitle: "Item",
    valueTitle: "V",
    series: ["line"],
  };
  const table: readonly PlanCell[] = ["A1", "B1", "A2", "B2"].map((at) => ({
    at,
    value: at,
    style: "label",
  }));
  const drawn = (look: Partial<SheetPlan>, cells = table): WorkbookPlan => {
    const plan = planWith(...cells);
    const [first, ...rest] = plan.sheets;
    assert.ok(first);
    return { ...plan, sheets: [{ ...first, ...look }, ...rest] };
  };

  it("finds none in a picture and a chart as they should be", () => {
    assert.deepEqual(planFaults(drawn({ pictures: [picture], charts: [chart] })), []);
  });

  it.each([
    [{ at: "1D" }, "1D"],
    [{ size: [0, 20] as const }, "0 by 20 pixels"],
    [{ svg: "<html>" }, "no svg"],
    [{ alternative: " " }, "no alternative text"],
  ])("refuses a picture with %o", (wrong, meaning) => {
    const faults = planFaults(drawn({ pictures: [{ ...picture, ...wrong }] }));
    assert.equal(faults.length, 1, faults.join("; "));
    assert.ok(faults[0]?.includes(meaning), faults[0]);
  });

  it.each([
    [{ range: "A1:C2" }, "2 columns for 1 series"],
    [{ range: "A1:B1" }, "no rows"],
    [{ range: "nowhere" }, "nowhere"],
    [{ chartSize: [300, 0] as const }, "300 by 0 pixels"],
    [{ alternative: "" }, "no alternative text"],
  ])("refuses a chart with %o", (wrong, meaning) => {
    const faults = planFaults(drawn({ charts: [{ ...chart, ...wrong }] }));
    assert.ok(
      faults.some((fault) => fault.includes(meaning)),
      faults.join(),
    );
  });

  it("refuses a chart of a series that no cell names", () => {
    const unnamed = table.filter(({ at }) => at !== "B1");
    assert.deepEqual(planFaults(drawn({ charts: [chart] }, unnamed)), [
      'inputs chart "Volts" has no heading in B1',
    ]);
  });
});
