/** Sheets with every value as it is and no formula at all; cells of our functions keep a note of what they were. */
import type { SheetPlan, WorkbookPlan } from "../../../src/plans/sheet-plan.js";
import { type Cell, isCellError } from "../../downfeed.js";
import { callsIn } from "../lines/call-tree.js";
import { constantCell } from "../native/block-rows.js";
import {
  type CopiedSheet,
  cellsOfSheet,
  copyKeys,
  copyName,
  lookOf,
  stylesOf,
  usualStyle,
} from "./copied-sheet.js";
import type { CopyRequest } from "./plain-copy.js";

export function valuesOnlyCopy(request: CopyRequest): WorkbookPlan {
  const keys = copyKeys(request.sheets);
  return {
    id: "values-copy",
    title: `${request.title}, values only`,
    stem: "Values",
    names: [],
    sheets: request.sheets.map((sheet, index) => valuesOf(sheet, keys[index] ?? "", request.trees)),
  };
}

function valuesOf(sheet: CopiedSheet, key: string, trees: CopyRequest["trees"]): SheetPlan {
  const styles = stylesOf(sheet);
  return {
    key,
    name: copyName(sheet.name, " values"),
    ...lookOf(sheet),
    // What is only a value can no longer be chosen from a list.
    validations: [],
    pictures: [],
    cells: cellsOfSheet(sheet).flatMap((cell) => {
      const style = styles.get(cell.address);
      if (cell.value === "" && style === undefined) return [];
      const tree = trees.get(`${sheet.name}!${cell.address}`);
      const called = tree !== undefined && callsIn(tree.whole).length > 0;
      const value = cell.value as Cell;
      return [
        {
          ...(isCellError(value)
            ? { at: cell.address, value: value.error }
            : constantCell(cell.address, value)),
          style: style ?? usualStyle(cell),
          ...(cell.format === "General" ? {} : { format: cell.format }),
          ...(called && { note: `Was ${tree.text}` }),
        },
      ];
    }),
  };
}
