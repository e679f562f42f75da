/** The printed report of a budget, made without a page. */
import assert from "node:assert/strict";
import { afterAll, beforeAll, describe, it } from "vitest";
import type { CellTable } from "../../../functions/cells.js";
import { SLOPE_ONLY } from "../../../functions/families/chain-tornado.js";
import { evaluate } from "../../../functions/runner.js";
import { MARGIN_FORMAT } from "../../../taskpane/budgets/formats.js";
import { budgetPlan } from "../../../taskpane/budgets/budget-plan.js";
import { fingerprint } from "../../../taskpane/budgets/issues/fingerprint.js";
import { rangeRows, textOf } from "../../../taskpane/budgets/reading/range-table.js";
import type { FoundBudget } from "../../../taskpane/budgets/reading/found-budget.js";
import { ridgeTop } from "../../../taskpane/budgets/samples/ridge-top.js";
import { findingLine, judgedWarnings } from "../../../taskpane/budgets/warnings/acceptances.js";
import { warningsOf } from "../../../taskpane/budgets/warnings/warnings.js";
import { budgetReport } from "../../../taskpane/report/content/report.js";
import { formattedNumber } from "../../../taskpane/words/formatted-number.js";
import { reportPage } from "../../../taskpane/report/page/report-page.js";
import { accept } from "../../../taskpane/workbook/accepting.js";
import { findBudgets } from "../../../taskpane/workbook/found-budgets.js";
import { ownFeed } from "../../feeds/own-feed.js";
import { HeadlessHost } from "../../helpers/headless-host.js";

const DOCUMENT = {
  title: 'Ridge "top" </style> observatory',
  project: "Ridge survey",
  client: "Valley trust",
  number: "RS-104",
  issue: "B",
  purpose: "for review",
  date: "28 November 2026",
  author: "A. Author",
  checker: "C. Checker",
};

describe("the report of a budget", () => {
  const host = new HeadlessHost();
  const { Stage: stages = [], ...others } = ridgeTop.schedules;
  let budget: FoundBudget;
  let report: string;
  beforeAll(async () => {
    const bare = stages.map(({ Basis: basis, ...stage }) =>
      stage["Stage"] === "5 V stage" ? stage : { ...stage, Basis: basis! },
    );
    await host.insert(
      budgetPlan({ ...ridgeTop, document: DOCUMENT, schedules: { ...others, Stage: bare } }),
    );
    [budget] = (await findBudgets(host)).budgets as [FoundBudget];
    const energy = judgedWarnings(warningsOf(budget), budget)
      .flatMap(({ warning, findings }) => (warning.check === "Stored energy" ? findings : []))
      .map(({ finding }) => finding)[0]!;
    const found = { id: energy.id, line: findingLine(energy) };
    await accept(host, budget, found, { reason: "within reach of nobody", by: "A. Author" });
    [budget] = (await findBudgets(host)).budgets as [FoundBudget];
    report = reportPage(
      await budgetReport(host, budget, [
        { sheet: "Bands", address: "B8" },
        { sheet: "Inputs", address: "A1" },
      ]),
    );
  });
  afterAll(() => {
    host.dispose();
  });

  const rowsOf = (html: string, caption: string) => {
    const tables = [...html.matchAll(/<table[^>]*><caption[^>]*>(.*?)<\/caption>(.*?)<\/table>/gs)];
    const [, , table = ""] = tables.find(([, title]) => title === caption) ?? [];
    return [...table.matchAll(/<tr>(.*?)<\/tr>/gs)].map(([, row = ""]) =>
      [...row.matchAll(/<t[dh][^>]*>(.*?)<\/t[dh]>/gs)].map(([, cell = ""]) =>
        cell.replaceAll("\u00a0", " "),
      ),
    );
  };
  const tableOf = (caption: string) => {
    const rows = rowsOf(report, caption);
    assert.notEqual(rows.length, 0, `there is no table ${caption}`);
    return rows;
  };

  it("has its parts in the order in which a reviewer reads", () => {
    const headings = [...report.matchAll(/<h2>(.*?)<\/h2>/g)].map(([, title]) => title);
    assert.deepEqual(headings, [
      "Summary",
      "Single-line diagram",
      "Schedules, and what is asked for",
      "Figures as used",
      "Items solved",
      "Cases",
      "Bands",
      "What matters",
      "Checks that do not hold",
      "Every check",
      "Working of Bands!B8",
      "Working of Inputs!A1",
      "Pictures",
      "Cautions",
      "What these figures do not say",
      "Citations",
    ]);
  });

  it("says below the bands of the items what each of them means", () => {
    const [, bands = ""] = /<h2>Bands<\/h2>(.*?)<h2>/s.exec(report) ?? [];
    const lines = [...bands.matchAll(/<li>(.*?)<\/li>/gs)].map(([, line = ""]) =>
      line.replaceAll("\u00a0", " "),
    );
    const named = lines.map((line) => line.split(":")[0]);
    assert.deepEqual(
      named.sort(),
      ["bare", "extra-low", "low"].map((name) => `IEC 60364-4-41 ${name}`),
    );
    assert.match(lines.join(" "), /bare: up to 60 V dc dry, 30 V dc wet/);
  });

  it("tells what varies, which of it moves the results, and how far they spread", () => {
    const spread = tableOf("Schedule: Spread");
    assert.deepEqual(spread[0], [
      "Spread",
      "Column",
      "Tolerance",
      "Distribution",
      "Group",
      "Basis",
    ]);
    assert.deepEqual(spread.at(-2)?.slice(0, 4), [
      "Dome and mount drives",
      "Load",
      "20.0%",
      "triangular",
    ]);
    const feed = budget.ranges["Feed"]!;
    const cells = [feed, budget.ranges["Spread"]!].map(({ values }) =>
      values.map((row) => row.map((value) => (value === "" ? null : value))),
    ) as unknown as CellTable[];
    for (const [quantity, result] of [
      ["loss", "loss of the feed"],
      ["lowest margin", "least margin to a window"],
    ] as const) {
      const wanted = (id: string) => {
        const outcome = evaluate(id, [cells[0], quantity, null, cells[1]]);
        assert.ok(outcome.ok);
        // Figures that have a slope only are on the sheet What matters.
        return (outcome.value as CellTable).slice(1).filter((row) => row.at(-1) !== SLOPE_ONLY);
      };
      const named = (rows: readonly (readonly unknown[])[]) => rows.map(([name]) => name);
      const inputs = tableOf(`Inputs, one at a time: ${result}`).slice(1);
      assert.deepEqual(named(inputs), named(wanted("CHAIN_TORNADO")));
      assert.ok(named(inputs).includes("Group weather"));
      const figures = tableOf(`Spread over the tolerances: ${result}`).slice(1);
      for (const [index, [name, value]] of wanted("CHAIN_UNCERTAINTY").entries()) {
        const [shownName, shown] = figures[index]!;
        assert.equal(shownName, name);
        const most = Math.abs(Number(value)) >= 100 ? 0.05 : 0.005;
        assert.ok(Math.abs(Number(shown) - Number(value)) <= most + 1e-9, `${name}: ${shown}`);
      }
    }
  });

  it("names the document on its cover and leaves room to sign", () => {
    assert.deepEqual(tableOf("Document").slice(0, 8), [
      ["Project", "Ridge survey"],
      ["Client", "Valley trust"],
      ["Document number", "RS-104"],
      ["Issue", "B"],
      ["Purpose", "for review"],
      ["Date", "28 November 2026"],
      ["Fingerprint of schedules and requirements", fingerprint(budget)],
      ["State", "Not issued yet"],
    ]);
    assert.deepEqual(tableOf("Signatures").slice(1), [
      ["Author", "A. Author", "", ""],
      ["Checker", "C. Checker", "", ""],
      ["Approver", "", "", ""],
    ]);
  });

  it("says page, document and fingerprint at the foot of every page, whatever the title is", () => {
    const [, style = ""] = /<style>(.*?)<\/style>/s.exec(report) ?? [];
    const print = fingerprint(budget);
    const page = '" · Page " counter(page) " of " counter(pages)';
    assert.ok(style.includes(`content: "Fingerprint ${print}" ${page}`));
    assert.ok(style.includes("RS\\2d 104 · issue B"));
    assert.ok(style.includes("Ridge \\22 top\\22  \\3c \\2f style\\3e  observatory"));
    assert.match(style, /@page across { size: landscape; }/);
  });

  it("counts the checks as their sheet does", () => {
    const rows = rangeRows(budget.ranges["Checks"]!);
    const [head = [], counted = []] = tableOf("Checks");
    const verdicts = head.slice(0, -1);
    assert.deepEqual(verdicts, ["holds", "fails", "not determined", "not asked"]);
    assert.deepEqual(
      counted,
      [...verdicts.map((one) => rows.filter((row) => row.value("Verdict") === one).length), 1].map(
        String,
      ),
    );
    const isAsked = (row: (typeof rows)[number]) => row.value("Verdict") !== "not asked";
    const asked = rows.filter(isAsked);
    assert.equal(tableOf("Sheet Checks, what fails first").length, asked.length + 1);
    const listed = tableOf("Not asked").flatMap(([check, items = ""]) =>
      items.split("; ").map((item) => `${check}: ${item}`),
    );
    assert.deepEqual(
      listed.slice(1).sort(),
      rows
        .filter((row) => !isAsked(row))
        .map((row) => `${textOf(row.value("Check"))}: ${row.item}`)
        .sort(),
    );
  });

  it("gives the power that the cases give, with the case", () => {
    const rows = rangeRows(budget.ranges["Cases"]!).filter(({ item }) => item.startsWith("supply"));
    const most = rows.reduce((one, other) =>
      Number(other.value("Supply W")) > Number(one.value("Supply W")) ? other : one,
    );
    const power = tableOf("Power");
    const line = (label: string) => power.find(([own]) => own === label);
    assert.deepEqual(line("Supply power at the most, W"), [
      "Supply power at the most, W",
      Number(most.value("Supply W")).toFixed(1),
      most.item,
    ]);
    // Peaks as the schedule of loads has them: 1440 + 240 + 96 + 40 W.
    const installed = "Installed, of the loads given in watts, without margin, W";
    assert.deepEqual(line(installed), [installed, "1816.0", "all loads"]);
    // Nominal 960 + 192 + 72 + 32 W, times 1.25.
    const usual = "Loads as usual, with their margin, W";
    assert.deepEqual(line(usual), [usual, "1570.0", "supply nominal, loads nominal"]);
  });

  it("gives what is left of the supply's rating, where its loading is worst", () => {
    const spare = tableOf("Power").find(([label]) => label === "Spare of Valley bus, of 8 A");
    const loading = rangeRows(budget.ranges["Checks"]!).find(
      (row) => row.item === "Valley bus" && row.value("Check") === "Loading",
    );
    assert.deepEqual(spare?.slice(1), [
      `${(100 - 100 * Number(loading?.value("Found"))).toFixed(1)}%`,
      textOf(loading?.value("Worst in")),
    ]);
  });

  it("gives the worst of each check with its item and case, as the sheet shows it", () => {
    const drops = rangeRows(budget.ranges["Checks"]!).filter(
      (row) => row.value("Check") === "Drop",
    );
    const [worst] = drops.sort((a, b) => Number(a.value("Margin")) - Number(b.value("Margin")));
    const margins = tableOf("Worst of each check, in all cases");
    const drop = margins.find(([check]) => check === "Drop");
    assert.deepEqual(drop, [
      "Drop",
      worst!.item,
      "fails",
      `${Number(worst!.value("Found")).toFixed(4)} of 400 V`,
      "at most 0.05",
      formattedNumber(Number(worst!.value("Margin")), MARGIN_FORMAT),
      textOf(worst!.value("Worst in")),
    ]);
  });

  it("adds the losses of all locations up to those of the balance", () => {
    const losses = tableOf("Losses by location, as Budget is solved");
    const together = losses.at(-1);
    const sum = losses.slice(1, -1).reduce((all, [, watts]) => all + Number(watts), 0);
    assert.ok(Math.abs(sum - Number(together?.[1])) < 0.05 * losses.length);
    const balance = rangeRows(budget.ranges["Balance"]!);
    const all = balance.find(({ item }) => item.startsWith("All losses"));
    assert.equal(together?.[1], Number(all?.value("Value")).toFixed(1));
  });

  it("has every typed row of every schedule with its basis, and says where that is not given", () => {
    for (const [block, rows] of Object.entries(ridgeTop.schedules)) {
      const parts = [...report.matchAll(/<caption[^>]*>(Schedule: .*?)<\/caption>/g)].flatMap(
        ([, caption = ""]) =>
          caption === `Schedule: ${block}` || caption.startsWith(`Schedule: ${block}, part`)
            ? [caption]
            : [],
      );
      const last = tableOf(parts.at(-1)!);
      assert.equal(last.length, rows.length + 1, block);
      assert.equal(last[0]?.at(-1), "Basis");
      for (const [index, row] of rows.entries()) {
        const isBare = row[block] === "5 V stage" && block === "Stage";
        assert.equal(last[index + 1]?.at(-1), isBare ? "not given" : row["Basis"]);
      }
    }
  });

  it("lists what is open before what is accepted, each with its reason", () => {
    const open = report.search(/<caption[^>]*>Open: /);
    const accepted = report.search(/<caption[^>]*>Accepted with a reason/);
    assert.ok(open > 0 && open < accepted);
    const rows = tableOf("Accepted with a reason");
    assert.equal(rows.length, 2);
    assert.match(rows[1]!.at(-1)!, /within reach of nobody/);
  });

  it("says of what is not determined, once for all items, what to enter", async () => {
    const own = new HeadlessHost();
    await own.insert(budgetPlan(ownFeed));
    const [found] = (await findBudgets(own)).budgets;
    const told = reportPage(await budgetReport(own, found!, []));
    own.dispose();
    const rows = rowsOf(told, "Open: not determined until a figure is entered");
    const line = (check: string) => rows.find(([first]) => first === check);
    assert.deepEqual(line("Lowest ambient"), [
      "Lowest ambient",
      "Bus units; 24 V stage; 5 V stage",
      "enter Lowest (°C)",
    ]);
    assert.match(
      line("Asked for")?.[2] ?? "",
      /^enter a value, or &quot;not asked&quot;$|^enter a value, or "not asked"$/,
    );
    const checks = rangeRows(found!.ranges["Checks"]!);
    const shown = rowsOf(told, "Sheet Checks, what fails first").slice(1);
    const listed = [
      ...rowsOf(told, "Not determined, and no figure found: what to enter stands above").slice(1),
      ...rowsOf(told, "Not asked").slice(1),
    ].flatMap(([, items = ""]) => items.split("; "));
    assert.equal(shown.length + listed.length, checks.length);
  });

  it("breaks no number: every one stands in a cell that does not wrap", () => {
    const cells = [...report.matchAll(/<td>([^<]*)<\/td>/g)].map(([, cell = ""]) => cell);
    assert.ok(cells.length > 500);
    assert.deepEqual(
      cells.filter((cell) => /^[-−]?[\d.,]+(E[-+]\d+)?%?$/.test(cell)),
      [],
    );
    assert.match(report, /\.number {[^}]*white-space: nowrap/);
    assert.doesNotMatch(report, /overflow-wrap|word-break/);
  });

  it("shows the working of a spilled row for its item, and says where a cell has none", () => {
    const [, working = ""] = /<h2>Working of Bands!B8<\/h2>(.*?)<h2>/s.exec(report) ?? [];
    const captions = [...working.matchAll(/<caption[^>]*>(.*?)<\/caption>/g)].map(
      ([, title]) => title,
    );
    assert.deepEqual(captions, [
      "Summit stage",
      "Summit stage, margin in service",
      "Summit stage, margin after one fault",
    ]);
    // The stage's own notes only: 35 V for the peaks is a note of the items behind it.
    assert.doesNotMatch(working, /24 V cable/);
    assert.match(report, /Working of Inputs!A1<\/h2>\s*<p>The cell calls no function of Downfeed/);
  });

  it("gives the standing of a source in the appendix alone, and a number for each source", () => {
    const [before = "", appendix = ""] = report.split("<h2>Citations</h2>");
    const judged = before.slice(before.indexOf("<h2>Every check</h2>"));
    assert.doesNotMatch(judged, /\((seen second-hand|from memory)/);
    const numbers = [...judged.matchAll(/\[(\d+)\]/g)].map(([, number]) => Number(number));
    const sources = appendix.match(/<td class="number">\[\d+\]<\/td>/g) ?? [];
    assert.ok(numbers.length > 10);
    assert.ok(Math.max(...numbers) <= sources.length);
    assert.match(appendix, /<td>from memory<\/td>/);
  });
});
