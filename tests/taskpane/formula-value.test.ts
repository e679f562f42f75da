import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { Model, initSync } from "@ironcalc/wasm";
import { beforeAll, describe, it } from "vitest";
import { type Cell, type CellTable, isCellError, isCellTable } from "../../functions/downfeed.js";
import { rangePlace } from "../../src/plans/addresses.js";
import type { Value } from "../../taskpane/formula-reading/cell-arithmetic.js";
import { formulaTree } from "../../taskpane/formula-reading/formula-tree.js";
import { readFormula } from "../../taskpane/formula-reading/formula-value.js";

// Column A to D; null is a cell left empty.
const grid: readonly (readonly Cell[])[] = [
  [4, 2.5, "copper", true],
  [-7.25, 0, "12", null],
  [1e-3, 350, "", false],
  [null, null, "Drives", 0.5],
];

function cells(reference: string): Value {
  const { top, left, bottom, right } = rangePlace(reference.replaceAll("$", ""));
  return grid.slice(top, bottom + 1).map((row) => row.slice(left, right + 1)) as CellTable;
}

function paneValue(formula: string) {
  return readFormula(formula, formulaTree(formula), {
    namespace: "FEED",
    evaluate: () => assert.fail("no call here"),
    cells,
  }).value;
}

/** What the spreadsheet engine IronCalc, which shares nothing with this project, shows for the formula. */
function ironCalcText(formula: string): string {
  const model = new Model("check", "en", "UTC", "en");
  grid.forEach((row, rowIndex) =>
    row.forEach((cell, column) => {
      if (cell === null || isCellError(cell)) return;
      const text = typeof cell === "boolean" ? String(cell).toUpperCase() : cell;
      const quoted = typeof cell === "string" ? `'${cell}` : String(text);
      model.setUserInput(0, rowIndex + 1, column + 1, quoted);
    }),
  );
  model.setUserInput(0, 20, 1, formula);
  model.evaluate();
  return model.getFormattedCellValue(0, 20, 1);
}

beforeAll(() => {
  const file = createRequire(import.meta.url).resolve("@ironcalc/wasm/wasm_bg.wasm");
  initSync({ module: readFileSync(file) });
});

const formulas = [
  "=1+2*3-4/5",
  "=-2^2",
  "=2^3^2",
  "=-A1^2",
  "=50%*B3",
  "=(A1+B1)*2",
  "=A1-B1-1",
  '=A1&" mm²"',
  "=B1&C1&D1",
  "=A4+1",
  "=A1/B2",
  "=C1+1",
  "=C2+1",
  "=D1+1",
  "=A1>B1",
  '=C1="COPPER"',
  "=A1<>4",
  "=0.1+0.2=0.3",
  "=IF(A1>3,B3*1.1,B3)",
  "=IF(A1<3,B3*1.1)",
  "=IFERROR(A1/B2,99)",
  "=IFERROR(A1,99)",
  "=AND(A1>1,B1>1)",
  "=OR(A1>10,D3)",
  "=NOT(D1)",
  "=SUM(A1:B3)",
  '=COUNTIF(C1:C4,"drives")',
  '=COUNTIF(C1:C4,"*er")',
  '=COUNTIF(C1:C4,"co?per")',
  '=COUNTIF(C1:C4,"?*")',
  '=COUNTIF(A1:B4,">=0")',
  '=COUNTIF(A1:B4,"<>0")',
  "=COUNTIF(A1:B4,4)",
  '=COUNTIFS(C1:C4,"*",A1:A4,">0")',
  '=SUMIF(C1:C4,"*er",A1:A4)',
  '=SUMIF(A1:A4,">0")',
  "=SUM(A1:D4)",
  "=SUM(A1,B1,2)",
  "=SUM(A1:A4)/COUNT(A1:A4)",
  "=MIN(A1:B3)",
  "=MAX(A1:B3,1000)",
  "=AVERAGE(A1:A3)",
  "=COUNTA(A1:A4)",
  "=PRODUCT(A1:B1)",
  "=ABS(A2)",
  "=SQRT(A1)",
  "=SQRT(A2)",
  "=ROUND(A2,1)",
  "=ROUND(-2.5,0)",
  "=ROUNDUP(A3,2)",
  "=ROUNDDOWN(B1,0)",
  "=INT(A2)",
  "=MOD(A2,3)",
  "=POWER(A1,0.5)",
  "=LN(A1)",
  "=EXP(1)",
  "=LOG10(B3)",
  "=PI()",
  "=INDEX(A1:B3,3,2)",
  "=INDEX(A1:A3,2)",
  "=INDEX(A1:B3,9,1)",
  "=MATCH(350,B1:B3,0)",
  "=MATCH(1,B1:B3,0)",
  "=INDEX(B1:B3,MATCH(1E-3,A1:A3,0))",
  "=VLOOKUP(4,A1:B3,2,FALSE)",
  "=ROWS(A1:B3)*COLUMNS(A1:B3)",
  "=UPPER(C1)&LEN(C1)",
  "=LEFT(C1,3)&RIGHT(C1,2)&MID(C1,2,2)",
  "=ISNUMBER(A1)",
  "=N(A1)",
  "=N(C1)",
  "=N(C2)",
  "=N(D1)",
  "=N(D3)",
  "=N(A4)+1",
  "=ISBLANK(A4)",
  "=CHOOSE(2,A1,B1)",
  "=#N/A",
  "=SUM(A1:A3*2)",
];

describe("values of formulas, against the IronCalc spreadsheet engine", () => {
  for (const formula of formulas) {
    it(formula, () => {
      const value = paneValue(formula);
      assert.ok(value.ok === true, JSON.stringify(value));
      const cell = isCellTable(value.value) ? value.value[0]?.[0] : value.value;
      const text = ironCalcText(formula);
      if (isCellError(cell)) assert.equal(cell.error, text);
      else if (typeof cell === "number")
        // IronCalc shows ten digits.
        assert.equal(Number(cell.toPrecision(9)), Number(Number(text).toPrecision(9)));
      else assert.equal(String(cell ?? "").toLowerCase(), text.toLowerCase());
    });
  }
});

describe("what the pane does not work out", () => {
  const unread: readonly (readonly [string, string])[] = [
    ["=1+OFFSET(A1,1,0)", "OFFSET(A1,1,0)"],
    ["=SUM(A1,LET(x,1,x))", "LET(x,1,x)"],
    ["=2*(A1:B2 B1:B3)", "A1:B2 B1:B3"],
    ["=MATCH(3,A1:A3)", "MATCH(3,A1:A3)"],
    ["=A1#+1", "A1#"],
    ['="1/2"+1', '"1/2"+1'],
  ];
  for (const [formula, part] of unread) {
    it(`names ${part} in ${formula}`, () => {
      const value = paneValue(formula);
      assert.ok(value.ok === "unread");
      assert.equal(value.part, part);
    });
  }

  it("passes over a branch that is not taken", () => {
    const value = paneValue("=IF(A1>1,5,OFFSET(A1,1,0))");
    assert.deepEqual(value, { ok: true, value: 5 });
  });
});
