/** Formula trees without a parser: a call whose arguments stand in cells of a sheet `Inputs`. */
import { type Argument, type CellTable, evaluate, isCellTable } from "../../functions/downfeed.js";
import type {
  CallPart,
  FormulaTree,
  ReferencePart,
} from "../../functions/working/lines/call-tree.js";
import { rangeAddress, cellAddress, quotedSheet } from "../../src/plans/addresses.js";

export interface PlacedCall {
  readonly tree: FormulaTree;
  /** What stands on `Inputs`. */
  readonly inputs: ReadonlyMap<string, string | number | boolean>;
}

/** The call stands in A1 of the sheet `Results`; each argument has rows of its own on `Inputs`. */
export function callOverCells(
  id: string,
  args: readonly Argument[],
  sheets = { inputs: "Inputs", result: "Results" },
): PlacedCall {
  const inputs = new Map<string, string | number | boolean>();
  let top = 0;
  const parts = args.map((argument) => {
    if (argument === undefined) return undefined;
    const table: CellTable = isCellTable(argument) ? argument : [[argument]];
    const address = rangeAddress({
      top,
      left: 1,
      bottom: top + table.length - 1,
      right: table[0]?.length ?? 1,
    });
    table.forEach((row, rowIndex) =>
      row.forEach((cell, column) => {
        const at = cellAddress({ row: top + rowIndex, column: column + 1 });
        if (cell !== null && typeof cell !== "object") inputs.set(at, cell);
      }),
    );
    top += table.length + 1;
    const part: ReferencePart = {
      kind: "reference",
      text: `${quotedSheet(sheets.inputs)}!${address}`,
      range: { sheet: sheets.inputs, address },
      value: argument,
    };
    return part;
  });
  const text = `FEED.${id}(${parts.map((part) => part?.text ?? "").join(",")})`;
  const whole: CallPart = { kind: "call", id, text, args: parts };
  return {
    inputs,
    tree: {
      at: { sheet: sheets.result, address: "A1" },
      text: `=${text}`,
      whole,
    },
  };
}

/** What stands from A1 of the result's sheet on. */
export function placedResult(
  id: string,
  args: readonly Argument[],
): ReadonlyMap<string, string | number | boolean> {
  const outcome = evaluate(id, args);
  const value = outcome.ok ? outcome.value : { error: outcome.code };
  const table: CellTable = isCellTable(value) ? value : [[value]];
  const cells = new Map<string, string | number | boolean>();
  table.forEach((row, rowIndex) =>
    row.forEach((cell, column) => {
      const at = cellAddress({ row: rowIndex, column });
      if (typeof cell === "object") cells.set(at, "=NA()");
      else if (cell !== "") cells.set(at, cell);
    }),
  );
  return cells;
}
