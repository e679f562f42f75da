import assert from "node:assert/strict";
import { afterEach, describe, it } from "vitest";
import { ENGINE_VERSION } from "../../functions/downfeed.js";
import { type HeadlessWorkbook, openHeadlessCells } from "../helpers/headless-workbook.js";

let workbook: HeadlessWorkbook | undefined;
afterEach(() => workbook?.dispose());

async function open(cells: Readonly<Record<string, string | number | boolean>>) {
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

  it("refuse a text where a number belongs, however like a time, a date or a number it looks", async () => {
    const texts = ["10 A", "12A", "1/16", "10:30", "5%", "10", "1e3", "$5"];
    const cells = texts.flatMap((text, row) => [
      [`A${row + 1}`, `=FEED.CONDUCTOR_DROP("${text}",50,"2.5 mm²",70)`],
      [`B${row + 1}`, text],
      [`C${row + 1}`, `=FEED.CONDUCTOR_DROP(B${row + 1},50,"2.5 mm²",70)`],
      [`D${row + 1}`, `=FEED.CONDUCTOR_DROP("${text}"&"",50,"2.5 mm²",70)`],
      [`E${row + 1}`, `="${text}"`],
      [`F${row + 1}`, `=FEED.CONDUCTOR_DROP(E${row + 1},50,"2.5 mm²",70)`],
    ]);
    const book = await open(Object.fromEntries(cells) as Record<string, string>);
    texts.forEach((text, row) => {
      for (const column of "ACDF")
        assert.deepEqual(
          book.value("Sheet", `${column}${row + 1}`),
          { error: "#VALUE!" },
          `${column}: ${text}`,
        );
    });
  });

  it("take a number and a size as they are written", async () => {
    const book = await open({ A1: '=FEED.CONDUCTOR_DROP(10,50,"2.5 mm²",70)' });
    // By hand: 7.41 Ω/km of 2.5 mm², class 2 (IEC 60228), 100 m, 1 + 50 · 0.00393, 10 A.
    assert.ok(Math.abs(Number(book.value("Sheet", "A1")) - 8.866) < 5e-4);
  });

  it("tell a blank cell from a 0", async () => {
    const book = await open({
      B1: 0,
      A3: "=FEED.SUPPLY_BATTERY(14,A1,50,0.002)",
      B3: "=FEED.SUPPLY_BATTERY(14,B1,50,0.002)",
      A4: '=FEED.CONDUCTOR_DROP(10,100,"16 mm²",A1)',
      B4: '=FEED.CONDUCTOR_DROP(10,100,"16 mm²",B1)',
      A5: '=FEED.CONDUCTOR_DROP(10,100,"16 mm²",20,,,A1)',
      B5: '=FEED.CONDUCTOR_DROP(10,100,"16 mm²",20,,,B1)',
    });
    const refused = { error: "#VALUE!" };
    // By hand: 14 · (2.5 V − 50 A · 2 mΩ); 16 mm² of class 2 has 1.15 Ω/km at 20 °C (IEC 60228).
    assert.deepEqual(book.value("Sheet", "A3"), refused);
    assert.ok(Math.abs(Number(book.value("Sheet", "B3")) - 33.6) < 1e-9);
    assert.deepEqual(book.value("Sheet", "A4"), refused);
    assert.ok(Math.abs(Number(book.value("Sheet", "B4")) - 2.12) < 0.005);
    assert.ok(Math.abs(Number(book.value("Sheet", "A5")) - 2.3) < 1e-9);
    assert.deepEqual(book.value("Sheet", "B5"), refused);
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
