/** A feed of one's own, entered and changed in the pane alone; its figures are those of the feed that is typed on the sheets. */
import assert from "node:assert/strict";
import { mkdirSync } from "node:fs";
import type { Locator, Page } from "playwright-core";
import { beforeEach, describe, it } from "vitest";
import { type BlockName, BLOCKS, headerText } from "../../src/schedules/columns.js";
import { OWN_ASKED, OWN_SCHEDULES, type Typed } from "../feeds/own-feed.js";
import { byKeys, byMouse, type Hands } from "../helpers/hands.js";
import { workbenchSitting } from "../helpers/workbench-sitting.js";

const sitting = workbenchSitting();
let page: Page;

/** The sheet is not looked at: a narrow one is drawn faster. */
const VIEWPORT = { width: 900, height: 900 };

beforeEach(async () => {
  page = await sitting.goOn({ viewport: VIEWPORT });
  page.setDefaultTimeout(30_000);
});

const panel = () => page.getByRole("tabpanel", { name: "Feed" });
const tree = () => panel().getByRole("tree");
const item = (name: string) =>
  tree()
    .getByRole("treeitem")
    .filter({ has: page.getByText(name, { exact: true }) });
const button = (name: string) => panel().getByRole("button", { name, exact: true });
const form = () => panel().getByRole("form");
/** Of the form that was opened; that of what is asked for stands below it. */
const submit = () => panel().locator("form [type=submit]").filter({ visible: true }).first();
const names = () => panel().locator(".feed-outline-name").allInnerTexts();
const depthOf = async (name: string) => Number(await item(name).getAttribute("aria-level"));
const told = (text: string | RegExp) => panel().getByText(text).first().waitFor();
const isChoice = (field: Locator) => field.evaluate((each) => each.tagName === "SELECT");

async function put(hands: Hands, field: Locator, text: string): Promise<void> {
  if (await isChoice(field)) await hands.choose(field, text);
  else await hands.enter(field, text);
}

/** Fills the fields of a row's form in their order; columns that are not open at once are behind one more press. */
async function fill(hands: Hands, block: BlockName, typed: Typed): Promise<void> {
  const fields = Object.entries(typed).map(([header, text]) => {
    const column = BLOCKS[block].find((one) => headerText(one) === header);
    return { field: form().getByLabel(column ? header : block, { exact: true }), text };
  });
  for (const { field, text } of await inOrder(fields)) {
    if (!(await field.isVisible())) await hands.press(form().locator("summary"));
    // The feeder stands there already.
    if ((await field.inputValue()) !== text) await put(hands, field, text);
  }
}

/** From the first on the page to the last, as Tab goes. */
async function inOrder<T extends { readonly field: Locator }>(fields: readonly T[]): Promise<T[]> {
  const placed = await Promise.all(
    fields.map(async (one) => ({
      one,
      place: await one.field.evaluate((field) =>
        [...document.querySelectorAll("input, select")].indexOf(field),
      ),
    })),
  );
  return placed.sort((first, other) => first.place - other.place).map(({ one }) => one);
}

async function write(hands: Hands, block: BlockName, typed: Typed): Promise<void> {
  await fill(hands, block, typed);
  await hands.press(submit());
  await told(`${typed[block]!} is in ${block} on `);
}

async function add(hands: Hands, block: BlockName, typed: Typed): Promise<void> {
  await hands.chooseItem(tree(), typed["Fed from"]!);
  await hands.press(button(block));
  await write(hands, block, typed);
  await item(typed[block]!).waitFor();
}

const rowsOf = (block: BlockName) =>
  OWN_SCHEDULES.find(([, name]) => name === block)![2] as readonly Typed[];

const HANDS = { "keys alone": byKeys, "the mouse alone": byMouse };
/** Once in every run; `DOWNFEED_HANDS=mouse` enters the feed by the other. */
const ENTERED_BY = process.env["DOWNFEED_HANDS"] === "mouse" ? "the mouse alone" : "keys alone";

function tellCount(what: string, { count }: Hands, begun: number): void {
  const { keys, clicks, entries } = count;
  const seconds = Math.round((Date.now() - begun) / 1000);
  console.log(`${what}: ${keys} keys, ${clicks} clicks, ${entries} entries, ${seconds} s`);
}

describe("the feed in the pane", () => {
  it(`is entered by ${ENTERED_BY}, without a key on the sheet`, async () => {
    const hands = HANDS[ENTERED_BY](page);
    const begun = Date.now();
    await hands.press(button("New feed"));
    const figures = {
      "Name of the feed": "Trackside hut 7",
      "Supply voltage, nominal (V)": "750",
      "Lowest (V)": "500",
      "Highest (V)": "900",
      "Voltage bands of": OWN_ASKED["Framework"]!,
      "Where people can touch it": OWN_ASKED["Place"]!,
      "Coldest air (°C)": "-25",
      "Hottest air (°C)": "55",
      "Altitude (m)": "1500",
    };
    for (const [label, text] of Object.entries(figures))
      await put(hands, form().getByLabel(label), text);
    await hands.press(submit());
    await told(/^The feed is on the sheets /);

    // The place and the types that many items name.
    await hands.press(panel().locator("summary", { hasText: "Places and stage types" }));
    await hands.press(button("Change Everywhere"));
    await write(hands, "Location", rowsOf("Location")[0]!);
    for (const typed of rowsOf("Stage type")) {
      await hands.press(button("Add a stage type"));
      await write(hands, "Stage type", typed);
    }

    // The supply stands there already.
    await hands.chooseItem(tree(), "Supply");
    await hands.press(button("Change its figures"));
    await write(hands, "Supply", rowsOf("Supply")[0]!);
    await item("Substation").waitFor();

    const items = (["In line", "Cable", "Stage", "Load"] as const).flatMap((block) =>
      rowsOf(block).map((typed) => ({ block, typed })),
    );
    while (items.length > 0) {
      const there = await names();
      const next = items.findIndex(({ typed }) => there.includes(typed["Fed from"]!));
      const [{ block, typed }] = items.splice(next, 1) as [(typeof items)[number]];
      await add(hands, block, typed);
    }
    await hands.press(panel().locator("summary", { hasText: "What is asked for" }));
    for (const [label, text] of Object.entries(OWN_ASKED)) {
      const field = form().getByLabel(label, { exact: true });
      if ((await field.inputValue()) !== text) await put(hands, field, text);
    }
    await hands.press(submit());
    await told(/^What is asked for is written on /);
    tellCount("entered", hands, begun);

    assert.equal((await names()).length, 12);
    // As worked out by hand in the test of the sheets: 1.2 · (150 + 16) W at 24 V, and its losses.
    const losses = 2 + 0.1 * 8.3 + 0.02 * 8.3 ** 2;
    const figure = await item("24 V stage").locator(".feed-outline-figures").innerText();
    const watts = Number(/([\d.]+)\s*W$/.exec(figure)?.[1]);
    assert.ok(Math.abs(watts - (1.2 * 166 + losses)) < 0.1, figure);
    assert.match(await item("24 V stage").innerText(), /✖ \d+ fail/);
    mkdirSync(".cache/pictures", { recursive: true });
    await page.screenshot({ path: ".cache/pictures/feed-view.png" });
  }, 400_000);

  it.each(Object.entries(HANDS))(
    "is changed by %s, each change one undo step",
    async (name, of) => {
      const hands = of(page);
      const begun = Date.now();
      const before = await names();
      const whole = (wanted: number) =>
        page.waitForFunction(
          (count) => document.querySelectorAll('[role="treeitem"]').length === count,
          wanted,
        );

      // Renamed: what it feeds follows.
      await hands.chooseItem(tree(), "Track fuse");
      await hands.press(button("Rename"), "F2");
      await hands.enter(panel().getByLabel("New name of Track fuse"), "Hut fuse");
      await hands.press(submit(), "Enter");
      await told("Track fuse is called Hut fuse now");
      assert.equal(await depthOf("Trackside cable"), 3);
      await hands.undo();
      await item("Track fuse").waitFor();
      assert.deepEqual(await names(), before);

      // Fed from elsewhere, with what it feeds.
      await hands.chooseItem(tree(), "5 V stage");
      await hands.press(button("Feed from elsewhere"));
      await hands.choose(panel().getByLabel("5 V stage is fed from"), "24 V stage");
      await hands.press(submit());
      await told("5 V stage is fed from 24 V stage now.");
      assert.equal(await depthOf("5 V stage"), (await depthOf("24 V stage")) + 1);
      assert.equal(await depthOf("Radio"), (await depthOf("24 V stage")) + 2);
      await hands.undo();
      await page.waitForFunction(
        ([first, other]) => {
          const levelOf = (wanted: string) =>
            [...document.querySelectorAll('[role="treeitem"]')]
              .find((one) => one.querySelector(".feed-outline-name")?.textContent === wanted)
              ?.getAttribute("aria-level");
          return levelOf(first!) === levelOf(other!);
        },
        ["5 V stage", "24 V stage"],
      );
      assert.deepEqual(await names(), before);

      // Once more with all that hangs on it.
      await hands.chooseItem(tree(), "24 V stage");
      await hands.press(button("Duplicate with what it feeds"));
      await told("24 V stage and what it feeds are copied, as 24 V stage 2.");
      assert.equal((await names()).length, 15);
      await hands.undo();
      await whole(12);

      // Removed, without what it feeds and with it.
      const feeders = [
        ["Feed them from Bus units", "Removed: 5 V stage."],
        ["Remove all 3", "Removed: 5 V stage, Radio, Axle counters."],
      ] as const;
      for (const [answer, outcome] of feeders) {
        await hands.chooseItem(tree(), "5 V stage");
        await hands.press(button("Remove"), "Delete");
        await panel().getByRole("alertdialog").getByText("5 V stage feeds 2 other items").waitFor();
        await hands.press(button(answer));
        await told(outcome);
        await hands.undo();
        await whole(12);
        assert.deepEqual(await names(), before);
      }
      tellCount(`changed by ${name}`, hands, begun);
    },
    240_000,
  );

  it("is walked by arrows; Escape leaves a question, and Enter goes to the row on the sheet", async () => {
    await item("Substation").click();
    await page.keyboard.press("End");
    await page.keyboard.press("Home");
    await page.keyboard.press("ArrowRight");
    assert.equal(await focusedItem(), "Track fuse");
    await page.keyboard.press("ArrowDown");
    await page.keyboard.press("ArrowLeft");
    assert.equal(await focusedItem(), "Track fuse");
    for (const key of ["Delete", "F2"]) {
      await page.keyboard.press(key);
      await page.waitForFunction(() => !document.activeElement?.matches('[role="treeitem"]'));
      await page.keyboard.press("Escape");
      assert.equal(await focusedItem(), "Track fuse");
    }
    // The answered form gives the keyboard back to the item, and so does the way round the page after an undo.
    await page.keyboard.press("F2");
    await page.keyboard.insertText("Hut fuse");
    await page.keyboard.press("Enter");
    await told("Track fuse is called Hut fuse now");
    assert.equal(await focusedItem(), "Hut fuse");
    for (const key of ["Shift+F6", "Control+z"]) await page.keyboard.press(key);
    await item("Track fuse").waitFor();
    await page.keyboard.press("F6");
    await page.waitForFunction(() => document.activeElement?.matches('[role="treeitem"]'));
    assert.equal(await focusedItem(), "Track fuse");
    await item("Radio").click();
    await page.keyboard.press("Enter");
    await page.waitForFunction(() =>
      document.querySelector<HTMLInputElement>("#sheet input")?.value.startsWith("A"),
    );
  }, 60_000);
});

const focusedItem = () =>
  page.evaluate(
    () => document.activeElement?.querySelector(".feed-outline-name")?.textContent ?? "",
  );
