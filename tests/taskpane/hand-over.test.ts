/** The view Hand over, by keyboard: a document is issued, changed, issued again, and taken back. */
import assert from "node:assert/strict";
import axe from "axe-core";
import type { AxeResults } from "axe-core";
import type { Browser, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, describe, it } from "vitest";
import { budgetPlan } from "../../taskpane/budgets/budget-plan.js";
import { blank } from "../../taskpane/budgets/samples/blank.js";
import type { WorkbookPlan } from "../../src/plans/sheet-plan.js";
import { launchChromium } from "../helpers/chromium.js";
import { bundlePane, openPane, type PaneBundle, panePage, type PanePage } from "./open-pane.js";
import "./pane-page-window.js";

const PLAN = budgetPlan({
  ...blank,
  document: { title: "Quay lights", author: "A. Author" },
  schedules: { Supply: [{ Supply: "Quay supply", Voltage: 48 }] },
});

describe("the view Hand over", () => {
  let browser: Browser;
  let bundle: PaneBundle;
  let opened: PanePage;
  let page: Page;
  beforeAll(async () => {
    [browser, bundle] = await Promise.all([launchChromium(), bundlePane()]);
    page = await panePage(browser);
  });
  afterAll(() => browser.close());
  beforeEach(async () => {
    opened = await openPane(page, bundle);
    await page.evaluate(async (plan: WorkbookPlan) => {
      await window.paneTest.host.insert(plan);
    }, PLAN);
    await page.getByRole("tab", { name: "Hand over" }).click();
    await panel()
      .getByRole("heading", { name: /Quay lights/ })
      .waitFor();
  });
  afterEach(() => assert.deepEqual(opened.complaints, []));

  const panel = () => page.getByRole("tabpanel", { name: "Hand over" });
  const opener = () => panel().getByRole("button", { name: "Issue this document" });
  const form = () => panel().getByRole("form", { name: "Issue of Quay lights" });
  const field = (name: string) => form().getByLabel(name, { exact: true });
  const says = (text: RegExp) => panel().getByText(text).waitFor();
  const focused = () => page.evaluate(() => document.activeElement?.textContent?.trim());
  /** Beside the label in column A of Inputs. */
  const onInputs = (label: string) =>
    page.evaluate(async (wanted) => {
      const { host } = window.paneTest;
      const [content] = await host.read([await host.used("Inputs")]);
      return content?.values.find(([first]) => first === wanted)?.[1];
    }, label);
  const issueFirst = async () => {
    await opener().press("Enter");
    await field("Purpose").fill("for review");
    await page.keyboard.press("Enter");
    await says(/Issue A is in the table on sheet Issues/);
  };

  it("issues the document: on Inputs, in the table, and says how the feed stands to it", async () => {
    await says(/^Not issued yet\.$/);
    await opener().press("Enter");
    assert.equal(await field("Issue").inputValue(), "A");
    assert.equal(await field("Author").inputValue(), "A. Author");
    assert.equal(await field("What changed, in short").inputValue(), "first issue");
    await page.keyboard.press("Escape");
    assert.equal(await focused(), "Issue this document");
    await issueFirst();
    assert.equal(await focused(), "Issue this document");
    await says(/^As issue A of \d{4}-\d\d-\d\d: the schedules have not changed/);
    assert.equal(await onInputs("Issue"), "A");
    assert.equal(await onInputs("Purpose"), "for review");
    assert.match(String(await onInputs("Fingerprint as issued")), /^[0-9A-F]{8}$/);
  });

  it("opens the report in a page of its own, and saves it under the document's title", async () => {
    await panel().getByRole("button", { name: "Report" }).click();
    const open = panel().getByRole("link", { name: "Open the report" });
    await open.waitFor();
    assert.equal(await open.getAttribute("download"), null);
    assert.equal(await open.getAttribute("target"), "_blank");
    const save = panel().getByRole("link", { name: "Save it as a file" });
    assert.equal(await save.getAttribute("download"), "Quay lights report.html");
  });

  describe("when this workbook opens", () => {
    const opening = () => panel().getByText("When this workbook opens");
    const box = () => panel().getByRole("checkbox", { name: "Load Downfeed with this workbook" });
    const isLoaded = () => page.evaluate(() => window.paneTest.host.loading?.read());

    it("Downfeed is loaded or not as the switch says, which is read when it is looked at", async () => {
      await page.evaluate(() => window.paneTest.host.loading?.set(true));
      await opening().press("Enter");
      await box().waitFor();
      assert.equal(await box().isChecked(), true);
      await box().press("Space");
      await page.waitForFunction(async () => !(await window.paneTest.host.loading?.read()));
      assert.equal(await box().isChecked(), false);
      await opening().press("Enter");
      await page.evaluate(() => window.paneTest.host.loading?.set(true));
      await opening().press("Enter");
      await panel().getByRole("checkbox", { checked: true }).waitFor();
    });

    it("the switch stays as the workbook is where that cannot be changed, and the pane says why", async () => {
      await page.evaluate(() => {
        window.paneTest.host.loading!.set = async () => {
          throw new Error("this workbook is read-only");
        };
      });
      await opening().press("Enter");
      await box().press("Space");
      await page.getByText(/this workbook is read-only/).waitFor();
      assert.equal(await box().isChecked(), false);
      assert.equal(await isLoaded(), false);
    });

    it("has no switch in a host that always has the functions", async () => {
      await opening().waitFor();
      await page.evaluate(async (plan: WorkbookPlan) => {
        const { host } = window.paneTest;
        host.loading = undefined;
        await host.insert(plan);
      }, PLAN);
      await opening().waitFor({ state: "detached" });
    });
  });

  it("takes an issue back in one step", async () => {
    await issueFirst();
    await page.evaluate(() => window.paneTest.host.undo());
    await says(/^Not issued yet\.$/);
    assert.equal(await onInputs("Issue"), "");
    assert.equal(await onInputs("Fingerprint as issued"), "");
  });

  it("tells what changed since, proposes the next issue, and keeps what is typed when a name is taken", async () => {
    await issueFirst();
    await page.evaluate(async () => {
      const { host } = window.paneTest;
      const { range } = (await host.names()).find(({ name }) => name.endsWith("_Supplies"))!;
      const [content] = await host.read([range]);
      const column = content!.values[0]!.findIndex((text) => String(text).startsWith("Voltage"));
      const letter = String.fromCharCode(65 + column);
      const row = Number(/\d+/.exec(range.address)![0]) + 1;
      const cell = { sheet: range.sheet, address: `${letter}${row}` };
      await host.write(cell, [[60]], { overwrite: true });
    });
    await says(/^Changed since issue A/);
    await opener().press("Enter");
    const change = "Quay supply: Voltage (V) 48 → 60";
    await form().getByRole("listitem").filter({ hasText: change }).waitFor();
    assert.equal(await field("Issue").inputValue(), "B");
    assert.equal(await field("What changed, in short").inputValue(), change);
    await field("Issue").fill("a");
    await field("Checker").fill("C. Checker");
    await page.keyboard.press("Enter");
    await form().getByText("there is an issue a in the table already").waitFor();
    assert.equal(await field("Checker").inputValue(), "C. Checker");
    await page.evaluate(axe.source);
    const { violations } = await page.evaluate<AxeResults>(
      'axe.run(".feed-pane", { resultTypes: ["violations"] })',
    );
    assert.deepEqual(
      violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html ?? ""}`),
      [],
    );
    await field("Issue").fill("B");
    await page.keyboard.press("Enter");
    await says(/Issue B is in the table on sheet Issues/);
    await says(/^As issue B of/);
  });
});
