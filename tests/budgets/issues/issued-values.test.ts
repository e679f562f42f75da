/** What changed in the schedules from one issue to the next, told by names. */
import assert from "node:assert/strict";
import { describe, it } from "vitest";
import {
  cellsOfIssue,
  heldCells,
  heldChanges,
  issuedRows,
} from "../../../taskpane/budgets/issues/issued-values.js";
import { nextIssue } from "../../../taskpane/budgets/issues/issues.js";
import type { FoundBudget, ReadValue } from "../../../taskpane/budgets/reading/found-budget.js";

const HEAD = ["Cable", "Fed from", "", "Length (m)", "Size"];
const TRUNK = ["Trunk", "Bus", "", 350, "4 mm²"];
const SPUR = ["Spur", "Trunk", "", 15, "2.5 mm²"];

function cells(cables: readonly ReadValue[][], asked: readonly ReadValue[][] = []) {
  const range = (values: readonly ReadValue[][]) => ({ sheet: "Feed", address: "A1:E9", values });
  const ranges: FoundBudget["ranges"] = {
    Cables: range([HEAD, ...cables]),
    Asked: range([["Asked for", "Value"], ...asked]),
  };
  return heldCells({ ranges });
}

describe("what changed since an issue", () => {
  it("is nothing where rows were only moved or left empty", () => {
    const moved = cells([SPUR, ["", "", "", "", ""], TRUNK]);
    assert.deepEqual(heldChanges(cells([TRUNK, SPUR]), moved), []);
  });

  it("names each changed cell with what it was, in the order of the schedules", () => {
    const longer = [["Trunk", "Bus", "", 420, ""], SPUR];
    const asked: ReadValue[][] = [["Load margin", 0.25]];
    assert.deepEqual(heldChanges(cells([TRUNK, SPUR]), cells(longer, asked)), [
      {
        kind: "changed",
        schedule: "Cable",
        item: "Trunk",
        column: "Length (m)",
        was: 350,
        is: 420,
      },
      { kind: "changed", schedule: "Cable", item: "Trunk", column: "Size", was: "4 mm²", is: "" },
      { kind: "new", schedule: "Asked for", item: "Load margin" },
    ]);
  });

  it("tells new items from those that are gone, two rows of one name, and a row without one", () => {
    const now = cells([TRUNK, TRUNK, ["", "Bus", "", 7, ""]]);
    assert.deepEqual(heldChanges(cells([TRUNK, SPUR]), now), [
      { kind: "new", schedule: "Cable", item: "Trunk (2)" },
      { kind: "new", schedule: "Cable", item: "row 3" },
      { kind: "gone", schedule: "Cable", item: "Spur" },
    ]);
  });

  it("is told again from the rows that keep two issues", () => {
    const before = cells([TRUNK, SPUR]);
    const issued = cells([["Trunk", "Bus", "", 0, "4 mm²"]]);
    const rows = issuedRows(before, issued);
    assert.deepEqual(heldChanges(cellsOfIssue(rows, "Issue before"), before), []);
    assert.deepEqual(heldChanges(cellsOfIssue(rows, "As issued"), issued), []);
    // A length of 0 is a figure, not an empty cell.
    assert.ok(
      rows.some(
        ([, item, column, was, is]) =>
          item === "Trunk" && column === "Length (m)" && was === 350 && is === 0,
      ),
    );
  });
});

describe("the name of the next issue", () => {
  it.for([
    [undefined, "A"],
    ["A", "B"],
    ["P02", "P03"],
    ["P09", "P10"],
    ["3", "4"],
    ["Z", "Z2"],
    ["draft b", "draft c"],
  ] as const)("behind %s is %s", ([last, next]) => {
    assert.equal(nextIssue(last), next);
  });
});
