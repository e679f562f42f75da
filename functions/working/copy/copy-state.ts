/** What the head of every sheet of a plain copy says, natively: whether its figures are those of its inputs. */
import { rangePlace, cellAddress } from "../../../src/plans/addresses.js";
import { quoted } from "../../../src/plans/sheet-builder.js";
import type { PlanCell, PlanRule } from "../../../src/plans/sheet-plan.js";
import type { SheetRange } from "../lines/call-tree.js";
import { type CopiedSheet, cellsOfSheet } from "./copied-sheet.js";

export const FIGURES_HOLD = "figures hold";
const VOID = "void: inputs changed";

/** @param holds True while every input is what it was. */
export function stateFormula(holds: string): string {
  return `IF(${holds},${quoted(FIGURES_HOLD)},${quoted(VOID)})`;
}

/** True, on the sheet of the state itself, once the figures are void. */
function isVoid(stateAt: string): string {
  return `LEFT(${stateAt},4)=${quoted(VOID.slice(0, 4))}`;
}

/** Grey leads: a limit that is painted red says nothing true either. */
export function stateRules(stateAt: string, grey: readonly string[]): PlanRule[] {
  const { top, left } = rangePlace(stateAt);
  const fixed = cellAddress({ row: top, column: left }).replace(/([A-Z]+)(\d+)/, "$$$1$$$2");
  return [
    { range: stateAt, kind: "formula", formula: isVoid(fixed), paint: "danger" },
    { range: stateAt, kind: "formula", formula: `NOT(${isVoid(fixed)})`, paint: "good" },
    ...grey.map((range): PlanRule => ({
      range,
      kind: "formula",
      formula: isVoid(fixed),
      paint: "unused",
    })),
  ];
}

/** The lines of a head, the last one first: below the title, and what the sheet is about. */
const PLACES = ["A3", "A2", "A1"] as const;

/**
 * Where a sheet's state stands: in a line of its head that is free, or before the text of one. Inputs, and cells that
 * formulas read, stay what they are.
 */
export function stateCell(sheet: CopiedSheet, isRead: (cell: SheetRange) => boolean): string {
  const own = new Map(cellsOfSheet(sheet).map((cell) => [cell.address, cell.value]));
  const styles = new Map(sheet.plan?.cells.map(({ at, style }) => [at, style]));
  const open = PLACES.filter(
    (at) => !styles.get(at)?.startsWith("input") && !isRead({ sheet: sheet.name, address: at }),
  );
  const free = open.find((at) => (own.get(at) ?? "") === "");
  const found = free ?? open.find((at) => typeof own.get(at) === "string");
  // A sheet without a head: beside everything.
  return found ?? cellAddress({ row: 0, column: (sheet.values[0]?.length ?? 0) + 1 });
}

/** The state, then what stood there; of what says nothing true once the figures are void, nothing then. */
export function stateWith(
  at: string,
  holds: string,
  before: (PlanCell & { readonly isVoid: boolean }) | undefined,
): PlanCell {
  const { formula, value, isVoid: goes, ...look } = before ?? { at, style: "label", isVoid: false };
  const told = formula ?? (value === undefined || value === "" ? undefined : quoted(String(value)));
  const state = stateFormula(holds);
  if (told === undefined) return { ...look, at, formula: state };
  const whole = goes
    ? `IF(${holds},${quoted(`${FIGURES_HOLD} · `)}&${told},${quoted(VOID)})`
    : `${state}&" · "&${told}`;
  return { ...look, at, formula: whole };
}
