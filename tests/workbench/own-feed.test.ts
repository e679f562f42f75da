/**
 * A feed of one's own, typed on the sheets of the blank budget and nowhere else, as its user would: 750 V beside a track,
 * 180 m of cable, three units side by side, stages from types, six loads. Its figures are worked out here by hand.
 */
import assert from "node:assert/strict";
import { mkdirSync } from "node:fs";
import type { Page } from "playwright-core";
import { beforeEach, describe, it } from "vitest";
import type {
  SheetSnapshot,
  WorkbookSnapshot,
} from "../../taskpane/hosts/files/workbook-snapshot.js";
import { cellAddress, cellPlace } from "../../src/plans/addresses.js";
import { OWN_ASKED, OWN_SCHEDULES, type Typed } from "../feeds/own-feed.js";
import { openEmptyWorkbook, workbenchSitting } from "../helpers/workbench-sitting.js";
import {
  assertInBox,
  goToCell,
  savedWorkbook,
  sheetTab,
  typeInto,
  typeRow,
} from "../helpers/workbench-sheet.js";

const sitting = workbenchSitting();
let page: Page;

beforeEach(async () => {
  page = await sitting.goOn();
});

async function toSheet(page: Page, name: string): Promise<void> {
  await sheetTab(page, name).click();
}

function sheetOf({ sheets }: WorkbookSnapshot, name: string): SheetSnapshot {
  const sheet = sheets.find((one) => one.name === name);
  assert.ok(sheet, `no sheet ${name}`);
  return sheet;
}

function errorsIn({ sheets }: WorkbookSnapshot): readonly string[] {
  return sheets.flatMap(({ name, cells }) =>
    cells.flatMap(({ at, value }) => (typeof value === "object" ? [`${name}!${at}`] : [])),
  );
}

/** The feed as it is solved. */
const solvedIn = (workbook: WorkbookSnapshot) =>
  records(sheetOf(workbook, "Budget"), "Item", "Input V");

/** The cell that heads a block, and its headers' columns. */
function blockOn({ cells }: SheetSnapshot, block: string) {
  const head = cells.find(({ at, value }) => value === block && /^A\d/.test(at));
  assert.ok(head, `no block ${block}`);
  const { row } = cellPlace(head.at);
  const columns = new Map(
    cells.flatMap(({ at, value }) => {
      const place = cellPlace(at);
      return place.row === row ? [[String(value), place.column] as const] : [];
    }),
  );
  return { row, columns };
}

async function typeBlock(
  page: Page,
  sheet: SheetSnapshot,
  block: string,
  rows: readonly Typed[],
): Promise<number> {
  const { row, columns } = blockOn(sheet, block);
  let count = 0;
  for (const [index, typed] of rows.entries()) {
    const texts = new Map(
      Object.entries(typed).map(([header, text]) => {
        const column = columns.get(header);
        assert.ok(column !== undefined, `${block} has no ${header}`);
        return [column, text] as const;
      }),
    );
    await typeRow(page, row + 1 + index, texts);
    count += texts.size;
  }
  return count;
}

/** Rows of a spill by its headings. */
function records({ cells }: SheetSnapshot, first: string, second: string) {
  const at = new Map(cells.map((cell) => [cell.at, cell.value]));
  const head = cells.find(({ at: address, value }) => {
    const { row, column } = cellPlace(address);
    return value === first && at.get(cellAddress({ row, column: column + 1 })) === second;
  });
  assert.ok(head, `no table ${first}, ${second}`);
  const { row: top, column: left } = cellPlace(head.at);
  const headings: string[] = [];
  for (let column = left; ; column++) {
    const heading = at.get(cellAddress({ row: top, column }));
    if (heading === undefined || heading === "") break;
    headings.push(String(heading));
  }
  const found: Record<string, unknown>[] = [];
  for (let row = top + 1; ; row++) {
    const item = at.get(cellAddress({ row, column: left }));
    if (item === undefined || item === "") return found;
    found.push(
      Object.fromEntries(
        headings.map((heading, index) => [
          heading,
          at.get(cellAddress({ row, column: left + index })),
        ]),
      ),
    );
  }
}

/** Of an empty row, and of the letters above the first. */
const ROW_PX = 24;
const LETTERS_PX = 20;

/** The middle of the row's number, on a page that is high enough for all rows. */
async function rowNumber(page: Page, sheet: SheetSnapshot, row: number) {
  await goToCell(page, "A5");
  // Nothing is scrolled away then.
  await page.keyboard.press("Control+Home");
  await assertInBox(page, "A1");
  const canvas = await page.locator("canvas[id^=univer-sheet-main-canvas]").boundingBox();
  assert.ok(canvas);
  const heightOf = (at: number) => sheet.rowHeights[at] ?? ROW_PX;
  const above = Array.from({ length: row - 1 }, (_, at) => heightOf(at));
  const top = above.reduce((sum, height) => sum + height, canvas.y + LETTERS_PX);
  return { x: canvas.x + 15, y: top + heightOf(row - 1) / 2 };
}

async function menuOfRow(page: Page, sheet: SheetSnapshot, row: number): Promise<void> {
  const { x, y } = await rowNumber(page, sheet, row);
  await page.mouse.click(x, y);
  await assertInBox(page, `${row}:${row}`);
  await page.mouse.click(x, y, { button: "right" });
}

async function insertRows(page: Page, sheet: SheetSnapshot, above: number, count: number) {
  await menuOfRow(page, sheet, above);
  const item = page.getByText("rows above");
  await item.locator("input").fill(String(count));
  // Beside its field for the number.
  await item.click({ position: { x: 5, y: 5 } });
}

function near(found: unknown, wanted: number, digits: number) {
  assert.ok(
    Math.abs(Number(found) - wanted) <= 0.5 * 10 ** -digits,
    `${String(found)} is not ${wanted}`,
  );
}

describe("a feed of one's own", () => {
  it("is typed on the sheets alone, and has every verdict", async () => {
    await openEmptyWorkbook(page);
    await page.getByRole("tab", { name: "Insert" }).click();
    await page.getByRole("radio", { name: /New feed/ }).check();
    await page.getByRole("button", { name: "Insert the budget" }).click();
    await page.getByRole("tab", { name: "Notes", exact: true }).waitFor();

    await toSheet(page, "Inputs");
    const blank = await savedWorkbook(page);
    let count = 0;
    for (const [label, text] of Object.entries(OWN_ASKED)) {
      const cell = sheetOf(blank, "Inputs").cells.find(({ value }) => value === label);
      assert.ok(cell, label);
      await typeInto(page, cell.at.replace(/^A/, "B"), text);
      count += 1;
    }
    for (const [name, block, rows] of OWN_SCHEDULES) {
      await toSheet(page, name);
      count += await typeBlock(page, sheetOf(blank, name), block, rows);
    }
    console.log(`${count} cells typed`);

    const typed = await savedWorkbook(page);
    const solved = solvedIn(typed);
    assert.equal(solved.length, 12);
    const of = (item: string) => solved.find((row) => row["Item"] === item)!;
    // 24 V: 1.2 · (150 + 16) W; loss 2 + 0.1 · I + 0.02 · I². 5 V: 1.2 · 20 W, a ninth of it lost.
    near(of("24 V stage")["Output W"], 199.2, 3);
    near(of("24 V stage")["Loss W"], 2 + 0.83 + 0.02 * 8.3 ** 2, 4);
    near(of("5 V stage")["Loss W"], 24 / 9, 4);
    // 4 mm²: 4.61 Ω/km at 20 °C, out and back, at 70 °C.
    const table = records(sheetOf(typed, "Table"), "Item", "Fed from");
    const cable = table.find((row) => row["Item"] === "Trackside cable")!;
    near(cable["Resistance (Ω)"], 4.61 * 0.36 * (1 + 0.00393 * 50), 4);

    const checks = records(sheetOf(typed, "Checks"), "Item", "Check");
    assert.ok(checks.length > 60, String(checks.length));
    for (const row of checks) {
      assert.match(String(row["Verdict"]), /^(holds|fails|not determined|not asked)$/);
      if (row["Verdict"] === "not determined")
        assert.match(String(row["Enter or try"]), /^enter /i, JSON.stringify(row));
    }
    const check = (item: string, name: string) =>
      checks.find((row) => row["Item"] === item && row["Check"] === name)!;
    // Peak 1.2 · 322.4 W at 24 V less 2 % is 16.45 A of 10 A.
    const loading = check("24 V stage", "Loading");
    assert.equal(loading["Verdict"], "fails");
    near(loading["Found"], (1.2 * 322.4) / (24 * 0.98) / 10, 4);
    // Enclosed, however hazardous its voltage.
    assert.equal(check("Substation", "Band in service")["Verdict"], "holds");

    // Nothing that fails is missing from the pane.
    await page.getByRole("tab", { name: /^Warnings/ }).click();
    const panel = page.getByRole("tabpanel", { name: /Warnings/ });
    const listed = await panel.locator(".feed-item").allInnerTexts();
    for (const { Check, Verdict, Cause } of checks)
      if (Verdict === "fails" || Verdict === "not determined") {
        const named = Cause === "Asked for" ? Cause : String(Check);
        assert.ok(
          listed.some((text) => text.includes(named)),
          named,
        );
      }
    mkdirSync(".cache/pictures", { recursive: true });
    await page.screenshot({ path: ".cache/pictures/own-feed.png" });
    await toSheet(page, "Checks");
    await goToCell(page, "A8");
    await page.screenshot({ path: ".cache/pictures/own-feed-checks.png" });
  }, 600_000);

  it("grows to forty items, takes a row in every block, loses one, is copied, and all is undone", async () => {
    await page.context().grantPermissions(["clipboard-read", "clipboard-write"]);
    await page.setViewportSize({ width: 1400, height: 2_000 });
    const before = await savedWorkbook(page);
    let steps = 0;
    const lamps = Array.from({ length: 28 }, (_, index) => `Lamp ${index + 1}`);
    const { cells } = sheetOf(before, "Loads");
    const line = cells.find(({ value }) => /^Insert rows above/.test(String(value)));
    assert.ok(line);
    const closing = cellPlace(line.at).row;
    const named = cells.filter(({ at, value }) => /^A\d/.test(at) && value);
    const last = named.filter(({ at }) => cellPlace(at).row < closing).at(-1);
    const free = cellPlace(last!.at).row + 2;

    await toSheet(page, "Loads");
    await insertRows(page, sheetOf(before, "Loads"), closing, lamps.length);
    const rows = lamps.map((name) => [name, "24 V stage", "", "power", "", "", "", "0.5"]);
    await page.evaluate(
      (text) => navigator.clipboard.writeText(text),
      rows.map((row) => row.join("\t")).join("\n"),
    );
    await goToCell(page, `A${free}`);
    await page.keyboard.press("Control+v");
    steps += 2;
    const grown = await savedWorkbook(page);
    const forty = solvedIn(grown);
    assert.equal(forty.length, 40);
    near(forty.find(({ Item }) => Item === "Lamp 28")!["Input W"], 0.6, 9);
    assert.deepEqual(errorsIn(grown), []);

    // From the lowest block of a sheet up: those above stay where they are.
    const blocks = OWN_SCHEDULES.map(([name, block]) => {
      const sheet = sheetOf(grown, name);
      return { sheet, row: blockOn(sheet, block).row };
    }).sort((one, other) => other.row - one.row);
    for (const { sheet, row } of blocks) {
      await toSheet(page, sheet.name);
      await insertRows(page, sheet, row + 3, 1);
      steps += 1;
    }
    const wider = await savedWorkbook(page);
    assert.deepEqual(solvedIn(wider), forty);
    assert.deepEqual(errorsIn(wider), []);

    await toSheet(page, "Loads");
    const lamp = sheetOf(wider, "Loads").cells.find(({ value }) => value === "Lamp 1");
    await menuOfRow(page, sheetOf(wider, "Loads"), cellPlace(lamp!.at).row + 1);
    await page.getByText("Delete Selected Row").click();
    steps += 1;
    const left = solvedIn(await savedWorkbook(page));
    assert.deepEqual(
      left.map(({ Item }) => Item),
      forty.map(({ Item }) => Item).filter((item) => item !== "Lamp 1"),
    );

    await page.getByRole("tab", { name: "Hand over" }).click();
    await page.getByRole("button", { name: "Keep this version" }).click();
    await page.getByRole("button", { name: "Keep it", exact: true }).click();
    await sheetTab(page, "Budget 2").waitFor();
    steps += 1;
    const copied = await savedWorkbook(page);
    assert.deepEqual(records(sheetOf(copied, "Budget 2"), "Item", "Input V"), left);
    assert.deepEqual(errorsIn(copied), []);
    await page.screenshot({ path: ".cache/pictures/own-feed-copied.png" });

    await toSheet(page, "Loads");
    await goToCell(page, "A1");
    for (let step = 0; step < steps; step += 1) await page.keyboard.press("Control+z");
    await page.waitForFunction(
      () =>
        ![...document.querySelectorAll('[role="tab"]')].some(
          (tab) => tab.textContent === "Budget 2",
        ),
    );
    const undone = await savedWorkbook(page);
    assert.deepEqual(solvedIn(undone), solvedIn(before));
    assert.deepEqual(errorsIn(undone), []);
  }, 600_000);
});
