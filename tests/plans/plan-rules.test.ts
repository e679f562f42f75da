/** The rules that budgets are held to find what they are there to find. */
import assert from "node:assert/strict";
import { describe, it } from "vitest";
import { at, call, firstOf, fixedAt, quoted } from "../../src/plans/sheet-builder.js";
import type { PlanCell, PlanValidation, WorkbookPlan } from "../../src/plans/sheet-plan.js";
import { callFaults, lengthFaults, nativeFaults, spareFaults, typedNumbers } from "./plan-rules.js";

function planWith(
  cells: readonly PlanCell[],
  validations: readonly PlanValidation[] = [],
): WorkbookPlan {
  return {
    id: "sample",
    title: "Sample",
    stem: "Sample",
    names: [],
    sheets: [
      {
        key: "inputs",
        name: "Inputs",
        columnWidths: [],
        frozenRows: 0,
        cells,
        merges: [],
        validations,
        conditionalFormats: [],
        pictures: [],
      },
    ],
  };
}

function formula(text: string): PlanCell {
  return { at: "B2", formula: text, style: "result" };
}

describe("call", () => {
  it("writes a cell function by its id, for any namespace", () => {
    assert.equal(call("CONDUCTOR_AREA", quoted('12 "AWG"')), '{FEED}.CONDUCTOR_AREA("12 ""AWG""")');
    assert.equal(call("ENGINE_VERSION"), "{FEED}.ENGINE_VERSION()");
  });
});

describe("firstOf", () => {
  it("nests the cases in their order", () => {
    assert.equal(
      firstOf(
        [
          ["A1>2", "1"],
          ["A1>1", "2"],
        ],
        "3",
      ),
      "IF(A1>2,1,IF(A1>1,2,3))",
    );
  });
});

describe("at and fixedAt", () => {
  it("count columns from 0 and rows from 1", () => {
    assert.equal(at(0, 1), "A1");
    assert.equal(fixedAt(27, 12), "$AB$12");
  });
});

describe("callFaults", () => {
  it("passes a right call", () => {
    const right = call("SAFETY_BAND", "48", '"IEC 62368-1"', '"dry"');
    assert.deepEqual(callFaults(planWith([formula(right)])), []);
  });

  const WRONG: readonly (readonly [string, string, RegExp])[] = [
    ["an unknown id", call("NO_SUCH"), /there is no FEED.NO_SUCH/],
    ["too few arguments", call("CONDUCTOR_DROP", "1", "2"), /takes 4 to 8 arguments, not 2/],
    ["too many arguments", call("ENGINE_VERSION", "1"), /takes 0 to 0 arguments, not 1/],
    [
      "a word that is no choice, within other functions",
      `IFERROR(${call("SAFETY_BAND", "48", '"IEC 62368-1"', '"damp"')},"")`,
      /"damp" is no condition/,
    ],
  ];
  for (const [what, text, expected] of WRONG) {
    it(`finds ${what}`, () => {
      const [fault = ""] = callFaults(planWith([formula(text)]));
      assert.match(fault, expected);
    });
  }

  it("finds an input, and a value that may be chosen for it, that is no choice", () => {
    const text = call("SAFETY_BAND", "48", '"ISO 6469-3"', "{inputs}!$A$1");
    const faults = callFaults(
      planWith(
        [{ at: "A1", value: "moist", style: "inputText" }, formula(text)],
        [{ range: "A1", message: "", kind: "list", values: ["dry", "soaked"] }],
      ),
    );
    assert.equal(faults.length, 2);
    assert.match(faults.join(), /"moist".*"soaked"/);
  });
});

describe("the other rules", () => {
  it("find a native function that is not plain", () => {
    const faults = nativeFaults(planWith([formula("XLOOKUP(1,A1:A2,B1:B2)")]));
    assert.deepEqual(faults, ["inputs!B2 uses XLOOKUP"]);
  });

  it("find what stands in the way of a spill that grows", () => {
    const spill: PlanCell = { ...formula("A1"), spill: [3, 2] };
    const below = (row: number): PlanCell => ({
      at: `C${row}`,
      value: "x",
      style: "text",
    });
    assert.equal(spareFaults(planWith([spill, below(24)])).length, 1);
    assert.deepEqual(spareFaults(planWith([spill, below(25)])), []);
  });

  it("find texts that are too long for a formula or a validation", () => {
    const long = "x".repeat(256);
    assert.equal(lengthFaults(planWith([formula(quoted(long))])).length, 1);
    const validation = { range: "A1", message: long } as const;
    assert.equal(
      lengthFaults(planWith([], [{ ...validation, kind: "list", values: [long] }])).length,
      2,
    );
  });

  it("find a number that is typed where a formula belongs", () => {
    const typed: PlanCell = { at: "C3", value: 5, style: "result" };
    const input: PlanCell = { at: "C4", value: 5, style: "input" };
    assert.deepEqual(typedNumbers(planWith([typed, input])), ["inputs!C3"]);
  });
});
