/** The report on a sheet that is made to be printed: all of the page, on pages that hold it. */
import assert from "node:assert/strict";
import { beforeAll, describe, it } from "vitest";
import { cellPlace, rangePlace } from "../../../src/plans/addresses.js";
import { planFaults } from "../../../src/plans/plan-faults.js";
import { rowHeights } from "../../../src/plans/row-heights.js";
import type { SheetPlan, WorkbookPlan } from "../../../src/plans/sheet-plan.js";
import { budgetPlan } from "../../../taskpane/budgets/budget-plan.js";
import { ridgeTop } from "../../../taskpane/budgets/samples/ridge-top.js";
import type { Report } from "../../../taskpane/report/content/blocks.js";
import { budgetReport } from "../../../taskpane/report/content/report.js";
import { reportPlan } from "../../../taskpane/report/sheet/report-sheet.js";
import { findBudgets } from "../../../taskpane/workbook/found-budgets.js";
import { HeadlessHost } from "../../helpers/headless-host.js";

/** Inside margins of half an inch at the sides: A4 (ISO 216) and Letter (ANSI A), both across, in pixels of 1/96 inch. */
const PAPERS = [
  { name: "A4", width: ((297 - 25.4) * 96) / 25.4, height: ((210 - 33.2) * 96) / 25.4 },
  { name: "Letter", width: ((279.4 - 25.4) * 96) / 25.4, height: ((215.9 - 33.2) * 96) / 25.4 },
] as const;

/** What a spreadsheet gives a row that it is told nothing of, in pixels. */
const USUAL_ROW = 20;

describe("the report on a sheet", () => {
  let report: Report;
  let plan: WorkbookPlan;
  let sheet: SheetPlan;
  beforeAll(async () => {
    const host = new HeadlessHost();
    await host.insert(budgetPlan(ridgeTop));
    const [budget] = (await findBudgets(host)).budgets;
    report = await budgetReport(host, budget!, [{ sheet: "Budget", address: "B21" }]);
    host.dispose();
    plan = reportPlan(report);
    [sheet] = plan.sheets as [SheetPlan];
  });

  const textAt = (at: string) => String(sheet.cells.find((cell) => cell.at === at)?.value ?? "");
  /** First row and the row behind the last of every page, from 0. */
  const pages = () => {
    const last = Math.max(...sheet.cells.map(({ at }) => cellPlace(at).row));
    const starts = [0, ...(sheet.print?.breaks ?? [])];
    return starts.map((start, index) => [start, starts[index + 1] ?? last + 1] as const);
  };

  it("is a plan that every host can write", () => {
    assert.deepEqual(planFaults(plan), []);
    const covered = sheet.merges.flatMap((range) => {
      const { top, left, bottom, right } = rangePlace(range);
      assert.equal(top, bottom, range);
      return Array.from({ length: right - left + 1 }, (_, index) => `${top} ${left + index}`);
    });
    assert.equal(new Set(covered).size, covered.length, "ranges that are merged lie apart");
  });

  it("says all that the page says, and figures as figures", () => {
    const cells = new Map<string, number>();
    for (const { value } of sheet.cells)
      if (value !== undefined) {
        const key = String(value).trim();
        cells.set(key, (cells.get(key) ?? 0) + 1);
      }
    const missing: string[] = [];
    for (const { blocks } of report.sections)
      for (const block of blocks) {
        if (block.kind === "list")
          missing.push(...block.items.filter((item) => !cells.has(`– ${item}`)));
        else if (block.kind === "table")
          for (const row of block.rows)
            for (const { text, figure } of row) {
              const key = String(figure?.value ?? text).trim();
              if (key !== "" && !cells.has(key)) missing.push(key);
            }
        else if (block.kind !== "picture" && !cells.has(block.text)) missing.push(block.text);
      }
    assert.deepEqual(missing, []);
    const figures = sheet.cells.filter(({ value }) => typeof value === "number");
    assert.ok(figures.length > 300, `${figures.length} figures`);
    assert.ok(figures.every(({ format }) => format !== undefined));
  });

  it.for(PAPERS)("fits pages of $name", ({ width, height }) => {
    const scale = (sheet.print?.scale ?? 100) / 100;
    const across = sheet.columnWidths.reduce((sum, one) => sum + one, 0);
    assert.ok(across * scale <= width, `${across * scale} of ${width}`);
    const heights = rowHeights(sheet);
    for (const [from, to] of pages()) {
      let used = 0;
      for (let row = from; row < to; row += 1) used += heights.get(row) ?? USUAL_ROW;
      assert.ok(used * scale <= height, `rows ${from + 1} to ${to}: ${used * scale} of ${height}`);
    }
  });

  it("ends no page with a heading, and begins every page of a table with its headings", () => {
    for (const [from, to] of pages()) {
      const last = sheet.cells.filter(({ at }) => cellPlace(at).row === to - 1);
      assert.ok(
        last.every(({ style }) => style !== "heading" && style !== "caption"),
        `row ${to}`,
      );
      const first = textAt(`A${from + 1}`);
      if (first.endsWith(", continued")) {
        const next = sheet.cells.filter(({ at }) => cellPlace(at).row === from + 1);
        assert.ok(next.length > 0 && next.every(({ style }) => style === "tableHeading"), first);
      }
    }
  });

  it("keeps every picture on one page", () => {
    const heights = rowHeights(sheet);
    assert.ok(sheet.pictures.length >= 4);
    for (const { at, size } of sheet.pictures) {
      const { row } = cellPlace(at);
      const [, end] = pages().find(([from, to]) => row >= from && row < to)!;
      let room = 0;
      for (let each = row; each < end; each += 1) room += heights.get(each) ?? USUAL_ROW;
      assert.ok(room >= size[1], `${at}: ${room} of ${size[1]}`);
    }
  });
});
