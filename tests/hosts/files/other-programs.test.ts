/**
 * Saved files held against two programs that are not ours: LibreOffice (https://www.libreoffice.org) and the .xlsx
 * library exceljs (https://github.com/exceljs/exceljs), and files of theirs against our reader.
 */
import assert from "node:assert/strict";
import { join } from "node:path";
import ExcelJS from "exceljs";
import { beforeAll, describe, it } from "vitest";
import { rangePlace, cellPlace } from "../../../src/plans/addresses.js";
import { budgets } from "../../../taskpane/budgets/budgets.js";
import { storedFormula, worksThroughArrays } from "../../../taskpane/hosts/files/file-formulas.js";
import { valuesOnly } from "../../../taskpane/hosts/files/values-only.js";
import type {
  CellSnapshot,
  SheetSnapshot,
  SnapshotValue,
  WorkbookSnapshot,
} from "../../../taskpane/hosts/files/workbook-snapshot.js";
import { readXlsx } from "../../../taskpane/hosts/files/read/xlsx-reader.js";
import { writeXlsx } from "../../../taskpane/hosts/files/write/xlsx-writer.js";
import { launchChromium } from "../../helpers/chromium.js";
import { type OfficeValues, shownByLibreOffice } from "../../helpers/libre-office.js";
import { openVendorPage, VENDOR_ADDRESSES, vendorPageFiles } from "../../helpers/vendor-page.js";
import "./snapshot-page.js";

/** Each budget as the workbench calculates it. */
const calculated = new Map<string, WorkbookSnapshot>();
/** What LibreOffice shows of its file, and of its file of values alone. */
const shownThere = new Map<
  string,
  { readonly whole: OfficeValues; readonly asValues: OfficeValues }
>();

beforeAll(async () => {
  const browser = await launchChromium();
  const files = await vendorPageFiles(join(import.meta.dirname, "snapshot-page.ts"));
  const { page } = await openVendorPage(browser, files);
  for (const plan of budgets) {
    const { snapshot } = await page.evaluate(
      ([content, addresses]) => globalThis.throughWorkbench(content, addresses),
      [{ kind: "plan", plan }, VENDOR_ADDRESSES] as const,
    );
    if (plan.id !== "blank-budget") requireSound(snapshot);
    calculated.set(plan.id, snapshot);
  }
  await browser.close();
  await Promise.all(
    [...calculated].map(async ([id, snapshot]) => {
      const values = writeXlsx(valuesOnly(snapshot));
      assert.deepEqual(values.leftOut, []);
      const [whole, asValues] = await Promise.all([
        shownByLibreOffice(writeXlsx(snapshot).bytes),
        shownByLibreOffice(values.bytes),
      ]);
      shownThere.set(id, { whole, asValues });
    }),
  );
});
function snapshotOf(id: string): WorkbookSnapshot {
  const snapshot = calculated.get(id);
  assert.ok(snapshot);
  return snapshot;
}

/** Errors compared with errors would prove nothing; only an empty budget has some. */
function requireSound(snapshot: WorkbookSnapshot): void {
  const errors = cellsOf(snapshot).filter(({ cell }) => typeof cell.value === "object");
  assert.deepEqual(
    errors.map(({ sheet, cell }) => `${sheet.name}!${cell.at}`),
    [],
  );
}

function cellsOf({ sheets }: WorkbookSnapshot) {
  return sheets.flatMap((sheet) => sheet.cells.map((cell) => ({ sheet, cell })));
}

/** Whether the cell is one of an array formula, which LibreOffice always calculates anew. */
function isOfArray(sheet: SheetSnapshot, { at, formula }: CellSnapshot) {
  if (formula !== undefined && worksThroughArrays(formula)) return true;
  const { row, column } = cellPlace(at);
  return sheet.cells.some(({ spill }) => {
    if (spill === undefined) return false;
    const { top, left, bottom, right } = rangePlace(spill);
    return row >= top && row <= bottom && column >= left && column <= right;
  });
}

/** Of what is left over of rounding LibreOffice writes a few digits only. */
const LEAST = 1e-18;

function assertShown(shown: OfficeValues, sheet: string, { at, value }: CellSnapshot): void {
  const found = shown.get(sheet)?.get(at);
  const where = `${sheet}!${at}: ${JSON.stringify(found)}`;
  if (value === undefined || value === "") return;
  if (typeof value !== "number") assert.deepEqual(found, value, where);
  else
    assert.ok(
      typeof found === "number" &&
        Math.abs(found - value) <= Math.max(LEAST, 1e-14 * Math.abs(value)),
      `${where} is not ${value}`,
    );
}

describe.each(budgets)("$title, saved", ({ id }) => {
  it("shows the stored results of the cell functions in LibreOffice", () => {
    const snapshot = snapshotOf(id);
    const shown = shownThere.get(id)!.whole;
    let functions = 0;
    for (const { sheet, cell } of cellsOf(snapshot)) {
      // It works an error out again, and knows none of the functions.
      if (isOfArray(sheet, cell) || typeof cell.value === "object") continue;
      assertShown(shown, sheet.name, cell);
      if (cell.formula?.includes("FEED.")) functions += 1;
    }
    // What spills is calculated anew; its results are held below, saved as values.
    assert.ok(functions > 0, String(functions));
  });

  it("shows every result in LibreOffice when saved as values", () => {
    const snapshot = snapshotOf(id);
    const shown = shownThere.get(id)!.asValues;
    for (const { sheet, cell } of cellsOf(snapshot)) assertShown(shown, sheet.name, cell);
  });

  it("is read by exceljs: values, formulas, number formats, fills, notes, names and merges", async () => {
    const snapshot = snapshotOf(id);
    const book = new ExcelJS.Workbook();
    const { bytes } = writeXlsx(snapshot);
    await book.xlsx.load(bytes.buffer as ArrayBuffer);
    for (const { sheet, cell } of cellsOf(snapshot)) {
      const found = book.getWorksheet(sheet.name)?.getCell(cell.at);
      assert.ok(found);
      const where = `${sheet.name}!${cell.at}`;
      if (cell.formula === undefined) assert.deepEqual(found.value ?? undefined, cell.value, where);
      else {
        assert.equal(found.formula, storedFormula(cell.formula), where);
        assert.deepEqual(found.result ?? "", (cell.value ?? "") as SnapshotValue, where);
      }
      assert.equal(found.numFmt ?? undefined, cell.look?.format, where);
      const { argb } = found.fill?.type === "pattern" ? (found.fill.fgColor ?? {}) : {};
      assert.equal(argb && `#${argb.slice(2).toLowerCase()}`, cell.look?.fill, where);
      assert.equal(noteText(found.note), cell.note, where);
    }
    for (const sheet of snapshot.sheets) {
      const found = book.getWorksheet(sheet.name);
      assert.deepEqual([...(found?.model.merges ?? [])].sort(), [...sheet.merges].sort());
    }
    for (const { name, refersTo } of snapshot.names)
      assert.deepEqual(book.definedNames.getRanges(name).ranges.map(bare), [bare(refersTo)], name);
  });

  it("is read by us as exceljs writes it: values, formulas and number formats", async () => {
    const snapshot = snapshotOf(id);
    const book = new ExcelJS.Workbook();
    await book.xlsx.load(writeXlsx(snapshot).bytes.buffer as ArrayBuffer);
    const written = new Uint8Array(await book.xlsx.writeBuffer());
    const again = readXlsx(written).snapshot;
    const facts = (of: WorkbookSnapshot) =>
      cellsOf(of)
        .filter(({ cell }) => cell.value !== undefined || cell.formula)
        .map(({ sheet, cell: { at, value, formula, look } }) => [
          `${sheet.name}!${at}`,
          // An empty text of a formula is left out there.
          value === "" ? undefined : value,
          formula,
          look?.format,
        ]);
    assert.deepEqual(facts(again), facts(snapshot));
  });
});

function noteText(note: string | ExcelJS.Comment | undefined) {
  if (note === undefined || typeof note === "string") return note;
  return note.texts?.map(({ text }) => text).join("");
}

/** Quotes around a sheet's name may be left out where it is one word. */
function bare(reference: string): string {
  return reference.replaceAll("'", "");
}
