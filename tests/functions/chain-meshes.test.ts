import assert from "node:assert/strict";
import { describe, expect, it } from "vitest";
import type { Argument, CellTable } from "../../functions/cells.js";
import { evaluate } from "../../functions/runner.js";
import { assertSteps } from "../helpers/assert-steps.js";
import { spillCell, tableFrom } from "../helpers/schedules.js";

/** Two supplies, a bus, a tie through which current flows against its direction, a blocked diode, stages side by side. */
const TABLE: CellTable = [
  [
    "Item",
    "Fed from",
    "Kind",
    "Voltage",
    "Resistance",
    "Ratio",
    "Load",
    "Lowest V",
    "Highest V",
    "Rated A",
    "Tolerance",
    "Reverse flow",
  ],
  ["North", "", "supply", 400, 0.1, "", "", 390, 410, 40, "", ""],
  ["South", "", "supply", 396, 0.1, "", "", 386, 406, 40, "", ""],
  ["Reserve", "", "supply", 360, 0.1, "", "", 350, 370, 40, "", ""],
  ["Line N", "North", "run", "", 0.4, "", "", "", "", 30, 0.1, ""],
  ["Line S", "South", "run", "", 0.9, "", "", "", "", 30, 0.1, ""],
  ["Diode", "Reserve", "series", 0.8, 0.01, "", "", "", "", 30, "", ""],
  ["Bus", "Line N; Line S; Diode", "bus", "", "", "", "", "", "", 60, "", ""],
  ["Ward line", "Bus", "run", "", 0.2, "", "", "", "", 30, 0.1, ""],
  ["Ward link", "Ward line; Bus", "tie", "", 0.2, "", "", "", "", 30, 0.1, ""],
  ["Ward", "Ward line", "power load", "", "", "", 3910, 350, 420, "", 0.05, ""],
  ["Stage 1", "Bus", "ratio", "", 0.02, 0.125, "", 300, 450, 40, "", ""],
  ["Stage 2", "Ward line", "ratio", "", 0.02, 0.125, "", 300, 450, 40, "", ""],
  ["Low bus", "Stage 1; Stage 2", "bus", "", "", "", "", "", "", 80, "", ""],
  ["Lamps", "Low bus", "current load", "", "", "", 20, 40, 60, "", "", ""],
];

const ASKED: CellTable = [
  ["Asked for", "Value"],
  ["Framework", "IEC 62368-1"],
  ["Place", "dry"],
  ["Margin to each window", 0.02],
  ["Largest loading of a cable", 0.8],
  ["Largest loading of a stage", 0.8],
  ["Largest loading of a supply", 0.8],
  ["Largest drop of a cable", 0.03],
  ["Efficiency, supply to load", 0.9],
  ["Headroom to collapse", 2],
];

const CALLS: readonly (readonly [string, readonly Argument[]])[] = [
  ["CHAIN_SOLVE", [TABLE]],
  ["CHAIN_TOTAL", [TABLE, "loss"]],
  ["CHAIN_TOTAL", [TABLE, "closing error"]],
  ["CHAIN_CASES", [TABLE]],
  ["CHAIN_HEADROOM", [TABLE]],
  ["CHAIN_WORST", [TABLE]],
  ["CHAIN_CHECKS", [TABLE, ASKED]],
  ["CHAIN_SCHEDULE", [TABLE]],
  ["CHAIN_PROOF", [TABLE]],
  ["CHAIN_OUTAGE", [TABLE]],
  ["CHAIN_CIRCULATING", [TABLE]],
];

describe("a meshed feed table", () => {
  for (const [id, args] of CALLS)
    it(`is answered by ${[id, ...args.slice(1).filter((one) => typeof one === "string")].join(" ")}, every step of its working as another engine finds it`, () => {
      const outcome = evaluate(id, args);
      assert.ok(outcome.ok, outcome.ok ? "" : outcome.message);
      const rows = id === "CHAIN_CHECKS" ? (outcome.value as CellTable).length : 1;
      const workings = Array.from({ length: rows }, (_, row) =>
        id === "CHAIN_CHECKS" ? outcome.working(row) : outcome.working(),
      ).flat();
      assert.ok(workings.length > 0);
      for (const { title, steps, values } of workings)
        try {
          assertSteps(steps, values);
        } catch (error) {
          throw new Error(`${title}: ${String(error)}`, { cause: error });
        }
    });

  it("has its currents with their signs, its greatest ones without", () => {
    const solved = tableFrom("CHAIN_SOLVE", [TABLE]);
    expect(spillCell(solved, "Ward link", "Output A")).toBeLessThan(-1);
    expect(spillCell(solved, "Ward link", "Loading")).toBeGreaterThan(0.1);
    expect(spillCell(solved, "Diode", "Output A")).toBe(0);
    const worst = tableFrom("CHAIN_WORST", [TABLE]);
    expect(spillCell(worst, "Ward link", "Highest input A")).toBeGreaterThan(5);
    // A blocked diode drops nothing, whatever stands across it.
    const checks = tableFrom("CHAIN_CHECKS", [TABLE, ASKED]);
    const drops = checks.filter(([, check]) => check === "Drop").map(([item]) => item);
    expect(drops).toEqual(["Line N", "Line S", "Ward line"]);
  });

  it("says of what hangs on one way alone that it is not solved", () => {
    const tornado = evaluate("CHAIN_TORNADO", [TABLE, "loss"]);
    assert.ok(!tornado.ok);
    expect(tornado.message).toMatch(/more than one way/);
    const bands = tableFrom("CHAIN_BANDS", [TABLE, ASKED]);
    expect(spillCell(bands, "Ward", "In service V")).toBe("not determined");
  });

  it("is searched for its worst in no more cases than a sheet waits for, however many rows have a tolerance", () => {
    const lines = (count: number): CellTable => [
      ["Item", "Fed from", "Kind", "Voltage", "Resistance", "Load", "Tolerance", "In parallel"],
      ["North", "", "supply", 400, 0.1, "", "", ""],
      ["South", "", "supply", 400, 0.1, "", "", ""],
      ["Bus", "North; South", "bus", "", "", "", "", ""],
      ...Array.from({ length: count }, (_, at) => [
        [`Line ${at}`, "Bus", "run", "", 0.5, "", 0.1, 2],
        [`Lamp ${at}`, `Line ${at}`, "current load", "", "", 0.2, 0.1, ""],
      ]).flat(),
    ];
    const worst = tableFrom("CHAIN_WORST", [lines(150)]);
    const note = String(spillCell(worst, "Bus", "Note"));
    const cases = Number(/not proven, (\d+) cases/.exec(note)?.[1]);
    expect(cases).toBeGreaterThan(8);
    expect(cases * worst.length).toBeLessThan(1e6);
    const refused = evaluate("CHAIN_WORST", [lines(700), 1]);
    assert.ok(!refused.ok);
    expect(refused.message).toMatch(/too many cases/);
  });
});
