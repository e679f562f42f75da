import assert from "node:assert/strict";
import { describe, expect, it } from "vitest";
import type { RangeContent, HostValue } from "../../taskpane/hosts/host.js";
import { brokenCells, repairCells, withOwnPrefix } from "../../taskpane/workbook/repair.js";
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

  it("finds stored names, unknown ones and stale values, tells refused arguments apart, and mends what can be", async () => {
    const host = await opened([
      "=FEED.CONDUCTOR_AREA(2.5)",
      "=FEED.CONDUCTOR_AREA(4)",
      "=FEED.CONDUCTOR_AREA(6)",
      "=FEED.CONDUCTOR_AREA(-1)",
      "=1+1",
    ]);
    host.stored.set("A1", "=_xldudf_FEED_CONDUCTOR_AREA(2.5)");
    host.shown = new Map<string, HostValue>([
      ["A2", { error: "#NAME?" }],
      ["A3", { error: "#VALUE!" }],
      ["A4", { error: "#VALUE!" }],
    ]);
    const broken = await brokenCells(host);
    expect(broken.map(({ at, repaired }) => [at.address, repaired])).toEqual([
      ["A1", "=FEED.CONDUCTOR_AREA(2.5)"],
      ["A2", "=FEED.CONDUCTOR_AREA(4)"],
      ["A3", "=FEED.CONDUCTOR_AREA(6)"],
      ["A4", undefined],
    ]);
    expect(broken[3]?.why).toMatch(/size must be above 0/);
    assert.equal(await repairCells(host, broken), 3);
    host.shown.clear();
    host.stored.clear();
    const [content] = await host.read([{ sheet: "Start", address: "A1:A3" }]);
    expect(content?.values.flat()).toEqual([2.5, 4, 6]);
    host.shown.set("A4", { error: "#VALUE!" });
    expect((await brokenCells(host)).map(({ at }) => at.address)).toEqual(["A4"]);
  });

  it("finds nothing where everything calculates", async () => {
    expect(await brokenCells(await opened(["=FEED.CONDUCTOR_AREA(4)", "=2*3"]))).toEqual([]);
  });
});
