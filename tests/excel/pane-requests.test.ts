/** What the pane asks of Excel for each thing that its user does: on the web every request is a way to a server and back. */
import assert from "node:assert/strict";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, it } from "vitest";
import { words } from "../../taskpane/words/words.js";
import { launchChromium } from "../helpers/chromium.js";
import { contractPlan } from "../hosts/contract-plan.js";
import { type ExcelDouble, ExcelRefusal } from "./excel-double.js";
import { bundleExcelPage, openPaneInExcel, type PaneInExcel } from "./pane-in-excel.js";

let browser: Browser;
let files: ReadonlyMap<string, string>;

beforeAll(async () => {
  [browser, files] = await Promise.all([launchChromium(), bundleExcelPage()]);
}, 60_000);

afterAll(() => browser.close());

/** A feed that is known as a budget, a call beside its inputs, and a sheet of the user's own. */
function budgetOpened(excel: ExcelDouble): void {
  excel.addSheet("Inputs");
  excel.addSheet("Budget");
  excel.defineName("Ridge_Feed", "=Budget!$A$10:$F$13");
  excel.defineName("Ridge_Solved", "=Budget!$H$10:$S$13");
  excel.defineName("Ridge_About", "=Inputs!$H$1:$I$1");
  excel.fill("Inputs", "H1", "ridge-top-observatory");
  for (const { key, name, cells } of contractPlan.sheets)
    for (const { at, value, formula } of cells) {
      const written = formula
        ?.replaceAll("{FEED}", "FEED")
        .replaceAll("{Feed}", "Ridge_Feed")
        .replaceAll("{inputs}", "Inputs");
      if (key === "inputs" || key === "budget")
        excel.type(name, at, written === undefined ? (value ?? "") : `=${written}`);
    }
  excel.type("Inputs", "D5", '=FEED.CONDUCTOR_DROP(B3,B2,"4 mm²",40)');
  excel.type("Inputs", "D6", "=B2*2");
  excel.select("Start", "A1");
}

const BUDGET = ["Insert", "Warnings", "Working", "Pictures", "Trade-offs", "Hand over"];

async function opened(
  action: (pane: PaneInExcel) => Promise<void>,
  reception: Parameters<typeof openPaneInExcel>[2] = {},
): Promise<void> {
  const pane = await openPaneInExcel(browser, files, reception, budgetOpened);
  const faults: string[] = [];
  pane.page.on("pageerror", ({ message }) => faults.push(message));
  try {
    await action(pane);
  } finally {
    await pane.page.close();
  }
  assert.deepEqual(faults, []);
}

describe("the pane asks Excel", () => {
  it(
    "once for a move to an empty cell, and once more for the arguments of a call",
    () =>
      opened(async ({ page, excel, requestsOf }) => {
        await page.waitForSelector(".feed-answer-place:not(:empty)");
        const answer = page.getByRole("group", { name: "Selected cell" });
        assert.equal(await requestsOf(() => excel.select("Start", "C7")), 1, "an empty cell");
        assert.equal(await requestsOf(() => excel.select("Inputs", "B2")), 1, "a number");
        assert.equal(await requestsOf(() => excel.select("Inputs", "D6")), 1, "a native formula");
        assert.equal(await requestsOf(() => excel.select("Inputs", "D5")), 2, "a call");
        await answer.getByText("FEED.CONDUCTOR_DROP").waitFor();
        assert.equal(await requestsOf(() => excel.select("Budget", "J12")), 2, "a spilled cell");
        await answer.getByText(/part of FEED\.CHAIN_SOLVE in H10/).waitFor();
        assert.equal(
          await requestsOf(() => excel.select("Budget", "K12")),
          1,
          "the next one of it",
        );
        await answer.getByText("Budget!K12", { exact: true }).waitFor();
      }),
    60_000,
  );

  it(
    "three times at most for an edit of a budget, and once for one on another sheet",
    () =>
      opened(async ({ page, excel, requestsOf }) => {
        await page.waitForSelector(".feed-answer-place:not(:empty)");
        assert.equal(await requestsOf(() => excel.type("Start", "C7", 5)), 1, "an unrelated sheet");
        await requestsOf(() => excel.select("Inputs", "B2"));
        assert.equal(await requestsOf(() => excel.type("Inputs", "B2", 300)), 3, "an input");
        await requestsOf(() => excel.select("Inputs", "D5"));
        assert.equal(await requestsOf(() => excel.type("Inputs", "B2", 350)), 3, "with a call");
        const answer = page.getByRole("group", { name: "Selected cell" });
        // Twice the length of the run, twice its drop.
        await answer.getByText("6.961 V").waitFor();
        assert.equal(await requestsOf(() => excel.type("Inputs", "B2", 700)), 3, "with a call");
        await answer.getByText("13.92 V").waitFor();
        await requestsOf(() => excel.select("Budget", "J12"));
        assert.equal(await requestsOf(() => excel.type("Inputs", "B2", 350)), 3, "with a spill");
        await requestsOf(() => excel.select("Inputs", "B2"));
        // What stands on another sheet counts where the budget reads it.
        await requestsOf(() => excel.type("Inputs", "B3", "=Start!C7"));
        assert.equal(
          await requestsOf(() => excel.type("Start", "C7", 6)),
          3,
          "what an input reads",
        );
      }),
    120_000,
  );

  it(
    "no more for a view that is not shown",
    () =>
      opened(async ({ page, excel, requestsOf }) => {
        await page.waitForSelector(".feed-answer-place:not(:empty)");
        const working = page.getByRole("tabpanel", { name: "Working" });
        for (const name of BUDGET.filter((view) => view !== "Working")) {
          await requestsOf(() => page.getByRole("tab", { name }).click());
          await requestsOf(() => excel.select("Start", "C7"));
          assert.equal(await requestsOf(() => excel.select("Inputs", "D6")), 1, name);
        }
        // The working of a native formula is read when it is asked for, and not a moment sooner.
        assert.ok((await requestsOf(() => page.getByRole("tab", { name: "Working" }).click())) > 0);
        await working.getByText("Inputs!D6 comes from").waitFor();
        assert.equal(await requestsOf(() => excel.select("Inputs", "D5")), 2, "the call's working");
        await working
          .getByText(/CONDUCTOR_DROP/)
          .first()
          .waitFor();
        assert.equal(
          await requestsOf(() => excel.select("Budget", "J12")),
          2,
          "the spill's working",
        );
      }),
    120_000,
  );

  it(
    "for all sheets of a budget at once where its pictures are opened, and for what their formulas refer to",
    () =>
      opened(async ({ page, excel, requestsOf }) => {
        await page.waitForSelector(".feed-answer-place:not(:empty)");
        await requestsOf(() => excel.select("Start", "C7"));
        const asked = await requestsOf(() => page.getByRole("tab", { name: "Pictures" }).click());
        await page.getByRole("button", { name: words.pictures.place }).first().waitFor();
        assert.equal(asked, 3);
      }),
    60_000,
  );

  it(
    "to draw a picture on a sheet of its own, where its cell came to lie",
    () =>
      opened(async ({ page, excel, requestsOf }) => {
        await requestsOf(() => page.getByRole("tab", { name: "Pictures" }).click());
        const place = page.getByRole("button", { name: words.pictures.place }).first();
        await requestsOf(() => place.click());
        const [shape, ...others] = excel.shapes("Picture");
        assert.ok(shape);
        assert.equal(others.length, 0);
        // PNG specification (W3C), section 11.2.2: width and height stand first in the header chunk.
        const png = Buffer.from(String(shape["png"]), "base64");
        assert.equal(png.toString("latin1", 1, 4), "PNG");
        // Two dots to a pixel of 0.75 points.
        assert.equal(shape["Width"], (png.readUInt32BE(16) / 2) * 0.75);
        assert.equal(shape["Height"], (png.readUInt32BE(20) / 2) * 0.75);
        assert.equal(shape["LockAspectRatio"], false);
        assert.equal(shape["Left"], 0);
        assert.ok(Number(shape["Top"]) > 0);
        const title = await page.locator(".feed-picture-title").first().textContent();
        const finding = await page.locator("figcaption").first().textContent();
        assert.equal(shape["AltTextDescription"], `${title}. ${finding}`);
      }),
    60_000,
  );

  it(
    "again once an edit of a cell is over, and fails at nothing meanwhile",
    () =>
      opened(async ({ page, excel, requestsOf }) => {
        await page.waitForSelector(".feed-answer-place:not(:empty)");
        const answer = page.getByRole("group", { name: "Selected cell" });
        await requestsOf(() => excel.select("Inputs", "D5"));
        await answer.getByText("6.961 V").waitFor();
        excel.beforeAction = () => {
          throw new ExcelRefusal("InvalidOperationInCellEditMode", "a cell is being edited");
        };
        // Twice the length of the run, twice its drop; the user types into the next cell at once.
        excel.type("Inputs", "B2", 700);
        await page.waitForTimeout(1_500);
        assert.equal(await page.locator(".feed-failure:not(:empty)").count(), 0);
        excel.beforeAction = () => undefined;
        await answer.getByText("13.92 V").waitFor();
      }),
    60_000,
  );

  it(
    "nothing while it is closed, and what is due once when it is opened again",
    () =>
      opened(async ({ page, excel, requestsOf, show }) => {
        await page.waitForSelector(".feed-answer-place:not(:empty)");
        await show(false);
        const unseen = await requestsOf(async () => {
          excel.type("Inputs", "B2", 250);
          excel.select("Inputs", "D5");
          await page.waitForTimeout(500);
          excel.type("Start", "C7", 1);
        });
        assert.equal(unseen, 0);
        assert.equal(await requestsOf(() => show(true)), 4);
        await page.getByText("Inputs!D5", { exact: true }).waitFor();
        assert.equal(await requestsOf(() => show(true)), 0);
      }),
    60_000,
  );

  it(
    "nothing before it is seen, where it starts with the workbook",
    () =>
      opened(
        async ({ page, excel, requestsOf, show }) => {
          assert.equal(await requestsOf(() => excel.type("Inputs", "B2", 250)), 0);
          assert.equal(excel.requests.length, 0);
          await show(true);
          await page.waitForSelector(".feed-answer-place:not(:empty)");
          assert.equal(await requestsOf(() => excel.select("Start", "C7")), 1);
        },
        { reception: { startsHidden: true } },
      ),
    60_000,
  );
});
