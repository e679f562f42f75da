/**
 * The rule of one fault as formulas of a sheet, one row per item and parents above their children, comes to the same
 * voltages as the engine. A budget's bands stand on such rows.
 */
import assert from "node:assert/strict";
import { afterAll, beforeAll, describe, it } from "vitest";
import type { FeedItem, Isolation } from "../../src/network/feed-item.js";
import { faultPath, type HighestVoltage } from "../../src/safety/fault-path.js";
import { feedItem } from "../helpers/feed.js";
import {
  type HeadlessWorkbook,
  openHeadlessCells,
} from "../helpers/headless-workbook.js";

const UNKNOWN = '"not determined"';

// A Item, B Fed from, C Kind, D Voltage, E Ratio, F Highest V, G Tolerance, H Isolation, I Trip V;
// J row of the feeding item (0: none above), K in service, L after one fault, M and N their bands.
function formulas(row: number): Readonly<Record<string, string>> {
  const above = (column: string) => `${column}$1:${column}${row - 1}`;
  const fed = (column: string) => `INDEX(${above(column)},J${row})`;
  const worst = (input: string, ratio: string) =>
    `FEED.SAFETY_WORST_VOLTAGE(${input},${ratio},G${row})`;
  const insulated = `H${row}="reinforced"`;
  const band = (column: string) =>
    `=IF(ISNUMBER(${column}${row}),FEED.SAFETY_BAND(${column}${row},"IEC 62368-1","dry"),${UNKNOWN})`;
  return {
    J: `=IF(C${row}="supply",0,IFERROR(MATCH(B${row},${above("A")},0),0))`,
    K: `=IF(C${row}="supply",IF(N(F${row})>0,MAX(D${row},F${row}),${UNKNOWN}),IF(J${row}=0,${UNKNOWN},IF(C${row}="ratio",IFERROR(${worst(fed("K"), `E${row}`)},${UNKNOWN}),IF(C${row}="regulated",IFERROR(${worst(`D${row}`, "1")},${UNKNOWN}),${fed("K")}))))`,
    L: `=IF(C${row}="supply",K${row},IF(J${row}=0,${UNKNOWN},IF(C${row}="ratio",IFERROR(MAX(${worst(fed("L"), `E${row}`)},IF(${insulated},0,${fed("L")})),${UNKNOWN}),IF(C${row}="regulated",IF(AND(ISNUMBER(K${row}),N(I${row})>0,OR(${insulated},ISNUMBER(${fed("L")}))),MAX(K${row},I${row},IF(${insulated},0,${fed("L")})),${UNKNOWN}),${fed("L")}))))`,
    M: band("K"),
    N: band("L"),
  };
}

function cellsOf(items: readonly FeedItem[]): Record<string, string | number> {
  const cells: Record<string, string | number> = {};
  items.forEach((one, index) => {
    const row = index + 2;
    const figures = [
      one.item,
      one.fedFrom,
      one.kind,
      one.voltage,
      one.ratio,
      one.highestVoltage,
      one.tolerance === 0 ? "exact" : one.tolerance,
      one.isolation,
      one.tripVoltage,
    ];
    figures.forEach((figure, column) => {
      if (figure !== undefined) cells[`${"ABCDEFGHI"[column]}${row}`] = figure;
    });
    for (const [column, formula] of Object.entries(formulas(row)))
      cells[`${column}${row}`] = formula;
  });
  return cells;
}

/** Small linear congruential generator: the same feed on every run. */
function drawer(seed: number) {
  let state = seed;
  return <T>(choices: readonly T[]): T => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return choices[Math.floor((state / 2 ** 32) * choices.length)]!;
  };
}

function drawnFeed(count: number, seed: number): FeedItem[] {
  const draw = drawer(seed);
  const items = [
    feedItem("item 0", undefined, "supply", {
      voltage: 400,
      highestVoltage: 440,
    }),
    feedItem("item 1", undefined, "supply", { voltage: 400 }),
  ];
  while (items.length < count) {
    const { item: fedFrom } = draw(
      items.filter(({ kind }) => kind !== "power load"),
    );
    const kind = draw([
      "run",
      "series",
      "ratio",
      "ratio",
      "regulated",
      "regulated",
      "power load",
    ] as const);
    const isolation: Isolation | undefined = draw([
      undefined,
      "none",
      "functional",
      "basic",
      "reinforced",
      "reinforced",
      "reinforced",
    ]);
    items.push(
      feedItem(`item ${items.length}`, fedFrom, kind, {
        voltage: draw([5, 12, 24, 48]),
        ratio: draw([1 / 12, 1 / 8, 1 / 2, 2]),
        tolerance: draw([0, 0.01, 0.02, 0.05, 0.05, 0.05, undefined]),
        isolation,
        tripVoltage: draw([undefined, 6, 30, 58, 58, 58]),
      }),
    );
  }
  return items;
}

describe("the rule of one fault in the cells of a sheet", () => {
  const items = drawnFeed(120, 20);
  let workbook: HeadlessWorkbook;
  beforeAll(async () => {
    workbook = await openHeadlessCells(cellsOf(items));
  });
  afterAll(() => workbook.dispose());

  it("comes to the engine's voltages, and is not determined where they are not", () => {
    const nodes = faultPath(items);
    nodes.forEach(({ item, normal, afterFault }, index) => {
      const [inService, failed] = workbook.values(
        "Sheet",
        `K${index + 2}:L${index + 2}`,
      )[0]!;
      assertSame(item, inService, normal);
      assertSame(item, failed, afterFault);
    });
    const known = nodes.filter(
      ({ afterFault }) => afterFault.outcome === "determined",
    );
    assert.ok(known.length > 30 && known.length < items.length - 30);
  });

  it("has the band of each voltage", () => {
    const bands = workbook.values("Sheet", `K2:N${items.length + 1}`);
    for (const [inService, afterFault, normalBand, faultBand] of bands) {
      assertBand(inService, normalBand);
      assertBand(afterFault, faultBand);
    }
  });

  function assertSame(item: string, cell: unknown, expected: HighestVoltage) {
    if (expected.outcome === "not determined")
      return assert.equal(cell, "not determined", item);
    assert.equal(typeof cell, "number", `${item}: ${String(cell)}`);
    const { voltage } = expected;
    assert.ok(Math.abs(Number(cell) - voltage) <= 1e-9 * voltage, item);
  }

  function assertBand(voltage: unknown, band: unknown) {
    const expected =
      typeof voltage !== "number"
        ? "not determined"
        : voltage <= 60
          ? "ES1"
          : voltage <= 120
            ? "ES2"
            : "ES3";
    assert.equal(String(band).split(" · ")[0], expected);
  }
});
