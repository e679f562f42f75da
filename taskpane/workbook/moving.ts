/** A budget of 0.2 moved into schedules on new sheets; its own sheets stay as they are. */
import { rangeAddress, rangePlace } from "../../src/plans/addresses.js";
import { readBudgetSheets } from "./budget-copying.js";
import { budgetPlan } from "../budgets/budget-plan.js";
import { movedAcceptances } from "../budgets/moving/moved-acceptances.js";
import { movedBudget } from "../budgets/moving/moved-budget.js";
import type { FoundBudget } from "../budgets/reading/found-budget.js";
import { freeRow } from "../budgets/warnings/acceptances.js";
import { findBudgets } from "./found-budgets.js";
import { type Host, HostError } from "../hosts/host.js";

export interface Moved {
  readonly title: string;
  /** Its first sheet. */
  readonly sheet: string;
  /** What was not carried, a line each; its Notes say so too, but for checks that find something else now. */
  readonly lost: readonly string[];
}

/** @throws {HostError} where it cannot be read or written. */
export async function moveBudget(host: Host, old: FoundBudget): Promise<Moved> {
  const { contents } = await readBudgetSheets(host, old);
  const sheets = contents.map(({ range, ...cells }) => ({ name: range.sheet, ...cells }));
  const { sample, lost } = movedBudget(old, sheets);
  const inserted = await host.insert(budgetPlan(sample));
  const moved = (await findBudgets(host)).budgets.find(({ stem }) => stem === inserted.stem);
  if (!moved) throw new HostError(`${inserted.stem} was written and is not found again`);
  const accepted = movedAcceptances(old, moved);
  await writeAcceptances(host, moved, accepted.carried);
  return {
    title: sample.document.title,
    sheet: inserted.sheets["inputs"] ?? "",
    lost: [...lost, ...accepted.lost],
  };
}

async function writeAcceptances(
  host: Host,
  { ranges }: FoundBudget,
  carried: ReturnType<typeof movedAcceptances>["carried"],
): Promise<void> {
  const { Accepted: range } = ranges;
  const first = range && freeRow(range);
  if (!range || first === undefined || carried.length === 0) return;
  const { left, top, right } = rangePlace(range.address);
  const place = { left, top: top + first, right, bottom: top + first + carried.length - 1 };
  await host.write(
    { sheet: range.sheet, address: rangeAddress(place) },
    carried.map(({ id, accepted, reason, finding }) => [id, accepted, reason, finding]),
    { overwrite: true },
  );
}
