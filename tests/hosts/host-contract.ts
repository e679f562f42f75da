/** What every host must do alike, whatever spreadsheet is behind it. */
import assert from "node:assert/strict";
import { afterEach, beforeEach, describe, it } from "vitest";
import { rangeAddress, rangePlace } from "../../src/plans/addresses.js";
import { ENGINE_VERSION } from "../../functions/downfeed.js";
import type { WorkbookPlan } from "../../src/plans/sheet-plan.js";
import {
  type CellRange,
  type Host,
  HostError,
  type HostValue,
  OccupiedError,
} from "../../taskpane/hosts/host.js";
import { contractPlan, LOAD_WATTS, RUN_OHMS, SUPPLY_VOLTS } from "./contract-plan.js";

/** A host over a fresh workbook that holds one empty sheet called `Start`, and what a test does behind its back. */
export interface ContractHost {
  readonly host: Host;
  /**
   * Whether a formula that uses a name follows the name at once. The workbench's spreadsheet takes the name's old range
   * until the workbook is opened again; a budget's formulas use no names.
   */
  readonly calculatesMovedNames: boolean;
  /** Longer than the host ever waits before it tells its listeners. */
  readonly quietMs: number;
  sheetNames(): Promise<readonly string[]>;
  /** As the user's undo. */
  undo(): Promise<void>;
  /** A name with a constant behind it. */
  defineConstant(name: string, value: number): Promise<void>;
  /** The note of a cell; nothing where there is none. */
  noteAt(range: CellRange): Promise<string | undefined>;
  /** Lets the next insertion fail after its first sheet was written. */
  breakNextInsertion(): Promise<void>;
  /** As the user's key for it, in a spreadsheet that calculates when it is asked to. */
  calculate?(): Promise<void>;
  close(): Promise<void>;
}

const AT_START: CellRange = { sheet: "Start", address: "B2" };

// The upper root of V·(V − 400)/2 + 1000 = 0: one supply, one run, one load of constant power, worked by hand.
const LOAD_VOLTS = (SUPPLY_VOLTS + Math.sqrt(SUPPLY_VOLTS ** 2 - 4 * RUN_OHMS * LOAD_WATTS)) / 2;

export function describeHost(name: string, open: () => Promise<ContractHost>): void {
  describe(`${name} as a host`, () => {
    let opened: ContractHost;
    let host: Host;
    beforeEach(async () => {
      opened = await open();
      ({ host } = opened);
    });
    afterEach(() => opened.close());

    const pause = () => new Promise((resolve) => setTimeout(resolve, opened.quietMs));

    async function insertAndCalculate() {
      const inserted = await host.insert(contractPlan);
      await opened.calculate?.();
      return inserted;
    }
    async function contentAt(sheet: string, address: string) {
      await opened.calculate?.();
      const [content] = await host.read([{ sheet, address }]);
      assert.ok(content);
      return content;
    }
    /** What the sheet is called that lists notes, on a host that puts none on cells. */
    function listedNotes(): readonly string[] {
      return host.can("notes") ? [] : ["Notes on cells"];
    }
    async function valueAt(sheet: string, address: string): Promise<HostValue> {
      return (await contentAt(sheet, address)).values[0]?.[0] ?? "nothing read";
    }

    describe("inserting", () => {
      it("adds the plan's sheets behind those that are there, and says what they are called", async () => {
        const { sheets, ...inserted } = await host.insert(contractPlan);
        assert.deepEqual(inserted, {
          stem: "Ridge",
          names: {
            Feed: "Ridge_Feed",
            Solved: "Ridge_Solved",
            About: "Ridge_About",
          },
        });
        assert.deepEqual([sheets["inputs"], sheets["budget"]], ["Inputs", "Budget"]);
        // With a sheet of notes where the host puts none on cells.
        assert.deepEqual(Object.values(sheets), ["Inputs", "Budget", ...listedNotes()]);
        assert.deepEqual(await opened.sheetNames(), ["Start", ...Object.values(sheets)]);
      });

      it("writes values of every kind, as they are", async () => {
        await host.insert(contractPlan);
        const { values, formulas } = await contentAt("Inputs", "A2:B6");
        assert.deepEqual(values, [
          ["Length", 350],
          ["", 2],
          ["", "1/8"],
          ["", true],
          ["", ""],
        ]);
        assert.ok(formulas.flat().every((formula) => formula === ""));
      });

      it("fills sheets, names and namespace into formulas, outside text only", async () => {
        await host.insert(contractPlan);
        const { formulas } = await contentAt("Budget", "A1:A6");
        assert.deepEqual(formulas.flat().map(plainFormula), [
          "=Inputs!B2*Inputs!B3",
          "=ROWS(Ridge_Feed)",
          "=1/0",
          `=${host.namespace}.ENGINE_VERSION()`,
          "=INDEX($H$10:$S$13,4,2)",
          '="{Feed} & ""{inputs}!B2"""',
        ]);
      });

      it("calculates what it wrote, errors and spills too", async () => {
        await host.insert(contractPlan);
        assert.equal(await valueAt("Budget", "A1"), 700);
        assert.equal(await valueAt("Budget", "A2"), 4);
        assert.deepEqual(await valueAt("Budget", "A3"), { error: "#DIV/0!" });
        assert.equal(await valueAt("Budget", "A4"), ENGINE_VERSION);
        assert.equal(await valueAt("Budget", "A6"), '{Feed} & "{inputs}!B2"');
        const solved = await contentAt("Budget", "H10:S13");
        assert.equal(solved.values[0]?.[0], "Item");
        assert.equal(solved.values[3]?.[0], "Mast");
        assertNear(solved.values[3]?.[1], LOAD_VOLTS);
        assertNear(await valueAt("Budget", "A5"), LOAD_VOLTS);
        assert.equal(solved.formulas[3]?.[1], "");
      });

      it("lists its sheets in their order", async () => {
        const before = await host.sheets();
        await host.insert(contractPlan);
        const names = contractPlan.sheets.map(({ name }) => name);
        assert.deepEqual(await host.sheets(), [...before, ...names, ...listedNotes()]);
      });

      it("says how far a sheet is used, as far as its spills reach", async () => {
        await insertAndCalculate();
        assert.deepEqual(await host.used("Budget"), {
          sheet: "Budget",
          address: "A1:S13",
        });
        assert.deepEqual(await host.used("Start"), {
          sheet: "Start",
          address: "A1",
        });
        await assert.rejects(host.used("Nowhere"), HostError);
      });

      it("gives the cells of a sheet that hold a formula, and nothing of what one spills over", async () => {
        await insertAndCalculate();
        const cells = await host.formulaCells("Budget");
        assert.deepEqual(cells.map(({ at }) => at.address).sort(), [
          "A1",
          "A2",
          "A3",
          "A4",
          "A5",
          "A6",
          "H10",
        ]);
        const first = cells.find(({ at }) => at.address === "A1");
        assert.equal(plainFormula(first?.formula ?? ""), "=Inputs!B2*Inputs!B3");
        assert.equal(first?.value, 700);
        assert.deepEqual(await host.formulaCells("Inputs"), []);
        assert.deepEqual(await host.formulaCells("Start"), []);
        await assert.rejects(host.formulaCells("Nowhere"), HostError);
      });

      it("sets number formats", async () => {
        await host.insert(contractPlan);
        const { formats } = await contentAt("Inputs", "B2:B3");
        assert.deepEqual(formats, [['0 "m"'], ["General"]]);
        assert.deepEqual((await contentAt("Budget", "A1")).formats, [["0.0"]]);
      });

      it("puts notes on cells where the host can, else lists them on a sheet of their own", async () => {
        const { sheets } = await host.insert(contractPlan);
        const note = await opened.noteAt({ sheet: "Inputs", address: "B2" });
        assert.equal(note, host.can("notes") ? "One way." : undefined);
        if (host.can("notes")) return;
        const list = await host.used(Object.values(sheets).at(-1) ?? "");
        const [content] = await host.read([list]);
        assert.deepEqual(content?.values.at(-1), ["Inputs", "B2", "", "One way."]);
      });

      it("gives names to areas, and lists no constants among them", async () => {
        await opened.defineConstant("Margin", 1.25);
        await host.insert(contractPlan);
        const byName = [...(await host.names())].sort((one, other) =>
          one.name.localeCompare(other.name),
        );
        assert.deepEqual(byName, [
          { name: "Ridge_About", range: { sheet: "Inputs", address: "A1" } },
          { name: "Ridge_Feed", range: { sheet: "Budget", address: "A10:F13" } },
          {
            name: "Ridge_Solved",
            range: { sheet: "Budget", address: "H10:S13" },
          },
        ]);
      });

      it("gives a second insertion sheets and names of its own and leaves the first alone", async () => {
        await host.insert(contractPlan);
        const second = await host.insert(contractPlan);
        assert.equal(second.stem, "Ridge2");
        assert.equal(second.names["Feed"], "Ridge2_Feed");
        const notes = listedNotes();
        assert.deepEqual(await opened.sheetNames(), [
          "Start",
          "Inputs",
          "Budget",
          ...notes,
          "Inputs 2",
          "Budget 2",
          ...notes.map((name) => `${name} 2`),
        ]);
        await host.write({ sheet: "Inputs 2", address: "B2" }, [[10]], {
          overwrite: true,
        });
        assert.equal(await valueAt("Budget 2", "A1"), 20);
        assert.equal(await valueAt("Budget", "A1"), 700);
        assertNear(await valueAt("Budget 2", "A5"), LOAD_VOLTS);
        assert.equal((await host.names()).length, 6);
      });

      it("is undone in one step where the host can, and can be done again", async () => {
        if (!host.can("single undo")) return;
        await host.insert(contractPlan);
        await opened.undo();
        assert.deepEqual(await opened.sheetNames(), ["Start"]);
        assert.deepEqual(await host.names(), []);
        const again = await host.insert(contractPlan);
        assert.equal(again.stem, "Ridge");
        assertNear(await valueAt("Budget", "A5"), LOAD_VOLTS);
      });

      it("leaves nothing behind when it fails half-way", async () => {
        await host.write(AT_START, [["mine"]]);
        await opened.breakNextInsertion();
        await assert.rejects(() => host.insert(contractPlan), HostError);
        assert.deepEqual(await opened.sheetNames(), ["Start"]);
        assert.deepEqual(await host.names(), []);
        assert.equal(await valueAt("Start", "B2"), "mine");
        const { stem } = await host.insert(contractPlan);
        assert.equal(stem, "Ridge");
      });

      it("refuses a plan with a fault and writes nothing of it", async () => {
        const faulty: WorkbookPlan = {
          ...contractPlan,
          names: [{ name: "Feed", sheet: "nowhere", range: "A1" }],
        };
        await assert.rejects(() => host.insert(faulty), HostError);
        assert.deepEqual(await opened.sheetNames(), ["Start"]);
      });
    });

    describe("writing", () => {
      it("writes values and formulas into empty cells", async () => {
        await host.write({ sheet: "Start", address: "B2:C3" }, [
          [2, "=B2*3"],
          ["6-4", false],
        ]);
        const { values } = await contentAt("Start", "B2:C3");
        assert.deepEqual(values, [
          [2, 6],
          ["6-4", false],
        ]);
      });

      it("writes beyond the rows and columns that a new sheet shows", async () => {
        const far = { sheet: "Start", address: "AZ600:BA600" };
        await host.write(far, [[7, "=AZ600*6"]]);
        const { values } = await contentAt("Start", far.address);
        assert.deepEqual(values, [[7, 42]]);
      });

      it("refuses to write over a cell that is not empty, naming the first", async () => {
        await host.write(AT_START, [[1]]);
        const range = { sheet: "Start", address: "A1:B2" };
        const cells = [
          [7, 7],
          [7, 7],
        ];
        await assert.rejects(
          () => host.write(range, cells),
          (error) => {
            assert.ok(error instanceof OccupiedError);
            assert.deepEqual(error.at, AT_START);
            return true;
          },
        );
        assert.equal(await valueAt("Start", "A1"), "");
        await host.write(range, cells, { overwrite: true });
        assert.equal(await valueAt("Start", "B2"), 7);
      });

      it("counts a cell that a spill reaches as not empty", async () => {
        await insertAndCalculate();
        await assert.rejects(
          () => host.write({ sheet: "Budget", address: "I12" }, [[1]]),
          OccupiedError,
        );
      });

      it("replaces a formula by a value and recalculates", async () => {
        await host.write({ sheet: "Start", address: "A1:B1" }, [[2, "=A1+1"]]);
        await host.write({ sheet: "Start", address: "A1" }, [[5]], {
          overwrite: true,
        });
        assert.equal(await valueAt("Start", "B1"), 6);
        await host.write({ sheet: "Start", address: "B1" }, [[9]], {
          overwrite: true,
        });
        const { values, formulas } = await contentAt("Start", "B1");
        assert.deepEqual([values, formulas], [[[9]], [[""]]]);
      });

      it("refuses cells of another shape and a sheet that is not there", async () => {
        await assert.rejects(
          () => host.write({ sheet: "Start", address: "A1:A2" }, [[1]]),
          HostError,
        );
        await assert.rejects(
          () => host.write({ sheet: "Nowhere", address: "A1" }, [[1]]),
          HostError,
        );
      });
    });

    describe("editing", () => {
      const at = (address: string): CellRange => ({ sheet: "Inputs", address });
      const feedRange = async () =>
        (await host.names()).find(({ name }) => name === "Ridge_Feed")?.range.address;

      it("writes over what stands there, and empties cells", async () => {
        await host.insert(contractPlan);
        await host.edit([
          { kind: "write", range: at("B2:B3"), cells: [[100], [3]] },
          { kind: "write", range: at("A2"), cells: [[""]] },
        ]);
        assert.equal(await valueAt("Budget", "A1"), 300);
        assert.equal(await valueAt("Inputs", "A2"), "");
      });

      it("inserts rows: formulas and names follow", async () => {
        await host.insert(contractPlan);
        const before = await feedRange();
        assert.ok(before);
        const { top, bottom, left, right } = rangePlace(before);
        const sheet = "Budget";
        await host.edit([
          { kind: "insert rows", sheet: "Inputs", row: 1, count: 2 },
          { kind: "insert rows", sheet, row: bottom, count: 1 },
        ]);
        assert.equal(await valueAt("Inputs", "B4"), 350);
        const { formulas } = await contentAt(sheet, "A1");
        assert.equal(plainFormula(formulas[0]?.[0] ?? ""), "=Inputs!B4*Inputs!B5");
        assert.equal(await valueAt(sheet, "A1"), 700);
        assert.equal(await feedRange(), rangeAddress({ top, left, right, bottom: bottom + 1 }));
        if (!opened.calculatesMovedNames) return;
        assert.equal(await valueAt(sheet, "A2"), bottom - top + 2);
        const solved = await contentAt(sheet, "H10:H14");
        assert.deepEqual(solved.values.flat(), ["Item", "Hut", "Line", "Mast", ""]);
      });

      it("removes rows: what stood in them is gone, the rest follows", async () => {
        await host.insert(contractPlan);
        await host.edit([{ kind: "remove rows", sheet: "Inputs", row: 3, count: 2 }]);
        const { values } = await contentAt("Inputs", "B2:B4");
        assert.deepEqual(values, [[350], [2], [""]]);
        assert.equal(await valueAt("Budget", "A1"), 700);
      });

      it("is one undo step where the host can", async () => {
        if (!host.can("single undo")) return;
        await host.insert(contractPlan);
        const before = await contentAt("Inputs", "A1:B8");
        await host.edit([
          { kind: "insert rows", sheet: "Inputs", row: 1, count: 1 },
          { kind: "write", range: at("A2:B2"), cells: [["New", 12]] },
          { kind: "remove rows", sheet: "Inputs", row: 3, count: 1 },
        ]);
        assert.equal(await valueAt("Inputs", "B2"), 12);
        await opened.undo();
        assert.deepEqual((await contentAt("Inputs", "A1:B8")).values, before.values);
        assert.equal(await valueAt("Budget", "A1"), 700);
      });

      it("changes nothing when one of the sheets is not there", async () => {
        await host.insert(contractPlan);
        await assert.rejects(
          host.edit([
            { kind: "write", range: at("B2"), cells: [[1]] },
            { kind: "write", range: { sheet: "Nowhere", address: "A1" }, cells: [[1]] },
          ]),
          HostError,
        );
        assert.equal(await valueAt("Inputs", "B2"), 350);
      });
    });

    describe("reading and going", () => {
      it("reads several areas at once, in their order", async () => {
        await insertAndCalculate();
        const contents = await host.read([
          { sheet: "Budget", address: "A1" },
          { sheet: "Inputs", address: "A2:B2" },
        ]);
        assert.deepEqual(
          contents.map(({ range, values }) => [range.sheet, values]),
          [
            ["Budget", [[700]]],
            ["Inputs", [["Length", 350]]],
          ],
        );
      });

      it("refuses to read or go to a sheet that is not there", async () => {
        const nowhere = { sheet: "Nowhere", address: "A1" };
        await assert.rejects(() => host.read([nowhere]), HostError);
        await assert.rejects(() => host.goTo(nowhere), HostError);
      });

      it("goes to an area, on another sheet too, and tells who listens", async () => {
        await host.insert(contractPlan);
        let heard = 0;
        const stop = host.onSelection(() => {
          heard += 1;
        });
        await host.goTo({ sheet: "Inputs", address: "B2:B3" });
        assert.deepEqual(await host.selection(), {
          sheet: "Inputs",
          address: "B2:B3",
        });
        await host.goTo({ sheet: "Budget", address: "A5" });
        assert.deepEqual(await host.selection(), {
          sheet: "Budget",
          address: "A5",
        });
        await until(() => heard > 0);
        stop();
        await pause();
        const before = heard;
        await host.goTo({ sheet: "Start", address: "C3" });
        await pause();
        assert.equal(heard, before);
      });
    });

    describe("changes", () => {
      it("are told after recalculation until the listener stops", async () => {
        await host.insert(contractPlan);
        await pause();
        let told = 0;
        const stop = host.onChange(() => (told += 1));
        const length = { sheet: "Inputs", address: "B2" };
        await host.write(length, [[100]], { overwrite: true });
        await until(() => told > 0);
        assert.equal(await valueAt("Budget", "A1"), 200);
        stop();
        await pause();
        const before = told;
        await host.write(length, [[50]], { overwrite: true });
        await pause();
        assert.equal(told, before);
      });

      it("are told of an undo", async () => {
        await host.write(AT_START, [[1]]);
        await pause();
        let told = 0;
        const stop = host.onChange(() => (told += 1));
        await opened.undo();
        await until(() => told > 0);
        stop();
        assert.equal(await valueAt("Start", "B2"), "");
      });
    });
  });
}

/** Spreadsheets leave out quotes around a sheet's name that does not need them. */
function plainFormula(formula: string): string {
  return formula.replace(/'(\w+)'!/g, "$1!");
}

function assertNear(actual: HostValue | undefined, expected: number): void {
  assert.equal(typeof actual, "number", JSON.stringify(actual));
  assert.ok(
    Math.abs(Number(actual) - expected) <= 1e-9 * expected,
    `${String(actual)}, expected ${expected}`,
  );
}

async function until(condition: () => boolean): Promise<void> {
  const latest = Date.now() + 10_000;
  while (!condition()) {
    assert.ok(Date.now() < latest, "it did not happen within 10 s");
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
}
