/** What opens in the workbench when a button is pressed: without a fault for those who cannot see it, light and dark. */
import assert from "node:assert/strict";
import { mkdirSync } from "node:fs";
import type { Locator, Page } from "playwright-core";
import { describe, it } from "vitest";
import { axeFaults } from "../helpers/axe-faults.js";
import { typeInto } from "../helpers/workbench-sheet.js";
import { workbenchSitting } from "../helpers/workbench-sitting.js";

const PICTURES = ".cache/pictures";
mkdirSync(PICTURES, { recursive: true });

interface Form {
  readonly view: string;
  /** What has the keyboard once it is left by Cancel, by how its text begins; left out where there is no Cancel. */
  readonly home?: string;
  readonly open: (panel: Locator, page: Page) => Promise<void>;
}

const press = (name: string) => (panel: Locator) =>
  panel.getByRole("button", { name, exact: true }).click();

const LIST = "Item\tPower (W)\tSimultaneity\nCamera mast\t40\t0.8\nGate drive\t150\t0.5\n";

const FORMS: Readonly<Record<string, Form>> = {
  "New feed": { view: "Feed", home: "Valley bus", open: press("New feed") },
  "a new load": { view: "Feed", home: "Valley bus", open: press("Load") },
  "an item's figures": { view: "Feed", home: "Valley bus", open: press("Change its figures") },
  "an item's name": { view: "Feed", home: "Valley bus", open: press("Rename") },
  "an item's end": { view: "Feed", home: "Valley bus", open: press("Remove") },
  "a pasted list": {
    view: "Feed",
    home: "Valley bus",
    async open(panel) {
      await press("Paste a list")(panel);
      await panel.getByRole("textbox").first().fill(LIST);
      await panel.getByText("190 W in the list", { exact: false }).first().waitFor();
    },
  },
  "places and stage types": {
    view: "Feed",
    home: "Add a stage type",
    async open(panel) {
      await panel.locator("summary", { hasText: "Places and stage types" }).click();
      await press("Add a stage type")(panel);
    },
  },
  "what is asked for": {
    view: "Feed",
    open: (panel) => panel.locator("summary", { hasText: "What is asked for" }).click(),
  },
  "a version": { view: "Hand over", home: "Keep this version", open: press("Keep this version") },
  "an issue": {
    view: "Hand over",
    home: "Issue this document",
    open: press("Issue this document"),
  },
  "a function": {
    view: "Insert",
    async open(panel) {
      await panel.getByRole("searchbox").fill("conductor drop");
      await panel.locator("summary", { hasText: /^CONDUCTOR_DROP$/ }).click();
      await panel.locator("form").getByLabel(/^size/).fill("4 mm²");
      await panel.locator("form summary").first().click();
    },
  },
};

const SCHEMES = ["light", "dark"] as const;

async function shown(page: Page, { view, open }: Form): Promise<Locator> {
  const views = page.getByRole("tablist", { name: "Views" });
  await views.getByRole("tab", { name: view, exact: true }).click();
  const panel = page.getByRole("tabpanel", { name: view, exact: true });
  await open(panel, page);
  return panel;
}

/** As the test found the view. */
async function leave(panel: Locator, { home }: Form): Promise<void> {
  const cancel = panel.getByRole("button", { name: "Cancel", exact: true });
  assert.equal(await cancel.isVisible(), home !== undefined);
  if (home !== undefined) {
    await cancel.click();
    await panel.locator(":focus", { hasText: new RegExp(`^${home}`) }).waitFor();
  }
  const opened = await panel.locator("details[open] > summary:visible").all();
  for (const one of opened.reverse()) await one.click();
}

/** How far the part reaches beyond its right edge. */
const overflow = (part: Locator) => part.evaluate((one) => one.scrollWidth - one.clientWidth);

const sitting = workbenchSitting();

/** No colour is on its way to another. */
async function still(): Promise<Page> {
  const page = await sitting.goOn();
  await sitting.style(page, "* { transition: none !important }");
  return page;
}

describe("an open form", () => {
  it.each(Object.entries(FORMS))("of %s has no fault that axe finds", async (name, form) => {
    const page = await still();
    const panel = await shown(page, form);
    for (const colorScheme of SCHEMES) {
      await page.emulateMedia({ colorScheme });
      assert.deepEqual(await axeFaults(page, "#pane"), [], colorScheme);
      assert.equal(await overflow(page.locator("#pane")), 0);
      await page.locator("#pane").screenshot({
        path: `${PICTURES}/form-${name.replaceAll(/\W+/g, "-")}-${colorScheme}.png`,
      });
    }
    await leave(panel, form);
  });
});

describe("the bar", () => {
  it("says what was undone and done again, and when there is nothing", async () => {
    const page = await sitting.open();
    const bar = page.locator("#bar");
    const step = (name: string) => bar.getByRole("button", { name, exact: true }).click();
    await step("Undo");
    await bar.getByText("There is nothing to undo.").waitFor();
    await step("Redo");
    await bar.getByText("There is nothing to do again.").waitFor();
    await typeInto(page, "Z1", "7");
    await step("Undo");
    await bar.getByText("The last step is undone.").waitFor();
    await step("Redo");
    await bar.getByText("The step is done again.").waitFor();
  });

  it("has no fault that axe finds, nor has a question that it asks", async () => {
    const page = await still();
    for (const colorScheme of SCHEMES) {
      await page.emulateMedia({ colorScheme });
      assert.deepEqual(await axeFaults(page, "#bar"), []);
      await page.getByRole("button", { name: "Open the sample", exact: true }).click();
      await page.getByRole("dialog").waitFor();
      assert.deepEqual(await axeFaults(page, "dialog"), []);
      await page.keyboard.press("Escape");
    }
  });
});
