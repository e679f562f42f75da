import assert from "node:assert/strict";
import { mkdirSync, readFileSync } from "node:fs";
import type { Locator, Page } from "playwright-core";
import { describe, it } from "vitest";
import { SOLVED_ROW } from "../../taskpane/budgets/places.js";
import { budgets } from "../../taskpane/budgets/budgets.js";
import type { WorkbookPlan } from "../../src/plans/sheet-plan.js";
import { axeFaults } from "../helpers/axe-faults.js";
import { settledPage } from "../helpers/workbench-page.js";
import { workbenchSitting } from "../helpers/workbench-sitting.js";
import { savedWorkbook, typeInto } from "../helpers/workbench-sheet.js";

const sitting = workbenchSitting();
mkdirSync(".cache/pictures", { recursive: true });

/** The sheet beside the pane: as narrow as can be, to be drawn fast, or to be looked at. */
const NARROW = { width: 450, height: 2600 };
const WIDE = { width: 860, height: 1000 };

const [first, ...others] = budgets.filter(({ id }) => id !== "blank-budget");
assert.ok(first);
const worked = [first, ...others];

/** What the test before left beside the first budget in the page, where nothing else was changed there. */
let left: readonly WorkbookPlan[] | undefined;

/** The workbench with the first budget and others in it, and a pane of that width. */
async function openPictures(
  paneWidth: number,
  colorScheme: "light" | "dark",
  beside: readonly WorkbookPlan[] = others,
  sheet = NARROW,
): Promise<{ page: Page; panel: Locator }> {
  const look = { colorScheme, viewport: { ...sheet, width: paneWidth + sheet.width } };
  const resumed = left?.every((plan) => beside.includes(plan)) && (await sitting.resume(look));
  const there = resumed ? left : [];
  left = undefined;
  const page = resumed || (await sitting.open(look));
  await sitting.style(page, `.workbench { --workbench-pane-width: ${paneWidth}px !important }`);
  for (const { title } of beside.filter((plan) => !there?.includes(plan))) {
    await page.getByRole("tab", { name: "Insert" }).click();
    await page.getByRole("radio", { name: title }).check();
    await page.getByRole("button", { name: "Insert the budget" }).click();
    await page.getByText(`Inserted “${title}” on`).waitFor();
  }
  await settledPage(page);
  await page.getByRole("tab", { name: "Pictures" }).click();
  const panel = page.getByRole("tabpanel", { name: "Pictures" });
  await panel.getByRole("img").first().waitFor();
  return { page, panel };
}

async function chooseBudget(panel: Locator, stem: string): Promise<void> {
  const chooser = panel.getByLabel("Budget", { exact: true });
  if ((await chooser.inputValue()) === stem) return;
  const before = await panel.getByRole("img").first().getAttribute("aria-label");
  await chooser.selectOption(stem);
  await panel
    .getByRole("img")
    .first()
    .and(panel.locator(`:not([aria-label=${JSON.stringify(before)}])`))
    .waitFor();
}

/** Texts that lie over each other or reach out of their drawing, in words. */
function textFaults(panel: Locator): Promise<string[]> {
  return panel.evaluate((view) => {
    const faults: string[] = [];
    for (const svg of view.querySelectorAll("svg")) {
      const frame = svg.getBoundingClientRect();
      const texts = [...svg.querySelectorAll("text")].map((text) => ({
        said: text.textContent,
        box: text.getBoundingClientRect(),
      }));
      texts.forEach(({ said, box }, index) => {
        if (
          box.left < frame.left - 1 ||
          box.right > frame.right + 1 ||
          box.top < frame.top - 1 ||
          box.bottom > frame.bottom + 1
        )
          faults.push(`"${said}" is cut off`);
        for (const other of texts.slice(index + 1)) {
          const across = Math.min(box.right, other.box.right) - Math.max(box.left, other.box.left);
          const down = Math.min(box.bottom, other.box.bottom) - Math.max(box.top, other.box.top);
          if (across > 1 && down > 2) faults.push(`"${said}" lies over "${other.said}"`);
        }
      });
    }
    return faults;
  });
}

describe("the pictures", () => {
  for (const width of [350, 900])
    it(`are whole and legible for every budget, light and dark, ${width} px wide`, async () => {
      const { page, panel } = await openPictures(width, "light");
      for (const { stem } of worked) {
        await chooseBudget(panel, stem);
        for (const colorScheme of ["light", "dark"] as const) {
          await page.emulateMedia({ colorScheme });
          const ground = await page
            .locator(".feed-pane")
            .evaluate((pane) => getComputedStyle(pane).colorScheme);
          assert.equal(ground, colorScheme);
          await page.locator(".workbench-pane").screenshot({
            path: `.cache/pictures/${stem}-${colorScheme}-${width}.png`,
          });
          assert.deepEqual(await textFaults(panel), [], stem);
          assert.deepEqual(await axeFaults(page, ".feed-pane"), [], stem);
        }
        const overflow = await page
          .locator(".workbench-pane")
          .evaluate((pane) => pane.scrollWidth - pane.clientWidth);
        assert.equal(overflow, 0, stem);
      }
      left = others;
    }, 120_000);

  it("go onto a sheet each, with their numbers and words, into the file too, and undo as one step", async () => {
    const crawler = others.filter(({ stem }) => stem === "Crawler");
    const { page, panel } = await openPictures(350, "light", crawler, WIDE);
    await chooseBudget(panel, "Crawler");
    const pictures = panel.getByRole("region");
    const count = await pictures.count();
    assert.equal(count, 10);
    for (let index = 0; index < count; index += 1) {
      const one = pictures.nth(index);
      await one.getByRole("button", { name: "Insert in a sheet" }).click();
      await one.getByText(/^The picture is on Picture( \d+)?, with its numbers\./).waitFor();
    }
    const before = (await savedWorkbook(page)).sheets;
    const placed = before.filter(({ name }) => name.startsWith("Picture"));
    assert.equal(placed.length, count);
    for (const [index, { images, cells }] of placed.entries()) {
      const [image] = images;
      assert.ok(image);
      const drawing = pictures.nth(index).getByRole("img");
      const told = await drawing.getAttribute("aria-label");
      assert.equal(image.alternative, told);
      const texts = cells.map(({ value }) => value);
      assert.ok(texts.some((text) => text !== "" && told?.endsWith(String(text))));
      assert.ok(texts.filter((value) => typeof value === "number").length > 2);
    }
    for (const [index, { name }] of placed.entries()) {
      await pictures
        .nth(index)
        .getByRole("button", { name: `Go to ${name}` })
        .click();
      await page.locator("#grid").getByRole("tab", { name, exact: true, selected: true }).waitFor();
      await page.screenshot({
        path: `.cache/pictures/sheet-${index + 1}.png`,
        clip: { x: 0, y: 0, ...WIDE },
      });
    }
    // Going to a sheet has put the keyboard there.
    await page.keyboard.press("Control+z");
    const after = (await savedWorkbook(page)).sheets;
    assert.deepEqual(
      after.map(({ name }) => name),
      before.map(({ name }) => name).slice(0, -1),
    );
    await page.keyboard.press("Control+y");
    assert.equal((await savedWorkbook(page)).sheets.at(-1)?.images.length, 1);
  }, 120_000);

  it("are taken away: saved as SVG and PNG, and copied, in fixed colours", async () => {
    const { page, panel } = await openPictures(350, "dark", []);
    await page.context().grantPermissions(["clipboard-read", "clipboard-write"]);
    const one = panel.getByRole("region", { name: "Where each watt goes" });
    const save = async (type: string) => {
      const [file] = await Promise.all([
        page.waitForEvent("download"),
        one.getByRole("button", { name: `Save as ${type}` }).click(),
      ]);
      const name = file.suggestedFilename();
      await one.getByText(`${name} is saved.`).waitFor();
      assert.equal(name, `Ridge-top observatory Where each watt goes.${type.toLowerCase()}`);
      return readFileSync(await file.path());
    };
    const svg = (await save("SVG")).toString("utf8");
    const told = await one.getByRole("img").getAttribute("aria-label");
    assert.match(svg, /^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg" /);
    assert.ok(svg.includes(`aria-label="${told}"`));
    assert.ok(!svg.includes("var("));
    const png = await save("PNG");
    assert.equal(png.subarray(1, 4).toString("latin1"), "PNG");
    // Two dots for each pixel of a picture that is 780 wide; the width stands at byte 16 of a PNG (ISO/IEC 15948).
    assert.equal(png.readUInt32BE(16), 2 * 780);
    await one.getByRole("button", { name: "Copy" }).click();
    await one.getByText("The picture is copied: paste it into a document.").waitFor();
    const copied = await page.evaluate(async () =>
      (await navigator.clipboard.read()).flatMap(({ types }) => types),
    );
    assert.deepEqual(copied, ["image/png"]);
    left = [];
  }, 60_000);

  it("follow the sheet: another case is drawn with its own sums", async () => {
    const { page, panel } = await openPictures(350, "light", []);
    const drawing = panel.getByRole("region", { name: "Where each watt goes" }).getByRole("img");
    await panel.getByText(/\. Solved for nominal loads/).waitFor();
    const before = await drawing.getAttribute("aria-label");
    // The first choice on Inputs: the loads that are solved for.
    await typeInto(page, `B${SOLVED_ROW}`, "peak");
    await panel.getByText(/\. Solved for peak loads/).waitFor();
    // Drawn again once the last cell is calculated.
    await drawing.and(panel.locator(`:not([aria-label=${JSON.stringify(before)}])`)).waitFor();
    left = [];
  }, 60_000);

  it("say so where the chosen budget has nothing to draw yet", async () => {
    const blank = budgets.filter(({ id }) => id === "blank-budget");
    const { panel } = await openPictures(350, "light", blank);
    await panel.getByLabel("Budget", { exact: true }).selectOption(blank[0]?.stem ?? "");
    await panel.getByText(/^Nothing to draw: the feed has no items/).waitFor();
    assert.equal(await panel.getByRole("img").count(), 0);
  }, 60_000);
});
