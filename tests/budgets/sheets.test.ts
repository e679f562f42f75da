/** Sheets that follow what is typed into the schedules, whatever is inserted, renamed or taken away. */
import assert from "node:assert/strict";
import { describe, it } from "vitest";
import { evaluate } from "../../functions/runner.js";
import type { CellTable } from "../../functions/cells.js";
import type { WorkbookPlan } from "../../src/plans/sheet-plan.js";
import type { HostValue } from "../../taskpane/hosts/host.js";
import { budgetPlan } from "../../taskpane/budgets/budget-plan.js";
import type { ScheduleName, ScheduleRow } from "../../taskpane/budgets/sample.js";
import { blank } from "../../taskpane/budgets/samples/blank.js";
import { harbourCrawler } from "../../taskpane/budgets/samples/harbour-crawler.js";
import { ridgeTop } from "../../taskpane/budgets/samples/ridge-top.js";
import { samples } from "../../taskpane/budgets/samples/samples.js";
import { warningsOf } from "../../taskpane/budgets/warnings/warnings.js";
import { openHeadless } from "../helpers/headless-workbook.js";
import { formulasWaiting } from "./formula-depth.js";
import { openBudget } from "./open-budget.js";
import { type OpenSheets, openSheets } from "./open-sheets.js";

const LONGEST_MS = 120_000;

function addressOf(cell: string): readonly [sheet: string, address: string] {
  const [, key = "", address = ""] = /^\{(\w+)\}!(.+)$/.exec(cell) ?? [];
  const sheet = key.charAt(0).toUpperCase() + key.slice(1);
  return [sheet, address.replaceAll("$", "")];
}

/**
 * Types a new row above the grey line of a block, as its user does; by header without unit.
 * @param above Rows that were inserted above the block since the plan was made.
 */
async function addRow(
  sheets: OpenSheets,
  name: ScheduleName,
  row: Readonly<Record<string, string | number>>,
  above = 0,
): Promise<void> {
  const block = sheets.places.block(name);
  const [first] = block.names;
  const sheet = addressOf(block.range)[0];
  const closing = block.closing + above;
  await sheets.workbook.insertRow(sheet, closing);
  for (const [header, value] of Object.entries(row)) {
    const [, like] = addressOf(block.cell(first!, header));
    const column = like.replace(/\d+/, "");
    await sheets.workbook.set(sheet, `${column}${closing}`, value);
  }
}

const itemsOf = (rows: readonly Readonly<Record<string, HostValue>>[]) =>
  rows.map((row) => row["Item"]);

describe("the ridge-top observatory", () => {
  it(
    "has a load, a cable, a contact and a stage more on every sheet, wherever a row is inserted",
    async () => {
      const sheets = await openSheets(ridgeTop);
      const { places, spilled, beside } = sheets;
      try {
        const before = Number(beside("Budget", "All loads"));
        await addRow(sheets, "Stage", {
          Stage: "Lamp stage",
          "Fed from": "Lamp switch",
          Type: "24 V, 15 A",
          Tolerance: 0.02,
        });
        const cable = {
          Cable: "Lamp cable",
          "Fed from": "Lamp stage",
          Length: 8,
          Size: "2.5 mm²",
          "Conductor at most": 50,
        };
        await addRow(sheets, "Cable", cable, 1);
        const contact = {
          "In line": "Lamp switch",
          "Fed from": "Summit stage",
          Kind: "contactor",
          Resistance: 10,
        };
        await addRow(sheets, "In line", contact, 2);
        await addRow(sheets, "Load", {
          Load: "Lamps",
          "Fed from": "Lamp cable",
          Kind: "power",
          Nominal: 40,
        });
        const added = ["Lamp cable", "Lamp stage", "Lamp switch", "Lamps"];
        for (const spill of [
          places.table,
          places.solved,
          places.bands,
          places.worst,
          places.checks,
        ])
          for (const item of added)
            assert.ok(itemsOf(spilled(spill)).includes(item), `${spill.sheet} lacks ${item}`);
        assert.ok(itemsOf(spilled(places.schedule)).includes("Lamp cable"));
        // 40 W and the margin of Asked for.
        assert.ok(Math.abs(Number(beside("Budget", "All loads")) - before - 50) < 1e-9);
        assert.deepEqual(sheets.errors(), []);
        const hand = sheets.workbook.values("Budget", "N25:Q60");
        const checked = hand.find(([item]) => item === "Lamp cable");
        assert.ok(Math.abs(Number(checked?.[3])) < 1e-9, String(checked));
      } finally {
        sheets.workbook.dispose();
      }
    },
    LONGEST_MS,
  );

  it(
    "solves no item whose name is gone, and says where figures stand without one",
    async () => {
      const sheets = await openSheets(ridgeTop);
      const { places, spilled, beside, workbook } = sheets;
      try {
        const before = Number(beside("Budget", "All loads"));
        const [sheet, address] = addressOf(places.block("Load").cell("Computers", "Load"));
        await workbook.clear(sheet, address);
        const items = itemsOf(spilled(places.solved));
        assert.ok(!items.includes("Computers"));
        const notes = spilled(places.table).map((row) => String(row["Note"]));
        assert.ok(
          notes.some((note) => /Load row 3 must be given: the row has figures/.test(note)),
          notes.join("; "),
        );
        await workbook.undo();
        assert.equal(Number(beside("Budget", "All loads")), before);
        assert.deepEqual(sheets.errors(), []);
      } finally {
        workbook.dispose();
      }
    },
    LONGEST_MS,
  );

  it(
    "shows what the functions give, cell by cell",
    async () => {
      const sheets = await openSheets(ridgeTop);
      const { places, workbook } = sheets;
      const range = (spill: typeof places.table) => {
        const [sheet, address] = addressOf(spill.range);
        return workbook.values(sheet, address) as CellTable;
      };
      try {
        const [sheet, asked] = addressOf(places.asked);
        const table = range(places.table);
        const requirements = workbook.values(sheet, asked) as CellTable;
        for (const [id, spill, args] of [
          ["CHAIN_SOLVE", places.solved, [table, "nominal", "nominal"]],
          ["CHAIN_BANDS", places.bands, [table, requirements]],
          ["CHAIN_CASES", places.cases, [table]],
          ["CHAIN_WORST", places.worst, [table, 1]],
          ["CHAIN_CHECKS", places.checks, [table, requirements]],
          ["CHAIN_SCHEDULE", places.schedule, [table]],
        ] as const) {
          const outcome = evaluate(id, args);
          assert.ok(outcome.ok, id);
          const value = outcome.value as CellTable;
          const shown = range(spill).slice(0, value.length);
          // A sheet has one 0, whatever its sign.
          assert.deepEqual(
            shown.map((row) => row.slice(0, value[0]!.length)),
            value.map((row) => row.map((cell) => (cell === 0 ? 0 : cell))),
            id,
          );
        }
      } finally {
        workbook.dispose();
      }
    },
    LONGEST_MS,
  );
});

/** Every value of every sheet that is read from a formula or a spill. */
function valuesOf({ plan, places, workbook }: OpenSheets) {
  const spilled = [
    ...[places.table, places.solved, places.bands, places.cases],
    ...[places.worst, places.checks, places.schedule],
  ].map((spill) => workbook.values(...addressOf(spill.range)));
  const cells = plan.sheets.flatMap(({ key, name, cells: planned }) =>
    planned.flatMap(({ at, formula }) =>
      formula === undefined ? [] : [[`${key}!${at}`, workbook.value(name, at)]],
    ),
  );
  return { cells, spilled };
}

describe("the harbour crawler", () => {
  it(
    "is after some edits what it is when it is opened with them",
    async () => {
      const edited = await openSheets(harbourCrawler);
      const { places, workbook } = edited;
      const edits = [
        ["Cable", "Umbilical", "Length", 280],
        ["Load", "Thrusters", "Peak", 2600],
        ["Stage", "Ratio units", "Set-point spread", 0.004],
        ["Stage type", "800 V to 50 V, 70 A", "Resistance", 25],
        ["Cable", "Umbilical", "Size", "2.5 mm²"],
        ["Supply", "Quay supply", "Highest V", 850],
      ] as const;
      for (const [block, item, header, value] of edits)
        await workbook.set(...addressOf(places.block(block).cell(item, header)), value);
      const now = valuesOf(edited);
      // The spreadsheet keeps what it has calculated by the workbook's id.
      workbook.dispose();
      const changed: Record<string, ScheduleRow[]> = {};
      for (const [name, rows] of Object.entries(harbourCrawler.schedules))
        changed[name] = rows.map((row) => {
          const own = edits.filter(([block, item]) => block === name && row[name] === item);
          return {
            ...row,
            ...Object.fromEntries(own.map(([, , h, value]) => [h, value])),
          };
        });
      const opened = await openSheets({
        ...harbourCrawler,
        schedules: changed,
      });
      const fresh = valuesOf(opened);
      opened.workbook.dispose();
      assert.deepEqual(now, fresh);
    },
    LONGEST_MS,
  );

  it(
    "answers the same of a renamed cable",
    async () => {
      const sheets = await openSheets(harbourCrawler);
      const { places, workbook } = sheets;
      const answers = () => workbook.values("Answers", "A1:F60");
      try {
        const before = answers();
        const [sheet, name] = addressOf(places.block("Cable").cell("Umbilical", "Cable"));
        const [, fed] = addressOf(places.block("Stage").cell("Ratio units", "Fed from"));
        await workbook.set(sheet, name, "Tether");
        await workbook.set(sheet, fed, "Tether");
        assert.deepEqual(sheets.errors(), []);
        assert.deepEqual(answers(), before);
      } finally {
        workbook.dispose();
      }
    },
    LONGEST_MS,
  );
});

describe("the blank budget", () => {
  it(
    "shows no error, and warns of the one figure that is to be entered first",
    async () => {
      const budget = await openBudget(budgetPlan(blank));
      try {
        const errors = budget.plan.sheets.flatMap(({ name }) =>
          budget.rows(name).flatMap((row) => row.filter((cell) => typeof cell === "object")),
        );
        assert.deepEqual(errors, []);
        assert.equal(budget.balance("Supply power"), "–");
        const found = warningsOf(budget.found()).flatMap(({ findings }) => findings);
        assert.deepEqual(
          found.map(({ item, remedy, toChange }) => [item, remedy, toChange]),
          [["Supply", "enter Voltage of Supply row 1", { sheet: "Feed", address: "E5" }]],
        );
      } finally {
        budget.workbook.dispose();
      }
    },
    LONGEST_MS,
  );

  it(
    "sums what is solved, and says that an item waits for a figure",
    async () => {
      const sheets = await openSheets(blank);
      const { places, beside, workbook } = sheets;
      try {
        await workbook.set(...addressOf(places.block("Supply").cell("Supply", "Voltage")), 48);
        for (const [row, name, fed] of [
          [5, "Lamp", "Supply"],
          [6, "Spare", ""],
        ] as const) {
          await workbook.set("Loads", `A${row}`, name);
          if (fed !== "") await workbook.set("Loads", `B${row}`, fed);
          await workbook.set("Loads", `D${row}`, "power");
          await workbook.set("Loads", `H${row}`, 24);
        }
        assert.equal(beside("Budget", "All loads"), 24);
        assert.equal(beside("Budget", "Closing error"), 0);
        assert.match(
          String(workbook.value("Budget", "A3")),
          /items that wait for a figure, in no sum: 1$/,
        );
      } finally {
        workbook.dispose();
      }
    },
    LONGEST_MS,
  );

  it(
    "says what to enter first, and is solved once a supply and a load are typed",
    async () => {
      const sheets = await openSheets(blank);
      const { places, spilled, beside, workbook } = sheets;
      try {
        assert.equal(spilled(places.solved)[0]?.["Note"], "enter Voltage of Supply row 1");
        const supply = places.block("Supply");
        for (const [header, value] of [
          ["Voltage", 48],
          ["Resistance", 0.1],
        ] as const)
          await workbook.set(...addressOf(supply.cell("Supply", header)), value);
        for (const [column, value] of [
          ["A", "Lamp"],
          ["B", "Supply"],
          ["D", "current"],
          ["H", 10],
        ] as const)
          await workbook.set("Loads", `${column}5`, value);
        assert.equal(beside("Budget", "Supply power"), 480);
        assert.equal(beside("Budget", "All losses, given off as heat"), 10);
      } finally {
        workbook.dispose();
      }
    },
    LONGEST_MS,
  );
});

/** The same plan in a workbook that has none of the functions. */
function withoutFunctions(plan: WorkbookPlan): WorkbookPlan {
  return {
    ...plan,
    sheets: plan.sheets.map((sheet) => ({
      ...sheet,
      cells: sheet.cells.map((cell) =>
        cell.formula === undefined
          ? cell
          : { ...cell, formula: cell.formula.replaceAll("{FEED}.", "GONE.") },
      ),
    })),
  };
}

describe.each(samples.map((sample) => [sample.document.title, sample] as const))(
  "%s, where the functions are not loaded",
  (_, sample) => {
    it(
      "shows so in every cell that waits for one",
      async () => {
        const plan = budgetPlan(sample);
        const workbook = await openHeadless(withoutFunctions(plan));
        try {
          const shown = formulasWaiting(plan).flatMap(({ sheet, at }) => {
            const value = workbook.value(sheet, at);
            return typeof value === "object" && value.error === "#NAME?"
              ? []
              : [`${sheet}!${at}: ${JSON.stringify(value)}`];
          });
          assert.deepEqual(shown, []);
        } finally {
          workbook.dispose();
        }
      },
      LONGEST_MS,
    );
  },
);
