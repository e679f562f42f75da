import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, it } from "vitest";
import type { WorkbookSnapshot } from "../../../taskpane/hosts/files/workbook-snapshot.js";
import { readXlsx } from "../../../taskpane/hosts/files/read/xlsx-reader.js";
import { writeXlsx } from "../../../taskpane/hosts/files/write/xlsx-writer.js";
import { workbooks } from "./random-workbook.js";

function throughFile(snapshot: WorkbookSnapshot): WorkbookSnapshot {
  const written = writeXlsx(snapshot);
  assert.deepEqual(written.leftOut, []);
  const opened = readXlsx(written.bytes);
  assert.deepEqual(opened.leftOut, []);
  return opened.snapshot;
}

describe("a workbook through an .xlsx file", () => {
  it("is the same, cell by cell and with all it carries", () => {
    fc.assert(
      fc.property(workbooks, (snapshot) => {
        // The made one's records have no prototype; a clone's have.
        assert.deepEqual(throughFile(snapshot), structuredClone(snapshot));
      }),
      { numRuns: 200 },
    );
  });

  it("is the same bytes every time", () => {
    const [snapshot] = fc.sample(workbooks, { numRuns: 1, seed: 5 });
    assert.ok(snapshot);
    assert.deepEqual(writeXlsx(snapshot).bytes, writeXlsx(snapshot).bytes);
  });
});
