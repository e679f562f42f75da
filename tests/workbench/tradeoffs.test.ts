/** Trade-offs over the feed of the sample: figures marked, searched in threads, chosen, and written into the schedules. */
import assert from "node:assert/strict";
import { mkdirSync } from "node:fs";
import type { Locator, Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { axeFaults } from "../helpers/axe-faults.js";
import { type PageLook, workbenchSitting } from "../helpers/workbench-sitting.js";

const sitting = workbenchSitting();
mkdirSync(".cache/pictures", { recursive: true });

async function open(look: PageLook = {}): Promise<{ page: Page; panel: Locator }> {
  const page = await sitting.open(look);
  isSearched = false;
  await page.getByRole("tab", { name: "Trade-offs" }).click();
  return { page, panel: page.getByRole("tabpanel", { name: "Trade-offs" }) };
}

async function add(panel: Locator, figure: string): Promise<Locator> {
  await panel.getByLabel("Figure", { exact: true }).selectOption(figure);
  await panel.getByRole("button", { name: "Add", exact: true }).click();
  return panel.getByRole("group", { name: figure });
}

/** Rows of texts into the cells from the first one of a choice on, as a spreadsheet copies them. */
async function paste(mark: Locator, choice: number, rows: readonly (readonly unknown[])[]) {
  const first = mark.getByLabel(new RegExp(`, choice ${choice}$`)).first();
  await first.evaluate(
    (input, text) => {
      const clipboardData = new DataTransfer();
      clipboardData.setData("text", text);
      const paste = { clipboardData, bubbles: true, cancelable: true };
      input.dispatchEvent(new ClipboardEvent("paste", paste));
    },
    rows.map((row) => row.join("\t")).join("\n"),
  );
}

/** Size, outer diameter, rating, core spacing, mass and price of a metre; invented. */
const SIZES = [
  ["2.5 mm²", 10.5, 18, 3.6, 0.14, 8],
  ["6 mm²", 13.5, 32, 4.8, 0.25, 12.5],
  ["10 mm²", 16, 44, 5.6, 0.36, 18],
];

/** Sizes of the long cable, and one or two units of the stage behind it. */
async function markSizesAndUnits(panel: Locator): Promise<void> {
  await paste(await add(panel, "Size of Cable to the summit"), 2, SIZES);
  await add(panel, "Units of Summit stage");
}

async function searched(panel: Locator): Promise<void> {
  await panel.getByRole("button", { name: "Search", exact: true }).click();
  await panel.getByText(/on the front: none is beaten/).waitFor();
}

/** Nothing was written since sizes and units were marked and searched in the page. */
let isSearched = false;

/** Sizes and units marked and searched: as the test before left them, or else anew. */
async function openSearched(look: PageLook = {}): Promise<{ page: Page; panel: Locator }> {
  const there = isSearched ? await sitting.resume(look) : undefined;
  if (there) return { page: there, panel: there.getByRole("tabpanel", { name: "Trade-offs" }) };
  const { page, panel } = await open(look);
  await markSizesAndUnits(panel);
  await searched(panel);
  isSearched = true;
  return { page, panel };
}

const option = (panel: Locator, name: string) =>
  panel.locator("tbody").getByRole("button", { name, exact: true });

async function assertAccessible(page: Page): Promise<void> {
  assert.deepEqual(await axeFaults(page, ".feed-pane"), []);
}

/** Texts of a chart that lie over each other. */
function overlappingTexts(panel: Locator): Promise<string[]> {
  return panel.locator(".feed-chart").evaluateAll((charts) =>
    charts.flatMap((chart) => {
      const texts = [...chart.querySelectorAll("text")].map((text) => ({
        text: text.textContent,
        box: text.getBoundingClientRect(),
      }));
      return texts.flatMap((one, index) =>
        texts
          .slice(index + 1)
          .filter(
            ({ box }) =>
              box.left < one.box.right &&
              one.box.left < box.right &&
              box.top < one.box.bottom &&
              one.box.top < box.bottom,
          )
          .map((other) => `${one.text} and ${other.text}`),
      );
    }),
  );
}

describe("the trade-offs", () => {
  it("search the marked figures of the feed, and tell the front, what is left out and why", async () => {
    const { page, panel } = await open();
    await markSizesAndUnits(panel);
    await panel.getByText(/^8 combinations\.$/).waitFor();
    await searched(panel);
    // What it took tells what it will take.
    await panel.getByText(/^8 combinations, about \d+ s\.$/).waitFor();
    isSearched = true;
    const rows = panel.locator(".feed-front tbody tr");
    assert.ok((await rows.count()) > 2);
    await rows.first().getByText("Feed as it is").waitFor();
    const head = panel.locator(".feed-front").getByRole("columnheader", { name: "Mass" });
    await head.getByRole("button").click();
    assert.equal(await head.getAttribute("aria-sort"), "ascending");
    const lightest = await rows.nth(1).innerText();
    await head.getByRole("button").click();
    assert.equal(await rows.last().innerText(), lightest);

    // Behind the thinnest cable the stage stands too low: the panel tells by how much.
    const leftOut = panel.getByRole("region", { name: "Left out" });
    await leftOut.getByText(/2 stopped by input above lowest of Summit stage/).waitFor();
    await leftOut.getByRole("button", { name: "Why not 2.5 mm²?" }).click();
    const chosen = panel.getByRole("region", { name: "Chosen combination" });
    await chosen
      .getByText(
        /^Summit stage, input above lowest 31\d\.\d\sV, asked at least 320\sV; beyond its limit by \d\.\d+\s%; in peak loads/,
      )
      .waitFor();
    // The feed's own cable drops more than is asked, and the next size mends that.
    await panel
      .getByRole("region", { name: "What mends the feed as it is" })
      .getByText(
        /^Size of Cable to the summit, 6 mm² mends Cable to the summit, drop price \+ 1,050, mass \+ 21\skg/,
      )
      .waitFor();
    await assertAccessible(page);
  }, 120_000);

  it("write the chosen one into the schedules as one undo step", async () => {
    const { page, panel } = await openSearched();
    await option(panel, "6 mm² · 1 in parallel").click();
    const chosen = panel.getByRole("region", { name: "Chosen combination" });
    await chosen.getByText("What it changes (6 cells)").click();
    await chosen.getByText("Price per m of Cable to the summit: 9.5 → 12.5").waitFor();
    await chosen.getByRole("button", { name: "Write into the schedules" }).click();
    await chosen.getByText("6 mm² · 1 in parallel is in the schedules.").waitFor();
    await chosen.getByText("Nothing is changed: the feed stands so now.").waitFor();
    await panel.getByText("The feed has been changed since this search").waitFor();
    // As a user does: on the sheet.
    await page.mouse.click(400, 500);
    await page.keyboard.press("Control+z");
    await chosen.getByText("What it changes (6 cells)").waitFor();
    await panel
      .getByText("The feed has been changed since this search")
      .waitFor({ state: "detached" });
  }, 120_000);

  it("write it into a copy, and leave the budget as it is", async () => {
    const { panel } = await openSearched();
    await option(panel, "10 mm² · 1 in parallel").click();
    const chosen = panel.getByRole("region", { name: "Chosen combination" });
    await chosen.getByRole("button", { name: "Write into a new version" }).click();
    isSearched = false;
    await chosen.getByText(/^10 mm² · 1 in parallel is in a new version on Inputs/).waitFor();
    await chosen.getByText("What it changes (6 cells)").waitFor();
    await panel.getByLabel("Budget", { exact: true }).selectOption({ index: 1 });
    const size = (await add(panel, "Size of Cable to the summit")).getByLabel("Size, choice 1");
    assert.equal(await size.inputValue(), "10 mm²");
  }, 120_000);

  it("say that none of the choices mends what fails", async () => {
    const { panel } = await open();
    await add(panel, "Units of Summit stage");
    await searched(panel);
    await panel
      .getByRole("region", { name: "What mends the feed as it is" })
      .getByText(
        /^No single one of these choices mends what fails now: .*Cable to the summit, drop.*Warnings\.$/,
      )
      .waitFor();
  }, 120_000);

  it("refuse to trade a price that nobody typed, and show more than one voltage where the higher one costs more", async () => {
    const { panel } = await open();
    const voltage = await add(panel, "Voltage of Valley bus");
    const type = await voltage.getByLabel("Type of Summit stage, choice 1").inputValue();
    await voltage.getByLabel("Voltage (V), choice 2").fill("425");
    await voltage.getByLabel("Lowest V, choice 2").fill("390");
    await voltage.getByLabel("Highest V, choice 2").fill("440");
    await voltage.getByLabel("Type of Summit stage, choice 2").selectOption(type);
    await panel.getByRole("button", { name: "Search", exact: true }).click();
    await panel.getByText(/^Price cannot be traded: Valley bus has none\./).waitFor();
    await voltage.getByLabel("Price, choice 1").fill("2100");
    await voltage.getByLabel("Price, choice 2").fill("2600");
    await searched(panel);
    await option(panel, `400 V, ${type}`).waitFor();
    await option(panel, `425 V, ${type}`).waitFor();
  }, 120_000);

  it("name the choice that cannot be, and the figure to narrow where there are too many to be numbered", async () => {
    const { panel } = await open();
    const units = await add(panel, "Units of Summit stage");
    await units.getByLabel("In parallel, choice 2").fill("two");
    await panel.getByRole("button", { name: "Search", exact: true }).click();
    await panel.getByText(/^Units of Summit stage, choice 2: In parallel: /).waitFor();
    assert.equal(
      await units.getByLabel("In parallel, choice 2").getAttribute("aria-invalid"),
      "true",
    );
    // So many that no two of them could be told apart by a number.
    const counts = Array.from({ length: 400 }, (_, at) => [at + 1]);
    await paste(units, 1, counts);
    for (const figure of [
      ...["Units of 24 V stage", "Units of 12 V stage", "Units of 5 V stage"],
      ...["Ratio of 400 V to 50 V, 60 A", "Size of 24 V cable"],
    ])
      await paste(await add(panel, figure), 1, counts);
    await paste(await add(panel, "Size of Cable to the summit"), 1, counts.slice(0, 4));
    await panel
      .getByText(/^16,384,000,000,000,000 combinations are too many to be numbered\. Narrow Units/)
      .waitFor();
    assert.equal(
      await panel
        .getByRole("button", { name: "Search", exact: true })
        .getAttribute("aria-disabled"),
      "true",
    );
  }, 120_000);

  it("search more than can be counted through, and say what that proves of the options shown", async () => {
    const { panel } = await open();
    const sizes = Array.from({ length: 30 }, (_, at) => 2 + at);
    await paste(
      await add(panel, "Size of Cable to the summit"),
      1,
      sizes.map((mm2) => [mm2, 10 + mm2 / 4, 15 + 2 * mm2, 4, 0.1 + 0.03 * mm2, 5 + mm2]),
    );
    await paste(
      await add(panel, "Size of 24 V cable"),
      1,
      sizes.map((mm2) => [mm2, 12 + mm2 / 4, 20 + 2 * mm2, 0.1 + 0.03 * mm2, 3 + mm2 / 3]),
    );
    const units = Array.from({ length: 7 }, (_, at) => [at + 1]);
    for (const stage of ["24 V stage", "12 V stage", "5 V stage"])
      await paste(await add(panel, `Units of ${stage}`), 1, units);
    await panel.getByRole("checkbox", { name: "Mass", exact: true }).uncheck();
    await panel
      .getByText(/^308,700 combinations: more than the 200,000 that are judged at most\. /)
      .waitFor();
    await panel.getByRole("button", { name: "Search", exact: true }).click();
    await panel.getByText(/^Judged [\d,]+ of at most 200,000, at most about .+ left; /).waitFor();
    const found = panel.getByText(
      /^\d+ options on the front\. [\d,]+ of 308,700 combinations were judged\. Each one shown was judged in full\. None of them is beaten by a combination that differs from it in one marked figure\. A better one that differs in two or more figures may exist\.$/,
    );
    await found.waitFor();
    const [, judged = ""] = /\. ([\d,]+) of/.exec(await found.innerText()) ?? [];
    assert.ok(Number(judged.replace(",", "")) < 100_000, judged);
    const chosen = panel.getByRole("region", { name: "Chosen combination" });
    await chosen.getByText(/^On the front: no combination judged that breaks no check/).waitFor();
    // One that the search never came to is judged when it is asked for.
    for (const stage of ["24 V stage", "12 V stage", "5 V stage"])
      await chosen.getByLabel(`Units of ${stage}`).selectOption("7 in parallel");
    await chosen.getByText(/^Beaten by /).waitFor();
    await panel
      .getByRole("region", { name: "Left out" })
      .getByText(/what became of their combinations that were judged/)
      .waitFor();
    await panel.getByRole("button", { name: "Put chart and table on a sheet" }).click();
    await panel.getByText("On Picture, with its numbers.").waitFor();
  }, 240_000);

  it("leave the page free while thousands are judged, and stop when they are cancelled", async () => {
    const { page, panel } = await open();
    await markSizesAndUnits(panel);
    await paste(
      await add(panel, "Ratio of 400 V to 50 V, 60 A"),
      1,
      Array.from({ length: 60 }, (_, at) => [7.8 + at / 100]),
    );
    await paste(
      await add(panel, "Voltage of Valley bus"),
      1,
      Array.from({ length: 20 }, (_, at) => [
        ...[390 + at, 360 + at, 420 + at, 2000 + 30 * at],
        "400 V to 50 V, 60 A",
      ]),
    );
    // Counted, not timed: a page that judges has no turns of its own left.
    await page.evaluate(() => {
      const { port1, port2 } = new MessageChannel();
      const turns = { count: 0, end: () => port1.close() };
      Object.assign(window, { turns });
      port1.onmessage = () => {
        turns.count += 1;
        port2.postMessage(0);
      };
      port2.postMessage(0);
    });
    await panel.getByRole("button", { name: "Search", exact: true }).click();
    await panel.getByText(/^Judged [\d,]+ of 9,600, about /).waitFor({ timeout: 60_000 });
    const turns = await page.evaluate(() => {
      const { turns } = window as unknown as { turns: { count: number; end(): void } };
      turns.end();
      return turns.count;
    });
    assert.ok(turns > 1_000, `${turns} turns`);
    await panel.getByRole("button", { name: "Cancel", exact: true }).click();
    await panel.getByText("Cancelled.").waitFor();
    assert.equal(await panel.getByText(/^Judged /).count(), 0);
    await panel.getByRole("button", { name: "Search", exact: true }).waitFor();
  }, 240_000);

  it("are walked by keys: marks of the chart by arrows, Search and Cancel in each other's place", async () => {
    const { page, panel } = await open();
    await markSizesAndUnits(panel);
    await panel.getByRole("button", { name: "Search", exact: true }).focus();
    await page.keyboard.press("Enter");
    await panel.getByText(/on the front: none is beaten/).waitFor();
    await page.waitForFunction(() => document.activeElement?.textContent === "Search");
    const points = panel.getByRole("group", { name: "Front over two figures" }).getByRole("button");
    await points.first().focus();
    await page.keyboard.press("ArrowRight");
    await page.keyboard.press("Enter");
    const name = (await points.nth(1).getAttribute("aria-label")) ?? "";
    assert.match(name, /: loss .+\sW, mass .+\skg, price /);
    assert.equal(await points.nth(1).getAttribute("aria-pressed"), "true");
    const [own = ""] = name.replace(/^Feed as it is \((.*)\):.*/, "$1:").split(":");
    await panel
      .getByRole("region", { name: "Chosen combination" })
      .getByRole("heading", { name: own })
      .waitFor();
    await panel.getByLabel("Axes").selectOption("Mass over price");
    await points.first().waitFor();
    await panel.getByRole("button", { name: "Put chart and table on a sheet" }).click();
    await panel.getByText("On Picture, with its numbers.").waitFor();
  }, 120_000);

  for (const theme of ["light", "dark"] as const)
    for (const width of [350, 900])
      it(`keep within ${width} px in ${theme} colours, with no text over another`, async () => {
        const { page, panel } = await openSearched({ colorScheme: theme });
        await page.setViewportSize({ width, height: 3600 });
        // The pane by itself, as wide as the page.
        await sitting.style(
          page,
          "#pane { position: fixed; inset: 0; z-index: 99; overflow: auto }",
        );
        await panel.getByRole("button", { name: "Why not 2.5 mm²?" }).click();
        await panel
          .getByText(/beyond its limit by/)
          .first()
          .waitFor();
        const pane = page.locator(".feed-pane");
        const sideways = await pane.evaluate((each) => each.scrollWidth - each.clientWidth);
        assert.ok(sideways <= 0, `${sideways} px too wide`);
        assert.deepEqual(await overlappingTexts(panel), []);
        await assertAccessible(page);
        await pane.screenshot({ path: `.cache/pictures/tradeoffs-${theme}-${width}.png` });
      }, 120_000);

  it("show in forced colours which mark is chosen", async () => {
    const { panel } = await openSearched({ forcedColors: "active" });
    await option(panel, "6 mm² · 1 in parallel").click();
    const front = panel.getByRole("group", { name: "Front over two figures" });
    const ringOf = (pressed: boolean) =>
      front
        .locator(`[aria-pressed=${pressed}] .feed-mark-ring`)
        .first()
        .evaluate((ring) => getComputedStyle(ring).stroke);
    // The chart is drawn anew in the colours, and a ring that has gone has none.
    await expect.poll(() => ringOf(false)).toBe("none");
    await expect.poll(() => ringOf(true)).toMatch(/^rgb/);
  }, 120_000);
});
