/**
 * The text of a saved file, against what the spreadsheet that the format comes from stores itself: the prefix of cell
 * functions as its makers describe it (https://github.com/OfficeDev/Excel-Custom-Functions/issues/108,
 * https://github.com/OfficeDev/office-js/issues/3558), the marks of formulas that spill as ECMA-376 18.9 and [MS-XLSX]
 * 2.3.5 lay them down (from memory), the prefixes of newer functions as in [MS-XLSX] 2.2.2 (from memory).
 */
import assert from "node:assert/strict";
import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import { describe, it } from "vitest";
import { readXlsx } from "../../../taskpane/hosts/files/read/xlsx-reader.js";
import { storedFormula, typedFormula } from "../../../taskpane/hosts/files/file-formulas.js";
import type {
  CellSnapshot,
  WorkbookSnapshot,
} from "../../../taskpane/hosts/files/workbook-snapshot.js";
import { writeXlsx } from "../../../taskpane/hosts/files/write/xlsx-writer.js";

function bookOf(...cells: readonly CellSnapshot[]): WorkbookSnapshot {
  const sheet = {
    name: "Only",
    cells,
    columnWidths: {},
    rowHeights: {},
    hiddenColumns: [],
    hiddenRows: [],
    frozen: { rows: 0, columns: 0 },
    merges: [],
    validations: [],
    rules: [],
    images: [],
  };
  return { sheets: [sheet], names: [] };
}

function partsOf(...cells: readonly CellSnapshot[]): Record<string, string> {
  const unpacked = unzipSync(writeXlsx(bookOf(...cells)).bytes);
  return Object.fromEntries(
    Object.entries(unpacked).map(([name, bytes]) => [name, strFromU8(bytes)]),
  );
}

const SHEET = "xl/worksheets/sheet1.xml";

describe("a sheet in a file", () => {
  const [only] = bookOf({ at: "A1", value: 1 }).sheets;
  const book = (rows: number): WorkbookSnapshot => ({
    sheets: [{ ...only!, name: "Bob's feed", frozen: { rows, columns: 1 } }],
    names: [],
  });
  const textOf = (rows: number, part: string) =>
    strFromU8(unzipSync(writeXlsx(book(rows)).bytes)[part]!);

  it("is printed landscape and as wide as one page, in the order that ECMA-376 18.3.1.99 asks for", () => {
    const text = textOf(4, SHEET);
    assert.match(text, /<sheetPr><pageSetUpPr fitToPage="1"\/><\/sheetPr><dimension/);
    assert.match(text, /<\/sheetData><pageSetup orientation="landscape" fitToHeight="0"\/><\/work/);
  });

  it("has its frozen rows on every page, and none where nothing is frozen", () => {
    assert.match(
      textOf(4, "xl/workbook.xml"),
      /<definedName name="_xlnm.Print_Titles" localSheetId="0">'Bob(''|&apos;&apos;)s feed'!\$1:\$4<\/definedName>/,
    );
    assert.doesNotMatch(textOf(0, "xl/workbook.xml"), /Print_Titles/);
  });

  it("loses nothing of it when it is opened again", () => {
    assert.deepEqual(readXlsx(writeXlsx(book(4)).bytes).leftOut, []);
  });

  it("is told of another's page setup that is left out", () => {
    const parts = unzipSync(writeXlsx(book(4)).bytes);
    const portrait = strFromU8(parts[SHEET]!).replace("landscape", "portrait");
    const other = zipSync({ ...parts, [SHEET]: strToU8(portrait) });
    assert.match(JSON.stringify(readXlsx(other).leftOut), /page setup for printing/);
  });
});

describe("a formula in a file", () => {
  for (const [typed, stored] of [
    ["FEED.CONDUCTOR_DROP(A1,2)", "_xldudf_FEED_CONDUCTOR_DROP(A1,2)"],
    [
      "IFERROR(FEED.RATIO_OUTPUT(1,2),FEEDDEV.X_Y(3))",
      "IFERROR(_xldudf_FEED_RATIO_OUTPUT(1,2),_xldudf_FEEDDEV_X_Y(3))",
    ],
    ["\"FEED.X(\"&'FEED.X('!A1", "\"FEED.X(\"&'FEED.X('!A1"],
    ["XLOOKUP(A1,B:B,C:C)", "_xlfn.XLOOKUP(A1,B:B,C:C)"],
    ["SORT(FILTER(A1:A9,B1:B9))", "_xlfn._xlws.SORT(_xlfn._xlws.FILTER(A1:A9,B1:B9))"],
    ["LET(x,2,x*x)", "_xlfn.LET(_xlpm.x,2,_xlpm.x*_xlpm.x)"],
    ["SUM(A1:A9)", "SUM(A1:A9)"],
  ] as const)
    it(`${typed} is stored as ${stored}, and read as typed`, () => {
      assert.equal(storedFormula(typed), stored);
      assert.equal(typedFormula(stored), typed);
    });

  it("with one result is a plain one, with the result beside it", () => {
    const parts = partsOf({
      at: "A1",
      formula: "FEED.CONDUCTOR_DROP(1,2)",
      value: 3.5,
    });
    assert.match(
      parts[SHEET] ?? "",
      /<c r="A1"><f>_xldudf_FEED_CONDUCTOR_DROP\(1,2\)<\/f><v>3\.5<\/v><\/c>/,
    );
    assert.equal(parts["xl/metadata.xml"], undefined);
  });

  it("that spills is an array formula over its area, marked as one that grows by itself", () => {
    const cells = [
      {
        at: "A1",
        formula: "FEED.CHAIN_SOLVE(D1:F3)",
        spill: "A1:B2",
        value: "Item",
      },
      { at: "B1", value: "Note" },
      { at: "A2", value: 7 },
    ];
    const parts = partsOf(...cells);
    assert.match(
      parts[SHEET] ?? "",
      /<c r="A1" t="str" cm="1"><f t="array" ref="A1:B2">_xldudf_FEED_CHAIN_SOLVE\(D1:F3\)<\/f><v>Item<\/v><\/c>/,
    );
    assert.match(
      parts["xl/metadata.xml"] ?? "",
      /name="XLDAPR".*<xda:dynamicArrayProperties fDynamic="1" fCollapsed="0"\/>.*<cellMetadata count="1"><bk><rc t="1" v="0"\/><\/bk><\/cellMetadata>/,
    );
    assert.match(
      parts["xl/_rels/workbook.xml.rels"] ?? "",
      /relationships\/sheetMetadata" Target="metadata\.xml"/,
    );
    assert.match(
      parts["[Content_Types].xml"] ?? "",
      /PartName="\/xl\/metadata\.xml" ContentType="[^"]*sheetMetadata\+xml"/,
    );
    assert.deepEqual(readXlsx(writeXlsx(bookOf(...cells)).bytes).snapshot.sheets[0]?.cells, cells);
  });

  it("that works through arrays on its way is marked too, or a range in it would be one cell", () => {
    const parts = partsOf({ at: "C1", formula: "SUM(A1:A3*B1:B3)", value: 1 });
    assert.match(
      parts[SHEET] ?? "",
      /<c r="C1" cm="1"><f t="array" ref="C1">SUM\(A1:A3\*B1:B3\)<\/f>/,
    );
  });
});

describe("text in a file", () => {
  it("stays text, whatever it begins with", () => {
    const texts = ["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "=cmd|' /C calc'!A0"];
    const cells = texts.map((value, index) => ({ at: `A${index + 1}`, value }));
    const parts = partsOf(...cells);
    assert.ok(!parts[SHEET]?.includes("<f"));
    assert.equal(parts[SHEET]?.match(/ t="s"/g)?.length, texts.length);
    assert.deepEqual(readXlsx(writeXlsx(bookOf(...cells)).bytes).snapshot.sheets[0]?.cells, cells);
  });
});
