/** What the adapter asks of Excel beyond the contract that all hosts keep. */
import assert from "node:assert/strict";
import fc from "fast-check";
import { afterEach, beforeEach, describe, it } from "vitest";
import type { PlanChart } from "../../src/plans/sheet-plan.js";
import { writtenCell } from "../../taskpane/hosts/excel/cells.js";
import { excelHost } from "../../taskpane/hosts/excel/excel-host.js";
import { listedNotes } from "../../taskpane/hosts/excel/notes.js";
import { rectangles } from "../../taskpane/hosts/excel/rectangles.js";
import { type Host, HostError } from "../../taskpane/hosts/host.js";
import { cellAddress, cellPlace } from "../../src/plans/addresses.js";
import { budgets } from "../../taskpane/budgets/budgets.js";
import { contractPlan } from "../hosts/contract-plan.js";
import { addressesIn } from "../hosts/memory-calculation.js";
import { EXCELS } from "./double/pretended-excel.js";
import { ExcelDouble, ExcelRefusal, HERE } from "./excel-double.js";
import { office } from "./office-library.js";
import { oneSheet } from "./one-sheet.js";

let excel: ExcelDouble;
let host: Host;
let warnings: string[];

beforeEach(() => {
  excel = new ExcelDouble("FEED");
  warnings = [];
  host = excelHost({ namespace: "FEED", warn: (text) => warnings.push(text) });
  office.startups.length = 0;
});

afterEach(() => {
  office.excelApi = 12;
  office.setStartup = async () => undefined;
});

function methodsSent(): readonly string[] {
  return excel.requests.flatMap(({ Actions, ObjectPaths }) => [
    ...Actions.map(({ Name }) => Name),
    ...Object.values(ObjectPaths).map(({ Name }) => Name),
  ]);
}

/** The requests that change something. */
function writingRequests(): number {
  return excel.requests.filter(({ Actions }) => Actions.some(({ ActionType }) => ActionType === 4))
    .length;
}

describe("an insertion in Excel", () => {
  it("reads what is there and writes everything else in one request", async () => {
    await host.insert(contractPlan);
    assert.equal(writingRequests(), 1);
  });

  it("lays sheets out: widths, frozen rows, merged cells, styles", async () => {
    await host.insert(contractPlan);
    const setting = (key: string) => excel.setting("Inputs", key);
    // 160 pixels at 96 to the inch are 120 points at 72 to the inch.
    assert.equal(setting("Format.ColumnWidth A:A"), 120);
    assert.equal(setting("FrozenRows"), 1);
    assert.equal(setting("Orientation"), "Landscape");
    assert.deepEqual(setting("Zoom"), { horizontalFitToPages: 1 });
    assert.equal(setting("TitleRows"), "$1:$1");
    assert.equal(setting("Merged A1:B1"), true);
    assert.equal(setting("Format.Font.Bold A1"), true);
    assert.equal(setting("Format.Font.Size A1"), 16);
    assert.equal(excel.settingAt("Inputs", "Format.HorizontalAlignment", "B2"), "Right");
    // B2 and B3 are inputs, one below the other: lines round both, and one between.
    for (const edge of ["EdgeTop", "EdgeBottom", "EdgeLeft", "EdgeRight", "InsideHorizontal"])
      assert.equal(excel.settingAt("Inputs", `Format.Borders.${edge}.Style`, "B3"), "Continuous");
    assert.equal(excel.settingAt("Inputs", "Format.Borders.InsideVertical.Style", "B3"), undefined);
  });

  it("gives long text the rows it needs", async () => {
    const value = "word ".repeat(60).trim();
    const cells = [{ at: "B3", value, style: "text" }] as const;
    await host.insert(oneSheet({ cells, columnWidths: [80, 200] }));
    // 299 characters in 200 pixels, at most some 45 to a line: 7 lines and more, of 11 points each.
    assert.ok(Number(excel.setting("One", "Format.RowHeight 3:3")) > 7 * 11);
    assert.equal(excel.setting("One", "Format.RowHeight 1:1"), undefined);
  });

  it("asks for no row taller than the 409 points that Excel has", async () => {
    const cells = [{ at: "B3", value: "word ".repeat(3_000).trim(), style: "text" }] as const;
    await host.insert(oneSheet({ cells, columnWidths: [80, 200] }));
    assert.equal(excel.setting("One", "Format.RowHeight 3:3"), 409);
  });

  it("says what a cell accepts, and what is said otherwise", async () => {
    await host.insert(contractPlan);
    const setting = (key: string) => excel.setting("Inputs", key);
    assert.deepEqual(setting("DataValidation.Rule B3"), {
      wholeNumber: { formula1: 1, formula2: 4, operator: "Between" },
    });
    assert.deepEqual(setting("DataValidation.Rule B4"), {
      list: { inCellDropDown: true, source: "1/8,1/16" },
    });
    const { message, style } = setting("DataValidation.ErrorAlert B4") as {
      message: string;
      style: string;
    };
    assert.deepEqual([message, style], ["One of the list", "Stop"]);
  });

  it("leaves a bound out that is no bound", async () => {
    const range = { range: "A1", kind: "number", message: "more" } as const;
    await host.insert(oneSheet({ validations: [{ ...range, least: 0, most: Infinity }] }));
    assert.deepEqual(excel.setting("One", "DataValidation.Rule A1"), {
      decimal: { formula1: 0, operator: "GreaterThanOrEqualTo" },
    });
  });

  it("refuses a text where a figure is wanted, but for the words that may stand for one", async () => {
    const figure = { kind: "figure", message: "Length: a number, its unit left off" } as const;
    await host.insert(
      oneSheet({
        validations: [
          { ...figure, range: "C5:C9", words: [] },
          { ...figure, range: "D5:D9", words: ["exact"] },
        ],
      }),
    );
    assert.deepEqual(excel.setting("One", "DataValidation.Rule C5:C9"), {
      custom: { formula: "=OR(ISNUMBER(C5),ISBLANK(C5))" },
    });
    assert.deepEqual(excel.setting("One", "DataValidation.Rule D5:D9"), {
      custom: { formula: '=OR(ISNUMBER(D5),D5="exact",ISBLANK(D5))' },
    });
    const { message, style, showAlert } = excel.setting(
      "One",
      "DataValidation.ErrorAlert C5:C9",
    ) as Readonly<Record<string, unknown>>;
    assert.deepEqual([message, style, showAlert], [figure.message, "Stop", true]);
  });

  it("paints by what stands in a cell: a number beyond a limit, a text", async () => {
    await host.insert(contractPlan);
    const path = "ConditionalFormats.CellValue.CellValue";
    assert.deepEqual(excel.setting("Inputs", `${path}.Rule B2:B3`), {
      formula1: "300",
      operator: "GreaterThan",
    });
    await host.insert(
      oneSheet({
        conditionalFormats: [{ range: "A1", kind: "text", text: 'so "called"', paint: "good" }],
      }),
    );
    assert.deepEqual(excel.setting("One", `${path}.Rule A1`), {
      formula1: '="so ""called"""',
      operator: "EqualTo",
    });
    assert.match(
      String(excel.setting("Inputs", `${path}.Format.Fill.Color B2:B3`)),
      /^#[\da-f]{6}$/,
    );
  });

  it("refuses a list that Excel cannot offer before anything is written", async () => {
    const list = { range: "A1", kind: "list", message: "one of them" } as const;
    for (const values of [["2,5 mm²"], ["x".repeat(256)]])
      await assert.rejects(
        host.insert(oneSheet({ validations: [{ ...list, values }] })),
        /Excel cannot offer the list/,
      );
    assert.equal(excel.requests.length, 0);
  });

  it("writes the anchor of a spill only", async () => {
    await host.insert(contractPlan);
    assert.equal(excel.storedAt("Budget", "H10")?.content, "=FEED.CHAIN_SOLVE(Ridge_Feed)");
    for (const at of ["I10", "H11", "S13"]) assert.equal(excel.storedAt("Budget", at), undefined);
  });

  it("has Excel load the add-in with the workbook from then on, where it calls a function", async () => {
    await host.insert(contractPlan);
    assert.deepEqual(office.startups, ["load"]);
  });

  it("leaves that alone for what needs no add-in: values, native formulas, texts about calls", async () => {
    const cells = [
      { at: "A1", value: "{FEED}.CHAIN_SOLVE(A1)", style: "text" },
      { at: "A2", formula: '"{FEED}.X("&LEN(A1)', style: "result" },
    ] as const;
    await host.insert(oneSheet({ cells }));
    await host.write({ sheet: "Start", address: "A1:A2" }, [[7], ["=A1*2"]]);
    assert.deepEqual(office.startups, []);
  });

  it("asks for it for a call put into a cell too", async () => {
    await host.write({ sheet: "Start", address: "A1" }, [["=1+FEED.CONDUCTOR_AREA(4)"]]);
    assert.deepEqual(office.startups, ["load"]);
  });

  it("stays, with a warning, where Excel will not load the add-in by itself", async () => {
    office.setStartup = async () => {
      throw new Error("not in this workbook");
    };
    await host.insert(contractPlan);
    assert.equal(warnings.length, 1);
    assert.match(warnings[0] ?? "", /not in this workbook/);
    assert.deepEqual(excel.sheetNames(), ["Start", "Inputs", "Budget", "Notes on cells"]);
  });
});

describe("a chart of a plan in Excel", () => {
  const picture = {
    at: "E5",
    size: [760, 300],
    svg: '<svg xmlns="http://www.w3.org/2000/svg"/>',
    alternative: "the finding",
  } as const;
  const head = ["Output (W)", "Fitted", "Datasheet"].map((value, index) => ({
    at: `${"ABC"[index]}5`,
    value,
    style: "tableHeading" as const,
  }));
  const rows = [10, 20, 30].map((value, index) => ({
    at: `A${index + 6}`,
    value,
    style: "result" as const,
  }));
  const scatter: PlanChart = {
    ...picture,
    kind: "scatter",
    chartSize: [800, 400],
    title: "Efficiency",
    range: "A5:C8",
    categoryTitle: "Output (W)",
    valueTitle: "Efficiency",
    series: ["line", "points"],
  };
  const planOf = (...charts: readonly PlanChart[]) =>
    oneSheet({ cells: [...head, ...rows], charts });

  it("is Excel's own, over the table, with titles of its axes", async () => {
    await host.insert(planOf(scatter));
    const [chart] = excel.charts("One");
    assert.ok(chart);
    assert.deepEqual(
      [chart["kind"], chart["range"], chart["seriesBy"]],
      ["XYScatterLinesNoMarkers", "One!A5:C8", "Columns"],
    );
    assert.equal(chart["Title.Text"], "Efficiency");
    assert.equal(chart["Axes.CategoryAxis.Title.Text"], "Output (W)");
    assert.equal(chart["Axes.ValueAxis.Title.Text"], "Efficiency");
    assert.equal(chart["Axes.ValueAxis.ScaleType"], undefined);
    assert.equal(excel.shapes("One").length, 0);
  });

  it("lies where its picture would, in points", async () => {
    await host.insert(planOf(scatter));
    const [chart] = excel.charts("One");
    // Column E of columns 48 points wide, row 5 of rows 15 points high; 800 by 400 pixels at 96 to the inch.
    assert.deepEqual(
      [chart?.["Left"], chart?.["Top"], chart?.["Width"], chart?.["Height"]],
      [192, 60, 600, 300],
    );
  });

  it("tells its series apart by dashes and marks", async () => {
    await host.insert(planOf(scatter, { ...scatter, kind: "line", series: ["line", "line"] }));
    const [first, second] = excel.charts("One");
    assert.equal(first?.["Series.0.MarkerStyle"], "None");
    assert.equal(first?.["Series.1.Format.Line.LineStyle"], "None");
    assert.match(String(first?.["Series.1.MarkerStyle"]), /^(?!None)\w+$/);
    assert.notEqual(
      second?.["Series.0.Format.Line.LineStyle"],
      second?.["Series.1.Format.Line.LineStyle"],
    );
  });

  it("has columns for bars and a scale of factors where it is asked for", async () => {
    await host.insert(
      planOf(
        { ...scatter, kind: "column", series: ["bars", "bars"] },
        { ...scatter, kind: "line", logarithmic: true },
      ),
    );
    const [bars, line] = excel.charts("One");
    assert.equal(bars?.["kind"], "ColumnClustered");
    assert.equal(line?.["kind"], "Line");
    assert.equal(line?.["Axes.ValueAxis.ScaleType"], "Logarithmic");
  });

  it("is refused before anything is written where its table is none", async () => {
    await assert.rejects(
      host.insert(planOf({ ...scatter, range: "A5:D8" })),
      /3 columns for 2 series/,
    );
    assert.equal(excel.requests.length, 0);
  });
});

describe("every budget that the pane offers", () => {
  it.each(budgets.map((plan) => [plan.title, plan] as const))(
    "%s can be written by Excel, cell by cell as planned",
    async (_, plan) => {
      excel = new ExcelDouble("FEED", { ...HERE, calculates: false });
      const { sheets } = await host.insert(plan);
      for (const { key, cells } of plan.sheets)
        for (const { at, value, formula } of cells) {
          const stored = excel.storedAt(sheets[key] ?? "", at)?.content ?? "";
          if (value !== undefined) assert.equal(stored, value, `${key}!${at}`);
          else if (formula !== undefined) assert.match(String(stored), /^=[^{}]*$/, `${key}!${at}`);
        }
    },
  );
});

describe("an insertion that fails in Excel", () => {
  it("says what Excel said", async () => {
    excel.beforeAction = (what) => {
      if (what === "Worksheet.Add")
        throw new ExcelRefusal("AccessDenied", "the workbook is protected");
    };
    await assert.rejects(host.insert(contractPlan), (error) => {
      assert.ok(error instanceof HostError);
      assert.match(error.message, /nothing was changed .*workbook is protected/);
      return true;
    });
  });

  it("leaves a sheet alone that somebody else added meanwhile", async () => {
    excel.beforeAction = (what) => {
      if (what !== "Worksheet.Add") return;
      excel.beforeAction = () => undefined;
      excel.addSheet("Budget");
      excel.fill("Budget", "A1", "theirs");
    };
    await assert.rejects(host.insert(contractPlan), HostError);
    assert.deepEqual(excel.sheetNames(), ["Start", "Budget"]);
    assert.equal(excel.storedAt("Budget", "A1")?.content, "theirs");
  });

  it("says so when it could not be taken away again", async () => {
    excel.beforeAction = (what) => {
      if (what === "Range.Formulas") throw new ExcelRefusal("GeneralException", "no cells");
      if (what === "Worksheet.Delete") throw new ExcelRefusal("GeneralException", "no deletion");
    };
    await assert.rejects(
      host.insert(contractPlan),
      /no cells.*could not be taken away: delete Inputs, Budget, Notes on cells .*no deletion/,
    );
  });
});

describe("what later versions of Excel can", () => {
  it("is not asked of the base set", async () => {
    await host.insert(contractPlan);
    assert.ok(!methodsSent().includes("Notes"));
    assert.equal(host.can("notes"), false);
    assert.equal(host.can("single undo"), false);
  });

  it("puts notes on cells from ExcelApi 1.18 on, and no list of them beside", async () => {
    office.excelApi = 18;
    await host.insert(contractPlan);
    assert.equal(excel.storedAt("Inputs", "B2")?.note, "One way.");
    assert.deepEqual(excel.sheetNames(), ["Start", "Inputs", "Budget"]);
  });

  it("gives a long note a box that it fits into, but on the web, which has no such boxes", async () => {
    const note = "word ".repeat(300).trim();
    const cells = [{ at: "A1", value: 1, style: "input", note }] as const;
    office.excelApi = 18;
    await host.insert(oneSheet({ cells }));
    const size = (of: string) => Number(excel.setting("One", `Note.${of} A1`));
    // 1 499 characters of some 4.6 points in lines of some 11 points, as Excel's notes have them.
    assert.ok(size("Width") * size("Height") > 1_499 * 4.6 * 11, `${size("Width")}`);
    excel = new ExcelDouble("FEED", HERE, EXCELS["the newest Excel on the web"]);
    await host.insert(oneSheet({ cells }));
    assert.equal(excel.storedAt("One", "A1")?.note, note);
    assert.equal(excel.setting("One", "Note.Width A1"), undefined);
  });
});

describe("notes in an Excel that puts none on cells", () => {
  const noted = oneSheet({
    cells: [
      { at: "A1", value: 1, style: "input", note: "first" },
      { at: "B1", value: "assumed", style: "remark" },
      { at: "A2", value: "Length", style: "label", note: "One way, along the route." },
      ...["A4", "B4", "A5", "B5"].map((at) => ({
        at,
        value: 3,
        style: "result" as const,
        note: "Was =FEED.X()",
      })),
    ],
  });

  it("are on a sheet of their own, each with its cells and what stands there", async () => {
    const { sheets } = await host.insert(noted);
    assert.deepEqual(Object.values(sheets), ["One", "Notes on cells"]);
    const [content] = await host.read([{ sheet: "Notes on cells", address: "A4:D7" }]);
    assert.deepEqual(content?.values, [
      ["Sheet", "Cells", "Which hold", "Note"],
      ["One", "A1", "", "first"],
      ["One", "A2", "Length", "One way, along the route."],
      ["One", "A4:B5", "", "Was =FEED.X()"],
    ]);
    assert.equal(excel.storedAt("One", "C1"), undefined);
  });

  it("name the sheet as it is really called, and find a name for their own", async () => {
    await host.insert(noted);
    const { sheets } = await host.insert(noted);
    assert.deepEqual(Object.values(sheets), ["One 2", "Notes on cells 2"]);
    assert.equal(excel.storedAt("Notes on cells 2", "A5")?.content, "One 2");
  });

  it("are no sheet where there are none", () => {
    assert.equal(listedNotes(oneSheet({}), { sheets: { one: "One" } }, []), undefined);
  });
});

describe("text in Excel's cells", () => {
  it("is protected where Excel would take it for something else", () => {
    for (const text of [
      "1/8",
      "6-4",
      "10%",
      "+5",
      "-",
      "@x",
      "'x",
      "TRUE",
      "2.5 mm²",
      "March 5",
      "#N/A",
    ])
      assert.equal(writtenCell(text), `'${text}`);
    for (const text of ["Length", "", "Ω", "copper, annealed"])
      assert.equal(writtenCell(text), text);
    assert.equal(writtenCell("=A1+1"), "=A1+1");
    assert.equal(writtenCell(5), 5);
  });
});

describe("rectangles", () => {
  const of = (...addresses: readonly string[]) => rectangles(addresses.map(cellPlace));

  it("join cells side by side, and rows of them that are equally wide", () => {
    assert.deepEqual(of("C1", "A1", "B1", "A2", "C2", "AA10"), ["A1:C1", "A2", "C2", "AA10"]);
    assert.deepEqual(of("A1", "B1", "A2", "B2", "A3", "B3", "C3"), ["A1:B2", "A3:C3"]);
    assert.deepEqual(of("A1", "A2", "A4"), ["A1:A2", "A4"]);
  });

  it("hold each cell once and no other", () => {
    fc.assert(
      fc.property(
        fc.uniqueArray(fc.tuple(fc.nat(6), fc.nat(6)), { selector: String, minLength: 1 }),
        (places) => {
          const cells = places.map(([row, column]) => cellAddress({ row, column }));
          const covered = of(...cells).flatMap((range) => addressesIn(range).flat());
          assert.deepEqual(covered.sort(), cells.sort());
        },
      ),
    );
  });
});

describe("reading in Excel", () => {
  it("takes one request where no formula is in doubt", async () => {
    await host.insert(contractPlan);
    const before = excel.requests.length;
    await host.read([
      { sheet: "Inputs", address: "A1:B6" },
      { sheet: "Budget", address: "A1:A6" },
    ]);
    const loads = excel.requests
      .slice(before)
      .filter(({ Actions }) => Actions.some(({ ActionType }) => ActionType === 2));
    assert.equal(loads.length, 1);
  });

  it("gives no formula for a spilled cell, read alone or with its spill", async () => {
    await host.insert(contractPlan);
    const [alone, all] = await host.read([
      { sheet: "Budget", address: "I12" },
      { sheet: "Budget", address: "H10:S13" },
    ]);
    assert.deepEqual(alone?.formulas, [[""]]);
    assert.notEqual(alone?.values[0]?.[0], "");
    assert.deepEqual(
      all?.formulas.flat().filter((formula) => formula !== ""),
      ["=FEED.CHAIN_SOLVE(Ridge_Feed)"],
    );
  });

  it("keeps formulas that are written alike in several cells", async () => {
    await host.write({ sheet: "Start", address: "A1:A3" }, [[7], ["=$A$1*2"], ["=$A$1*2"]]);
    const [content] = await host.read([{ sheet: "Start", address: "A1:A3" }]);
    assert.deepEqual(content?.formulas, [[""], ["=$A$1*2"], ["=$A$1*2"]]);
  });
});

describe("the selection in Excel", () => {
  it("is the active cell where several areas are selected", async () => {
    excel.select("Start", "B2:C3,E5");
    assert.deepEqual(await host.selection(), { sheet: "Start", address: "B2" });
  });

  it("has corners where whole columns are selected", async () => {
    excel.select("Start", "B:C");
    assert.deepEqual(await host.selection(), {
      sheet: "Start",
      address: "B1:C1048576",
    });
  });

  it("names a sheet as it is called, quotes or not", async () => {
    excel.addSheet("Kim's 2nd sheet");
    excel.select("Kim's 2nd sheet", "D4");
    assert.deepEqual(await host.selection(), {
      sheet: "Kim's 2nd sheet",
      address: "D4",
    });
  });
});
