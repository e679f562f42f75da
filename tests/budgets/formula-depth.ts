/** What a plan's formulas wait for: how many cell functions stand behind each other, and whether a spill is read only once it is there. */
import { rangePlace } from "../../src/plans/addresses.js";
import { fillPlaceholders, plainNames } from "../../src/plans/placeholders.js";
import type { WorkbookPlan } from "../../src/plans/sheet-plan.js";

interface CellRange {
  readonly sheet: string;
  readonly top: number;
  readonly left: number;
  readonly bottom: number;
  readonly right: number;
}

/** A formula and what it fills: of a spill all of it. */
export interface PlacedFormula extends CellRange {
  /** `budget!B7` */
  readonly where: string;
  readonly at: string;
  readonly formula: string;
  /** Its own cell. */
  readonly anchor: CellRange;
  readonly reads: readonly CellRange[];
}

export function placedFormulas(plan: WorkbookPlan): readonly PlacedFormula[] {
  const used = plainNames(plan, "FEED");
  return plan.sheets.flatMap(({ key, name: sheet, cells }) =>
    cells.flatMap(({ at, formula, spill: [rows, columns] = [1, 1] }) => {
      if (formula === undefined) return [];
      const { top, left } = rangePlace(at);
      const filled = `=${fillPlaceholders(formula, used)}`;
      return [
        {
          where: `${key}!${at}`,
          at,
          formula: filled,
          sheet,
          ...{ top, left, bottom: top + rows - 1, right: left + columns - 1 },
          anchor: { sheet, top, left, bottom: top, right: left },
          reads: rangesIn(filled, sheet),
        },
      ];
    }),
  );
}

const REFERENCE = /(?:'([^']+)'!)?(\$?[A-Z]{1,3}\$?\d+(?::\$?[A-Z]{1,3}\$?\d+)?)/g;

function rangesIn(formula: string, own: string): CellRange[] {
  const bare = formula.replace(/"[^"]*"/g, "");
  return [...bare.matchAll(REFERENCE)].map(([, sheet = own, address = ""]) => ({
    sheet,
    ...rangePlace(address),
  }));
}

function meets(a: CellRange, b: CellRange): boolean {
  return (
    a.sheet === b.sheet &&
    a.top <= b.bottom &&
    a.bottom >= b.top &&
    a.left <= b.right &&
    a.right >= b.left
  );
}

export function depthOfCalls(plan: WorkbookPlan): number {
  return Math.max(0, ...depths(plan).values());
}

/** Formulas that are, or wait for, a cell function. */
export function formulasWaiting(plan: WorkbookPlan): readonly PlacedFormula[] {
  return [...depths(plan)].flatMap(([one, depth]) => (depth > 0 ? [one] : []));
}

function depths(plan: WorkbookPlan): ReadonlyMap<PlacedFormula, number> {
  const formulas = placedFormulas(plan);
  const known = new Map<PlacedFormula, number>();
  const depthOf = (one: PlacedFormula): number => {
    const found = known.get(one);
    if (found !== undefined) return found;
    known.set(one, 0);
    const below = formulas.filter(
      (other) => other !== one && one.reads.some((range) => meets(range, other)),
    );
    const own = /\bFEED\./.test(one.formula) ? 1 : 0;
    const depth = own + Math.max(0, ...below.map(depthOf));
    known.set(one, depth);
    return depth;
  };
  for (const one of formulas) depthOf(one);
  return known;
}

/** Formulas that read cells of a spill and neither its first cell nor a cell that waits for that, as `answers!B7: budget!A24`. */
export function unawaitedSpills(plan: WorkbookPlan): readonly string[] {
  const formulas = placedFormulas(plan);
  const awaited = new Map<PlacedFormula, ReadonlySet<PlacedFormula>>();
  const awaits = (one: PlacedFormula): ReadonlySet<PlacedFormula> => {
    const known = awaited.get(one);
    if (known) return known;
    const found = new Set<PlacedFormula>();
    awaited.set(one, found);
    for (const other of formulas) {
      if (other === one) continue;
      if (!one.reads.some((range) => meets(range, other.anchor))) continue;
      found.add(other);
      for (const more of awaits(other)) found.add(more);
    }
    return found;
  };
  const spills = formulas.filter(({ top, left, bottom, right }) => bottom > top || right > left);
  return formulas.flatMap((one) =>
    spills
      .filter(
        (spill) =>
          spill !== one &&
          one.reads.some((range) => meets(range, spill)) &&
          !awaits(one).has(spill),
      )
      .map((spill) => `${one.where}: ${spill.where}`),
  );
}
