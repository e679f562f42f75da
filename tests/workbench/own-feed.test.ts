/**
 * A feed of one's own, typed on the sheets of the blank budget and nowhere else, as its user would: 750 V beside a track,
 * 180 m of cable, three units side by side, stages from types, six loads. Its figures are worked out here by hand.
 */
import assert from "node:assert/strict";
import { mkdirSync } from "node:fs";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, it } from "vitest";
import type { SheetSnapshot } from "../../taskpane/hosts/files/workbook-snapshot.js";
import { cellAddress, cellPlace } from "../../src/plans/addresses.js";
import type { BlockName } from "../../src/schedules/columns.js";
import { launchChromium } from "../helpers/chromium.js";
import {
  openWorkbenchPage,
  type OpenedPage,
  type ServedDist,
  serveDist,
} from "../helpers/workbench-page.js";
import { goToCell, savedWorkbook, typeInto } from "../helpers/workbench-sheet.js";

type Typed = Readonly<Record<string, string>>;

const ASKED: Typed = {
  Framework: "IEC 60364-4-41",
  Place: "wet",
  "Load margin": "20%",
  "Largest drop of a cable": "5%",
  "Largest loading of a stage": "90%",
  "Units lost": "1",
};

const SCHEDULES: readonly (readonly [string, BlockName, readonly Typed[]])[] = [
  [
    "Feed",
    "Supply",
    [
      {
        Supply: "Substation",
        Location: "Trackside",
        "Lowest V": "500",
        "Voltage (V)": "750",
        "Highest V": "900",
        "Resistance (Ω)": "0.4",
        "Rated A": "10",
      },
    ],
  ],
  [
    "Feed",
    "Stage",
    [
      {
        Stage: "Bus units",
        "Fed from": "Trackside cable",
        Location: "Trackside",
        Type: "Bus 16",
        "In parallel": "3",
        Tolerance: "2%",
        Isolation: "reinforced",
      },
      {
        Stage: "24 V stage",
        "Fed from": "Bus units",
        Location: "Trackside",
        Type: "24 V 10 A",
        Tolerance: "2%",
      },
      {
        Stage: "5 V stage",
        "Fed from": "Bus units",
        Location: "Trackside",
        Type: "5 V 10 A",
        Tolerance: "2%",
      },
    ],
  ],
  [
    "Feed",
    "Cable",
    [
      {
        Cable: "Trackside cable",
        "Fed from": "Track fuse",
        Location: "Trackside",
        "Length (m)": "180",
        Size: "4 mm²",
        "Conductor at most (°C)": "70",
      },
    ],
  ],
  [
    "Feed",
    "In line",
    [
      {
        "In line": "Track fuse",
        "Fed from": "Substation",
        Location: "Trackside",
        Kind: "fuse",
        "Resistance (mΩ)": "20",
        "Rated A": "4",
      },
    ],
  ],
  [
    "Loads",
    "Load",
    [
      {
        Load: "Point machines",
        "Fed from": "24 V stage",
        Kind: "power",
        Nominal: "150",
        Peak: "300",
      },
      {
        Load: "Interlocking",
        "Fed from": "24 V stage",
        Kind: "power",
        Nominal: "16",
        Peak: "22.4",
      },
      {
        Load: "Radio",
        "Fed from": "5 V stage",
        Kind: "power",
        Nominal: "10",
        Peak: "20",
      },
      {
        Load: "Axle counters",
        "Fed from": "5 V stage",
        Kind: "power",
        Nominal: "10",
        Peak: "10",
      },
      {
        Load: "Heater",
        "Fed from": "Bus units",
        Kind: "resistance",
        Nominal: "12",
      },
      {
        Load: "Signal lamps",
        "Fed from": "Bus units",
        Kind: "current",
        Nominal: "1.5",
      },
    ],
  ],
  [
    "Types",
    "Location",
    [
      {
        Location: "Trackside",
        "Coldest (°C)": "-25",
        "Hottest (°C)": "55",
        "Altitude (m)": "1500",
        Place: "wet",
        Access: "enclosed",
      },
    ],
  ],
  [
    "Types",
    "Stage type",
    [
      {
        "Stage type": "Bus 16",
        Kind: "ratio",
        "Steps down by": "16",
        "Lowest V": "500",
        "Highest V": "900",
        "Rated A": "15",
        "Resistance (mΩ)": "20",
        "Fixed loss (W)": "8",
      },
      {
        "Stage type": "24 V 10 A",
        Kind: "regulated",
        "Voltage (V)": "24",
        "Lowest V": "28",
        "Highest V": "60",
        "Rated A": "10",
        "Fixed loss (W)": "2",
        "Linear loss (W/A)": "0.1",
        "Quadratic loss (W/A²)": "0.02",
      },
      {
        "Stage type": "5 V 10 A",
        Kind: "regulated",
        "Voltage (V)": "5",
        "Lowest V": "28",
        "Highest V": "60",
        "Rated A": "10",
        Efficiency: "90%",
      },
    ],
  ],
];

let browser: Browser;
let dist: ServedDist;
let opened: OpenedPage;

beforeAll(async () => {
  dist = await serveDist();
  browser = await launchChromium();
  opened = await openWorkbenchPage(browser, dist);
}, 240_000);
afterAll(async () => {
  await browser.close();
  await dist.close();
});

async function toSheet(page: Page, name: string): Promise<void> {
  await page.getByRole("tab", { name, exact: true }).click();
}

async function sheetNow(page: Page, name: string): Promise<SheetSnapshot> {
  const { sheets } = await savedWorkbook(page);
  const sheet = sheets.find((one) => one.name === name);
  assert.ok(sheet, `no sheet ${name}`);
  return sheet;
}

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
  for (const [index, typed] of rows.entries())
    for (const [header, text] of Object.entries(typed)) {
      const column = columns.get(header);
      assert.ok(column !== undefined, `${block} has no ${header}`);
      await typeInto(page, cellAddress({ row: row + 1 + index, column }), text);
      count += 1;
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

function near(found: unknown, wanted: number, digits: number) {
  assert.ok(
    Math.abs(Number(found) - wanted) <= 0.5 * 10 ** -digits,
    `${String(found)} is not ${wanted}`,
  );
}

describe("a feed of one's own", () => {
  it("is typed on the sheets alone, and has every verdict", async () => {
    const { page } = opened;
    await page.getByRole("button", { name: "Empty workbook" }).click();
    await page
      .locator("#bar [role=status]")
      .filter({ hasText: "An empty workbook is open" })
      .waitFor();
    await page.getByRole("tab", { name: "Insert" }).click();
    await page.getByRole("radio", { name: /New feed/ }).check();
    await page.getByRole("button", { name: "Insert the budget" }).click();
    await page.getByRole("tab", { name: "Notes", exact: true }).waitFor();

    await toSheet(page, "Inputs");
    const inputs = await sheetNow(page, "Inputs");
    let count = 0;
    for (const [label, text] of Object.entries(ASKED)) {
      const cell = inputs.cells.find(({ value }) => value === label);
      assert.ok(cell, label);
      await typeInto(page, cell.at.replace(/^A/, "B"), text);
      count += 1;
    }
    for (const [name, block, rows] of SCHEDULES) {
      await toSheet(page, name);
      count += await typeBlock(page, await sheetNow(page, name), block, rows);
    }
    console.log(`${count} cells typed`);

    const { sheets } = await savedWorkbook(page);
    const sheet = (name: string) => sheets.find((one) => one.name === name)!;
    const solved = records(sheet("Budget"), "Item", "Input V");
    assert.equal(solved.length, 12);
    const of = (item: string) => solved.find((row) => row["Item"] === item)!;
    // 24 V: 1.2 · (150 + 16) W; loss 2 + 0.1 · I + 0.02 · I². 5 V: 1.2 · 20 W, a ninth of it lost.
    near(of("24 V stage")["Output W"], 199.2, 3);
    near(of("24 V stage")["Loss W"], 2 + 0.83 + 0.02 * 8.3 ** 2, 4);
    near(of("5 V stage")["Loss W"], 24 / 9, 4);
    // 4 mm²: 4.61 Ω/km at 20 °C, out and back, at 70 °C.
    const table = records(sheet("Table"), "Item", "Fed from");
    const cable = table.find((row) => row["Item"] === "Trackside cable")!;
    near(cable["Resistance (Ω)"], 4.61 * 0.36 * (1 + 0.00393 * 50), 4);

    const checks = records(sheet("Checks"), "Item", "Check");
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
    assert.deepEqual(opened.complaints, []);
  }, 600_000);
});
