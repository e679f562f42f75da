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
  const readBy = ({ formula, sheet, where }: PlacedFormula) => {
    const bare = formula.replace(/"[^"]*"/g, "");
    const areas = [...bare.matchAll(REFERENCE)].map(
      ([, name = sheet, address = ""]) => ({
        name,
        ...areaPlace(address.replaceAll("$", "")),
      }),
    );
    return formulas.filter(
      (other) =>
        other.where !== where &&
        areas.some(
          ({ name, top, left, bottom, right }) =>
            name === other.sheet &&
            top <= other.bottom &&
            bottom >= other.top &&
            left <= other.right &&
            right >= other.left,
        ),
    );
  };
  for (const one of formulas) depthOf(one);
  return known;
}
