/** What the pane puts into a workbook, put into each Excel that the double can be, and what those Excels refuse. */
import assert from "node:assert/strict";
import { afterEach, describe, it, vi } from "vitest";
import type { PlanChart, WorkbookPlan } from "../../src/plans/sheet-plan.js";
import { plainCopy } from "../../functions/working/copy/plain-copy.js";
import { budgets } from "../../taskpane/budgets/budgets.js";
import { excelHost } from "../../taskpane/hosts/excel/excel-host.js";
import { type Host, HostError, type SheetEdit } from "../../taskpane/hosts/host.js";
import { budgetReport } from "../../taskpane/report/content/report.js";
import { reportPlan } from "../../taskpane/report/sheet/report-sheet.js";
import { findBudgets } from "../../taskpane/workbook/found-budgets.js";
import { versionsOf } from "../../taskpane/workbook/versions/compared-versions.js";
import { comparisonPlan } from "../../taskpane/workbook/versions/comparison-plan.js";
import { brokenCells, repairCells } from "../../taskpane/workbook/repair.js";
import { openBudget } from "../budgets/open-budget.js";
import { copyRequest } from "../helpers/copied-budget.js";
import { HeadlessHost } from "../helpers/headless-host.js";
import { contractPlan } from "../hosts/contract-plan.js";
import { MemoryHost } from "../hosts/memory-host.js";
import { smallBudget } from "../taskpane/versions/small-budget.js";
import { EXCELS, type PretendedExcel, USUAL_EXCEL } from "./double/pretended-excel.js";
import { ExcelDouble, ExcelRefusal, HERE } from "./excel-double.js";
import { office } from "./office-library.js";
import { oneSheet } from "./one-sheet.js";

afterEach(() => {
  office.excelApi = USUAL_EXCEL.excelApi;
  office.platform = USUAL_EXCEL.platform;
  office.editing = undefined;
  office.settings = new Map();
  vi.unstubAllGlobals();
});

/** A page draws pictures; here each is one of the smallest PNG files that there are. */
function drawNothing(): void {
  const canvas = {
    getContext: () => ({ drawImage: () => undefined }),
    toDataURL: () => `data:image/png;base64,${SMALLEST_PNG}`,
  };
  vi.stubGlobal("document", { createElement: () => canvas });
  vi.stubGlobal(
    "Image",
    class {
      async decode() {}
    },
  );
}

const SMALLEST_PNG =
  "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR4nGNgYGBgAAAABQABpfZFQAAAAABJRU5ErkJggg==";

function opened(
  pretended: Partial<PretendedExcel> = {},
  calculates = true,
): { readonly excel: ExcelDouble; readonly host: Host } {
  const excel = new ExcelDouble("FEED", { ...HERE, calculates }, { ...USUAL_EXCEL, ...pretended });
  // Behind the library, which makes itself a page when it is loaded.
  drawNothing();
  const host = excelHost({
    namespace: "FEED",
    warn(message) {
      throw new Error(message);
    },
  });
  return { excel, host };
}

const chart: PlanChart = {
  at: "E5",
  size: [760, 300],
  svg: '<svg xmlns="http://www.w3.org/2000/svg"/>',
  alternative: "the finding",
  kind: "line",
  chartSize: [800, 400],
  title: "Loss",
  range: "A1:B2",
  categoryTitle: "Output (W)",
  valueTitle: "Loss (W)",
  series: ["line"],
};

/** A sheet with a chart takes two changing requests: Excel must say first where its cell came to lie. */
const chartPlan = oneSheet({
  cells: [
    { at: "A1", value: "Output", style: "tableHeading" },
    { at: "B1", value: "Loss", style: "tableHeading" },
    { at: "A2", value: 10, style: "result" },
    { at: "B2", value: 1, style: "result" },
  ],
  charts: [chart],
});

async function plainCopyOfSample(): Promise<WorkbookPlan> {
  const budget = await openBudget(budgets[0]!);
  try {
    return plainCopy(await copyRequest(budget)).plan;
  } finally {
    budget.workbook.dispose();
  }
}

let sampleReport: Promise<WorkbookPlan> | undefined;

function reportOfSample(): Promise<WorkbookPlan> {
  return (sampleReport ??= readReportOfSample());
}

async function readReportOfSample(): Promise<WorkbookPlan> {
  const own = new HeadlessHost();
  try {
    await own.insert(budgets[0]!);
    const [budget] = (await findBudgets(own)).budgets;
    return reportPlan(await budgetReport(own, budget!, []));
  } finally {
    own.dispose();
  }
}

/** Of one version with each of two others. */
async function comparison(): Promise<WorkbookPlan> {
  const own = new MemoryHost();
  for (const [index, ohms] of [2, 1, 3].entries())
    await own.insert(smallBudget(`Version ${index + 1}`, ohms));
  const [first, ...others] = versionsOf((await findBudgets(own)).budgets);
  assert.equal(others.length, 2);
  return comparisonPlan(first!, others);
}

describe("what the pane inserts", () => {
  const plans: readonly (readonly [string, () => Promise<WorkbookPlan>])[] = [
    ...budgets.map((plan) => [plan.title, async () => plan] as const),
    ["a copy that needs no add-in", plainCopyOfSample],
    ["the report of a budget", reportOfSample],
    ["versions side by side", comparison],
    ["a chart over its table", async () => chartPlan],
  ];
  it.each(plans)(
    "%s goes into every Excel",
    async (_, planOf) => {
      const plan = await planOf();
      // What the others take is part of what these take.
      const all = Object.entries(EXCELS);
      const strictest = all.filter(([name]) => /semicolons|1\.18|web/.test(name));
      for (const [name, pretended] of plan.sheets.length > 1 ? strictest : all) {
        const { excel, host } = opened(pretended, false);
        const { sheets } = await host.insert(plan);
        const listed = excel.sheetNames().filter((sheet) => sheet !== "Start");
        assert.deepEqual(listed, Object.values(sheets), name);
        assert.equal(excel.charts(listed[0] ?? "").length, plan.sheets[0]?.charts?.length ?? 0);
        assert.deepEqual(
          excel.shapes(listed[0] ?? "").map(({ AltTextDescription }) => AltTextDescription),
          plan.sheets[0]?.pictures.map(({ alternative }) => alternative),
        );
        // Twice the largest still fits into the 5 MB that Excel on the web takes at once.
        const most = Math.max(...excel.requests.map((each) => JSON.stringify(each).length));
        if (!/copy/.test(plan.title)) assert.ok(most < 2_500_000, `${name}: ${most} bytes`);
      }
    },
    120_000,
  );

  it("a report is divided into pages of its own, with the document and the page at their heads and feet", async () => {
    const plan = await reportOfSample();
    const { excel, host } = opened({}, false);
    const { sheets } = await host.insert(plan);
    const name = sheets["report"] ?? "";
    assert.ok(excel.shapes(name).length > 3, "its pictures");
    const print = plan.sheets[0]?.print;
    assert.ok(print && print.breaks.length > 10);
    assert.deepEqual(
      excel.settings(name).filter((key) => key.startsWith("PageBreak ")),
      print.breaks.map((row) => `PageBreak A${row + 1}`),
    );
    // A sheet that is fitted to pages ignores its breaks.
    assert.deepEqual(excel.setting(name, "Zoom"), { scale: print.scale });
    assert.equal(print.head, "Ridge-top observatory");
    assert.equal(excel.setting(name, "LeftHeader"), print.head);
    assert.equal(excel.setting(name, "RightHeader"), "Page &P of &N");
    assert.equal(excel.setting(name, "LeftFooter"), print.foot.left);
    assert.equal(excel.setting(name, "RightFooter"), `${print.foot.right} · Page &P of &N`);
  });

  it("versions side by side stay in sight under their headings, and are painted by their words", async () => {
    const plan = await comparison();
    const { excel, host } = opened({}, false);
    const { sheets } = await host.insert(plan);
    const name = sheets["compare"] ?? "";
    const [sheet] = plan.sheets;
    assert.equal(excel.setting(name, "FrozenAt"), `A1:B${sheet!.frozenRows}`);
    assert.equal(excel.setting(name, "TitleRows"), `$1:$${sheet!.frozenRows}`);
    assert.equal(excel.setting(name, "Orientation"), "Landscape");
    assert.equal(sheet!.conditionalFormats.length, 4);
    const rules = excel
      .settings(name)
      .filter((key) => /^ConditionalFormats\..*Rule/.test(key))
      .map((key) => String(excel.setting(name, key)));
    for (const rule of sheet!.conditionalFormats)
      assert.ok(rule.kind === "formula" && rules.includes(`=${rule.formula}`), rules.join());
  });

  it("is one undo step in an Excel that has such steps", async () => {
    const { excel, host } = opened({ excelApi: 20, refusedGroups: "cut writes" }, false);
    for (const plan of [budgets[0]!, chartPlan, await comparison()]) {
      const before = excel.undoSteps();
      await host.insert(plan);
      assert.equal(excel.undoSteps() - before, 1, plan.title);
    }
  });
});

describe("an undo group that Excel refuses", () => {
  it.each(["all", "cut writes", "delayed"] as const)(
    "does not keep a chart from being inserted: %s",
    async (refusedGroups) => {
      const { excel, host } = opened({ excelApi: 20, refusedGroups });
      await host.insert(chartPlan);
      assert.deepEqual(excel.sheetNames(), ["Start", "One"]);
      assert.equal(excel.charts("One").length, 1);
    },
  );

  it.each(["UndoNotSupported", "GeneralException", "InternalError"])(
    "%s half-way: what was written is taken away, and written once more without the group",
    async (code) => {
      const { excel, host } = opened({ excelApi: 20 });
      let refused = 0;
      excel.beforeAction = (what) => {
        if (what !== "Chart.Add") return;
        excel.beforeAction = () => undefined;
        refused += 1;
        throw new ExcelRefusal(code, "not in a group");
      };
      await host.insert(chartPlan);
      assert.equal(refused, 1);
      assert.deepEqual(excel.sheetNames(), ["Start", "One"]);
      assert.equal(excel.charts("One").length, 1);
    },
  );

  it("is not what is tried again without: a second refusal is told, and nothing is left", async () => {
    const { excel, host } = opened({ excelApi: 20 });
    excel.beforeAction = (what) => {
      if (what === "Chart.Add") throw new ExcelRefusal("GeneralException", "no chart");
    };
    await assert.rejects(host.insert(chartPlan), /nothing was changed .*no chart/);
    assert.deepEqual(excel.sheetNames(), ["Start"]);
  });

  it("keeps no edit from being done, and none is done twice", async () => {
    for (const pretended of Object.values(EXCELS)) {
      const { excel, host } = opened({ ...pretended, refusedGroups: "all" });
      await host.insert(contractPlan);
      const before = excel.undoSteps();
      await host.edit([{ kind: "insert rows", sheet: "Inputs", row: 1, count: 1 }]);
      assert.equal(excel.storedAt("Inputs", "B3")?.content, 350);
      assert.equal(excel.undoSteps() - before, 1);
    }
  });
});

describe("a workbook that may not be changed", () => {
  it("gets no sheet, and is told why", async () => {
    const { excel, host } = opened();
    excel.protectStructure();
    for (const plan of [contractPlan, await comparison()])
      await assert.rejects(host.insert(plan), /nothing was changed .*protected/);
    assert.deepEqual(excel.sheetNames(), ["Start"]);
  });

  it("keeps what stands on a protected sheet, and says what to do", async () => {
    const { excel, host } = opened();
    await host.write({ sheet: "Start", address: "A1" }, [[1]]);
    excel.protect("Start");
    const range = { sheet: "Start", address: "A1" };
    const isTold = (error: unknown) =>
      error instanceof HostError && /unprotect it or save a copy/.test(error.message);
    await assert.rejects(host.write(range, [[2]], { overwrite: true }), isTold);
    await assert.rejects(host.edit([{ kind: "write", range, cells: [[2]] }]), isTold);
    await assert.rejects(
      host.edit([{ kind: "insert rows", sheet: "Start", row: 0, count: 1 }]),
      isTold,
    );
    assert.equal(excel.storedAt("Start", "A1")?.content, 1);
  });
});

describe("an edit over several sheets, one of them protected", () => {
  const edits: readonly SheetEdit[] = [
    { kind: "insert rows", sheet: "Inputs", row: 1, count: 1 },
    { kind: "write", range: { sheet: "Inputs", address: "B3" }, cells: [[300]] },
    { kind: "write", range: { sheet: "Budget", address: "B20:C20" }, cells: [[1, 2]] },
  ];
  async function withProtectedBudget(pretended: PretendedExcel) {
    const { excel, host } = opened(pretended);
    await host.insert(contractPlan);
    excel.protect("Budget");
    return { excel, host };
  }

  it.each(Object.entries(EXCELS))(
    "changes none of them, and names it: %s",
    async (_, pretended) => {
      const { excel, host } = await withProtectedBudget(pretended);
      const before = excel.undoSteps();
      await assert.rejects(host.edit(edits), (error: unknown) => {
        assert.ok(error instanceof HostError);
        return /^Budget is protected; .*Nothing was changed$/.test(error.message);
      });
      assert.equal(excel.undoSteps(), before);
      assert.equal(excel.storedAt("Inputs", "B2")?.content, 350);
    },
  );

  it("is done where all its cells there are left unlocked, and not where some are", async () => {
    const { excel, host } = await withProtectedBudget(USUAL_EXCEL);
    excel.unlock("Budget", "B20");
    await assert.rejects(host.edit(edits), /Budget is protected/);
    assert.equal(excel.storedAt("Inputs", "B2")?.content, 350);
    excel.unlock("Budget", "C20");
    await host.edit(edits);
    assert.equal(excel.storedAt("Inputs", "B3")?.content, 300);
    assert.equal(excel.storedAt("Budget", "C20")?.content, 2);
  });
});

describe("what Excel refuses", () => {
  it.each([
    ["RequestPayloadSizeLimitExceeded", /more than Excel takes at once/],
    ["ResponsePayloadSizeLimitExceeded", /more than Excel gives at once/],
    ["UndoNotSupported", /take it back in one step/],
    ["InactiveWorkbook", /not the one in front/],
    ["InvalidArgument", /report these words/],
  ])("%s is told with what to do about it, and where it happened", async (code, advice) => {
    const { excel, host } = opened();
    excel.beforeAction = (what) => {
      if (what === "Range.Formulas") throw new ExcelRefusal(code, "Excel's own words");
    };
    await assert.rejects(
      host.write({ sheet: "Start", address: "A1" }, [[1]], { overwrite: true }),
      ({ message }: Error) => {
        assert.match(message, advice);
        assert.match(message, new RegExp(`Excel's own words \\(${code} at Range.Formulas\\)`));
        return true;
      },
    );
  });

  it("is all of a sheet that is longer than Excel takes: nothing of it stays", async () => {
    const { excel, host } = opened({}, false);
    const cells = Array.from({ length: 400 }, (_, row) => ({
      at: `A${row + 1}`,
      value: "long ".repeat(3_000),
      style: "text" as const,
    }));
    await assert.rejects(
      host.insert(oneSheet({ cells })),
      /nothing was changed .*more than Excel takes at once/,
    );
    assert.deepEqual(excel.sheetNames(), ["Start"]);
  });
});

describe("while the user types into a cell", () => {
  it("a command waits until that is over", async () => {
    const { excel, host } = opened();
    const end = excel.editCell();
    const written = host.write({ sheet: "Start", address: "B2" }, [[5]]);
    await new Promise((resolve) => setTimeout(resolve, 30));
    assert.equal(excel.storedAt("Start", "B2"), undefined);
    end();
    await written;
    assert.equal(excel.storedAt("Start", "B2")?.content, 5);
  });
});

describe("an Excel that calculates when it is asked to", () => {
  it("says so with the names, in no request of its own, and calculates the sheets that are named", async () => {
    const { excel, host } = opened({ calculation: "Manual" });
    assert.equal(host.calculation?.isManual(), false);
    await host.insert(contractPlan);
    const before = excel.requests.length;
    await host.names();
    const asked = excel.requests
      .slice(before)
      .filter(({ Actions }) => Actions.some(({ ActionType }) => ActionType === 2));
    assert.equal(asked.length, 1);
    assert.equal(host.calculation?.isManual(), true);
    const read = async () => {
      const [content] = await host.read([{ sheet: "Budget", address: "A1" }]);
      return content?.values[0]?.[0];
    };
    assert.equal(await read(), 0);
    await host.calculation?.calculate(["Inputs", "Budget"]);
    assert.equal(await read(), 700);
    await assert.rejects(host.calculation!.calculate(["Nowhere"]), /no sheet called Nowhere/);
  });

  it("is not what Excel usually is", async () => {
    const { host } = opened();
    await host.names();
    assert.equal(host.calculation?.isManual(), false);
  });
});

describe("whether Excel starts the add-in with the workbook", () => {
  it("is read and set", async () => {
    const { host } = opened();
    office.startups.length = 0;
    assert.equal(await host.loading?.read(), false);
    await host.loading?.set(true);
    assert.equal(await host.loading?.read(), true);
    await host.loading?.set(false);
    assert.deepEqual(office.startups, ["load", "none"]);
    assert.equal(await host.loading?.read(), false);
  });

  it("stays off where the user turned it off, whatever is written, until they turn it on", async () => {
    const call = [["=FEED.CONDUCTOR_AREA(4)"]];
    const { host } = opened();
    office.startups.length = 0;
    await host.loading?.set(true);
    await host.loading?.set(false);
    await host.write({ sheet: "Start", address: "A1" }, call);
    await host.insert(contractPlan);
    assert.deepEqual(office.startups, ["load", "none"]);
    // The same workbook, opened again.
    office.settings = new Map(office.saved);
    const { host: later } = opened();
    await later.write({ sheet: "Start", address: "A1" }, call);
    assert.deepEqual(office.startups, ["load", "none"]);
    await later.loading?.set(true);
    await later.write({ sheet: "Start", address: "A2" }, call);
    assert.equal(await later.loading?.read(), true);
    assert.equal(office.saved.size, 0);
  });

  it("is a refusal in words where the workbook cannot keep it", async () => {
    const { host } = opened();
    office.setStartup = async () => {
      throw new Error("not in this workbook");
    };
    try {
      await assert.rejects(host.loading!.set(true), (error) => {
        assert.ok(error instanceof HostError);
        return /not in this workbook/.test(error.message);
      });
    } finally {
      office.setStartup = async () => undefined;
    }
  });
});

describe("the repair of formulas in Excel", () => {
  const CALL = "=feed.conductor_area(4)";

  it("asks for formulas only, however much else stands on the sheets", async () => {
    const { excel, host } = opened();
    const text = "x".repeat(240);
    excel.addSheet("Data");
    // 6 MB of texts: more than Excel gives in one answer.
    for (let row = 1; row <= 1_000; row += 1)
      for (const column of [..."ABCDEFGHIJKLMNOPQRSTUVWXY"])
        excel.fill("Data", `${column}${row}`, text);
    excel.type("Data", "Z500", CALL);
    excel.requests.length = 0;
    const broken = await brokenCells(host);
    assert.deepEqual(
      broken.map(({ at, repaired }) => [at, repaired]),
      [[{ sheet: "Data", address: "Z500" }, "=FEED.CONDUCTOR_AREA(4)"]],
    );
    // The library still lets go of objects of the tests before.
    const asked = excel.requests.filter(
      ({ Actions }) => !Actions.some(({ Name }) => Name === "_RemoveReference"),
    );
    assert.ok(asked.length <= 20, `${asked.length} requests`);
  }, 60_000);

  it("writes a sheet's formulas in one request, and leaves a protected sheet as it is", async () => {
    const { excel, host } = opened();
    excel.addSheet("Locked");
    for (let row = 1; row <= 120; row += 1) excel.fill("Start", `A${row}`, CALL);
    excel.fill("Locked", "B2", CALL);
    excel.type("Start", "B1", 1);
    excel.protect("Locked");
    const broken = await brokenCells(host);
    assert.equal(broken.length, 121);
    const before = excel.requests.length;
    const { written, left } = await repairCells(host, broken);
    assert.equal(written, 120);
    assert.deepEqual(
      left.map(({ sheet, cells }) => [sheet, cells]),
      [["Locked", ["B2"]]],
    );
    assert.match(left[0]?.why ?? "", /protected/);
    assert.ok(excel.requests.length - before <= 8, `${excel.requests.length - before} requests`);
    assert.equal(excel.storedAt("Start", "A120")?.content, "=FEED.CONDUCTOR_AREA(4)");
    assert.equal(excel.storedAt("Locked", "B2")?.content, CALL);
  });
});

describe("names in Excel", () => {
  it("are found whatever the language and style in which Excel writes their formulas", async () => {
    const { host } = opened({ referenceStyle: "R1C1", separator: ";" });
    await host.insert(contractPlan);
    const feed = (await host.names()).find(({ name }) => name === "Ridge_Feed");
    assert.deepEqual(feed?.range, { sheet: "Budget", address: "A10:F13" });
  });
});
