/** The way of an entry into a cell of the workbench: read before the spreadsheet's own reading, refused before it stays. */
import assert from "node:assert/strict";
import { type ICellData, IUniverInstanceService, LocaleType, Univer } from "@univerjs/core";
import { FUniver } from "@univerjs/core/facade";
import {
  AFTER_CELL_EDIT,
  SheetInterceptorService,
  UniverSheetsPlugin,
  VALIDATE_CELL,
} from "@univerjs/sheets";
import { UniverFormulaEnginePlugin } from "@univerjs/engine-formula";
import "@univerjs/sheets/facade";
import { afterEach, beforeEach, describe, it } from "vitest";
import { readEntries } from "../../taskpane/hosts/workbench/entries.js";
import type { Spreadsheet } from "../../taskpane/hosts/workbench/spreadsheet.js";
import type { EntryReader, TypedEntry } from "../../taskpane/hosts/typed-entry.js";

const TEN_IN_THE_MORNING = 10 / 24;

let univer: Univer;
let interceptors: SheetInterceptorService;
let stop: () => void;
let told: string[];
let seen: TypedEntry[];

beforeEach(() => {
  univer = new Univer({ locale: LocaleType.EN_US, locales: { [LocaleType.EN_US]: {} } });
  univer.registerPlugin(UniverFormulaEnginePlugin);
  univer.registerPlugin(UniverSheetsPlugin);
  FUniver.newAPI(univer).createWorkbook({
    sheetOrder: ["one"],
    sheets: {
      one: {
        id: "one",
        name: "Feed",
        cellData: { 2: { 3: { v: 7, t: 2, s: { n: { pattern: "0.0%" } } } } },
      },
    },
  });
  interceptors = univer.__getInjector().get(SheetInterceptorService);
  // As the spreadsheet's own reading: a later one, which makes a time of an ampere.
  interceptors.writeCellInterceptor.intercept(AFTER_CELL_EDIT, {
    handler: (cell, _, next) =>
      next(cell?.v === "10 A" ? { ...cell, v: TEN_IN_THE_MORNING, t: 2 } : cell),
  });
  told = [];
  seen = [];
});

afterEach(() => {
  stop();
  univer.dispose();
});

const DIALOGS = Symbol("dialogs");

function reading(read: EntryReader): void {
  const dialogs = {
    open: ({ children }: { children: { title: string } }) => told.push(children.title),
    close: () => undefined,
  };
  const vendor = {
    AFTER_CELL_EDIT,
    VALIDATE_CELL,
    SheetInterceptorService,
    IDialogService: DIALOGS,
    Button: "button",
    createElement: () => undefined,
  };
  const injector = {
    get: (wanted: unknown) => (wanted === DIALOGS ? dialogs : interceptors),
  };
  const spreadsheet = { vendor, injector } as unknown as Spreadsheet;
  stop = readEntries(spreadsheet, { names: () => [], values: () => [] }, (entry, now) => {
    seen.push(entry);
    return read(entry, now);
  });
}

/** What the editor hands over for a text typed into D3, and what becomes of it. */
async function typed(data: ICellData) {
  const workbook = univer
    .__getInjector()
    .get(IUniverInstanceService)
    .getCurrentUnitOfType(2) as unknown as Parameters<SheetInterceptorService["onWriteCell"]>[0];
  const sheet = workbook.getActiveSheet()!;
  const cell = interceptors.onWriteCell(workbook, sheet, 2, 3, data);
  const stays = await interceptors.onValidateCell(workbook, sheet, 2, 3);
  return { cell, stays };
}

describe("an entry", () => {
  it("is handed over with its place and the format of its cell", async () => {
    reading(() => undefined);
    await typed({ v: "10 A" });
    assert.deepEqual(seen, [{ sheet: "Feed", row: 2, column: 3, text: "10 A", format: "0.0%" }]);
  });

  it("that nobody reads is the spreadsheet's: ten in the morning", async () => {
    reading(() => undefined);
    const { cell, stays } = await typed({ v: "10 A" });
    assert.equal(cell?.v, TEN_IN_THE_MORNING);
    assert.equal(stays, true);
  });

  it("that is read as a number is that number, and as a text that text", async () => {
    reading(({ text }) => ({ content: text === "10 A" ? 10 : text }));
    const number = await typed({ v: "10 A" });
    assert.deepEqual([number.cell?.v, number.cell?.t, number.stays], [10, 2, true]);
    const text = await typed({ v: "3-4" });
    assert.deepEqual([text.cell?.v, text.cell?.t, text.stays], ["3-4", 1, true]);
    assert.deepEqual(told, []);
  });

  it("that is refused is told and does not stay, and the next one is judged anew", async () => {
    reading(({ text }) => (text === "1/16" ? { refused: "a ratio" } : { content: 16 }));
    const refused = await typed({ v: "1/16" });
    assert.deepEqual([refused.cell?.v, refused.stays], ["1/16", false]);
    assert.deepEqual(told, ["a ratio"]);
    const mended = await typed({ v: "16" });
    assert.deepEqual([mended.cell?.v, mended.stays], [16, true]);
    assert.deepEqual(told, ["a ratio"]);
  });

  it("of a formula, of nothing, or of a number written by a program is not read", async () => {
    reading(() => ({ content: "never" }));
    for (const data of [{ f: "=1+1", v: null }, { v: "" }, { v: 5, t: 2 }]) await typed(data);
    assert.deepEqual(seen, []);
  });
});
