/**
 * The plain copy of every worked budget, opened and calculated by LibreOffice (https://www.libreoffice.org), which knows
 * none of our functions: the same numbers as in the workbench, and checks that say so when a solved value is no longer
 * that of its inputs.
 */
import assert from "node:assert/strict";
import { afterAll, beforeAll, describe, it } from "vitest";
import { valuesOnlyCopy } from "../../../functions/working/copy/values-only-copy.js";
import { budgetPlan } from "../../../taskpane/budgets/budget-plan.js";
import { budgets } from "../../../taskpane/budgets/budgets.js";
import { Places } from "../../../taskpane/budgets/places.js";
import type { BudgetSample, ScheduleName } from "../../../taskpane/budgets/sample.js";
import { ridgeTop } from "../../../taskpane/budgets/samples/ridge-top.js";
import { rangePlace, cellAddress, cellPlace } from "../../../src/plans/addresses.js";
import { planFaults } from "../../../src/plans/plan-faults.js";
import {
  emptyWorkbook,
  type WorkbookSnapshot,
} from "../../../taskpane/hosts/files/workbook-snapshot.js";
import { writeXlsx } from "../../../taskpane/hosts/files/write/xlsx-writer.js";
import type { HostValue } from "../../../taskpane/hosts/host.js";
import { type OpenBudget, openBudget } from "../../budgets/open-budget.js";
import { ownFeed } from "../../feeds/own-feed.js";
import { contentOf, copyOf, copyRequest } from "../../helpers/copied-budget.js";
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

function isSame(value: HostValue, found: OfficeValue | undefined): boolean {
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

for (const plan of budgets) {
  describe(`the plain copy of ${plan.title}`, () => {
    let budget: OpenBudget;
    let copy: Awaited<ReturnType<typeof copyOf>>;
    let contents: Contents;
    let values: OfficeValues;

    beforeAll(async () => {
      budget = await openBudget(plan);
      copy = await copyOf(budget);
      contents = contentOf(copy.plan);
      values = calculatedByLibreOffice(contents);
    }, 300_000);
    afterAll(() => budget.workbook.dispose());

    it("can be written by every host and names no cell function", () => {
      assert.deepEqual(planFaults(copy.plan), []);
      for (const { cells } of copy.plan.sheets)
        for (const { formula } of cells) assert.doesNotMatch(formula ?? "", /FEED/);
    });

    it("holds the numbers and texts of the workbench, and no error that was not there", () => {
      let compared = 0;
      for (const { name } of plan.sheets) {
        const found = values.get(`${name} plain`);
        budget.rows(name).forEach((row, rowIndex) =>
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
              const below = budget.rows(sheet.name).slice(row);
              if (typeof below[0]?.[column] === "object") return sum + 1;
              const end = below.findIndex((cells) => cells[column] === "");
              return sum + (end < 0 ? below.length : end) * columns;
            }, 0);
          assert.equal(noted?.length, spilled);
        }
    });

    it("as values only holds no formula", async () => {
      const only = valuesOnlyCopy(await copyRequest(budget));
      assert.deepEqual(planFaults(only), []);
      for (const { cells } of only.sheets)
        for (const { formula } of cells) assert.equal(formula, undefined);
      const cells = only.sheets.flatMap((sheet) => sheet.cells);
      assert.ok(cells.some(({ note }) => note?.includes("CHAIN_SOLVE")));
    });
  });
}

describe("the plain copy of a feed of one's own", () => {
  let budget: OpenBudget;
  let copy: Awaited<ReturnType<typeof copyOf>>;
  let contents: Contents;
  let values: OfficeValues;

  beforeAll(async () => {
    budget = await openBudget(budgetPlan(ownFeed));
    copy = await copyOf(budget);
    contents = contentOf(copy.plan);
    values = calculatedByLibreOffice(contents);
  }, 300_000);
  afterAll(() => budget.workbook.dispose());

  function assertAsInWorkbench(found: OfficeValues): void {
    let numbers = 0;
    for (const { name } of budget.plan.sheets)
      budget.rows(name).forEach((row, rowIndex) =>
        row.forEach((value, column) => {
          const at = cellAddress({ row: rowIndex, column });
          if (value === "") return;
          const other = found.get(`${name} plain`)?.get(at);
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
    const { bytes, leftOut } = writeXlsx(withoutResults(contents));
    assert.deepEqual(leftOut, []);
    assertAsInWorkbench(shownByLibreOffice(bytes));
  });

  it("says that its values hold, and no longer with another load", () => {
    assert.equal(values.get("Workings")?.get(copy.holdsAt), "yes");
    for (const [sheet] of values) assert.deepEqual(denials(values, sheet), []);
    const [sheet, at] = typedAt(ownFeed, "Load", "Radio", "Nominal");
    const other = calculatedByLibreOffice(changed(contents, `${sheet} plain`, at, 14));
    assert.match(String(other.get("Workings")?.get(copy.holdsAt)), /^no: /);
  });

  it("works out anew by itself what a closed form gives of an input that is changed", () => {
    const lines = [
      ["Cable", "Trackside cable", "Length", 240],
      ["Stage", "Bus units", "In parallel", 4],
      ["Stage type", "Bus 16", "Steps down by", 12],
      ["Load", "Interlocking", "Nominal", 20],
    ] as const;
    const other = calculatedByLibreOffice(
      lines.reduce((cells, [block, item, header, value]) => {
        const [sheet, at] = typedAt(ownFeed, block, item, header);
        return changed(cells, `${sheet} plain`, at, value);
      }, contents),
    );
    const [headings = [], ...rows] = budget.found().ranges["Feed"]!.values;
    const { top, left } = rangePlace(
      budget.plan.names.find(({ name }) => name === "Feed")?.range ?? "",
    );
    const worked = (item: string, heading: string) => {
      const row = rows.findIndex(([name]) => name === item);
      const at = { row: top + 1 + row, column: left + headings.indexOf(heading) };
      return other.get("Table plain")?.get(cellAddress(at));
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
  let contents: Contents;

  beforeAll(async () => {
    budget = await openBudget(budgetPlan(ridgeTop));
    copy = await copyOf(budget);
    contents = contentOf(copy.plan);
  }, 300_000);
  afterAll(() => budget.workbook.dispose());

  function inputAt(label: string): string {
    const rows = budget.rows("Inputs");
    const row = rows.findIndex(([first]) => first === label);
    const column = (rows[row] ?? []).findIndex((cell, index) => index > 0 && cell !== "");
    return cellAddress({ row, column });
  }

  const CABLE = "Cable to the summit";
  const length = typedAt(ridgeTop, "Cable", CABLE, "Length");

  const withLength = (metres: number) =>
    calculatedByLibreOffice(changed(contents, `${length[0]} plain`, length[1], metres));

  it("works out the cable anew, and says that the solved values no longer hold", async () => {
    const values = withLength(380);
    await budget.workbook.set(...length, 380);
    const [headings = [], ...rows] = budget.found().ranges["Feed"]?.values ?? [];
    const row = rows.findIndex(([item]) => item === CABLE);
    const column = headings.indexOf("Resistance (Ω)");
    const wanted = rows[row]?.[column];
    await budget.workbook.set(...length, 350);
    assert.ok(typeof wanted === "number");
    const { top, left } = rangePlace(feedRange());
    const at = cellAddress({ row: top + 1 + row, column: left + column });
    const found = values.get("Table plain")?.get(at);
    assert.ok(isSame(wanted, found), `${at} became ${String(found)}`);
    const holds = String(values.get("Workings")?.get(copy.holdsAt));
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
    const values = calculatedByLibreOffice(contents);
    assert.equal(rowsSaying(values, "yes").length, 13);
  });

  const kindOf = (item: string) =>
    budget.table("Table", "Item", "Fed from").find((row) => row["Item"] === item)?.["Kind"];

  it("blames the cable's row for another length", () => {
    const values = withLength(380);
    const blamed = rowsSaying(values, "no");
    assert.deepEqual(blamed.map(kindOf), ["run"]);
    assert.equal(rowsSaying(values, "no: see Workings").length, 12);
  });

  it("blames the loads for another case of loads, and the supply for another voltage", () => {
    const loads = calculatedByLibreOffice(
      changed(contents, "Inputs plain", inputAt("Loads"), "peak"),
    );
    const kinds = new Set(rowsSaying(loads, "no").map(kindOf));
    assert.deepEqual([...kinds], ["power load"]);
    const supply = calculatedByLibreOffice(
      changed(contents, "Inputs plain", inputAt("Supply voltage"), "lowest"),
    );
    assert.deepEqual(rowsSaying(supply, "no").map(kindOf), ["supply"]);
  });
});
