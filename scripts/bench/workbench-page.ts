/** What runs in the page of the measurement: the workbench with its pane, and a plan of any size in it. */
import { budgets } from "../../taskpane/budgets/budgets.js";
import { budgetPlan } from "../../taskpane/budgets/budget-plan.js";
import { samples } from "../../taskpane/budgets/samples/samples.js";
import { workbenchSession, type Session } from "../../taskpane/pages/workbench/session.js";
import type { VendorAddresses } from "../../taskpane/hosts/workbench/snapshots/opening.js";
import { manyItems } from "./many-items.js";

declare global {
  var bench: {
    open(items: number | string, addresses: VendorAddresses): Promise<number>;
    edit(sheet: string, address: string, value: string | number): Promise<number>;
    session: Session;
  };
}

const part = () => document.body.appendChild(document.createElement("div"));
const grid = document.getElementById("grid")!;
const painted = () => new Promise<void>((done) => requestAnimationFrame(() => setTimeout(done, 0)));

globalThis.bench = {
  session: undefined as never,
  async open(items, addresses) {
    const plan =
      typeof items === "number"
        ? budgetPlan(manyItems(items))
        : budgetPlan(samples.find(({ id }) => id === items)!);
    if ((globalThis as any).noRules)
      for (const sheet of plan.sheets) (sheet as any).conditionalFormats = [];
    const session = workbenchSession(
      { grid, pane: part(), results: part(), state: part() },
      budgets,
      addresses,
      () => {},
    );
    const start = performance.now();
    await session.open({ kind: "plan", plan });
    bench.session = session;
    await painted();
    return performance.now() - start;
  },
  async edit(sheet, address, value) {
    const { workbook, calculation } = bench.session.workbook!.spreadsheet;
    const start = performance.now();
    const done = calculation.settled();
    workbook.getSheetByName(sheet)!.getRange(address).setValue(value);
    await done;
    await painted();
    return performance.now() - start;
  },
};
