/** Native formulas run by IronCalc (https://www.ironcalc.com), a spreadsheet engine of other people's making. */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { initSync, Model } from "@ironcalc/wasm";
import { cellPlace } from "../../src/plans/addresses.js";

/** By address: a value, or a formula with `=`. */
export type SheetContent = ReadonlyMap<string, string | number | boolean>;

/** What a cell comes to, as text: a number with all its digits, an error as its code, an empty cell as "". */
export type ShownText = (sheet: string, at: string) => string;

let ready = false;

export function ironCalc(sheets: Readonly<Record<string, SheetContent>>): ShownText {
  if (!ready)
    initSync({
      module: readFileSync(createRequire(import.meta.url).resolve("@ironcalc/wasm/wasm_bg.wasm")),
    });
  ready = true;
  const model = new Model("check", "en", "UTC", "en");
  model.pauseEvaluation();
  const names = Object.keys(sheets);
  names.forEach((name, index) => {
    if (index > 0) model.newSheet();
    model.renameSheet(index, name);
  });
  const shown = new Map<string, string>();
  names.forEach((name, index) => {
    // Beside each sheet one that reads it through `=cell&""`, which gives numbers unformatted.
    model.newSheet();
    for (const [at, content] of sheets[name]!) {
      const { row, column } = cellPlace(at);
      model.setUserInput(index, row + 1, column + 1, typed(content));
      const reading = `='${name}'!${at}&""`;
      model.setUserInput(names.length + index, row + 1, column + 1, reading);
    }
  });
  model.evaluate();
  names.forEach((name, index) => {
    for (const at of sheets[name]!.keys()) {
      const { row, column } = cellPlace(at);
      shown.set(
        `${name}!${at}`,
        model.getFormattedCellValue(names.length + index, row + 1, column + 1),
      );
    }
  });
  model.free();
  return (sheet, at) => shown.get(`${sheet}!${at}`) ?? "";
}

/** A text that looks like a number or a formula stays text. */
function typed(content: string | number | boolean): string {
  if (typeof content !== "string") return String(content).toUpperCase();
  if (content.startsWith("=")) return content;
  return /^[\d+.'-]/.test(content) ? `'${content}` : content;
}
