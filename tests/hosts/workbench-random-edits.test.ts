/** Many edits of a feed, one upon the other: after each of them every cell shows what a whole calculation gives. */
import assert from "node:assert/strict";
import fc from "fast-check";
import { afterAll, beforeAll, describe, it } from "vitest";
import { budgetPlan } from "../../taskpane/budgets/budget-plan.js";
import type { BudgetSample } from "../../taskpane/budgets/sample.js";
import { textTable } from "../../taskpane/budgets/samples/text-table.js";
import type { WorkbookPlan } from "../../src/plans/sheet-plan.js";
import { type HeadlessWorkbook, openHeadless } from "../helpers/headless-workbook.js";

/** Some two hundred are worth the minutes before a release: `DOWNFEED_EDITS=200 npx vitest run …`. */
const EDITS = Number(process.env["DOWNFEED_EDITS"] ?? 40);

/** Twelve items, all figures invented. */
const FEED: BudgetSample = {
  id: "edited",
  version: "2.0.0",
  stem: "Edited",
  document: { title: "Edited feed" },
  story: "",
  origin: "",
  emptyRows: 1,
  asked: { "Load margin": 0.1, "Units lost": 1, "Largest loading of a stage": 0.8 },
  schedules: {
    Supply: textTable(`
Supply | Lowest V | Voltage | Highest V | Resistance | Rated A
Bus    | 300      | 350     | 400       | 0.2        | 20
`),
    "In line": textTable(`
In line | Fed from | Kind | Resistance | Rated A
Fuse    | Bus      | fuse | 20         | 16
`),
    Cable: textTable(`
Cable      | Fed from | Length | Size   | Conductor at most | Rated A
Long cable | Fuse     | 120    | 6 mm²  | 60                | 30
Spur       | Low      | 12     | 10 mm² | 60                | 40
Tail       | Low      | 4      | 4 mm²  | 60                | 20
`),
    Stage: textTable(`
Stage  | Fed from   | Type         | In parallel | Tolerance
Low    | Long cable | eight to one | 2           | 0.02
Twelve | Spur       | 12 V         | 1           |
`),
    Load: textTable(`
Load   | Fed from | Kind   | Light | Nominal | Peak | Lowest V | Highest V | Rated V
Lamps  | Spur     | power  | 20    | 150     | 200  | 30       | 52        |
Heater | Tail     | heater | 0     | 100     | 120  |          |           | 44
Motor  | Tail     | power  | 10    | 60      | 90   | 30       | 52        |
Radio  | Twelve   | power  | 5     | 20      | 30   | 10       | 14        |
Sensor | Twelve   | current| 0.1   | 0.5     | 1    | 10       | 14        |
`),
    "Stage type": textTable(`
Stage type   | Kind      | Steps down by | Voltage | Lowest V | Highest V | Rated A | Resistance | Fixed loss | Efficiency
eight to one | ratio     | 8             |         | 250      | 420       | 12      | 15         | 4          |
12 V         | regulated |               | 12      | 20       | 60        | 10      |            |            | 0.9
`),
  },
  remarks: [],
};

/** What a user adds beside a budget: spills of spills, and sums, none of which reads a spill's first cell. */
function withOwnFormulas(plan: WorkbookPlan): WorkbookPlan {
  const own: Readonly<Record<string, string>> = {
    AA6: 'FILTER({table}!A5:A60,{table}!A5:A60<>"")',
    AC6: "FILTER({budget}!H20:H60,ISNUMBER({budget}!H20:H60))*1",
    AE6: "SORT(FILTER(AC7:AC60,AC7:AC60>0))",
    AG6: "SUM(AE7:AE60)",
    AG7: "SUM(AE6:AE60)",
    AG8: 'COUNTIF(AA7:AA60,"?*")',
    AG9: "SUM({budget}!K21:K60)",
    AG10: "INDEX(AC6:AC60,2)+AG6",
  };
  const cells = Object.entries(own).map(([at, formula]) => ({
    at,
    formula,
    style: "result" as const,
  }));
  return {
    ...plan,
    sheets: plan.sheets.map((sheet) =>
      sheet.key === "inputs" ? { ...sheet, cells: [...sheet.cells, ...cells] } : sheet,
    ),
  };
}

type Edit =
  | { readonly kind: "figure"; readonly cell: number; readonly times: number }
  | { readonly kind: "clear"; readonly cell: number }
  | { readonly kind: "rename"; readonly cell: number }
  | { readonly kind: "insert" | "delete"; readonly cell: number }
  | { readonly kind: "undo" };

const cell = fc.nat(10_000);
const edits: fc.Arbitrary<readonly Edit[]> = fc.array(
  fc.oneof(
    {
      weight: 5,
      arbitrary: fc.record({
        kind: fc.constant("figure" as const),
        cell,
        times: fc.constantFrom(0.5, 0.9, 1.1, 2),
      }),
    },
    { weight: 2, arbitrary: fc.record({ kind: fc.constant("clear" as const), cell }) },
    { weight: 1, arbitrary: fc.record({ kind: fc.constant("rename" as const), cell }) },
    {
      weight: 2,
      arbitrary: fc.record({ kind: fc.constantFrom("insert" as const, "delete" as const), cell }),
    },
    { weight: 2, arbitrary: fc.record({ kind: fc.constant("undo" as const) }) },
  ),
  { minLength: EDITS, maxLength: EDITS },
);

const SCHEDULES = ["Feed", "Loads"];
/** Rows 1 to 3 head the sheets. */
const FIRST_ROW = 4;

/** Typed cells of the schedules that hold a number, or a word. */
function typed(book: HeadlessWorkbook, type: "number" | "string"): readonly string[] {
  return [...book.contents()]
    .filter(
      ([at, value]) =>
        SCHEDULES.includes(placed(at).sheet) && placed(at).row > FIRST_ROW && typeof value === type,
    )
    .map(([at]) => at);
}

function placed(at: string): {
  readonly sheet: string;
  readonly address: string;
  readonly row: number;
} {
  const [sheet = "", address = ""] = at.split("!");
  return { sheet, address, row: Number(address.replace(/^[A-Z]+/, "")) };
}

async function make(book: HeadlessWorkbook, edit: Edit): Promise<string> {
  if (edit.kind === "undo") {
    await book.undo();
    return "undo";
  }
  const among = typed(book, edit.kind === "rename" ? "string" : "number");
  const at = among[edit.cell % among.length];
  if (at === undefined) return "nothing";
  const { sheet, address, row } = placed(at);
  switch (edit.kind) {
    case "figure":
      await book.set(sheet, address, Number(book.value(sheet, address)) * edit.times);
      break;
    case "clear":
      await book.clear(sheet, address);
      break;
    case "rename":
      await book.set(sheet, address, `${String(book.value(sheet, address))}'`);
      break;
    case "insert":
      await book.insertRow(sheet, row);
      break;
    case "delete":
      await book.deleteRow(sheet, row);
      break;
  }
  return `${edit.kind} ${at}`;
}

describe("a feed of twelve items", () => {
  let book: HeadlessWorkbook;
  beforeAll(async () => {
    book = await openHeadless(withOwnFormulas(budgetPlan(FEED)));
  });
  afterAll(() => book.dispose());

  it(
    `shows after each of ${EDITS} edits what a whole calculation gives`,
    { timeout: 600_000 },
    async () => {
      const [made = []] = fc.sample(edits, { numRuns: 1, seed: 20 });
      const done: string[] = [];
      let alive = 0;
      for (const edit of made) {
        // A feed that is refused or feeds nothing would be compared with itself: what made it so is undone.
        const isDead = typeof book.value("Inputs", "AE6") !== "number";
        if (!isDead) alive += 1;
        done.push(await make(book, isDead ? { kind: "undo" } : edit));
        const shown = book.contents();
        await book.recalculate();
        const whole = book.contents();
        const stale = [...new Set([...shown.keys(), ...whole.keys()])].filter(
          (at) => JSON.stringify(shown.get(at)) !== JSON.stringify(whole.get(at)),
        );
        assert.deepEqual(
          stale
            .map(
              (at) =>
                `${at} shows ${JSON.stringify(shown.get(at))}, not ${JSON.stringify(whole.get(at))}`,
            )
            .slice(0, 8),
          [],
          `after ${done.slice(-3).join(", ")} (edit ${done.length})`,
        );
      }
      assert.ok(alive > 0.75 * EDITS, `only ${alive} edits were made to a feed that was solved`);
    },
  );
});
