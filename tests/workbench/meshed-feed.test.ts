/** Two supplies, a bus that both feed and a tie, typed on the sheets of the blank budget: figures invented, worked out by hand. */
import assert from "node:assert/strict";
import { mkdirSync } from "node:fs";
import type { Page } from "playwright-core";
import { describe, it } from "vitest";
import { cellAddress, cellPlace } from "../../src/plans/addresses.js";
import type {
  SheetSnapshot,
  WorkbookSnapshot,
} from "../../taskpane/hosts/files/workbook-snapshot.js";
import { savedWorkbook, sheetTab, typeRow } from "../helpers/workbench-sheet.js";
import { workbenchSitting } from "../helpers/workbench-sitting.js";

const sitting = workbenchSitting();

const SCHEDULES: readonly (readonly [
  string,
  string,
  readonly Readonly<Record<string, string>>[],
])[] = [
  [
    "Feed",
    "Supply",
    [
      { Supply: "Jetty", "Voltage (V)": "400", "Resistance (Ω)": "0.1" },
      { Supply: "Shed", "Voltage (V)": "396", "Resistance (Ω)": "0.1" },
    ],
  ],
  [
    "Feed",
    "Cable",
    [
      { Cable: "Jetty line", "Fed from": "Jetty", "Resistance (Ω)": "0.4", "Rated A": "30" },
      { Cable: "Shed line", "Fed from": "Shed", "Resistance (Ω)": "0.9", "Rated A": "30" },
      { Cable: "Ward line", "Fed from": "Clinic bus", "Resistance (Ω)": "0.2", "Rated A": "30" },
      {
        Cable: "Ward link",
        "Fed from": "Ward line; Clinic bus",
        "Resistance (Ω)": "0.2",
        "Rated A": "30",
      },
    ],
  ],
  [
    "Feed",
    "In line",
    [{ "In line": "Clinic bus", "Fed from": "Jetty line; Shed line", Kind: "bus" }],
  ],
  [
    "Loads",
    "Load",
    [
      { Load: "Cold store", "Fed from": "Clinic bus", Kind: "current", Nominal: "10" },
      { Load: "Ward", "Fed from": "Ward line", Kind: "current", Nominal: "10" },
    ],
  ],
];

function sheetOf({ sheets }: WorkbookSnapshot, name: string): SheetSnapshot {
  return sheets.find((one) => one.name === name)!;
}

async function typeBlock(
  page: Page,
  { cells }: SheetSnapshot,
  block: string,
  rows: readonly Readonly<Record<string, string>>[],
) {
  const head = cells.find(({ at, value }) => value === block && /^A\d/.test(at))!;
  const { row } = cellPlace(head.at);
  const columnOf = (header: string) =>
    cellPlace(cells.find(({ at, value }) => cellPlace(at).row === row && value === header)!.at)
      .column;
  for (const [index, typed] of rows.entries())
    await typeRow(
      page,
      row + 1 + index,
      new Map(Object.entries(typed).map(([header, text]) => [columnOf(header), text])),
    );
}

describe("a feed with two supplies and a ring", () => {
  it("is typed on the sheets, solved, judged as far as it is, and shown", async () => {
    const page = await sitting.openEmpty();
    await page.getByRole("tab", { name: "Insert" }).click();
    await page.getByRole("radio", { name: /New feed/ }).check();
    await page.getByRole("button", { name: "Insert the budget" }).click();
    await page.getByRole("tab", { name: "Notes", exact: true }).waitFor();
    const blank = await savedWorkbook(page);
    for (const [name, block, rows] of SCHEDULES) {
      await sheetTab(page, name).click();
      await typeBlock(page, sheetOf(blank, name), block, rows);
    }
    const { cells } = sheetOf(await savedWorkbook(page), "Budget");
    const at = new Map(cells.map((cell) => [cell.at, cell.value]));
    const head = cells.find(
      ({ at: address, value }) =>
        value === "Item" &&
        at.get(
          cellAddress({ row: cellPlace(address).row, column: cellPlace(address).column + 1 }),
        ) === "Input V",
    )!;
    const { row: top, column: left } = cellPlace(head.at);
    const figure = (item: string, column: number) => {
      for (let row = top + 1; row < top + 20; row++)
        if (at.get(cellAddress({ row, column: left })) === item)
          return Number(at.get(cellAddress({ row, column: left + column })));
      return Number.NaN;
    };
    // (2 S · 400 V + 1 S · 396 V − 20 A) / 3 S = 392 V; the ward's 10 A part evenly: 392 − 5 · 0.2 V.
    const near = (found: number, wanted: number) =>
      assert.ok(Math.abs(found - wanted) <= 1e-9, `${found}, ${wanted}`);
    near(figure("Clinic bus", 4), 392);
    near(figure("Jetty", 5), 16);
    near(figure("Shed", 5), 4);
    near(figure("Ward line", 4), 391);
    // From the ward's end to the bus.
    near(figure("Ward link", 5), -5);
    mkdirSync(".cache/pictures", { recursive: true });
    await sheetTab(page, "Budget").click();
    const views = page.getByRole("tablist", { name: "Views" });
    await views.getByRole("tab", { name: "Feed" }).click();
    await page
      .getByRole("treeitem", { name: /Clinic bus/ })
      .first()
      .waitFor();
    const outline = await page.getByRole("treeitem").allInnerTexts();
    assert.deepEqual(
      outline
        .filter((text) => text.includes("from "))
        .map((text) =>
          text
            .replace(/\s+/g, " ")
            .match(/from .* and [A-Za-z ]+/)?.[0]
            .trim(),
        ),
      ["from Jetty line and Shed line", "from Ward line and Clinic bus"],
    );
    await page.screenshot({ path: ".cache/pictures/meshed-feed.png" });
    await sheetTab(page, "Checks").click();
    await views.getByRole("tab", { name: "Pictures" }).click();
    await page.getByRole("img", { name: /Clinic bus from Jetty line; Shed line/ }).waitFor();
    await page.screenshot({ path: ".cache/pictures/meshed-feed-diagram.png" });
  });
});
