/** Somebody's load list pasted in the pane of the workbench: eighty rows, seen before they are written, and undone at once. */
import assert from "node:assert/strict";
import { mkdirSync } from "node:fs";
import type { Page } from "playwright-core";
import { beforeEach, describe, it } from "vitest";
import { workbenchSitting } from "../helpers/workbench-sitting.js";
import { savedWorkbook } from "../helpers/workbench-sheet.js";
import { SURVEY_VESSEL } from "../taskpane/lists/survey-vessel.js";

const sitting = workbenchSitting();
let page: Page;
const SHOTS = ".cache/pictures";
mkdirSync(SHOTS, { recursive: true });

beforeEach(async () => {
  page = await sitting.open();
  page.setDefaultTimeout(60_000);
});

const panel = () => page.getByRole("tabpanel", { name: "Feed" });
const form = () => panel().getByRole("form", { name: "Paste a list" });

/** Names of all loads with their watts, off the saved workbook. */
async function loads(): Promise<ReadonlyMap<string, unknown>> {
  const { sheets } = await savedWorkbook(page);
  const { cells } = sheets.find(({ name }) => name === "Loads")!;
  const at = new Map(cells.map((cell) => [cell.at, cell.value]));
  const found = new Map<string, unknown>();
  const [, nominal] = /^([A-Z]+)/.exec(cells.find(({ value }) => value === "Nominal")!.at)!;
  for (let row = 5; row < 200; row += 1) {
    const name = at.get(`A${row}`);
    if (typeof name !== "string" || name === "" || name.startsWith("Insert rows")) break;
    found.set(name, at.get(`${nominal}${row}`));
  }
  return found;
}

describe("a pasted load list", () => {
  it("is seen, written and undone as one step", async () => {
    const before = await loads();
    await panel().getByRole("button", { name: "Paste a list" }).click();
    await form().getByLabel("The list", { exact: true }).fill(SURVEY_VESSEL);
    await form().getByText("4,312 W in the list, 4,312 W taken.").waitFor();
    await form().getByLabel("What the list is").fill("Load list LL-07, issue B");
    await form().getByText("80 new rows, 0 changed, 0 unchanged.").waitFor();
    await form()
      .getByText(/# State is carried, not counted/)
      .waitFor();
    await page.screenshot({ path: `${SHOTS}/paste-list-preview.png` });
    await form().screenshot({ path: `${SHOTS}/paste-list-form.png` });
    const begun = Date.now();
    await form().getByRole("button", { name: "Write 80 new and 0 changed rows" }).click();
    await panel()
      .getByText(/Load: 80 new rows and 0 changed on Loads/)
      .waitFor();
    console.log(`written after ${Date.now() - begun} ms`);
    const after = await loads();
    assert.equal(after.size, before.size + 80);
    assert.equal(after.get("Winch brake aft"), 375);
    await page.locator("#sheet").getByRole("tab", { name: "Loads", exact: true }).click();
    await page.screenshot({ path: `${SHOTS}/paste-list-written.png` });
    await page.mouse.click(400, 500);
    await page.keyboard.press("Control+z");
    assert.deepEqual([...(await loads())], [...before]);
  });
});
