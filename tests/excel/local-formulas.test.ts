/** Formulas as an Excel in another language shows them, through Microsoft's own library. */
import assert from "node:assert/strict";
import { beforeEach, describe, it } from "vitest";
import { readCellAt } from "../../taskpane/formula-reading/cell-reading.js";
import { excelHost } from "../../taskpane/hosts/excel/excel-host.js";
import type { Host } from "../../taskpane/hosts/host.js";
import { answerLines } from "../../taskpane/views/head/cell-answer-text.js";
import { type PretendedExcel, USUAL_EXCEL } from "./double/pretended-excel.js";
import { ExcelDouble, HERE } from "./excel-double.js";

let excel: ExcelDouble;
let host: Host;

function open(pretended: PretendedExcel): void {
  excel = new ExcelDouble("FEED", HERE, pretended);
  host = excelHost({
    namespace: "FEED",
    warn(message) {
      throw new Error(message);
    },
  });
}

const shown = (formula: string) => host.shownFormula?.(formula);

async function hold(address: string, content: string | number): Promise<void> {
  await host.write({ sheet: "Start", address }, [[content]]);
}

describe("formulas shown where Excel is German", () => {
  beforeEach(() => open({ ...USUAL_EXCEL, separator: ";", decimal: "," }));

  it("have its separators once anything has been read, and are English before", async () => {
    const formula = "=FEED.SAFETY_STORED_ENERGY(0.001,60.5)";
    assert.equal(shown(formula), formula);
    await host.read([{ sheet: "Start", address: "A1:B2" }]);
    assert.equal(shown(formula), "=FEED.SAFETY_STORED_ENERGY(0,001;60,5)");
  });

  it("have its names of native functions where the cell has been read", async () => {
    const formula = "=IF(B1>0.5,FEED.RATIO_OUTPUT(SUM(B1:B2),0.5,1,0.1),0)";
    await hold("A1", formula);
    await host.read([{ sheet: "Start", address: "A1" }]);
    assert.equal(shown(formula), "=WENN(B1>0,5;FEED.RATIO_OUTPUT(SUMME(B1:B2);0,5;1;0,1);0)");
    assert.equal(shown("SUM(B1:B2)"), "SUMME(B1:B2)");
    assert.equal(shown("SUM(C1,1.5)"), "SUM(C1;1,5)");
  });

  it("stand so in the answer for a call within a call that is refused", async () => {
    await hold("A1", "=FEED.RATIO_OUTPUT(FEED.RATIO_OUTPUT(SUM(B1:B2),-0.5,1,0.1),0.5,1,0.1)");
    const reading = await readCellAt(host, { sheet: "Start", address: "A1" });
    const texts = answerLines(reading, host.namespace, host.shownFormula).map(({ text }) => text);
    assert.ok(
      texts.some((text) => text.includes("FEED.RATIO_OUTPUT(SUMME(B1:B2);-0,5;1;0,1)")),
      texts.join("\n"),
    );
  });

  it("cost no request of their own, and are read as English all the same", async () => {
    await hold("A1", "=FEED.SAFETY_STORED_ENERGY(0.001,60.5)");
    const before = excel.requests.length;
    const [content] = await host.read([{ sheet: "Start", address: "A1" }]);
    const first = excel.requests.length - before;
    await host.read([{ sheet: "Start", address: "A1" }]);
    assert.equal(excel.requests.length - before - first, first);
    assert.equal(content?.formulas[0]?.[0], "=FEED.SAFETY_STORED_ENERGY(0.001,60.5)");
    assert.equal(shown("1.5"), "1,5");
  });
});

// Swiss regional settings, from memory: a point in numbers, semicolons between arguments.
describe("formulas shown where Excel parts arguments by semicolons and numbers by a point", () => {
  it("have semicolons once a cell has shown them", async () => {
    open({ ...USUAL_EXCEL, separator: ";" });
    await hold("A1", "=SUM({1,2},B1)");
    await hold("A2", '="a,b"');
    await host.read([{ sheet: "Start", address: "A2" }]);
    assert.equal(shown("FEED.RATIO_OUTPUT(48,0.5)"), "FEED.RATIO_OUTPUT(48,0.5)");
    await host.read([{ sheet: "Start", address: "A1" }]);
    assert.equal(shown("FEED.RATIO_OUTPUT(48,0.5)"), "FEED.RATIO_OUTPUT(48;0.5)");
  });
});

describe("formulas shown where Excel is English", () => {
  beforeEach(() => open(USUAL_EXCEL));

  it("are as they are", async () => {
    const formula = "=FEED.SAFETY_STORED_ENERGY(0.001,60.5)";
    await hold("A1", formula);
    await host.read([{ sheet: "Start", address: "A1" }]);
    assert.equal(shown(formula), formula);
    assert.equal(shown("SUM(C1,1.5)"), "SUM(C1,1.5)");
  });
});
