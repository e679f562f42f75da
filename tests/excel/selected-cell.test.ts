/** What the adapter reads of Excel at each move and tells at each change, and in how many requests. */
import assert from "node:assert/strict";
import { beforeEach, describe, it } from "vitest";
import { excelHost } from "../../taskpane/hosts/excel/excel-host.js";
import type { Host } from "../../taskpane/hosts/host.js";
import { contractPlan } from "../hosts/contract-plan.js";
import { ExcelDouble } from "./excel-double.js";

let excel: ExcelDouble;
let host: Host;

/** What the library puts off behind a batch is over by then. */
const releases = () => new Promise((resolve) => setTimeout(resolve, 30));

beforeEach(async () => {
  excel = new ExcelDouble("FEED");
  host = excelHost({
    namespace: "FEED",
    warn(message) {
      throw new Error(message);
    },
  });
  excel.type("Start", "A1", 4);
  excel.type("Start", "A2", "=A1*2");
  await releases();
});

/** And how often Excel was asked. */
async function counted<T>(read: () => Promise<T>): Promise<readonly [T, number]> {
  const before = excel.requests.length;
  const got = await read();
  await releases();
  return [got, excel.requests.length - before];
}

async function selectedAt(address: string, sheet = "Start") {
  excel.select(sheet, address);
  assert.ok(host.selectedCell);
  return counted(host.selectedCell);
}

const at = (address: string) => ({ sheet: "Start", address });

describe("the selected cell of Excel", () => {
  it("is read in one request with what it holds, and with the formula that spills into it", async () => {
    assert.deepEqual(await selectedAt("A1"), [
      { at: at("A1"), value: 4, formula: "", spilledFrom: "none" },
      1,
    ]);
    assert.deepEqual(await selectedAt("A2"), [
      { at: at("A2"), value: 8, formula: "=A1*2", spilledFrom: "none" },
      1,
    ]);
    await counted(() => host.insert(contractPlan));
    const [spilled, requests] = await selectedAt("I12", "Budget");
    assert.equal(requests, 1);
    assert.equal(spilled.formula, "");
    assert.deepEqual(spilled.spilledFrom, {
      at: { sheet: "Budget", address: "H10" },
      formula: "=FEED.CHAIN_SOLVE(Ridge_Feed)",
    });
  });

  it("is the first of a range, and the active one of several ranges", async () => {
    assert.deepEqual((await selectedAt("A2:C9"))[0].at, at("A2"));
    assert.deepEqual((await selectedAt("A:A"))[0].at, at("A1"));
    assert.deepEqual((await selectedAt("A2:A3,C4"))[0].at, at("A2"));
  });
});

describe("names and ranges of Excel", () => {
  it("are read in one request each, ranges that hold a spill too", async () => {
    await counted(() => host.insert(contractPlan));
    const [names, asked] = await counted(() => host.names());
    assert.deepEqual(
      [names.map(({ name }) => name), asked],
      [["Ridge_Feed", "Ridge_Solved", "Ridge_About"], 1],
    );
    const budget = (address: string) => ({ sheet: "Budget", address });
    // Below the spill there is room for more of it.
    const ranges = [budget("H10:S15"), budget("I12"), budget("A2"), at("A2")];
    const [contents, more] = await counted(() => host.read(ranges));
    assert.equal(more, 1);
    const formulas = contents.map((content) => content.formulas.flat().filter((one) => one !== ""));
    assert.deepEqual(formulas, [
      ["=FEED.CHAIN_SOLVE(Ridge_Feed)"],
      [],
      ["=ROWS(Ridge_Feed)"],
      ["=A1*2"],
    ]);
  });
});

describe("a change in Excel", () => {
  it("is told with the sheets that may read differently, once they are known", async () => {
    excel.addSheet("Other");
    await host.names();
    const told: (readonly string[] | undefined)[] = [];
    const stop = host.onChange((sheets) => told.push(sheets && [...sheets].sort()));
    const after = async (action: () => void) => {
      told.length = 0;
      action();
      await new Promise((resolve) => setTimeout(resolve, 200));
      return told;
    };
    await after(() => undefined);
    assert.deepEqual(await after(() => excel.type("Other", "A1", 1)), [["Other"]]);
    // What reads a cell of another sheet is calculated with it.
    await after(() => excel.type("Start", "D1", "=Other!A1"));
    assert.deepEqual(await after(() => excel.type("Other", "A1", 2)), [["Other", "Start"]]);
    excel.addSheet("Unknown");
    assert.deepEqual(await after(() => excel.type("Unknown", "A1", 1)), [undefined]);
    stop();
  });
});
