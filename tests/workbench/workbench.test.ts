import assert from "node:assert/strict";
import { mkdirSync } from "node:fs";
import axe, { type AxeResults } from "axe-core";
import type { Page } from "playwright-core";
import { describe, it } from "vitest";
import { budgets } from "../../taskpane/budgets/budgets.js";
import { axeFaults } from "../helpers/axe-faults.js";
import { settledPage } from "../helpers/workbench-page.js";
import { workbenchSitting } from "../helpers/workbench-sitting.js";
import { assertInBox, goToCell, sheetTab, typeInto } from "../helpers/workbench-sheet.js";

const [opening] = budgets;
assert.ok(opening);

/** The route length in the schedules of the opening budget, which the whole budget hangs on. */
const LENGTH_METRES = 350;
const [inputs] = opening.sheets;
const feed = opening.sheets.find(({ key }) => key === "feed");
const lengthCell = feed?.cells.find(
  ({ style, value }) => style === "input" && value === LENGTH_METRES,
)?.at;
assert.ok(inputs && feed);
assert.ok(lengthCell, "the opening budget has its length on Feed");

const sitting = workbenchSitting();

/** With the schedules of the feed in sight; what was typed into it before is of no account. */
async function openFeed(): Promise<Page> {
  const page = await sitting.goOn();
  await sheetTab(page, feed!.name).click();
  return page;
}

/** The whole solved table, as it is read out. */
function solvedText(page: Page): Promise<string> {
  return page.locator("#results table").first().innerText();
}

async function waitForOther(page: Page, before: string): Promise<string> {
  await page.waitForFunction(
    (old) => document.querySelector<HTMLElement>("#results table")?.innerText !== old,
    before,
  );
  return solvedText(page);
}

function focusedRegion(page: Page): Promise<string> {
  return page.evaluate(
    () =>
      ["sheet", "pane"].find((id) =>
        document.getElementById(id)?.contains(document.activeElement),
      ) ?? "neither",
  );
}

async function pressF6(page: Page, expected: "sheet" | "pane"): Promise<void> {
  await page.keyboard.press(expected === "pane" ? "F6" : "Shift+F6");
  await page.waitForFunction(
    (id) => document.getElementById(id)?.contains(document.activeElement) === true,
    expected,
  );
}

describe("the workbench page", () => {
  it("opens from a folder, calculated, and asks for nothing from elsewhere", async () => {
    const page = await sitting.open();
    const table = page.locator("#results table").first();
    await table.waitFor({ state: "attached" });
    assert.match(await table.innerText(), /Item/);
    assert.ok(!/#[A-Z]/.test(await page.locator("#results").innerText()));
    const { foreign, missing } = sitting.heard();
    assert.deepEqual(foreign, []);
    assert.deepEqual(missing, []);
  });

  it("stands under a policy that lets nothing in from elsewhere", async () => {
    const page = await sitting.goOn();
    const policy = await page
      .locator("meta[http-equiv='Content-Security-Policy']")
      .getAttribute("content");
    assert.match(policy ?? "", /^default-src 'none'; script-src 'self';/);
    assert.ok(!/https?:|'unsafe-eval'|\*/.test(policy ?? ""), policy ?? "");
  });

  it("keeps nothing in the browser before the first change", async () => {
    const { page } = await sitting.openCold({}, { firstVisit: true });
    const kept = await page.evaluate(async () => [
      document.cookie,
      localStorage.length,
      sessionStorage.length,
      (await indexedDB.databases()).length,
    ]);
    assert.deepEqual(kept, ["", 0, 0, 0]);
  });

  it("shows the first steps at the first visit only, and again when asked", async () => {
    const { page } = await sitting.openCold({}, { firstVisit: true });
    const steps = page.getByRole("region", { name: "First steps" });
    await steps.getByText(/^Downfeed sends nothing from this computer/).waitFor();
    mkdirSync(".cache/pictures", { recursive: true });
    await page.screenshot({ path: ".cache/pictures/first-steps.png" });
    assert.deepEqual(await axeFaults(page, ".feed-pane"), []);
    await steps.getByRole("button", { name: "Show the functions" }).click();
    assert.equal(await steps.count(), 0);
    await page.getByRole("searchbox", { name: "Search the functions" }).focus();
    await page.reload();
    await settledPage(page);
    assert.equal(await steps.count(), 0);
    const opener = page.getByRole("button", { name: "First steps" });
    assert.equal(await opener.getAttribute("aria-expanded"), "false");
    await opener.click();
    await steps.getByText(/^“Ridge-top observatory” is open/).waitFor();
    assert.equal(await steps.getByRole("button", { name: /^Insert/ }).count(), 0);
    await steps.getByRole("button", { name: "New feed" }).click();
    const form = page.getByRole("form", { name: "New feed" });
    await form.getByLabel("Name of the feed").fill("Pier lamps");
    await form.getByLabel(/nominal/).fill("400");
    await form.getByRole("button", { name: "Create its sheets" }).click();
    await page.getByText(/^The feed is on the sheets Inputs 2, Feed 2/).waitFor();
    await page.getByRole("treeitem", { name: /^Supply/ }).waitFor();
    assert.equal(await steps.count(), 0);
  }, 60_000);

  it("starts with the opening budget, which is no undo step", async () => {
    const page = await sitting.goOn();
    await pressF6(page, "pane");
    await pressF6(page, "sheet");
    await page.keyboard.press("Control+z");
    // A key that is pressed later is heard later.
    await goToCell(page, "A2");
    for (const { name } of opening.sheets)
      assert.equal(await sheetTab(page, name).count(), 1, name);
  });

  it("recalculates on an edit and takes it back on undo", async () => {
    const page = await openFeed();
    const before = await solvedText(page);
    await typeInto(page, lengthCell, "500");
    const after = await waitForOther(page, before);
    assert.notEqual(after, before);
    await page.keyboard.press("Control+z");
    assert.equal(await waitForOther(page, after), before);
  });

  it("goes on calculating after a function was refused", async () => {
    const page = await openFeed();
    const before = await solvedText(page);
    for (const [row, formula] of [
      "=FEED.CONDUCTOR_DROP(1)",
      '=FEED.CHAIN_SOLVE("nothing")',
      "=FEED.NO_SUCH_FUNCTION(1)",
      "=FEED.CONDUCTOR_AREA(-4)+1",
    ].entries())
      await typeInto(page, `Z${row + 60}`, formula);
    await typeInto(page, lengthCell, "510");
    assert.notEqual(await waitForOther(page, before), before);
  });

  it("gives the results as tables with captions and header cells", async () => {
    const page = await sitting.goOn();
    const tables = page.locator("#results table");
    await tables.first().waitFor({ state: "attached" });
    for (const table of await tables.all()) {
      assert.equal(await table.locator("caption").count(), 1);
      const columns = await table.locator("thead th[scope=col]").count();
      assert.ok(columns > 1);
      const rows = await table.locator("tbody tr").count();
      assert.equal(await table.locator("tbody th[scope=row]").count(), rows);
      assert.equal(await table.locator("tbody td").count(), rows * (columns - 1));
    }
  });

  it("writes no budget out to compare it where only the selection moves", async () => {
    const page = await openFeed();
    await page
      .locator("#bar .workbench-kept")
      .filter({ hasText: "Kept in this browser" })
      .waitFor();
    await goToCell(page, "A5");
    await page.evaluate(() => {
      const { stringify } = JSON;
      const long = { count: 0, end: () => (JSON.stringify = stringify) };
      JSON.stringify = ((...given: Parameters<typeof stringify>) => {
        const text = stringify(...given);
        if (text?.length > 2_000) long.count += 1;
        return text;
      }) as typeof stringify;
      Object.assign(window, { long });
    });
    for (const at of ["A6", "A7", "A8"]) {
      await page.keyboard.press("ArrowDown");
      await assertInBox(page, at);
    }
    const count = await page.evaluate(() => {
      const { long } = window as unknown as { long: { count: number; end(): void } };
      long.end();
      return long.count;
    });
    assert.equal(count, 0);
  });

  it("takes an insertion back in one undo, and lets it be made again", async () => {
    const page = await sitting.goOn();
    const again = `${inputs.name} 2`;
    const tab = sheetTab(page, again);
    await page.getByRole("tab", { name: "Insert" }).click();
    const insert = page.getByRole("button", { name: "Insert the budget" });
    await insert.click();
    await tab.waitFor();
    // The new sheets are calculated before they are taken away: half-done work must not come back.
    await page.getByRole("tabpanel", { name: "Insert" }).getByText(again).last().waitFor();
    await goToCell(page, "B2");
    await page.keyboard.press("Control+z");
    await tab.waitFor({ state: "detached" });
    await insert.click();
    await tab.waitFor();
  });
});

describe("F6", () => {
  it("goes to the pane and back to the same cell", async () => {
    const page = await sitting.open();
    await sheetTab(page, feed.name).click();
    await goToCell(page, lengthCell);
    await pressF6(page, "pane");
    await pressF6(page, "sheet");
    await assertInBox(page, lengthCell);
    await page.keyboard.press("ArrowDown");
    await page.keyboard.press("ArrowUp");
    await assertInBox(page, lengthCell);
  });

  it("takes what is being typed, and comes back to the same cell", async () => {
    const page = await openFeed();
    const before = await solvedText(page);
    await goToCell(page, lengthCell);
    await page.keyboard.type("480");
    await pressF6(page, "pane");
    assert.notEqual(await waitForOther(page, before), before);
    await assertInBox(page, lengthCell);
    await pressF6(page, "sheet");
    assert.equal(await focusedRegion(page), "sheet");
    await assertInBox(page, lengthCell);
  });

  it("returns to where the pane was left", async () => {
    const page = await sitting.goOn();
    await pressF6(page, "pane");
    await page.keyboard.press("Tab");
    const left = await page.evaluate(() => document.activeElement?.outerHTML);
    await pressF6(page, "sheet");
    await pressF6(page, "pane");
    assert.equal(await page.evaluate(() => document.activeElement?.outerHTML), left);
  });
});

describe("a review in the page", () => {
  const warningsTab = (page: Page) => page.getByRole("tab", { name: /^Warnings/ });

  it("sees the warnings change with the cable's length", async () => {
    const page = await sitting.open();
    await sheetTab(page, feed.name).click();
    await warningsTab(page).click();
    const collapse = page.getByRole("tabpanel").getByText("Headroom to collapse").first();
    assert.equal(await collapse.count(), 0);
    const before = await warningsTab(page).innerText();
    await typeInto(page, lengthCell, "700");
    await page.waitForFunction(
      (old) =>
        [...document.querySelectorAll<HTMLElement>('[role="tab"]')].some(
          ({ innerText }) => innerText.startsWith("Warnings") && innerText !== old,
        ),
      before,
    );
    await collapse.waitFor();
    await page.keyboard.press("Control+z");
    await page.getByRole("tab", { name: before.replace(/\s+/g, " ") }).waitFor();
  });

  it("goes by keyboard alone from the grid to a warning's cell", async () => {
    const page = await openFeed();
    await page.locator("#pane").getByRole("tab", { name: "Feed" }).click();
    await goToCell(page, lengthCell);
    await pressF6(page, "pane");
    const focusIs = (test: string) =>
      page.evaluate((wanted) => document.activeElement?.matches(wanted) === true, test);
    for (let tabs = 0; tabs < 5 && !(await focusIs('[role="tab"]')); tabs++)
      await page.keyboard.press("Tab");
    assert.ok(await focusIs('[role="tab"]'), "the tabs can be reached");
    // Feed, Insert, Warnings.
    await page.keyboard.press("ArrowRight");
    await page.keyboard.press("ArrowRight");
    const first = page.getByRole("button", { name: /^Go to Types!/ }).first();
    await first.waitFor();
    const wanted = /Types!([A-Z]+[0-9]+)/.exec(await first.innerText())?.[1];
    assert.ok(wanted);
    for (let tabs = 0; tabs < 6 && !(await focusIs("button")); tabs++)
      await page.keyboard.press("Tab");
    while (!(await first.evaluate((button) => button === document.activeElement)))
      await page.keyboard.press("Tab");
    await page.keyboard.press("Enter");
    await assertInBox(page, wanted);
    assert.equal(await focusedRegion(page), "sheet");
  });

  it.each([
    ["a scalar call", "=FEED.CONDUCTOR_DROP(10,-5,2.5,20)", /length must be above 0, got -5/],
    [
      "a nested call",
      "=1+FEED.RATIO_OUTPUT(FEED.CONDUCTOR_DROP(10,50,2.5,-300),1/8)",
      /temperature must be above -273\.15.*got -300/,
    ],
  ])("says why %s is refused", async (_, formula, message) => {
    const page = await sitting.goOn();
    await page.getByRole("tab", { name: "Notes", exact: true }).click();
    await typeInto(page, "H40", formula);
    await goToCell(page, "H40");
    await page.locator(".feed-answer").getByText(message).waitFor();
  });

  it.each(["light", "dark"] as const)(
    "has no serious fault that axe finds in the pane, %s",
    async (colorScheme) => {
      const page = await sitting.goOn({ colorScheme });
      for (const name of [/^Warnings/, /^Insert/]) {
        await page.getByRole("tab", { name }).first().click();
        await page.evaluate(axe.source);
        const { violations } = await page.evaluate(() =>
          (
            window as unknown as {
              axe: { run(at: string): Promise<AxeResults> };
            }
          ).axe.run("#pane"),
        );
        const serious = violations
          .filter(({ impact }) => impact === "serious" || impact === "critical")
          .map(({ id, nodes }) => [id, nodes.map(({ html }) => html)]);
        assert.deepEqual(serious, []);
      }
    },
  );
});

describe("at the width of a phone held sideways", () => {
  it("shows sheet and pane below each other without sideways scroll", async () => {
    const page = await sitting.goOn({ viewport: { width: 700, height: 900 } });
    const boxes = await Promise.all(
      ["#sheet", "#pane"].map((id) => page.locator(id).boundingBox()),
    );
    const [sheet, pane] = boxes;
    assert.ok(sheet && pane);
    assert.ok(sheet.y + sheet.height <= pane.y + 1);
    assert.ok(sheet.width <= 700 && pane.width <= 700);
    const wide = await page.evaluate(
      () => document.documentElement.scrollWidth > window.innerWidth,
    );
    assert.equal(wide, false);
  });
});
