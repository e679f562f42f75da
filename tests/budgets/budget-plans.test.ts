/** Rules that every budget keeps, before anything is calculated. */
import assert from "node:assert/strict";
import { describe, it } from "vitest";
import { cellPlace } from "../../src/plans/addresses.js";
import { planFaults } from "../../src/plans/plan-faults.js";
import type { WorkbookPlan } from "../../src/plans/sheet-plan.js";
import { budgetPlan } from "../../taskpane/budgets/budget-plan.js";
import { samples } from "../../taskpane/budgets/samples/samples.js";
import { callFaults, lengthFaults, nativeFaults } from "../plans/plan-rules.js";
import { depthOfCalls, placedFormulas, unawaitedSpills } from "./formula-depth.js";

const MOST_CHARACTERS = 400;
const MOST_CALLS = 30;
const MOST_DEPTH = 3;

/** Rows that no item makes more. */
const NEVER_GROWS = /CHAIN_(CASES|HEADROOM)|PARALLEL_SHARE|STAGE_FIT/;

const plans = samples.map((sample) => {
  const plan = budgetPlan(sample);
  return [plan.title, plan] as const;
});

function formulasOf(plan: WorkbookPlan) {
  return placedFormulas(plan).map(({ where, formula }) => ({ where, formula }));
}

describe.each(plans)("%s", (_, plan) => {
  it("can be written by every host", () => {
    assert.deepEqual(planFaults(plan), []);
    assert.deepEqual(lengthFaults(plan), []);
  });

  it("calls cell functions as the catalogue has them, and plain native ones", () => {
    assert.deepEqual(callFaults(plan), []);
    assert.deepEqual(nativeFaults(plan), []);
  });

  it(`has no formula above ${MOST_CHARACTERS} characters`, () => {
    const long = formulasOf(plan).filter(({ formula }) => formula.length > MOST_CHARACTERS);
    assert.deepEqual(long, []);
  });

  it(`calls at most ${MOST_CALLS} cell functions, at most ${MOST_DEPTH} behind each other`, () => {
    const calls = formulasOf(plan).flatMap(({ formula }) => [...formula.matchAll(/\bFEED\./g)]);
    assert.ok(calls.length <= MOST_CALLS, String(calls.length));
    assert.ok(depthOfCalls(plan) <= MOST_DEPTH, String(depthOfCalls(plan)));
  });

  it("hides no error, and asks of a spill only what all hosts answer alike", () => {
    const wrong = formulasOf(plan).filter(({ formula }) =>
      /\b(IFERROR|COUNTA|ISBLANK|ISTEXT)\(/.test(formula),
    );
    assert.deepEqual(wrong, []);
  });

  it("has nothing below a spill that may grow, nor in its spare columns", () => {
    const wrong = plan.sheets.flatMap(({ key, cells }) =>
      cells.flatMap(({ at, spill, formula = "" }) => {
        if (!spill || NEVER_GROWS.test(formula)) return [];
        const { row, column } = cellPlace(at);
        return cells
          .filter((other) => (other.value ?? other.formula) !== undefined)
          .map((other) => ({ ...cellPlace(other.at), at: other.at }))
          .filter(
            (other) =>
              other.row > row && other.column >= column && other.column < column + spill[1],
          )
          .map((other) => `${key}!${other.at} below ${at}`);
      }),
    );
    assert.deepEqual(wrong, []);
  });

  it("waits for the first cell of every spill that it reads", () => {
    assert.deepEqual(unawaitedSpills(plan), []);
  });

  it("lets a function that is not loaded show as that in whatever rests on a spill", () => {
    // A count or a sum over nothing would say 0.
    const wrong = formulasOf(plan).filter(
      ({ formula }) =>
        /(COUNTIFS?|SUMIFS?|SUM|MAX)\((?:MAX\()?'(?:Table|Budget|Checks|Bands|Schedule)'/.test(
          formula,
        ) && !formula.startsWith("=IF(ISERROR("),
    );
    assert.deepEqual(
      wrong.filter(({ where }) => !where.startsWith("budget!C")),
      [],
    );
  });

  it("judges nothing itself: no formula outside the checks by hand compares with a limit", () => {
    const judged = formulasOf(plan).filter(
      ({ where, formula }) =>
        !/^(answers|notes)!/.test(where) &&
        /[<>]=?/.test(formula.replace(/"[^"]*"|<>/g, "")) &&
        !/(>0,|\$\d+>0)/.test(formula),
    );
    assert.deepEqual(judged, []);
  });

  it("has the names that a budget is found by", () => {
    assert.deepEqual(
      plan.names.map(({ name }) => name).filter((name) => name !== "Day" && name !== "Answers"),
      [
        ...["Feed", "Solved", "Bands", "Cases", "Checks", "Schedule"],
        ...["Balance", "Title", "Document", "Asked"],
        ...["Supplies", "Stages", "Cables", "InLine"],
        ...["Loads", "Locations", "Types", "Spread"],
        ...["Issues", "Issued", "Accepted", "Lists", "About"],
      ],
    );
  });

  it("says in a note on every heading of what spills what it means", () => {
    const headings = plan.sheets.flatMap(({ key, cells }) =>
      cells
        .filter(({ style, shows }) => style === "tableHeading" && shows !== undefined)
        .map(({ at, shows, note }) => ({ where: `${key}!${at} ${shows}`, note })),
    );
    const spilled = plan.sheets.flatMap(({ cells }) =>
      cells.flatMap(({ spill, style }) => (spill && style === "tableHeading" ? [spill[1]] : [])),
    );
    assert.equal(
      headings.length,
      spilled.reduce((sum, width) => sum + width, 0),
    );
    assert.ok(spilled.length >= 7, String(spilled.length));
    assert.deepEqual(
      headings.filter(({ note = "" }) => note.trim() === ""),
      [],
    );
  });

  it("has a name on every sheet, so that a copy takes them all", () => {
    const named = new Set(plan.names.map(({ sheet }) => sheet));
    assert.deepEqual(
      plan.sheets.filter(({ key }) => !named.has(key)).map(({ name }) => name),
      [],
    );
  });

  it("types its title once", () => {
    const titles = plan.sheets.flatMap(({ cells }) =>
      cells.filter(({ value }) => value === plan.title),
    );
    assert.equal(titles.length, 1);
  });
});
