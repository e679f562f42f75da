/** Random feeds on the sheets: whatever a cell function spills there is what it gives for the same blocks. */
import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, it } from "vitest";
import { type Argument, type Cell, type CellTable, isCellError } from "../../functions/cells.js";
import { evaluate } from "../../functions/runner.js";
import type { FeedItem } from "../../src/network/feed-item.js";
import type { BudgetSample, ScheduleRow } from "../../taskpane/budgets/sample.js";
import { blank } from "../../taskpane/budgets/samples/blank.js";
import { randomFeed } from "../helpers/random-feed.js";
import { blocksOf } from "../helpers/schedule-of-feed.js";
import { type OpenSheets, openSheets } from "./open-sheets.js";

/** Headings in another unit than that of the sheet. */
const CONVERTED: Readonly<Record<string, readonly [header: string, factor: number]>> = {
  "Quadratic loss (mΩ)": ["Quadratic loss", 0.001],
  "Efficiency (%)": ["Efficiency", 0.01],
};

function rowsOf([headers = [], ...rows]: CellTable): ScheduleRow[] {
  return rows.slice(0, -1).map((row) =>
    Object.fromEntries(
      row.flatMap((cell, at): (readonly [string, number | string])[] => {
        const heading = String(headers[at]);
        const [header, factor] = CONVERTED[heading] ?? [heading.replace(/ \(.*\)$/, ""), 1];
        if (typeof cell === "number") return [[header, cell * factor]];
        return typeof cell === "string" ? [[header, cell]] : [];
      }),
    ),
  );
}

/** Solved in all nine cases. */
function withWindow(item: FeedItem): FeedItem {
  const { kind, voltage } = item;
  if (kind !== "supply" || voltage === undefined) return item;
  return { ...item, lowestVoltage: 0.9 * voltage, highestVoltage: 1.1 * voltage };
}

function sampleOf(items: readonly FeedItem[], margin: number): BudgetSample {
  const schedules = blocksOf(items, margin)
    .filter(([headers]) => headers?.[0] !== "Asked for")
    .map((block) => [String(block[0]?.[0]), rowsOf(block)] as const);
  return {
    ...blank,
    emptyRows: 2,
    asked: {
      Framework: "IEC 62368-1",
      Place: "dry",
      "Load margin": margin,
      "Largest drop of a cable": 0.05,
      "Efficiency, supply to load": 0.9,
      "Headroom to collapse": 2,
      "Units lost": 1,
    },
    schedules: Object.fromEntries(schedules),
  };
}

/** A sheet has one 0, whatever its sign, and of an error its code. */
function asShown(cell: Cell): Cell {
  if (cell === 0) return 0;
  return isCellError(cell) ? { error: cell.error } : cell;
}

/** @param inserted Rows that the loads have more than when they were opened. */
function assertSpilled({ places, workbook }: OpenSheets, inserted = 0): void {
  const range = (where: string) => {
    const [, key = "", address = ""] = /^\{(\w+)\}!(.+)$/.exec(where) ?? [];
    const sheet = key.charAt(0).toUpperCase() + key.slice(1);
    return workbook.values(sheet, address.replaceAll("$", "")) as CellTable;
  };
  const blocks = places.blocks
    .filter(({ name }) => name !== "Spread")
    .map((block) =>
      range(
        block.name === "Load"
          ? block.range.replace(/\d+$/, String(block.closing + inserted))
          : block.range,
      ),
    );
  const table = range(places.table.range);
  const asked = range(places.asked);
  const calls: readonly (readonly [string, typeof places.table, readonly Argument[]])[] = [
    ["CHAIN_TABLE", places.table, [...blocks, asked]],
    ["CHAIN_SOLVE", places.solved, [table, "nominal", "nominal"]],
    ["CHAIN_BANDS", places.bands, [table, asked]],
    ["CHAIN_CASES", places.cases, [table]],
    ["CHAIN_WORST", places.worst, [table, 1]],
    ["CHAIN_CHECKS", places.checks, [table, asked]],
    ["CHAIN_SCHEDULE", places.schedule, [table]],
  ];
  for (const [id, spill, args] of calls) {
    const outcome = evaluate(id, args);
    assert.ok(outcome.ok, `${id}: ${JSON.stringify(outcome)}`);
    const value = outcome.value as CellTable;
    const shown = range(spill.range);
    assert.deepEqual(
      shown.slice(0, value.length),
      value.map((row) => row.map(asShown)),
      id,
    );
    // Nothing is left below of a spill that was longer; the nine cases never are.
    if (spill === places.cases) continue;
    for (const row of shown.slice(value.length, value.length + 5))
      assert.ok(
        row.every((cell) => cell === ""),
        id,
      );
  }
}

describe("the sheets of a random feed", () => {
  it("show what the functions give, as opened, with a load more, and with one less", async () => {
    await fc.assert(
      fc.asyncProperty(
        randomFeed,
        fc.integer({ min: 0, max: 40 }),
        fc.nat(),
        async (feed, percent, pick) => {
          const items = feed.map(withWindow);
          const sample = sampleOf(items, percent / 100);
          const sheets = await openSheets(sample);
          const { workbook, places } = sheets;
          try {
            assertSpilled(sheets);
            const { names, row, closing } = places.block("Load");
            const feeding = items.filter(({ kind }) => !kind.endsWith("load"));
            await workbook.insertRow("Loads", row + 2);
            for (const [column, value] of [
              ["A", "One more"],
              ["B", feeding[pick % feeding.length]!.item],
              ["D", "power"],
              ["H", 3],
            ] as const)
              await workbook.set("Loads", `${column}${row + 2}`, value);
            const typed = workbook.values("Loads", `A${row + 1}:A${closing + 1}`).flat();
            const less = row + 1 + typed.indexOf(names[pick % names.length]!);
            await workbook.clear("Loads", `A${less}:I${less}`);
            assertSpilled(sheets, 1);
          } finally {
            workbook.dispose();
          }
        },
      ),
      // A smaller feed is as slow to look at.
      { numRuns: 5, endOnFailure: true },
    );
  }, 300_000);
});
