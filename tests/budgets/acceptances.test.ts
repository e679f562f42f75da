/** Acceptances as a budget's own sheet keeps them: of a warning as a whole, or of one of its items. */
import assert from "node:assert/strict";
import { describe, it } from "vitest";
import type { FoundBudget, ReadRange } from "../../taskpane/budgets/reading/found-budget.js";
import {
  ACCEPTANCE_COLUMNS,
  acceptances,
  findingLine,
  freeRow,
  judgedWarnings,
  openCount,
  warningLine,
} from "../../taskpane/budgets/warnings/acceptances.js";
import type { Finding, Warning } from "../../taskpane/budgets/warnings/warning.js";

const KEY = "Drop|fails||0.05";

function finding(item: string, found: number, worstIn = "loads peak"): Finding {
  return {
    id: `${KEY}|${item}`,
    item,
    worstIn,
    found,
    limit: 0.05,
    unit: "of 400 V",
    margin: 1 - found / 0.05,
    remedy: "",
    at: { sheet: "Checks", address: "I9" },
    toChange: undefined,
  };
}

function drop(...findings: readonly Finding[]): Warning {
  return {
    id: KEY,
    severity: "warning",
    check: "Drop",
    asked: "at most",
    cause: "",
    column: "Size",
    citation: "",
    findings,
  };
}

type Row = readonly [id: string, accepted: string, reason: string, finding: string];

function accepted(...rows: readonly Row[]): ReadRange {
  const empty = ["", "", "", ""];
  return {
    sheet: "Notes",
    address: `A60:D${61 + rows.length}`,
    values: [ACCEPTANCE_COLUMNS, ...rows, empty],
  };
}

function judged(warning: Warning, ...rows: readonly Row[]) {
  const ranges: FoundBudget["ranges"] = { Accepted: accepted(...rows) };
  const [one] = judgedWarnings([warning], { stem: "Hut", ranges });
  assert.ok(one);
  return one;
}

const both = drop(finding("Tail", 0.06), finding("Spur", 0.08));
const whole: Row = [KEY, "R. Amsel", "short runs at peak", warningLine(both)];
const ofItem = (one: Finding): Row => [one.id, "R. Amsel", "short run at peak", findingLine(one)];

describe("an acceptance", () => {
  it("of a warning as a whole holds for all of its items", () => {
    const { isAccepted, holds, acceptance } = judged(both, whole);
    assert.deepEqual([isAccepted, holds], [true, true]);
    assert.equal(acceptance?.reason, "short runs at peak");
  });

  it("of one item leaves the others open; of each item it is that of the warning", () => {
    const [tail, spur] = both.findings;
    const one = judged(both, ofItem(tail!));
    assert.equal(one.isAccepted, false);
    assert.deepEqual(
      one.findings.map(({ holds }) => holds),
      [true, false],
    );
    const each = judged(both, ofItem(tail!), ofItem(spur!));
    assert.equal(each.isAccepted, true);
  });

  const CHANGED: readonly (readonly [string, Warning])[] = [
    ["a figure", drop(finding("Tail", 0.06), finding("Spur", 0.09))],
    ["a case", drop(finding("Tail", 0.06), finding("Spur", 0.08, "loads light"))],
    ["the items", drop(finding("Tail", 0.06))],
  ];
  it.each(CHANGED)("of a whole lapses when %s changes", (_, now) => {
    const { isAccepted, holds, acceptance } = judged(now, whole);
    assert.deepEqual([isAccepted, holds], [false, false]);
    assert.equal(acceptance?.reason, "short runs at peak");
  });

  it("of an item lapses when its own figure changes, not when another's does", () => {
    const [tail] = both.findings;
    const row = ofItem(tail!);
    const other = drop(finding("Tail", 0.06), finding("Spur", 0.2));
    assert.equal(judged(other, row).findings[0]?.holds, true);
    const own = drop(finding("Tail", 0.07), finding("Spur", 0.08));
    assert.equal(judged(own, row).findings[0]?.holds, false);
  });

  it("holds when a figure differs in what four digits do not show", () => {
    const now = drop(finding("Tail", 0.06 + 1e-12), finding("Spur", 0.08));
    assert.equal(judged(now, whole).isAccepted, true);
  });

  it("without a reason is none", () => {
    const [id, by, , line] = whole;
    assert.equal(judged(both, [id, by, "", line]).isAccepted, false);
  });

  it("of something else is none of this", () => {
    const [, ...rest] = whole;
    assert.equal(judged(both, ["Drop|fails||0.04", ...rest]).isAccepted, false);
  });

  it("is not counted any more, nor is a note", () => {
    const open = judged(both);
    const note = judged({ ...both, severity: "note" });
    assert.equal(openCount([open, note, judged(both, whole)]), 1);
  });
});

describe("the rows of acceptances", () => {
  it("are read with the row that they stand in, and filled from the first that is free", () => {
    const gap: Row = ["", "", "", ""];
    const range = accepted(gap, whole);
    assert.deepEqual(
      acceptances(range).map(({ id, row }) => [id, row]),
      [[KEY, 2]],
    );
    assert.equal(freeRow(range), 1);
    const full = [ACCEPTANCE_COLUMNS, whole];
    assert.equal(freeRow({ ...range, values: full }), undefined);
  });

  it("are none where the budget has no place for them", () => {
    assert.deepEqual(acceptances(undefined), []);
  });
});
