/** What is read out of a budget's checks: grouped, in order, each with the cell to change. */
import assert from "node:assert/strict";
import fc from "fast-check";
import { afterAll, beforeAll, describe, it } from "vitest";
import {
  ASKED_FOR,
  CHECKS_COLUMNS,
  VERDICTS,
  WEIGHTS,
  WHOLE_FEED,
} from "../../src/judgement/check-row.js";
import { budgetPlan } from "../../taskpane/budgets/budget-plan.js";
import type {
  FoundBudget,
  ReadRange,
  ReadValue,
} from "../../taskpane/budgets/reading/found-budget.js";
import type { BudgetSample, ScheduleName } from "../../taskpane/budgets/sample.js";
import { ridgeTop } from "../../taskpane/budgets/samples/ridge-top.js";
import { counts, SEVERITIES, type Warning } from "../../taskpane/budgets/warnings/warning.js";
import { isCalculating, warningsOf } from "../../taskpane/budgets/warnings/warnings.js";
import { type OpenBudget, openBudget } from "./open-budget.js";

type Row = Partial<Record<(typeof CHECKS_COLUMNS)[number], ReadValue>>;
type Ranges = FoundBudget["ranges"];

const FAILS: Row = {
  Item: "Tail",
  Check: "Drop",
  "Worst in": "loads peak, supply lowest",
  Found: 0.06,
  Asked: "at most",
  Limit: 0.05,
  Unit: "of 400 V",
  Margin: -0.2,
  Verdict: "fails",
  Weight: "warning",
  Cause: "",
  Column: "Size",
  "Enter or try": "Set Size of Tail to 6 mm²: drop 4.2 %",
  Citation: "asked for",
};

const OPEN: Row = {
  ...FAILS,
  Found: "–",
  Limit: "–",
  Margin: "",
  Verdict: "not determined",
  Column: "Rated V",
  "Enter or try": "enter Rated V of Tail",
};

function checks(rows: readonly Row[]): ReadRange {
  return {
    sheet: "Checks",
    address: `A7:N${7 + rows.length}`,
    values: [
      CHECKS_COLUMNS,
      ...rows.map((row) => CHECKS_COLUMNS.map((heading) => row[heading] ?? "")),
    ],
  };
}

const HEAD: Ranges = {
  Feed: { sheet: "Table", address: "A4:A4", values: [["Item"]] },
  Solved: { sheet: "Budget", address: "A24:A24", values: [["Item"]] },
};

function warningsFor(rows: readonly Row[], ranges: Ranges = {}) {
  return warningsOf({
    stem: "Hut",
    ranges: { ...HEAD, Checks: checks(rows), ...ranges },
  });
}

const itemsOf = ({ findings }: Warning) => findings.map(({ item }) => item);

describe("the warnings of a table of checks", () => {
  it("put failures of one check, cause and limit together, each item with its own figure", () => {
    const [only, ...others] = warningsFor([
      FAILS,
      { ...FAILS, Item: "Spur", Found: 0.08, "Enter or try": "another size" },
    ]);
    assert.deepEqual(others, []);
    assert.ok(only);
    assert.deepEqual(
      only.findings.map(({ item, found, remedy, at }) => [item, found, remedy, at]),
      [
        ["Tail", 0.06, FAILS["Enter or try"], { sheet: "Checks", address: "I8" }],
        ["Spur", 0.08, "another size", { sheet: "Checks", address: "I9" }],
      ],
    );
    assert.equal(only.check, "Drop");
    assert.equal(only.citation, "asked for");
  });

  it.each([
    ["check", { Check: "Loading" }],
    ["cause", { Cause: "Bus" }],
    ["limit", { Limit: 0.07 }],
    ["limit in words", { Limit: "ES1" }],
  ] satisfies readonly (readonly [string, Row])[])("part failures with another %s", (_, other) => {
    const found = warningsFor([FAILS, { ...FAILS, Item: "Spur", ...other }]);
    assert.deepEqual(found.map(itemsOf), [["Tail"], ["Spur"]]);
  });

  it("keep failures together whose limits differ in their last digits", () => {
    const found = warningsFor([FAILS, { ...FAILS, Item: "Spur", Limit: 0.05 * (1 + 1e-12) }]);
    assert.deepEqual(found.map(itemsOf), [["Tail", "Spur"]]);
  });

  it("put what is not determined together by the figure that is missing, whatever the limit", () => {
    const found = warningsFor([
      OPEN,
      { ...OPEN, Item: "Spur", Limit: 400 },
      { ...OPEN, Item: "Spur", Column: "Outer diameter (mm)" },
      FAILS,
    ]);
    assert.deepEqual(
      found.map(({ severity, column }) => [severity, column]),
      [
        ["warning", "Size"],
        ["not determined", "Rated V"],
        ["not determined", "Outer diameter (mm)"],
      ],
    );
    assert.deepEqual(itemsOf(found[1]!), ["Tail", "Spur"]);
  });

  it("come the gravest first, of one severity as on the sheet", () => {
    const rows = [
      { ...FAILS, Weight: "note", Check: "Ripple" },
      { ...OPEN, Check: "Altitude" },
      { ...FAILS, Check: "Loading" },
      { ...FAILS, Weight: "danger", Check: "Band in service" },
      { ...FAILS, Check: "Drop" },
    ];
    assert.deepEqual(
      warningsFor(rows).map(({ severity, check }) => [severity, check]),
      [
        ["danger", "Band in service"],
        ["warning", "Loading"],
        ["warning", "Drop"],
        ["not determined", "Altitude"],
        ["note", "Ripple"],
      ],
    );
    assert.equal(warningsFor(rows).filter(counts).length, 4);
  });

  it("name no item for what is about the whole feed", () => {
    const [found] = warningsFor([{ ...FAILS, Item: WHOLE_FEED }]);
    assert.deepEqual(found && itemsOf(found), [""]);
  });

  it("are of every row that fails or is not determined, once, and of no other", () => {
    const names = ["Tail", "Spur", WHOLE_FEED];
    const row = fc.record({
      Item: fc.constantFrom(...names),
      Check: fc.constantFrom("Drop", "Loading", "Ripple"),
      Found: fc.double({ min: 0, max: 9, noNaN: true }),
      Limit: fc.constantFrom(0.05, 0.8, "ES1", "–"),
      Verdict: fc.constantFrom(...VERDICTS),
      Weight: fc.constantFrom(...WEIGHTS),
      Cause: fc.constantFrom("", "Bus", ASKED_FOR),
      Column: fc.constantFrom("", "Size", "Rated V"),
    });
    fc.assert(
      fc.property(fc.array(row, { maxLength: 30 }), (rows) => {
        const isUnasked = ({ Verdict, Cause }: (typeof rows)[number]) =>
          Verdict === "not determined" && Cause === ASKED_FOR;
        const wanted = rows.flatMap((one, index) =>
          (one.Verdict === "fails" || one.Verdict === "not determined") && !isUnasked(one)
            ? [index + 8]
            : [],
        );
        const all = warningsFor(rows);
        const found = all
          .filter(({ check }) => check !== ASKED_FOR)
          .flatMap(({ findings }) => findings)
          .map(({ at }) => Number(at.address.slice(1)));
        assert.deepEqual(
          [...found].sort((one, other) => one - other),
          wanted,
        );
        // Of what is not asked for yet, each requirement once.
        const labels = rows.filter(isUnasked).map(({ Column }) => Column);
        const told = all.filter(({ check }) => check === ASKED_FOR);
        assert.deepEqual(told.flatMap(itemsOf), [...new Set(labels)]);
        assert.ok(told.length <= 1);
      }),
    );
  });

  it("have ids of their own", () => {
    const found = warningsFor([
      FAILS,
      { ...FAILS, Weight: "danger", Limit: 0.06 },
      OPEN,
      { ...OPEN, Item: "Spur" },
    ]);
    const ids = found.flatMap(({ id, findings }) => [id, ...findings.map((one) => one.id)]);
    assert.equal(new Set(ids).size, ids.length);
  });
});

describe("a budget that is not whole", () => {
  it.each(["Feed", "Solved", "Checks"])("misses its name %s", (part) => {
    const ranges = { ...HEAD, Checks: checks([]), [part]: undefined };
    const [found, ...others] = warningsOf({ stem: "Hut", ranges });
    assert.deepEqual(others, []);
    const [finding] = found?.findings ?? [];
    assert.match(finding?.remedy ?? "", new RegExp(`^The name Hut_${part} `));
  });

  it("is none where a cell waits for its result, which is told as such", () => {
    const busy: Ranges = {
      Checks: { sheet: "Checks", address: "A7:A7", values: [[{ error: "#BUSY!" }]] },
    };
    assert.deepEqual(warningsFor([], busy), []);
    assert.equal(isCalculating({ stem: "Hut", ranges: { ...HEAD, ...busy } }), true);
    assert.equal(
      isCalculating({ stem: "Hut", ranges: { ...HEAD, Checks: checks([FAILS]) } }),
      false,
    );
  });

  it("names the cell that shows an error, once for each part", () => {
    const error = { error: "#SPILL!" };
    const found = warningsFor([], {
      Bands: {
        sheet: "Bands",
        address: "A4:B5",
        values: [
          [error, ""],
          ["", ""],
        ],
      },
      Answers: {
        sheet: "Answers",
        address: "A4:B5",
        values: [
          ["Figure", "Value"],
          [error, error],
        ],
      },
    });
    assert.deepEqual(
      found.map(({ findings: [finding] }) => finding?.at),
      [
        { sheet: "Bands", address: "A4" },
        { sheet: "Answers", address: "A5" },
      ],
    );
    for (const { findings } of found) assert.match(findings[0]?.remedy ?? "", /shows #SPILL!/);
  });

  it("says first, once for all of it, that its functions were not loaded", () => {
    const error = { error: "#NAME?" };
    const anchor = (sheet: string): ReadRange => ({ sheet, address: "A4", values: [[error]] });
    const [first, ...others] = warningsFor([FAILS], {
      Solved: anchor("Budget"),
      Bands: anchor("Bands"),
    });
    assert.equal(first?.severity, "danger");
    assert.match(
      first?.findings[0]?.remedy ?? "",
      /^The functions were not loaded when this was calculated: Budget!A4 shows #NAME\?, and so does 1 more cell\./,
    );
    for (const { findings } of others) assert.doesNotMatch(findings[0]?.remedy ?? "", /#NAME/);
  });
});

const CABLE = "Cable to the summit";

/** A schedule of the sample with nothing in one of its columns. */
function without(block: ScheduleName, header: string) {
  const rows = ridgeTop.schedules[block] ?? [];
  return rows.map((row) =>
    Object.fromEntries(Object.entries(row).filter(([key]) => key !== header)),
  );
}

/** Of everything that fails or is missing, some of each kind. */
const wanting: BudgetSample = {
  ...ridgeTop,
  asked: Object.fromEntries(
    Object.entries(ridgeTop.asked).filter(([label]) => label !== "Largest mass"),
  ),
  schedules: {
    ...ridgeTop.schedules,
    Cable: without("Cable", "Outer diameter"),
    "Stage type": without("Stage type", "Full up to"),
  },
};

describe("the cell to change", () => {
  let budget: OpenBudget;
  let warnings: readonly Warning[];
  beforeAll(async () => {
    budget = await openBudget(budgetPlan(wanting));
    warnings = warningsOf(budget.found());
  }, 60_000);
  afterAll(() => budget.workbook.dispose());

  function toChange(check: string, item: string) {
    const place = warnings
      .filter((warning) => warning.check === check)
      .flatMap(({ findings }) => findings)
      .find((one) => one.item === item)?.toChange;
    assert.ok(place, `${check} of ${item}`);
    return place;
  }

  /** What its row is called, and the heading of the block that it stands in. */
  function named({ sheet, address }: { sheet: string; address: string }) {
    const rows = budget.rows(sheet);
    const [, letters = "", digits = ""] = /^([A-Z]+)(\d+)$/.exec(address) ?? [];
    const at = (row: number) => budget.workbook.value(sheet, `${letters}${row}`);
    const item = rows[Number(digits) - 1]?.[0];
    let head = Number(digits) - 1;
    while (head > 0 && !BLOCKS.has(String(rows[head - 1]?.[0]))) head -= 1;
    return [rows[head - 1]?.[0], item, at(head)];
  }
  const BLOCKS = new Set(["Cable", "Stage", "Stage type", "Location", "Asked for"]);

  it("is the figure of the item's own row", () => {
    assert.deepEqual(named(toChange("Drop", CABLE)), ["Cable", CABLE, "Size"]);
    assert.deepEqual(named(toChange("Conductor temperature", CABLE)), [
      "Cable",
      CABLE,
      "Outer diameter (mm)",
    ]);
  });

  it("is that of its stage type where the stage has no such column", () => {
    const missing = named(toChange("Stage in its ambient", "24 V stage"));
    assert.deepEqual(missing, ["Stage type", "24 V, 15 A", "Full up to (°C)"]);
  });

  it("is that of the location, of several of the one that counts", () => {
    assert.deepEqual(named(toChange("Band in service", "Summit stage")), [
      "Location",
      "Summit",
      "Access",
    ]);
    // The cable lies in the hut at 1400 m and in a trench up to 2600 m.
    assert.deepEqual(named(toChange("Altitude", "")), ["Location", "Trench", "Altitude (m)"]);
  });

  it("is what is asked for where nothing is asked for yet", () => {
    assert.deepEqual(named(toChange(ASKED_FOR, "Largest mass")), [
      "Asked for",
      "Largest mass",
      "Value",
    ]);
  });

  it("mends what it is told to mend, when that is done", async () => {
    const { sheet, address } = toChange("Drop", CABLE);
    await budget.workbook.set(sheet, address, "6 mm²");
    const left = warningsOf(budget.found()).filter(
      ({ check, severity }) => check === "Drop" && severity === "warning",
    );
    await budget.workbook.set(sheet, address, "4 mm²");
    assert.deepEqual(left, []);
  });

  it("is known of every budget's rows but those that no single figure mends", () => {
    const lost = warnings
      .filter(({ column }) => column !== "")
      .flatMap(({ findings }) => findings)
      .filter((finding) => finding.toChange === undefined);
    assert.deepEqual(lost, []);
    assert.ok(warnings.every(({ severity }) => SEVERITIES.includes(severity)));
  });
});
