import assert from "node:assert/strict";
import { describe, expect, it } from "vitest";
import { fillPlaceholders, plainNames } from "../../src/plans/placeholders.js";
import {
  type FormulaCell,
  type Host,
  HostError,
  type HostValue,
  type RangeContent,
  type SheetEdit,
} from "../../taskpane/hosts/host.js";
import { brokenCells, repairCells, withOwnPrefix } from "../../taskpane/workbook/repair.js";
import { type FrozenWorkbooks, thawedPlans } from "../budgets/frozen-release.js";
import workbooksOf02 from "../budgets/workbooks-of-0.2.json" with { type: "json" };
import { MemoryHost } from "../hosts/memory-host.js";

describe("withOwnPrefix", () => {
  it("puts the namespace in use before every own call, however it was stored", () => {
    for (const [formula, mended] of [
      ["=_xldudf_FEED_CONDUCTOR_DROP(1,2,3,4)", "=FEED.CONDUCTOR_DROP(1,2,3,4)"],
      ["=FEEDDEV.CONDUCTOR_DROP(A1,2,3,4)+1", "=FEED.CONDUCTOR_DROP(A1,2,3,4)+1"],
      ["=feed.conductor_drop(1,2,3,4)", "=FEED.CONDUCTOR_DROP(1,2,3,4)"],
      [
        "=_xldudf_FEEDDEV_RATIO_OUTPUT(_xldudf_FEEDDEV_SUPPLY_VOLTAGE(400,4,100),1/8)",
        "=FEED.RATIO_OUTPUT(FEED.SUPPLY_VOLTAGE(400,4,100),1/8)",
      ],
      ["=FEED.CONDUCTOR_DROP(1,2,3,4)", "=FEED.CONDUCTOR_DROP(1,2,3,4)"],
    ] as const)
      expect(withOwnPrefix(formula, "FEED")).toBe(mended);
    expect(withOwnPrefix("=FEED.CONDUCTOR_AREA(1)", "FEEDDEV")).toBe("=FEEDDEV.CONDUCTOR_AREA(1)");
  });

  it("leaves texts, sheet names, other functions and other add-ins alone", () => {
    for (const formula of [
      '="FEEDDEV.CONDUCTOR_DROP(1)"',
      "='FEEDDEV.CONDUCTOR_DROP(1)'!A1",
      "=SUM(A1:A9)",
      "=OTHER.CONDUCTOR_DROP(1,2,3,4)",
      "=FEEDDEV.NOT_OURS(1)",
      "=MYFEED.CONDUCTOR_DROP(1)",
    ])
      expect(withOwnPrefix(formula, "FEED"), formula).toBeUndefined();
    expect(withOwnPrefix('=FEEDDEV.CONDUCTOR_AREA("FEEDDEV.CONDUCTOR_AREA(")', "FEED")).toBe(
      '=FEED.CONDUCTOR_AREA("FEEDDEV.CONDUCTOR_AREA(")',
    );
  });
});

const NAME_ERROR = { error: "#NAME?" };

/** A host that shows some cells as a spreadsheet does that opened the file without the add-in. */
class JustOpened extends MemoryHost {
  shown = new Map<string, HostValue>();
  stored = new Map<string, string>();

  override async read(ranges: Parameters<MemoryHost["read"]>[0]): Promise<readonly RangeContent[]> {
    const contents = await super.read(ranges);
    return contents.map((content) => ({
      ...content,
      formulas: content.formulas.map((row, at) =>
        row.map(
          (formula, column) =>
            this.stored.get(`${String.fromCharCode(65 + column)}${String(at + 1)}`) ?? formula,
        ),
      ),
      values: content.values.map((row, at) =>
        row.map(
          (value, column) =>
            this.shown.get(`${String.fromCharCode(65 + column)}${String(at + 1)}`) ?? value,
        ),
      ),
    }));
  }
}

describe("brokenCells", () => {
  async function opened(formulas: readonly string[]): Promise<JustOpened> {
    const host = new JustOpened();
    await host.write(
      { sheet: "Start", address: `A1:A${String(formulas.length)}` },
      formulas.map((formula) => [formula]),
    );
    return host;
  }

  it("finds stored names and stale values, tells refused arguments apart, and mends what can be", async () => {
    const host = await opened([
      "=FEED.CONDUCTOR_AREA(2.5)",
      "=FEED.CONDUCTOR_AREA(4)",
      "=FEED.CONDUCTOR_AREA(6)",
      "=FEED.CONDUCTOR_AREA(-1)",
      "=1+1",
    ]);
    host.stored.set("A1", "=_xldudf_FEED_CONDUCTOR_AREA(2.5)");
    host.shown = new Map<string, HostValue>([
      ["A3", { error: "#VALUE!" }],
      ["A4", { error: "#VALUE!" }],
    ]);
    const broken = await brokenCells(host);
    expect(broken.map(({ at, repaired }) => [at.address, repaired])).toEqual([
      ["A1", "=FEED.CONDUCTOR_AREA(2.5)"],
      ["A3", "=FEED.CONDUCTOR_AREA(6)"],
      ["A4", undefined],
    ]);
    expect(broken[2]?.why).toMatch(/size must be above 0/);
    assert.deepEqual(await repairCells(host, broken), { written: 2, left: [] });
    host.shown.clear();
    host.stored.clear();
    const [content] = await host.read([{ sheet: "Start", address: "A1:A3" }]);
    expect(content?.values.flat()).toEqual([2.5, 4, 6]);
    host.shown.set("A4", { error: "#VALUE!" });
    expect((await brokenCells(host)).map(({ at }) => at.address)).toEqual(["A4"]);
  });

  it("takes every formula with a call for broken once one function was unknown", async () => {
    const host = await opened([
      "=FEED.CONDUCTOR_AREA(4)",
      '=IFERROR(FEED.CONDUCTOR_AREA(6),"not determined")',
      "=FEED.CONDUCTOR_AREA(10)",
      "=1+1",
    ]);
    host.shown = new Map<string, HostValue>([
      ["A1", { error: "#NAME?" }],
      ["A2", "not determined"],
    ]);
    const broken = await brokenCells(host);
    expect(broken.map(({ at, repaired }) => [at.address, repaired])).toEqual([
      ["A1", "=FEED.CONDUCTOR_AREA(4)"],
      ["A2", '=IFERROR(FEED.CONDUCTOR_AREA(6),"not determined")'],
      ["A3", "=FEED.CONDUCTOR_AREA(10)"],
    ]);
    expect(broken[0]?.why).toMatch(/did not know the function/);
    expect(broken[1]?.why).toMatch(/may come from that/);
  });

  it("finds a text in place of an error that is none any more, and leaves one that still is", async () => {
    const host = await opened([
      '=IFERROR(FEED.CONDUCTOR_AREA(6),"not determined")',
      '=IFERROR(FEED.CONDUCTOR_AREA(-6),"not determined")',
    ]);
    host.shown = new Map<string, HostValue>([["A1", "not determined"]]);
    const broken = await brokenCells(host);
    expect(broken.map(({ at }) => at.address)).toEqual(["A1"]);
    expect(broken[0]?.why).toMatch(/has another result now/);
  });

  it("finds all of a workbook of 0.2 that was opened without the functions", async () => {
    for (const plan of thawedPlans(workbooksOf02 as unknown as FrozenWorkbooks)) {
      const used = plainNames(plan, "FEED");
      const sheets = plan.sheets.map(({ key, cells }) =>
        cells.flatMap(({ at, formula }): FormulaCell[] => {
          if (formula === undefined) return [];
          const text = `=${fillPlaceholders(formula, used)}`;
          const isCall = text.includes("FEED.");
          const value = isCall ? (text.includes("IFERROR(") ? "not solved" : NAME_ERROR) : 1;
          return [{ at: { sheet: used.sheets[key] ?? "", address: at }, formula: text, value }];
        }),
      );
      const host: Pick<Host, "namespace" | "sheets" | "formulaCells"> = {
        namespace: "FEED",
        sheets: async () => plan.sheets.map(({ key }) => used.sheets[key] ?? ""),
        formulaCells: async (sheet) => sheets.flat().filter(({ at }) => at.sheet === sheet),
      };
      const calls = sheets.flat().filter(({ formula }) => formula.includes("FEED."));
      const hidden = calls.filter(({ value }) => value === "not solved");
      assert.ok(hidden.length > 0 && hidden.length < calls.length, plan.id);
      const broken = await brokenCells(host as Host);
      assert.deepEqual(
        broken.map(({ at, repaired }) => [at, repaired]),
        calls.map(({ at, formula }) => [at, formula]),
      );
    }
  });

  it("finds nothing where everything calculates", async () => {
    expect(await brokenCells(await opened(["=FEED.CONDUCTOR_AREA(4)", "=2*3"]))).toEqual([]);
  });
});

describe("repairCells", () => {
  const cell = (sheet: string, address: string, repaired: string | undefined) => ({
    at: { sheet, address },
    formula: "=FEED.X()",
    why: "unknown",
    repaired,
  });

  it("writes each sheet in one go, passes over one that may not be written, and names its cells", async () => {
    const done: (readonly SheetEdit[])[] = [];
    const host: Pick<Host, "edit"> = {
      async edit(edits) {
        if (edits.some((edit) => edit.kind === "write" && edit.range.sheet === "Locked"))
          throw new HostError("the sheet is protected");
        done.push(edits);
      },
    };
    const outcome = await repairCells(host as Host, [
      cell("Open", "A1", "=1"),
      cell("Locked", "B2", "=2"),
      cell("Open", "A2", "=3"),
      cell("Locked", "B3", "=4"),
      cell("Open", "A3", undefined),
    ]);
    assert.deepEqual(outcome, {
      written: 2,
      left: [{ sheet: "Locked", cells: ["B2", "B3"], why: "the sheet is protected" }],
    });
    assert.deepEqual(
      done.map((edits) => edits.length),
      [2],
    );
  });

  it("does not pass over what no host says", async () => {
    const host: Pick<Host, "edit"> = {
      async edit() {
        throw new TypeError("not a refusal");
      },
    };
    await assert.rejects(repairCells(host as Host, [cell("Open", "A1", "=1")]), TypeError);
  });
});
