import assert from "node:assert/strict";
import { afterEach, describe, it } from "vitest";
import { ENGINE_VERSION } from "../../functions/downfeed.js";
import {
  type HeadlessWorkbook,
  openHeadlessCells,
} from "../helpers/headless-workbook.js";

let workbook: HeadlessWorkbook | undefined;
afterEach(() => workbook?.dispose());

async function open(
  cells: Readonly<Record<string, string | number | boolean>>,
) {
  workbook = await openHeadlessCells(cells);
  return workbook;
}

describe("cell functions in the workbench", () => {
  it("give text as it is", async () => {
    const { value } = await open({ A1: "=FEED.ENGINE_VERSION()" });
    assert.equal(value("Sheet", "A1"), ENGINE_VERSION);
  });

  it("show a refusal as an error and go on calculating", async () => {
    const book = await open({
      A1: '=FEED.ENGINE_VERSION("too much")',
      A2: "=FEED.NO_SUCH()",
      B1: 2,
      B2: "=B1*3",
      B3: '=IFERROR(A1,"caught")',
    });
    assert.deepEqual(book.value("Sheet", "A1"), { error: "#VALUE!" });
    assert.deepEqual(book.value("Sheet", "A2"), { error: "#NAME?" });
    assert.equal(book.value("Sheet", "B3"), "caught");
    await book.set("Sheet", "B1", 5);
    assert.equal(book.value("Sheet", "B2"), 15);
  });

  it("read spilled cells, booleans and blanks", async () => {
    const book = await open({ A1: "=SEQUENCE(2,2)", D1: true, D2: "=1/0" });
    assert.deepEqual(book.values("Sheet", "A1:D2"), [
      [1, 2, "", true],
      [3, 4, "", { error: "#DIV/0!" }],
    ]);
    assert.equal(book.formula("Sheet", "A1"), "=SEQUENCE(2,2)");
  });
});
