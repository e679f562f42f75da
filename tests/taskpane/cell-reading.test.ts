import assert from "node:assert/strict";
import { beforeEach, describe, it } from "vitest";
import { catalogue } from "../../functions/downfeed.js";
import { readCellAt } from "../../taskpane/formula-reading/cell-reading.js";
import { formulaTree, partText } from "../../taskpane/formula-reading/formula-tree.js";
import { findBudgets } from "../../taskpane/workbook/found-budgets.js";
import { answerLines } from "../../taskpane/views/head/cell-answer-text.js";
import type { CellWrite, HostValue } from "../../taskpane/hosts/host.js";
import { MemoryHost } from "../hosts/memory-host.js";
import { panePlans } from "./pane-plans.js";

let host: MemoryHost;

beforeEach(() => {
  host = new MemoryHost();
});

async function put(address: string, content: CellWrite): Promise<void> {
  await host.write({ sheet: "Start", address }, [[content]], {
    overwrite: true,
  });
}

/** A spreadsheet whose cells all hold this; it may show what the pane would not work out, or not any more. */
function hold(formula: string, shown: HostValue): void {
  host.read = async (ranges) =>
    ranges.map((range) => ({
      range,
      values: [[shown]],
      formulas: [[formula]],
      formats: [["General"]],
    }));
}

async function linesAt(address: string): Promise<readonly string[]> {
  const reading = await readCellAt(host, { sheet: "Start", address });
  return answerLines(reading, "FEED").map(({ call, text }) =>
    (call === undefined ? text : `${call}: ${text}`).replaceAll("\u00a0", " "),
  );
}

describe("the answer for the selected cell", () => {
  // 4.61 Ω/km (IEC 60228 class 2, 4 mm²) · 0.7 km · (1 + 0.00393 · 20) = 3.4806 Ω; times 12.5 A.
  it("gives value and unit of a call that is fine", async () => {
    await put("B4", 12.5);
    await put("A1", '=FEED.CONDUCTOR_DROP(B4,350,"4 mm²",40)');
    const [line] = await linesAt("A1");
    assert.equal(line, "FEED.CONDUCTOR_DROP: 43.51 V");
  });

  it("works out arguments that are expressions", async () => {
    await put("B4", 10);
    await put("B5", 700);
    await put("A1", '=FEED.CONDUCTOR_DROP(B4*(1+25%),IF(B5>500,B5/2,B5),"4"&" mm²",SUM(B4,30))');
    const [line] = await linesAt("A1");
    assert.equal(line, "FEED.CONDUCTOR_DROP: 43.51 V");
  });

  it("gives the message of a refused call", async () => {
    await put("B4", -1);
    await put("A1", '=2*FEED.CONDUCTOR_DROP(B4,350,"4 mm²",40)');
    const [line] = await linesAt("A1");
    assert.match(line ?? "", /^FEED\.CONDUCTOR_DROP: #VALUE! current must be .*, got -1$/);
  });

  it("gives the message of the innermost refused call", async () => {
    await put("A1", '=FEED.CONDUCTOR_DROP(FEED.CONDUCTOR_AREA("no size"),350,"4 mm²",40)');
    const [line, inner] = await linesAt("A1");
    assert.match(line ?? "", /^FEED\.CONDUCTOR_AREA: #VALUE! size/);
    assert.equal(inner, 'in FEED.CONDUCTOR_AREA("no size")');
  });

  it("says where an error in an argument comes from", async () => {
    await put("B4", "=1/0");
    await put("A1", '=FEED.CONDUCTOR_DROP(B4,350,"4 mm²",40)');
    assert.deepEqual((await linesAt("A1")).slice(0, 2), [
      "FEED.CONDUCTOR_DROP: #DIV/0! current holds #DIV/0!",
      "The error comes from B4.",
    ]);
  });

  it("names the part that it cannot work out", async () => {
    hold('=FEED.CONDUCTOR_DROP(RAND()*2,350,"4 mm²",40)', 3.5);
    assert.deepEqual(await linesAt("A1"), [
      "FEED.CONDUCTOR_DROP: not worked out here: RAND() is not calculated here",
    ]);
  });

  it("says so where the cell shows something else", async () => {
    hold('=FEED.CONDUCTOR_DROP(12.5,350,"4 mm²",40)', 41);
    const [, stale] = await linesAt("A1");
    assert.match(stale ?? "", /^The cell itself shows 41\./);
    hold('=FEED.CONDUCTOR_DROP(12.5,350,"4 mm²",40)', { error: "#NAME?" });
    const [, unknown] = await linesAt("A1");
    assert.match(unknown ?? "", /^The cell shows #NAME\?/);
  });

  it("says quietly that a cell is still calculating, right after its formula was written", async () => {
    hold('=FEED.CONDUCTOR_DROP(12.5,350,"4 mm²",40)', { error: "#BUSY!" });
    const reading = await readCellAt(host, { sheet: "Start", address: "A1" });
    const [, waiting] = answerLines(reading, "FEED");
    assert.deepEqual(waiting, { tone: "quiet", text: "calculating …" });
  });

  it("says nothing of cells that hold no call", async () => {
    await put("A1", 5);
    await put("A2", '="FEED.CONDUCTOR_DROP(1)"');
    const quiet = ["no FEED function in this cell"];
    assert.deepEqual(await linesAt("A1"), quiet);
    assert.deepEqual(await linesAt("C9"), quiet);
    assert.deepEqual(await linesAt("A2"), [
      "a formula of the spreadsheet's own; Working shows what it comes from",
    ]);
  });

  it("names row, column and Note of a cell in a spilled table", async () => {
    const feed: readonly (readonly (string | number)[])[] = [
      ["Item", "Fed from", "Kind", "Voltage", "Resistance", "Load"],
      ["Hut", "", "supply", 400, 2, ""],
      ["Mast", "Hut", "power load", "", "", 1_000_000],
    ];
    for (const [row, cells] of feed.entries())
      for (const [column, cell] of cells.entries())
        if (cell !== "") await put(`${"ABCDEF"[column]}${row + 1}`, cell);
    await put("H1", "=FEED.CHAIN_SOLVE(A1:F3)");
    const lines = await linesAt("I3");
    assert.match(lines[0] ?? "", /^Mast, Input V: #/);
    assert.match(lines[1] ?? "", /^Note: .*\d/);
    assert.equal(lines[2], "part of FEED.CHAIN_SOLVE in H1");
  });

  it("works out the catalogue's own examples as they are written", async () => {
    const plain = catalogue.filter(({ example }) =>
      example.args.every((argument) => !Array.isArray(argument)),
    );
    assert.ok(plain.length > 3);
    for (const { id, example } of plain) {
      const args = example.args.map((argument) =>
        typeof argument === "string" ? `"${argument}"` : String(argument ?? ""),
      );
      await put("A1", `=FEED.${id}(${args.join(",")})`);
      const [line] = await linesAt("A1");
      assert.match(line ?? "", new RegExp(`^FEED\\.${id}: [^#]`), line);
    }
  });
});

describe("partText", () => {
  it("takes the brackets that belong to a part, and no others", () => {
    const formula = "=SUM((1+2)*3,4)";
    const tree = formulaTree(formula);
    assert.ok(tree.type === "CallExpression");
    const [first] = tree.arguments;
    assert.ok(first);
    assert.equal(partText(formula, first as never), "(1+2)*3");
  });
});

describe("findBudgets", () => {
  const [first] = panePlans;

  it("finds each insertion by its names", async () => {
    assert.ok(first);
    await host.insert(first);
    await host.insert(first);
    const { budgets, unknown } = await findBudgets(host);
    assert.deepEqual(
      budgets.map(({ stem, ranges }) => [stem, Object.keys(ranges)]),
      [
        ["Lookout", first.names.map(({ name }) => name)],
        ["Lookout2", first.names.map(({ name }) => name)],
      ],
    );
    assert.deepEqual(unknown, []);
  });

  it("names what it does not know instead of reading it", async () => {
    assert.ok(first);
    await host.insert({ ...first, stem: "Odd", id: "odd" });
    await host.write({ sheet: "Inputs", address: "A20" }, [["something else"]], {
      overwrite: true,
    });
    const found = await findBudgets(host);
    assert.deepEqual(found, { budgets: [], old: [], unknown: ["Odd_About"] });
  });

  it("tells one that an earlier version wrote apart", async () => {
    assert.ok(first);
    await host.insert(first);
    await host.write({ sheet: "Inputs", address: "B20" }, [["1.2.0"]], {
      overwrite: true,
    });
    const found = await findBudgets(host);
    assert.deepEqual(
      [found.budgets, found.old.map(({ stem }) => stem), found.unknown],
      [[], ["Lookout"], []],
    );
  });
});
