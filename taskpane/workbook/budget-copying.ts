/** A budget read through the host, whole, so that a copy can be made of it. */
import type { CopiedSheet } from "../../functions/working/copy/copied-sheet.js";
import { movedLook } from "../../functions/working/moved-look.js";
import type { FormulaTree } from "../../functions/working/lines/call-tree.js";
import { referencesOf } from "../../functions/working/lines/call-tree.js";
import {
  type CopyRequest,
  freeCopyNames,
  plainCopy,
} from "../../functions/working/copy/plain-copy.js";
import type { WorkbookPlan } from "../../src/plans/sheet-plan.js";
import type { FoundBudget } from "../budgets/reading/found-budget.js";
import { formulaTrees } from "../formula-reading/cell-reading.js";
import { planIdOf, titleOf } from "./found-budgets.js";
import { planSnapshot } from "../hosts/files/plan-snapshot.js";
import type { WorkbookSnapshot } from "../hosts/files/workbook-snapshot.js";
import type { RangeContent, Host } from "../hosts/host.js";
import { plansOf } from "./known-plans.js";

export type ReadingHost = Pick<Host, "namespace" | "names" | "read" | "used">;

/** A copy that needs no add-in, on sheets beside the budget. */
export async function plainCopyPlan(
  host: ReadingHost & Pick<Host, "sheets">,
  budget: FoundBudget,
): Promise<WorkbookPlan> {
  const request = await readForCopy(host, budget);
  return plainCopy(request, freeCopyNames(request, await host.sheets())).plan;
}

/** The same as a workbook of its own, in which sheets are called as the budget calls them. */
export async function plainCopySnapshot(
  host: ReadingHost,
  budget: FoundBudget,
): Promise<WorkbookSnapshot> {
  const { plan, results } = plainCopy(await readForCopy(host, budget), "as they are");
  return planSnapshot(plan, host.namespace, results);
}

/** What `plainCopy` is made from. */
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
export async function readBudgetSheets(host: ReadingHost, { ranges }: FoundBudget) {
  const names = await host.names();
  const wanted = new Map<string, string>();
  const want = (sheet: string) => {
    if (!wanted.has(sheet.toLowerCase())) wanted.set(sheet.toLowerCase(), sheet);
  };
  for (const range of Object.values(ranges)) if (range) want(range.sheet);
  const contents: RangeContent[] = [];
  let trees: ReadonlyMap<string, FormulaTree> = new Map();
  while (contents.length < wanted.size) {
    const next = [...wanted.values()].slice(contents.length);
    const used = await Promise.all(next.map((sheet) => host.used(sheet)));
    contents.push(...(await host.read(used)));
    trees = formulaTrees(contents, names, host.namespace);
    for (const { whole } of trees.values())
      for (const { range } of referencesOf(whole)) if (range) want(range.sheet);
  }
  return { contents, trees };
}

/** In the plan's order, so that a reader finds the inputs first. */
function copiedSheets(
  contents: readonly RangeContent[],
  plans: readonly WorkbookPlan[],
): CopiedSheet[] {
  const planned = plans.flatMap(({ sheets }) => sheets);
  const sheets = contents.map(({ range, values, formulas, formats }) => {
    const looks = planned.flatMap((sheet) => movedLook(sheet, values) ?? []);
    // One that nothing was inserted into comes before one that only some rows are like.
    const own = looks.find((look) => planned.includes(look)) ?? looks[0];
    return {
      name: range.sheet,
      values,
      formulas,
      formats,
      ...(own && { plan: own }),
    };
  });
  const placeOf = ({ plan: own }: CopiedSheet) => {
    const places = plans.map((plan) => plan.sheets.findIndex(({ key }) => key === own?.key));
    const place = Math.max(-1, ...places);
    return place < 0 ? sheets.length : place;
  };
  return sheets.sort((one, other) => placeOf(one) - placeOf(other));
}
