/** What was accepted, and whether it still holds. Figures invented. */
import assert from "node:assert/strict";
import { describe, it } from "vitest";
import {
  ACCEPTANCE_COLUMNS,
  acceptances,
  findingLine,
  freeRow,
  judgedWarnings,
} from "../../src/warnings/acceptances.js";
import type { ReadArea, Warning } from "../../src/warnings/warning.js";

const warning: Warning = {
  id: "band-band Bus",
  severity: "warning",
  item: "Bus",
  text: "In service it is above what is asked for.",
  value: 56.1,
  limit: 30,
  unit: "V",
  cite: "iec-60364-4-41",
  at: { sheet: "Bands", address: "C9" },
};

function kept(...rows: readonly (readonly string[])[]): ReadArea {
  return {
    sheet: "Notes",
    address: "A50:D54",
    values: [
      [...ACCEPTANCE_COLUMNS],
      ...rows,
      ...Array.from({ length: 4 - rows.length }, () => ["", "", "", ""]),
    ],
  };
}

const judged = (one: Warning, area: ReadArea | undefined) =>
  judgedWarnings([one], {
    stem: "Ridge",
    areas: area ? { Accepted: area } : {},
  })[0];

describe("an acceptance", () => {
  const row = [warning.id, "on 2026-11-27", "enclosed", findingLine(warning)];

  it("holds for what it was given for", () => {
    assert.equal(judged(warning, kept(row))?.holds, true);
    assert.equal(judged(warning, kept(row))?.acceptance?.reason, "enclosed");
  });

  it("holds while the number is the same to four digits, and no longer", () => {
    assert.equal(
      judged({ ...warning, value: 56.1004 }, kept(row))?.holds,
      true,
    );
    const changed = judged({ ...warning, value: 56.2 }, kept(row));
    assert.equal(changed?.holds, false);
    assert.equal(changed?.acceptance?.reason, "enclosed");
  });

  it("does not hold when the limit or the words change, or for another item", () => {
    for (const other of [
      { ...warning, limit: 60 },
      { ...warning, text: "After one fault it is above what is asked for." },
      { ...warning, id: "band-band Stage" },
    ])
      assert.equal(judged(other, kept(row))?.holds, false);
  });

  it("is none without a reason, without a table, and where no row is of this warning", () => {
    assert.deepEqual(acceptances(undefined), []);
    assert.deepEqual(acceptances(kept([warning.id, "on …", "", ""])), []);
    assert.deepEqual(judged(warning, kept()), { warning, holds: false });
  });

  it("goes into the first empty row, none twice, until the table is full", () => {
    const area = kept(row);
    assert.equal(freeRow(area), 2);
    assert.equal(freeRow(area, [2, 3]), 4);
    assert.equal(freeRow(area, [2, 3, 4]), undefined);
    assert.equal(acceptances(area)[0]?.row, 1);
  });
});
