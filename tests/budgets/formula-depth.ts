/** How many cell functions stand behind each other in a plan: the longest way from a cell function to one that it waits for. */
import { areaPlace } from "../../src/plans/addresses.js";
import { fillPlaceholders, plainNames } from "../../src/plans/placeholders.js";
import type { WorkbookPlan } from "../../src/plans/sheet-plan.js";

export interface PlacedFormula {
  /** `budget!B7` */
  readonly where: string;
  readonly at: string;
  readonly formula: string;
  readonly sheet: string;
  /** What it fills: a spill is all of it. */
  readonly top: number;
  readonly left: number;
  readonly bottom: number;
  readonly right: number;
}

export function placedFormulas(plan: WorkbookPlan): readonly PlacedFormula[] {
  const used = plainNames(plan, "FEED");
  return plan.sheets.flatMap(({ key, name, cells }) =>
    cells.flatMap(({ at, formula, spill: [rows, columns] = [1, 1] }) => {
      if (formula === undefined) return [];
      const { top, left } = areaPlace(at);
      return [
        {
          where: `${key}!${at}`,
          at,
          formula: `=${fillPlaceholders(formula, used)}`,
          sheet: name,
          ...{ top, left, bottom: top + rows - 1, right: left + columns - 1 },
        },
      ];
    }),
  );
}

const REFERENCE =
  /(?:'([^']+)'!)?(\$?[A-Z]{1,3}\$?\d+(?::\$?[A-Z]{1,3}\$?\d+)?)/g;

export function depthOfCalls(plan: WorkbookPlan): number {
  return Math.max(0, ...depths(plan).values());
}

/** Formulas that are, or wait for, a cell function. */
export function formulasWaiting(plan: WorkbookPlan): readonly PlacedFormula[] {
  return [...depths(plan)].flatMap(([one, depth]) => (depth > 0 ? [one] : []));
}

/** Formulas that read cells of a spill and neither its first cell nor a cell that waits for that, as `answers!B7: A24`. */
export function unawaitedSpills(plan: WorkbookPlan): readonly string[] {
  const formulas = placedFormulas(plan);
  const spills = formulas.filter(
    ({ top, left, bottom, right }) => bottom > top || right > left,
  );
  const anchorOf = (spill: PlacedFormula): Area => ({
    ...spill,
    name: spill.sheet,
    bottom: spill.top,
    right: spill.left,
  });
  const awaited = new Map<PlacedFormula, ReadonlySet<PlacedFormula>>();
  const awaits = (one: PlacedFormula): ReadonlySet<PlacedFormula> => {
    const known = awaited.get(one);
    if (known) return known;
    const found = new Set<PlacedFormula>();
    awaited.set(one, found);
    const areas = areasOf(one);
    for (const other of formulas) {
      if (other === one) continue;
      if (!areas.some((area) => meets(area, anchorOf(other)))) continue;
      found.add(other);
      for (const more of awaits(other)) found.add(more);
    }
    return found;
  };
  return formulas.flatMap((one) => {
    const areas = areasOf(one);
    return spills
      .filter(
        (spill) =>
          spill !== one &&
          areas.some((area) => meets(area, { ...spill, name: spill.sheet })) &&
          !awaits(one).has(spill),
      )
      .map((spill) => `${one.where}: ${spill.where}`);
  });
}

interface Area {
  readonly name: string;
  readonly top: number;
  readonly left: number;
  readonly bottom: number;
  readonly right: number;
}

function areasOf({ formula, sheet }: PlacedFormula): Area[] {
  const bare = formula.replace(/"[^"]*"/g, "");
  return [...bare.matchAll(REFERENCE)].map(
    ([, name = sheet, address = ""]) => ({
      name,
      ...areaPlace(address.replaceAll("$", "")),
    }),
  );
}

function meets(a: Area, b: Area): boolean {
  return (
    a.name === b.name &&
    a.top <= b.bottom &&
    a.bottom >= b.top &&
    a.left <= b.right &&
    a.right >= b.left
  );
}

function depths(plan: WorkbookPlan): ReadonlyMap<PlacedFormula, number> {
  const formulas = placedFormulas(plan);
  const known = new Map<PlacedFormula, number>();
  const depthOf = (one: PlacedFormula): number => {
    const found = known.get(one);
    if (found !== undefined) return found;
    known.set(one, 0);
    const below = readBy(one).map(depthOf);
    const own = /\bFEED\./.test(one.formula) ? 1 : 0;
    const depth = own + Math.max(0, ...below);
    known.set(one, depth);
    return depth;
  };
  const readBy = (one: PlacedFormula) => {
    const areas = areasOf(one);
    return formulas.filter(
      (other) =>
        other !== one &&
        areas.some((area) => meets(area, { ...other, name: other.sheet })),
    );
  };
  for (const one of formulas) depthOf(one);
  return known;
}
