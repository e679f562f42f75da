/**
 * The plain copy of every worked budget, opened and calculated by LibreOffice (https://www.libreoffice.org), which knows
 * none of our functions: the same numbers as in the workbench, and checks that say so when a solved value is no longer
 * that of its inputs.
 */
import assert from "node:assert/strict";
import { afterAll, beforeAll, describe, it } from "vitest";
import { budgetPlan } from "../../../taskpane/budgets/budget-plan.js";
import { budgets } from "../../../taskpane/budgets/budgets.js";
import { Places } from "../../../taskpane/budgets/places.js";
import type { BudgetSample, ScheduleName } from "../../../taskpane/budgets/sample.js";
import { ridgeTop } from "../../../taskpane/budgets/samples/ridge-top.js";
import { rangePlace, cellAddress, cellPlace } from "../../../src/plans/addresses.js";
import { planFaults } from "../../../src/plans/plan-faults.js";
import type { SheetPlan, WorkbookPlan } from "../../../src/plans/sheet-plan.js";
import {
  emptyWorkbook,
  type WorkbookSnapshot,
} from "../../../taskpane/hosts/files/workbook-snapshot.js";
import { writeXlsx } from "../../../taskpane/hosts/files/write/xlsx-writer.js";
import type { HostValue } from "../../../taskpane/hosts/host.js";
import { type OpenBudget, openBudget } from "../../budgets/open-budget.js";
import { ownFeed } from "../../feeds/own-feed.js";
import { plainCopySnapshot } from "../../../taskpane/workbook/budget-copying.js";
import { budgetHost, contentOf, copyOf } from "../../helpers/copied-budget.js";
import { openHeadless } from "../../helpers/headless-workbook.js";
import type { SheetContent } from "../../helpers/iron-calc.js";
import {
  type OfficeValue,
  type OfficeValues,
  calculatedByLibreOffice,
  shownByLibreOffice,
} from "../../helpers/libre-office.js";

const SHARE = 1e-9;
/** Of watts and volts: what is left over of sums that cancel. */
const ROUNDING = 1e-9;

/** Before what a head said already stands whether the figures hold. */
const STATE = /^(figures hold|void: inputs changed)( · )?/;

function isSame(value: HostValue, shown: OfficeValue | undefined): boolean {
  const found = typeof shown === "string" ? shown.replace(STATE, "") : shown;
  if (typeof value === "number")
    return (
      typeof found === "number" &&
      Math.abs(value - found) <= Math.max(ROUNDING, SHARE * Math.abs(value))
    );
  if (typeof value === "object") return typeof found === "object";
  return value === (found ?? "");
}

/** Sheet and address of a cell of a schedule. */
function typedAt(
  sample: BudgetSample,
  block: ScheduleName,
  item: string,
  header: string,
): readonly [sheet: string, at: string] {
  const cell = new Places(sample).block(block).cell(item, header);
  const [key = "", at = ""] = cell.replaceAll("$", "").split("!");
  const { sheets } = budgetPlan(sample);
  const sheet = sheets.find((one) => `{${one.key}}` === key);
  return [sheet?.name ?? "", at];
}

type Contents = Readonly<Record<string, SheetContent>>;

/** What the head of a sheet says of its figures. */
function stateOf(values: OfficeValues, sheet: string): string | undefined {
  const said = ["A1", "A2", "A3"].flatMap((at) => {
    const value = values.get(sheet)?.get(at);
    return (typeof value === "string" && STATE.exec(value)?.[1]) || [];
  });
  assert.equal(said.length, 1, `${sheet}: ${said.join("; ")}`);
  return said[0];
}

/** Whether a rule of the copy paints the cell grey once its figures are void. */
function isGreyed({ conditionalFormats }: SheetPlan, at: string): boolean {
  const { row, column } = cellPlace(at);
  return conditionalFormats.some((rule) => {
    if (rule.paint !== "unused" || !("formula" in rule) || !rule.formula.includes("void"))
      return false;
    const { top, left, bottom, right } = rangePlace(rule.range);
    return row >= top && row <= bottom && column >= left && column <= right;
  });
}

/**
 * The copy beside the budget, both with the same inputs, which are not those that the copy was made with: what is not
 * as the budget has it now is grey, blank or an error under a head that says void.
 * @returns How many cells follow, and how many do not.
 */
function assertNothingLies(budget: OpenBudget, plan: WorkbookPlan, found: OfficeValues) {
  let follow = 0;
  let stale = 0;
  for (const sheet of plan.sheets) {
    assert.equal(stateOf(found, sheet.name), "void: inputs changed", sheet.name);
    const own = budget.plan.sheets.find(({ key }) => key === sheet.key);
    if (!own) continue;
    budget.rows(own.name).forEach((cells, row) =>
      cells.forEach((value, column) => {
        const at = cellAddress({ row, column });
        const shown = found.get(sheet.name)?.get(at) ?? "";
        if (value === "" && shown === "") return;
        if (isSame(value, shown)) {
          follow += 1;
          return;
        }
        stale += 1;
        // A blank that kept the look of a figure would read as none to be told.
        if (shown === "") assert.ok(isGreyed(sheet, at), `${sheet.name}!${at} is blank, not grey`);
        const isTold =
          shown === "" ||
          typeof shown === "object" ||
          STATE.test(String(shown)) ||
          // The column beside solved rows says so by itself.
          (value === "" && /^(Still holds|yes|no)/.test(String(shown)));
        assert.ok(
          isTold || isGreyed(sheet, at),
          `${sheet.name}!${at} still says ${JSON.stringify(shown)}, not ${JSON.stringify(value)}`,
        );
      }),
    );
  }
  return { follow, stale };
}

/** The copy with something else typed into a cell. */
function changed(
  contents: Contents,
  sheet: string,
  at: string,
  content: string | number,
): Contents {
  const cells = new Map(contents[sheet]);
  assert.ok(cells.has(at), `${sheet}!${at} is empty`);
  cells.set(at, content);
  return { ...contents, [sheet]: cells };
}

function listed(values: OfficeValues, sheet: string): [string, OfficeValue][] {
  return [...(values.get(sheet) ?? [])];
}

/** Addresses of a sheet whose cells say no. */
function denials(values: OfficeValues, sheet: string): string[] {
  return listed(values, sheet).flatMap(([at, value]) => (value === "no" ? [at] : []));
}

interface Copied {
  readonly copy: Awaited<ReturnType<typeof copyOf>>;
  /** All cells of each sheet of the budget, from A1 on. */
  readonly rows: ReadonlyMap<string, ReturnType<OpenBudget["rows"]>>;
  readonly values: OfficeValues;
}

const copied = new Map<string, Copied>();

beforeAll(async () => {
  const all: (readonly [id: string, Omit<Copied, "values">])[] = [];
  for (const plan of budgets) {
    const budget = await openBudget(plan);
    const rows = new Map(plan.sheets.map(({ name }) => [name, budget.rows(name)]));
    all.push([plan.id, { copy: await copyOf(budget), rows }]);
    budget.workbook.dispose();
  }
  await Promise.all(
    all.map(async ([id, own]) =>
      copied.set(id, { ...own, values: await calculatedByLibreOffice(contentOf(own.copy.plan)) }),
    ),
  );
}, 300_000);

for (const plan of budgets)
  describe(`the plain copy of ${plan.title}`, () => {
    let copy: Copied["copy"];
    let rows: Copied["rows"];
    let values: OfficeValues;
    beforeAll(() => {
      ({ copy, rows, values } = copied.get(plan.id)!);
    });

    it("can be written by every host and names no cell function", () => {
      assert.deepEqual(planFaults(copy.plan), []);
      for (const { cells } of copy.plan.sheets)
        for (const { formula } of cells) assert.doesNotMatch(formula ?? "", /FEED/);
    });

    it("holds the numbers and texts of the workbench, and no error that was not there", () => {
      let compared = 0;
      for (const { name } of plan.sheets) {
        const found = values.get(`${name} plain`);
        rows.get(name)!.forEach((row, rowIndex) =>
          row.forEach((value, column) => {
            const at = cellAddress({ row: rowIndex, column });
            const other = found?.get(at);
            if (value === "") {
              // A 0 in place of nothing would be counted and summed.
              assert.notEqual(typeof other, "number", `${name}!${at}`);
              return;
            }
            assert.ok(
              isSame(value, other),
              `${name}!${at}: ${JSON.stringify(value)} became ${JSON.stringify(other)}`,
            );
            compared += 1;
          }),
        );
      }
      // The blank budget shows little while it is empty.
      const least = plan.id === "blank-budget" ? 250 : 500;
      assert.ok(compared > least, String(compared));
      // What is not known in an empty feed is an error in its workings too.
      if (plan.id === "blank-budget") return;
      for (const sheet of ["Workings", "Inputs as they were"])
        for (const [at, value] of listed(values, sheet))
          assert.notEqual(typeof value, "object", `${sheet}!${at}`);
    });

    it("says at the head of every sheet that its figures hold", () => {
      for (const { name } of copy.plan.sheets) assert.equal(stateOf(values, name), "figures hold");
    });

    it("names its own cells among the inputs as they were", () => {
      const names = new Set(copy.plan.sheets.map(({ name }) => name));
      const named = listed(values, "Inputs as they were").flatMap(([at, value]) =>
        /^A([5-9]|\d\d+)$/.test(at) ? [String(value).split("!")[0]!] : [],
      );
      assert.ok(named.length > 5);
      assert.deepEqual(
        named.filter((name) => !names.has(name)),
        [],
      );
    });

    it("says that all solved values hold", () => {
      assert.equal(values.get("Workings")?.get(copy.holdsAt), "yes");
      for (const [sheet] of values) assert.deepEqual(denials(values, sheet), []);
    });

    it("keeps a note of the function on every cell that held one", () => {
      for (const sheet of plan.sheets)
        for (const { at, formula, spill } of sheet.cells) {
          if (!formula?.includes("{FEED}")) continue;
          const own = copy.plan.sheets.find(({ key }) => key === sheet.key);
          const cell = own?.cells.find((one) => one.at === at);
          assert.match(cell?.note ?? "", /^Was =.*FEED\./, `${sheet.key}!${at}`);
          if (!spill) continue;
          const id = /\{FEED\}\.([A-Z_]+)\(/.exec(formula)?.[1] ?? "";
          const noted = own?.cells.filter(({ note }) => note?.includes(`FEED.${id}(`));
          // One call for each period on a sheet of a day.
          const spilled = sheet.cells
            .filter(({ formula: other }) => other?.includes(`FEED}.${id}(`))
            .reduce((sum, { at: anchor, spill: [, columns] = [1, 1] }) => {
              const { row, column } = cellPlace(anchor);
              const below = rows.get(sheet.name)!.slice(row);
              if (typeof below[0]?.[column] === "object") return sum + 1;
              const end = below.findIndex((cells) => cells[column] === "");
              return sum + (end < 0 ? below.length : end) * columns;
            }, 0);
          assert.equal(noted?.length, spilled);
        }
    });
  });

describe("the plain copy of a feed of one's own", () => {
  let budget: OpenBudget;
  let copy: Awaited<ReturnType<typeof copyOf>>;
  let values: OfficeValues;
  /** With one cell changed, by the cell. */
  let changedValues: readonly OfficeValues[];
  /** With inputs of closed forms changed. */
  let otherForms: OfficeValues;
  let fromFile: OfficeValues;
  let ownFile: OfficeValues;
  let snapshot: WorkbookSnapshot;

  const radio = [...typedAt(ownFeed, "Load", "Radio", "Nominal"), 14] as const;
  const changes = [
    radio,
    [...typedAt(ownFeed, "Cable", "Trackside cable", "Size"), "10 mm²"],
    [...typedAt(ownFeed, "Stage type", "Bus 16", "Rated A"), 20],
  ] as const;
  const forms = [
    ["Cable", "Trackside cable", "Length", 240],
    ["Stage", "Bus units", "In parallel", 4],
    ["Stage type", "Bus 16", "Steps down by", 12],
    ["Load", "Interlocking", "Nominal", 20],
  ] as const;

  beforeAll(async () => {
    budget = await openBudget(budgetPlan(ownFeed));
    copy = await copyOf(budget);
    const contents = contentOf(copy.plan);
    const file = writeXlsx(withoutResults(contents));
    assert.deepEqual(file.leftOut, []);
    snapshot = await plainCopySnapshot(budgetHost(budget), budget.found());
    const own = writeXlsx(snapshot);
    assert.deepEqual(own.leftOut, []);
    const withForms = forms.reduce((cells: Contents, [block, item, header, value]) => {
      const [sheet, at] = typedAt(ownFeed, block, item, header);
      return changed(cells, `${sheet} plain`, at, value);
    }, contents);
    [values, otherForms, fromFile, ownFile, ...changedValues] = await Promise.all([
      calculatedByLibreOffice(contents),
      calculatedByLibreOffice(withForms),
      shownByLibreOffice(file.bytes),
      shownByLibreOffice(own.bytes),
      ...changes.map(([sheet, at, content]) =>
        calculatedByLibreOffice(changed(contents, `${sheet} plain`, at, content)),
      ),
    ]);
  }, 300_000);
  afterAll(() => budget.workbook.dispose());

  function assertAsInWorkbench(found: OfficeValues, suffix = " plain"): void {
    let numbers = 0;
    for (const { name } of budget.plan.sheets)
      budget.rows(name).forEach((row, rowIndex) =>
        row.forEach((value, column) => {
          const at = cellAddress({ row: rowIndex, column });
          if (value === "") return;
          const other = found.get(`${name}${suffix}`)?.get(at);
          assert.notEqual(typeof value, "object", `${name}!${at}: ${JSON.stringify(value)}`);
          assert.ok(
            isSame(value, other),
            `${name}!${at}: ${JSON.stringify(value)} became ${JSON.stringify(other)}`,
          );
          if (typeof value === "number") numbers += 1;
        }),
      );
    assert.ok(numbers > 500, String(numbers));
  }

  it("holds what the workbench shows, and no error", () => {
    assertAsInWorkbench(values);
    for (const [sheet] of values)
      for (const [at, value] of listed(values, sheet))
        assert.notEqual(typeof value, "object", `${sheet}!${at}: ${JSON.stringify(value)}`);
  });

  it("comes to the same from an .xlsx file in which no result is stored", () => {
    assertAsInWorkbench(fromFile);
  });

  it("says that its values hold, and with another load at the head of every sheet that they are void", async () => {
    assert.equal(values.get("Workings")?.get(copy.holdsAt), "yes");
    for (const [sheet] of values) assert.deepEqual(denials(values, sheet), []);
    const [sheet, at, watts] = radio;
    const other = changedValues[0]!;
    assert.match(String(other.get("Workings")?.get(copy.holdsAt)), /^no: /);
    const before = budget.workbook.value(sheet, at);
    await budget.workbook.set(sheet, at, watts);
    try {
      const { follow, stale } = assertNothingLies(budget, copy.plan, other);
      assert.ok(follow > 300 && stale > 20, `${follow}, ${stale}`);
    } finally {
      await budget.workbook.set(sheet, at, before as number);
    }
    assertNoVerdict(other);
  });

  /** Neither a verdict nor a count of verdicts. */
  function assertNoVerdict(found: OfficeValues): void {
    const { Checks: checks, Bands: bands } = budget.found().ranges;
    for (const [range, headings] of [
      [checks, ["Verdict", "Enter or try"]],
      [bands, ["Band in service", "Band after one fault"]],
    ] as const) {
      assert.ok(range);
      const { top, left } = rangePlace(range.address);
      const [first = [], ...rows] = range.values;
      for (const heading of headings)
        rows.forEach((_, row) => {
          const at = cellAddress({ row: top + 1 + row, column: left + first.indexOf(heading) });
          assert.equal(found.get(`${range.sheet} plain`)?.get(at) ?? "", "", `${heading}, ${at}`);
        });
    }
    const labels = budget.rows("Budget").map(([label]) => String(label));
    const failing = labels.findIndex((label) => label.startsWith("Checks that fail"));
    assert.equal(
      found.get("Budget plain")?.get(cellAddress({ row: failing, column: 1 })) ?? "",
      "",
    );
  }

  it("is void too once another limit is asked for, another size chosen or a blank filled", async () => {
    for (const [index, [sheet, at, content]] of changes.entries()) {
      if (index === 0) continue;
      const before = budget.workbook.value(sheet, at);
      const other = changedValues[index]!;
      await budget.workbook.set(sheet, at, content);
      try {
        assertNothingLies(budget, copy.plan, other);
      } finally {
        await budget.workbook.set(sheet, at, before as number | string);
      }
      assertNoVerdict(other);
    }
  });

  it("says the same in the workbench", async () => {
    const opened = await openHeadless(copy.plan);
    const [sheet, at] = typedAt(ownFeed, "Load", "Radio", "Nominal");
    const states = () =>
      copy.plan.sheets.map(({ name }) =>
        ["A1", "A2", "A3"]
          .map((place) => STATE.exec(String(opened.value(name, place)))?.[1])
          .find((state) => state !== undefined),
      );
    assert.deepEqual(new Set(states()), new Set(["figures hold"]));
    await opened.set(`${sheet} plain`, at, 14);
    assert.deepEqual(new Set(states()), new Set(["void: inputs changed"]));
    await opened.undo();
    assert.deepEqual(new Set(states()), new Set(["figures hold"]));
    opened.dispose();
  }, 120_000);

  it("is a file of its own, whose sheets are called as those of the budget", () => {
    assert.deepEqual(
      snapshot.sheets.map(({ name }) => name),
      [...budget.plan.sheets.map(({ name }) => name), "Workings", "Inputs as they were"],
    );
    for (const { name } of snapshot.sheets) assert.equal(stateOf(ownFile, name), "figures hold");
    assertAsInWorkbench(ownFile, "");
    // A reader who cannot calculate sees what the workbench showed.
    for (const { name, cells } of snapshot.sheets.slice(0, budget.plan.sheets.length))
      for (const { at, formula, value } of cells)
        assert.ok(formula === undefined || value !== undefined, `${name}!${at}`);
  });

  it("works out anew by itself what a closed form gives of an input that is changed", () => {
    const [headings = [], ...rows] = budget.found().ranges["Feed"]!.values;
    const { top, left } = rangePlace(
      budget.plan.names.find(({ name }) => name === "Feed")?.range ?? "",
    );
    const worked = (item: string, heading: string) => {
      const row = rows.findIndex(([name]) => name === item);
      const at = { row: top + 1 + row, column: left + headings.indexOf(heading) };
      return otherForms.get("Table plain")?.get(cellAddress(at));
    };
    const near = (found: OfficeValue | undefined, wanted: number) =>
      assert.ok(isSame(wanted, found), `${JSON.stringify(found)} is not ${wanted}`);
    // 4.61 Ω/km of 4 mm² at 20 °C (IEC 60228, class 2), out and back, 0.00393 for each kelvin up to 70 °C.
    near(worked("Trackside cable", "Resistance (Ω)"), 4.61 * 0.48 * (1 + 0.00393 * 50));
    near(worked("Bus units", "Ratio"), 1 / 12);
    near(worked("Bus units", "In parallel"), 4);
    near(worked("Interlocking", "Load"), 1.2 * 20);
  });
});

/** A file of the cells alone: every formula is to be worked out by whoever opens it. */
function withoutResults(contents: Contents): WorkbookSnapshot {
  const [empty] = emptyWorkbook("").sheets;
  return {
    names: [],
    sheets: Object.entries(contents).map(([name, cells]) => ({
      ...empty!,
      name,
      cells: [...cells].map(([at, content]) =>
        typeof content === "string" && content.startsWith("=")
          ? { at, formula: content.slice(1) }
          : { at, value: content },
      ),
    })),
  };
}

describe("the plain copy of the ridge-top observatory with other inputs", () => {
  let budget: OpenBudget;
  let copy: Awaited<ReturnType<typeof copyOf>>;
  let unchanged: OfficeValues;
  let otherLength: OfficeValues;
  let otherLoads: OfficeValues;
  let otherSupply: OfficeValues;

  const CABLE = "Cable to the summit";
  const METRES = 380;
  const length = typedAt(ridgeTop, "Cable", CABLE, "Length");

  beforeAll(async () => {
    budget = await openBudget(budgetPlan(ridgeTop));
    copy = await copyOf(budget);
    const contents = contentOf(copy.plan);
    const [sheet, at] = length;
    [unchanged, otherLength, otherLoads, otherSupply] = (await Promise.all([
      calculatedByLibreOffice(contents),
      calculatedByLibreOffice(changed(contents, `${sheet} plain`, at, METRES)),
      ...(
        [
          ["Loads", "peak"],
          ["Supply voltage", "lowest"],
        ] as const
      ).map(([label, choice]) =>
        calculatedByLibreOffice(changed(contents, "Inputs plain", inputAt(label), choice)),
      ),
    ])) as [OfficeValues, OfficeValues, OfficeValues, OfficeValues];
  }, 300_000);
  afterAll(() => budget.workbook.dispose());

  function inputAt(label: string): string {
    const rows = budget.rows("Inputs");
    const row = rows.findIndex(([first]) => first === label);
    const column = (rows[row] ?? []).findIndex((cell, index) => index > 0 && cell !== "");
    return cellAddress({ row, column });
  }

  it("works out the cable anew, and says that the solved values no longer hold", async () => {
    await budget.workbook.set(...length, METRES);
    const [headings = [], ...rows] = budget.found().ranges["Feed"]?.values ?? [];
    const row = rows.findIndex(([item]) => item === CABLE);
    const column = headings.indexOf("Resistance (Ω)");
    const wanted = rows[row]?.[column];
    await budget.workbook.set(...length, 350);
    assert.ok(typeof wanted === "number");
    const { top, left } = rangePlace(feedRange());
    const at = cellAddress({ row: top + 1 + row, column: left + column });
    const found = otherLength.get("Table plain")?.get(at);
    assert.ok(isSame(wanted, found), `${at} became ${String(found)}`);
    const holds = String(otherLength.get("Workings")?.get(copy.holdsAt));
    assert.match(holds, /^no: .*solve again with the add-in/);
  });

  function feedRange(): string {
    const feed = budget.plan.names.find(({ name }) => name === "Feed");
    return feed?.range ?? "";
  }

  /** What the column beside the solved table says, by item. */
  function rowsSaying(values: OfficeValues, word: string): string[] {
    const solved = budget.plan.names.find(({ name }) => name === "Solved");
    const { top, bottom, right } = rangePlace(solved?.range ?? "");
    const cells = values.get("Budget plain");
    const said: string[] = [];
    for (let row = top + 1; row <= bottom; row += 1)
      if (cells?.get(cellAddress({ row, column: right + 1 })) === word)
        said.push(String(cells.get(cellAddress({ row, column: 0 }))));
    return said;
  }

  it("says of every solved row that it holds while nothing is changed", () => {
    assert.equal(rowsSaying(unchanged, "yes").length, 13);
  });

  const kindOf = (item: string) =>
    budget.table("Table", "Item", "Fed from").find((row) => row["Item"] === item)?.["Kind"];

  it("blames the cable's row for another length", () => {
    const blamed = rowsSaying(otherLength, "no");
    assert.deepEqual(blamed.map(kindOf), ["run"]);
    assert.equal(rowsSaying(otherLength, "no: see Workings").length, 12);
  });

  it("blames the loads for another case of loads, and the supply for another voltage", () => {
    const kinds = new Set(rowsSaying(otherLoads, "no").map(kindOf));
    assert.deepEqual([...kinds], ["power load"]);
    assert.deepEqual(rowsSaying(otherSupply, "no").map(kindOf), ["supply"]);
  });
});
