/** A budget read through the host, whole, so that a copy can be made of it. */
import type { CopiedSheet } from "../../functions/working/copy/copied-sheet.js";
import { looksLike } from "../../functions/working/copy/copied-sheet.js";
import type { FormulaTree } from "../../functions/working/lines/call-tree.js";
import { referencesOf } from "../../functions/working/lines/call-tree.js";
import type { CopyRequest } from "../../functions/working/copy/plain-copy.js";
import type { WorkbookPlan } from "../../src/plans/sheet-plan.js";
import type { FoundBudget } from "../budgets/reading/found-budget.js";
import { formulaTrees } from "../formula-reading/cell-reading.js";
import { planIdOf, titleOf } from "./found-budgets.js";
import type { AreaContent, Host } from "../hosts/host.js";
import { plansOf } from "./known-plans.js";

export type ReadingHost = Pick<Host, "namespace" | "names" | "read" | "used">;

/** What `plainCopy` and `valuesOnlyCopy` are made from. */
export async function readForCopy(host: ReadingHost, budget: FoundBudget): Promise<CopyRequest> {
  const own = plansOf(planIdOf(budget));
  const { contents, trees } = await readBudgetSheets(host, budget);
  return {
    title: titleOf(budget),
    sheets: copiedSheets(contents, own),
    trees,
  };
}

/** The sheets that the budget's names lie on, and every sheet that formulas there refer to. */
export async function readBudgetSheets(host: ReadingHost, { areas }: FoundBudget) {
  const names = await host.names();
  const wanted = new Map<string, string>();
  const want = (sheet: string) => {
    if (!wanted.has(sheet.toLowerCase())) wanted.set(sheet.toLowerCase(), sheet);
  };
  for (const area of Object.values(areas)) if (area) want(area.sheet);
  const contents: AreaContent[] = [];
  let trees: ReadonlyMap<string, FormulaTree> = new Map();
  while (contents.length < wanted.size) {
    const next = [...wanted.values()].slice(contents.length);
    const used = await Promise.all(next.map((sheet) => host.used(sheet)));
    contents.push(...(await host.read(used)));
    trees = formulaTrees(contents, names, host.namespace);
    for (const { whole } of trees.values())
      for (const { area } of referencesOf(whole)) if (area) want(area.sheet);
  }
  return { contents, trees };
}

/** In the plan's order, so that a reader finds the inputs first. */
function copiedSheets(
  contents: readonly AreaContent[],
  plans: readonly WorkbookPlan[],
): CopiedSheet[] {
  const planned = plans.flatMap(({ sheets }) => sheets);
  const sheets = contents.map(({ area, values, formulas, formats }) => {
    const own = planned.find((sheet) => looksLike(sheet, values));
    return {
      name: area.sheet,
      values,
      formulas,
      formats,
      ...(own && { plan: own }),
    };
  });
  const placeOf = ({ plan: own }: CopiedSheet) => {
    const places = plans.map((plan) => (own ? plan.sheets.indexOf(own) : -1));
    const place = Math.max(-1, ...places);
    return place < 0 ? sheets.length : place;
  };
  return sheets.sort((one, other) => placeOf(one) - placeOf(other));
}
