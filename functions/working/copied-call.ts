/** How one call of a cell function is copied into sheets that need no add-in. */
import {
  areaPlace,
  cellAddress,
  fixedAddress,
} from "../../src/plans/addresses.js";
import { isCellTable } from "../downfeed.js";
import { cellWithin } from "./call-answer.js";
import type { CallBlock } from "./call-block.js";
import { type FormulaTree, referencesOf } from "./call-tree.js";
import type { CallWorking } from "./call-working.js";
import type { FeedSpill } from "./feed-spill.js";
import type { HeldCell } from "./held-inputs.js";
import { tableOf } from "./result-lines.js";

export interface CopiedCall {
  readonly tree: FormulaTree;
  readonly working: CallWorking;
  readonly how: CopyWay;
  /** In one line, for the cell's note. */
  readonly told: string;
  /** Its row in the list on the sheet of workings. */
  readonly listRow: number;
  readonly block: CallBlock | undefined;
  readonly spill: FeedSpill | undefined;
}

/**
 * `native` follows its inputs; `native here` is void once they change, since they may call for other formulas; `solved`
 * is values that satisfy equations; `value` is as it was; `refused` an error, as it was.
 */
export type CopyWay = "native" | "native here" | "solved" | "value" | "refused";

export function copyWay(
  working: CallWorking,
  spill: FeedSpill | undefined,
): CopyWay {
  const { answer, kind, results } = working;
  if (!answer.outcome.ok) return "refused";
  if (kind === "closed form")
    return answer.entry?.form ? "native here" : "native";
  if (kind === "fixed") return "value";
  const given = results.flat().some((line) => line !== undefined);
  return given || spill ? "solved" : "value";
}

export function givesTable({ answer: { outcome } }: CallWorking): boolean {
  return outcome.ok && isCellTable(outcome.value);
}

export function wayTold(
  way: CopyWay,
  { answer: { outcome } }: CallWorking,
  listRow: number,
): string {
  switch (way) {
    case "native":
      return `in native formulas, Workings row ${listRow}`;
    case "native here":
      return `in the native formulas that its inputs call for, #N/A once these change, Workings row ${listRow}`;
    case "solved":
      return `solved values as they were, checked on Workings row ${listRow}`;
    case "value":
      return `as it was, inputs checked on Workings row ${listRow}`;
    case "refused":
      return `refused: ${outcome.ok ? "" : outcome.message}`;
  }
}

/** One condition for each column that a block's checks stand in. */
export function blockConditions({ checks }: CallBlock): string[] {
  const byColumn = new Map<number, number[]>();
  for (const { at: address } of checks) {
    const { left, top } = areaPlace(address);
    byColumn.set(left, [...(byColumn.get(left) ?? []), top]);
  }
  return [...byColumn].map(([column, rows]) => {
    const first = cellAddress({ row: Math.min(...rows), column });
    const last = cellAddress({ row: Math.max(...rows), column });
    return `COUNTIF(${fixedAddress(`${first}:${last}`)},"no")=0`;
  });
}

/** Every cell that the call's arguments name. */
export function cellsNamed({ answer: { call } }: CallWorking): HeldCell[] {
  return referencesOf(call).flatMap(({ area, value }) =>
    area && value !== undefined
      ? tableOf(value).flatMap((row, rowIndex) =>
          row.map((cell, column) => ({
            area: cellWithin(area, rowIndex, column),
            value: cell,
          })),
        )
      : [],
  );
}
