import assert from "node:assert/strict";
import { afterEach, beforeEach, describe, it } from "vitest";
import type { FormulaPart } from "../../functions/working/lines/call-tree.js";
import { laidOut, laidOutPlan, layoutGrid } from "../../functions/working/native/laid-out.js";
import { planFaults } from "../../src/plans/plan-faults.js";
import { type CallSteps, workingOf } from "../../functions/working/text/working-of.js";
import { cellAddress } from "../../src/plans/addresses.js";
import { formulaTrees, readCellAt } from "../../taskpane/formula-reading/cell-reading.js";
import { workingOfCell } from "../../taskpane/formula-reading/read-working.js";
import type { RangeContent, CellWrite } from "../../taskpane/hosts/host.js";
import { type HeadlessWorkbook, openHeadlessCells } from "../helpers/headless-workbook.js";
import { MemoryHost } from "../hosts/memory-host.js";

let host: MemoryHost;
const opened: HeadlessWorkbook[] = [];

beforeEach(() => {
  host = new MemoryHost();
});
afterEach(() => {
  for (const workbook of opened.splice(0)) workbook.dispose();
});

async function put(address: string, content: CellWrite): Promise<void> {
  await host.write({ sheet: "Start", address }, [[content]], {
    overwrite: true,
  });
}

async function treeOf(formula: string) {
  // Behind its arguments, where a result of several cells has room.
  await put("A20", formula);
  const working = workingOfCell(await readCellAt(host, { sheet: "Start", address: "A20" }));
  assert.ok(working);
  return working.tree;
}

async function stepsOf(formula: string): Promise<readonly CallSteps[]> {
  return workingOf(await treeOf(formula));
}

/** The pieces of an expression put together again. */
function rejoined(part: FormulaPart): string {
  if (part.kind !== "expression") return part.text;
  return part.pieces.map((piece) => (typeof piece === "string" ? piece : rejoined(piece))).join("");
}

type Cells = Readonly<Record<string, string | number | boolean>>;

/** A formula in A1 laid out below in the workbench's own sheet, and what the last row says. */
async function laid(formula: string, inputs: Cells) {
  const before = await openHeadlessCells({ ...inputs, A1: formula });
  const [range, rows] = ["A1:J20", 20];
  const content: RangeContent = {
    range: { sheet: "Sheet", address: range },
    values: before.values("Sheet", range),
    formulas: Array.from({ length: rows }, (_, row) =>
      Array.from({ length: 10 }, (_, column) =>
        before.formula("Sheet", cellAddress({ row, column })),
      ),
    ),
    formats: [],
  };
  before.dispose();
  const tree = formulaTrees([content], [], "FEED").get("Sheet!A1");
  assert.ok(tree);
  const layout = laidOut(tree, { left: 0, top: 30 });
  assert.ok(layout.ok);
  const written = layout.cells.flatMap(({ at, value, formula: native }) => {
    const cell = native === undefined ? value : `=${native}`;
    return cell === undefined ? [] : [[at, cell] as const];
  });
  const workbook = await openHeadlessCells({
    ...inputs,
    A1: formula,
    ...Object.fromEntries(written),
  });
  opened.push(workbook);
  return {
    layout,
    says: () => workbook.value("Sheet", layout.sameAt),
    enter: (at: string, content: string | number) => workbook.set("Sheet", at, content),
    /** How many cells of the layout say so. */
    count: (word: string) => written.filter(([at]) => workbook.value("Sheet", at) === word).length,
  };
}

describe("the calls of a formula", () => {
  it("come as they stand, with the text around them", async () => {
    await put("B1", 40);
    for (const formula of [
      '=IF($B$1>0,(FEED.CONDUCTOR_AREA( "AWG 12" )+1)*-2,B1%)',
      '=(B1+1)*2+FEED.RATIO_OUTPUT(B1,1/8)&" V, ""x"""',
      "=-FEED.CONDUCTOR_AREA(B1*(2+B1))^2",
    ]) {
      const { whole } = await treeOf(formula);
      assert.equal(`=${rejoined(whole)}`, formula);
    }
  });

  it("have arguments that are references, expressions, text and other calls", async () => {
    await put("B1", 384);
    await put("B2", 0.5);
    const { whole } = await treeOf("=FEED.RATIO_OUTPUT(B1+2,1/8,,FEED.STAGE_LOSS(B1,0,0,B2))");
    assert.ok(whole.kind === "call");
    const [input, ratio, current, resistance] = whole.args;
    assert.ok(input?.kind === "expression" && input.value === 386);
    assert.ok(ratio?.kind === "expression" && ratio.value === 0.125);
    assert.equal(current, undefined);
    assert.ok(resistance?.kind === "call");
    assert.deepEqual(resistance.args[0], {
      kind: "reference",
      text: "B1",
      range: { sheet: "Start", address: "B1" },
      value: [[384]],
    });
  });
});

describe("the working", () => {
  // 4.61 Ω/km (IEC 60228:2004 class 2, 4 mm²) · 0.7 km = 3.227 Ω; · (1 + 0.00393 · 20) = 3.4806 Ω; · 12.5 A = 43.51 V.
  it("shows a drop in symbols and in numbers, with units, citations and where each given comes from", async () => {
    await put("B4", 12.5);
    const [drop] = await stepsOf('=FEED.CONDUCTOR_DROP(B4,350,"4 mm²",40)');
    const rows = drop!.blocks.flatMap((block) => block.rows);
    const row = (label: RegExp) => rows.find((one) => label.test(one.label));
    const current = row(/^Current of the pole/);
    assert.deepEqual(current?.cells, [{ sheet: "Start", address: "B4" }]);
    assert.equal(current?.value, 12.5);
    assert.equal(row(/^Lengths in the loop/)?.origin, "default");
    const last = row(/^Voltage drop/);
    assert.equal(last?.inSymbols, "I · R");
    assert.equal(last?.inNumbers, "12.5 · 3.48064");
    assert.equal(last?.unit, "V");
    assert.equal(Number(last?.value).toFixed(2), "43.51");
    const tabled = row(/^Greatest resistance per metre/);
    assert.equal(tabled?.value, 4.61);
    assert.equal(tabled?.unit, "Ω/km");
    assert.match(tabled?.citation ?? "", /IEC 60228/);
    assert.match(tabled?.origin ?? "", /for 4 mm²/);
  });

  it("shows inner calls first, and what an outer one was given by them", async () => {
    const steps = await stepsOf("=FEED.RATIO_OUTPUT(384,1/8,40,FEED.STAGE_LOSS(1,0.01,0,0.005))");
    assert.deepEqual(
      steps.map(({ id, depth }) => [id, depth]),
      [
        ["STAGE_LOSS", 1],
        ["RATIO_OUTPUT", 0],
      ],
    );
    const rows = steps[1]!.blocks.flatMap((block) => block.rows);
    const given = rows.find(({ label }) => label === "Output resistance");
    assert.equal(given?.origin, "result of STAGE_LOSS");
    assert.equal(given?.value, 0.015);
  });

  it("shows the equation that a solved number satisfies, and what is left over of it", async () => {
    const [share] = await stepsOf("=FEED.PARALLEL_SHARE({500,500},{0.3,0.1},250)");
    const bus = share!.blocks.flatMap((block) => block.rows).find(({ kind }) => kind === "solved");
    assert.equal(bus?.value, 481.25);
    assert.match(bus?.inSymbols ?? "", /max\(0, \(V₁ − V\) \/ R₁\)/);
    assert.ok(Math.abs(bus?.residual ?? 1) < 1e-9);
  });

  const branches = [
    '=IF(B9="ratio",FEED.CONDUCTOR_DROP(-1,2,3,4),FEED.CONDUCTOR_AREA("4 mm²"))',
    '=IF(B9="ratio",0,FEED.CONDUCTOR_AREA("4 mm²"))+IF(TRUE,0,FEED.CONDUCTOR_DROP(-1,2,3,4))',
    '=IFERROR(FEED.CONDUCTOR_AREA("4 mm²"),FEED.CONDUCTOR_DROP(-1,2,3,4))',
    '=IF(B9="ratio",FEED.CONDUCTOR_AREA(FEED.CONDUCTOR_DROP(-1,2,3,4)),FEED.CONDUCTOR_AREA("4 mm²"))',
  ];
  for (const formula of branches)
    it(`leaves out the branch that is not taken of ${formula}`, async () => {
      await put("B9", "run");
      const steps = await stepsOf(formula);
      assert.deepEqual(
        steps.map(({ text }) => text),
        ['FEED.CONDUCTOR_AREA("4 mm²")'],
      );
    });

  it("shows the other branch once its condition holds", async () => {
    await put("B9", "ratio");
    const [step] = await stepsOf(branches[0]!);
    assert.equal(step?.id, "CONDUCTOR_DROP");
    assert.equal(step.outcome.ok, false);
  });

  it("says why a call was refused", async () => {
    const [refused] = await stepsOf("=FEED.RATIO_OUTPUT(-1,1/8)");
    assert.ok(refused && !refused.outcome.ok);
    assert.match(refused.outcome.message, /input V must be above 0/);
  });
});

describe("the layout in the workbench", () => {
  it("repeats a formula of several calls over their blocks, and follows its cells", async () => {
    const { says, layout, enter } = await laid(
      "=FEED.RATIO_OUTPUT(F1-FEED.CONDUCTOR_DROP(5,350,F2,F3),1/8)*2+F1/1000",
      { F1: 384, F2: "4 mm²", F3: 40 },
    );
    assert.equal(says(), "yes");
    assert.ok(layout.cells.every(({ formula }) => !formula?.includes("FEED")));
    await enter("F1", 400);
    await enter("F3", 55);
    assert.equal(says(), "yes");
  });

  it("lays out no refused call of a branch that is not taken, and says no once it is", async () => {
    const formula =
      '=IF(B9="ratio",FEED.CONDUCTOR_DROP(B8,2,"4 mm²",20),FEED.CONDUCTOR_AREA("4 mm²"))';
    const { layout, says, enter } = await laid(formula, { B8: -1, B9: "run" });
    assert.ok(!layout.cells.some(({ value }) => value === "Refused"));
    assert.equal(says(), "yes");
    await enter("B8", 10);
    await enter("B9", "ratio");
    assert.equal(says(), "no");
  });

  it("says no when a table would be read elsewhere", async () => {
    const { says, count, enter } = await laid("=FEED.CONDUCTOR_RESISTANCE(350,F1,40)", {
      F1: "4 mm²",
    });
    assert.equal(says(), "yes");
    assert.equal(count("no"), 0);
    assert.ok(count("found for 4 mm²") >= 2);
    await enter("F1", "6 mm²");
    assert.equal(says(), "no");
    assert.ok(count("no") >= 3);
  });

  it("says no when an argument is given that was a default", async () => {
    const { says, count, enter } = await laid("=FEED.CONDUCTOR_RESISTANCE(350,4,40,,,F1)", {
      F2: 1,
    });
    assert.equal(says(), "yes");
    // Material, cores in parallel and lengths in the loop.
    assert.equal(count("default"), 3);
    await enter("F1", 2);
    assert.equal(says(), "no");
    assert.equal(count("no"), 2);
  });

  it("holds a solved result as values whose residuals are checked", async () => {
    const { says, count, enter } = await laid("=FEED.PARALLEL_SHARE(F1:G1,{0.3,0.1},250)", {
      F1: 500,
      G1: 500,
    });
    assert.equal(says(), "yes");
    assert.equal(count("no"), 0);
    await enter("F1", 501);
    assert.equal(says(), "no");
    assert.ok(count("no") >= 2);
  });

  it("can be inserted as a sheet of its own, or written beside as a grid", async () => {
    const tree = await treeOf("=FEED.RATIO_OUTPUT(384,1/8)");
    const laid = laidOut(tree, { left: 2, top: 5 });
    const sheet = laidOutPlan(tree);
    assert.ok(laid.ok && sheet.ok);
    assert.deepEqual(planFaults(sheet.plan), []);
    const grid = layoutGrid(laid);
    assert.equal(grid[0]?.[0], "Working of Start!A20");
    const filled = grid.flat().filter((content) => content !== "");
    assert.equal(filled.length, laid.cells.length);
    assert.equal(laid.range.split(":")[0], "C5");
    // The original formula stands in it as text, or the cell would call the add-in again.
    assert.ok(grid.flat().includes("FEED.RATIO_OUTPUT(384,1/8)"));
    const formulas = grid.flat().filter((one) => String(one).startsWith("="));
    assert.ok(formulas.every((one) => !/FEED/.test(String(one))));
  });

  it("refuses a formula that would be too long, with the reason", async () => {
    const many = Array.from({ length: 400 }, (_, index) => 400 + index / 100);
    const formula = `=FEED.PARALLEL_SHARE({${many.join()}},{${many.map(() => 0.1).join()}},250)`;
    const layout = laidOut(await treeOf(formula));
    assert.ok(!layout.ok);
    assert.match(layout.why, /8192 at most/);
  });
});
