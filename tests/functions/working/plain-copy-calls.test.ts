/**
 * Calls of every kind copied into a sheet that needs no add-in and calculated by LibreOffice
 * (https://www.libreoffice.org): formulas follow their inputs, values say when theirs are no longer what they were.
 */
import assert from "node:assert/strict";
import { afterAll, beforeAll, describe, it } from "vitest";
import { type PlainCopy, plainCopy } from "../../../functions/working/copy/plain-copy.js";
import { cellAddress } from "../../../src/plans/addresses.js";
import { planFaults } from "../../../src/plans/plan-faults.js";
import { formulaTrees } from "../../../taskpane/formula-reading/cell-reading.js";
import { contentOf } from "../../helpers/copied-budget.js";
import { type HeadlessWorkbook, openHeadlessCells } from "../../helpers/headless-workbook.js";
import { calculatedByLibreOffice } from "../../helpers/libre-office.js";

const CELLS = {
  B1: "=FEED.PARALLEL_SHARE(F1:G1,F2:G2,F3)",
  B6: "=INDEX(FEED.PARALLEL_SHARE(F1:G1,F2:G2,F3),3,1)*2",
  B7: '=FEED.SAFETY_BAND(F4,"IEC 62368-1","dry")',
  B8: "=LEFT(B7,3)",
  B9: '=IFERROR(FEED.SAFETY_LIMIT("IEC 62368-1","ES3","dry"),"none")',
  B10: "=FEED.CONDUCTOR_DROP(F5,F6,F7,40,,F11)",
  B11: "=IF(F5>0,FEED.RATIO_OUTPUT(F4,1/8),FEED.RATIO_OUTPUT(-F4,1/8))",
  B12: "=FEED.CHAIN_EFFICIENCY(F8:H8)",
  B13: "=FEED.SAFETY_WORST_VOLTAGE(F4,0.5,F9)",
  B14: "=FEED.RATIO_OUTPUT(-F4,1/8)",
  B15: "=FEED.CONDUCTOR_LOSS(F5,F6,FEED.CONDUCTOR_AREA(F10),40)/1000",
  B16: "=SUM(C1:C2)+SUM(F1:G1)",
  B17: '=FEED.SAFETY_BAND(48,"IEC 62368-1",F12)',
  B18: '=FEED.CONDUCTOR_RESISTANCE(350,"AWG 4",40,F13:G13,"stranded")',
  B19: "=FEED.CONDUCTOR_LOSS(F14,100,4,40)",
  B20: "=FEED.PROTECTED_LENGTH(360,0.3,60,4,20,,,,,F15)",
  B22: "=FEED.RATIO_CHOICES(504,706,33,60,F16)",
  F1: 500,
  G1: 501,
  F2: 0.3,
  G2: 0.1,
  F3: 250,
  F4: 48,
  F5: 12.5,
  F6: 350,
  F7: "4 mm²",
  F8: 0.97,
  H8: 0.95,
  F9: "exact",
  F10: "AWG 4",
  F12: "dry",
  F13: 2e-8,
  G13: 0.004,
  F14: 1,
  F15: 200,
  F16: 0.01,
} as const;

type Changes = Readonly<Record<string, string | number>>;

const HEIGHT = 30;
const WIDTH = 8;

describe("the plain copy of a sheet", () => {
  let workbook: HeadlessWorkbook;
  let copy: PlainCopy;

  beforeAll(async () => {
    workbook = await openHeadlessCells(CELLS);
    const range = {
      sheet: "Sheet",
      address: cellAddress({ row: HEIGHT - 1, column: WIDTH - 1 }),
    };
    const values = workbook.values("Sheet", `A1:${range.address}`);
    const formulas = values.map((row, rowIndex) =>
      row.map((_, column) => workbook.formula("Sheet", cellAddress({ row: rowIndex, column }))),
    );
    const formats = values.map((row) => row.map(() => "General"));
    const content = { range, values, formulas, formats };
    copy = plainCopy({
      title: "Sheet",
      sheets: [{ name: "Sheet", values, formulas, formats }],
      trees: formulaTrees([content], [], "FEED"),
    });
  });
  afterAll(() => workbook.dispose());

  /** The copy with something else in some of its cells. */
  async function calculated(changes: Changes) {
    const contents = contentOf(copy.plan);
    const cells = new Map(contents["Sheet plain"]);
    for (const [at, content] of Object.entries(changes)) cells.set(at, content);
    const values = await calculatedByLibreOffice({
      ...contents,
      "Sheet plain": cells,
    });
    const workings = values.get("Workings");
    const denied = [...(workings ?? [])].flatMap(([at, value]) => {
      const row = at.replace(/\D/g, "");
      const isListed = value === "no" && Number(row) < 32 && /^I/.test(at);
      return isListed ? [String(workings?.get(`A${row}`))] : [];
    });
    return {
      at: (address: string) => values.get("Sheet plain")?.get(address),
      holds: String(workings?.get(copy.holdsAt)),
      /** Cells of the list whose copies no longer hold. */
      denied: denied.map((where) => where.replace("Sheet plain!", "")),
    };
  }

  async function expectFollows(changes: Changes, addresses: readonly string[]) {
    const { at, holds, denied } = await calculated(changes);
    const before: (readonly [string, string | number])[] = [];
    for (const [address, content] of Object.entries(changes)) {
      const was = workbook.value("Sheet", address);
      assert.notEqual(typeof was, "object");
      before.push([address, was as string | number]);
      await workbook.set("Sheet", address, content);
    }
    for (const address of addresses) {
      const wanted = Number(workbook.value("Sheet", address));
      const share = Math.abs(Number(at(address)) - wanted) / wanted;
      assert.ok(share <= 1e-12, `${address}: ${String(at(address))}, ${wanted}`);
    }
    for (const [address, content] of before) await workbook.set("Sheet", address, content);
    return { holds, denied };
  }

  it("can be written by every host", () => {
    assert.deepEqual(planFaults(copy.plan), []);
  });

  it("holds the same values, an error where there was one, and says that they hold", async () => {
    const { at, holds, denied } = await calculated({});
    workbook
      .values("Sheet", `A1:${cellAddress({ row: HEIGHT - 1, column: WIDTH - 1 })}`)
      .forEach((row, rowIndex) =>
        row.forEach((value, column) => {
          const address = cellAddress({ row: rowIndex, column });
          const found = at(address);
          if (typeof value === "number")
            assert.ok(
              Math.abs(Number(found) - value) <= 1e-12 * Math.abs(value),
              `${address}: ${String(found)}, ${value}`,
            );
          else if (typeof value === "object") assert.equal(typeof found, "object", address);
          else if (address === "A3") assert.equal(found, "figures hold");
          else assert.equal(found ?? "", value, address);
        }),
      );
    assert.equal(typeof at("B14"), "object");
    assert.deepEqual(denied, []);
    assert.equal(holds, "yes");
  });

  it("works out closed forms anew, one inside another too", async () => {
    // At 1 A drop and loss are one number; the copy must still know which is which.
    const changes = { F5: 11, F6: 400, F8: 0.9, F13: 1.9e-8, F14: 3 };
    const follow = ["B10", "B12", "B15", "B18", "B19"];
    const { holds } = await expectFollows(changes, follow);
    // F5 also chooses between two calls of B11; the one that is refused rests on F4 alone.
    assert.equal(holds, "yes");
  });

  it.concurrent("says which solved values no longer hold", async () => {
    const { denied, holds } = await calculated({ F3: 240 });
    assert.deepEqual(denied, ["B1", "B6"]);
    assert.match(holds, /^no: .*solve again with the add-in$/);
  });

  // At once, so that one run of the program opens what they ask for.
  async function expectDenied(wanted: readonly (readonly [Changes, readonly string[]])[]) {
    const found = await Promise.all(wanted.map(([changes]) => calculated(changes)));
    assert.deepEqual(
      found.map(({ denied }) => denied),
      wanted.map(([, denied]) => denied),
    );
  }

  it.concurrent(
    "says that formulas which the inputs chose are those of the inputs as they were",
    () => expectDenied([[{ F16: 0.02 }, ["B22"]]]),
  );

  it.concurrent("says that a text and a refusal are of inputs as they were", () =>
    expectDenied([
      [{ F4: 70 }, ["B7", "B11", "B14"]],
      [{ F12: "wet" }, ["B17"]],
    ]),
  );

  it.concurrent(
    "says when a table would be read elsewhere, and when a word or a blank was something else",
    () =>
      expectDenied([
        [{ F7: "6 mm²" }, ["B10"]],
        [{ F10: "AWG 6" }, ["B15"]],
        [{ F9: 0.02 }, ["B13"]],
        [{ F11: "class 5" }, ["B10"]],
        // A number in a blank cell of a list has no place in its formulas.
        [{ G8: 0.96 }, ["B12"]],
        // The current limit stands in no step of the length: it only decides whether there is one.
        [{ F15: 50 }, ["B20"]],
      ]),
  );
});
