/** What runs in the page of the measurement: the workbench with its pane, and a budget of any size in it. */
import { budgetPlan } from "../../taskpane/budgets/budget-plan.js";
import { budgets } from "../../taskpane/budgets/budgets.js";
import { samples } from "../../taskpane/budgets/samples/samples.js";
import type { VendorAddresses } from "../../taskpane/hosts/workbench/snapshots/opening.js";
import { type Session, workbenchSession } from "../../taskpane/pages/workbench/session.js";
import { manyItems } from "./many-items.js";

/** Medians, in milliseconds. */
interface Measured {
  /** From the edit of a formula's only cell until its result is there: what no budget can be quicker than. */
  readonly floor: number;
  /** From the edit of a load until everything is calculated and drawn. */
  readonly shown: number;
  /** In cell functions, of that. */
  readonly functions: number;
  /** From the results until they are drawn, of that. */
  readonly drawing: number;
}

declare global {
  var bench: {
    /** A sample by its id, or a feed of so many items. Resolves to the milliseconds that it took. */
    open(feed: string | number, addresses: VendorAddresses): Promise<number>;
    measure(edits: number): Promise<Measured>;
  };
}

let session: Session;
const grid = document.getElementById("grid")!;
const part = () => document.body.appendChild(document.createElement("div"));
const painted = () => new Promise<void>((done) => requestAnimationFrame(() => setTimeout(done, 0)));
/** Nominal load of the first load. */
const NOMINAL = "H5";
const QUIET_MS = 2_000;
const quiet = () => new Promise((done) => setTimeout(done, QUIET_MS));

globalThis.bench = {
  async open(feed, addresses) {
    const sample =
      typeof feed === "number" ? manyItems(feed) : samples.find(({ id }) => id === feed)!;
    const place = { grid, pane: part(), results: part(), state: part() };
    session = workbenchSession(place, budgets, addresses, () => {});
    const start = performance.now();
    await session.open({ kind: "plan", plan: budgetPlan(sample) });
    await painted();
    return performance.now() - start;
  },
  async measure(edits) {
    const { workbook, calculation, injector, vendor } = session.workbook!.spreadsheet;
    const [aside, loads] = ["Inputs", "Loads"].map((name) => workbook.getSheetByName(name)!);
    let inFunctions = 0;
    for (const [name, executor] of injector.get(vendor.IFunctionService).getExecutors()) {
      if (!String(name).startsWith("FEED.")) continue;
      const calculate = executor.calculate.bind(executor);
      executor.calculate = (...values) => {
        const start = performance.now();
        try {
          return calculate(...values);
        } finally {
          inFunctions += performance.now() - start;
        }
      };
    }
    /** The sheet's drawing is held until it is calculated, and its next frame shows it. */
    const edit = async (sheet: typeof loads, address: string, value: string | number) => {
      await quiet();
      inFunctions = 0;
      const start = performance.now();
      const done = calculation.settled();
      sheet!.getRange(address).setValue(value as never);
      await done;
      const calculated = performance.now();
      await drawn();
      const end = performance.now();
      return { shown: end - start, functions: inFunctions, drawing: end - calculated };
    };
    const drawn = async () => {
      const render = injector.get(vendor.IRenderManagerService).getRenderById(workbook.getId())!;
      const { engine } = render;
      await new Promise<void>((done) => {
        const watch = engine.endFrame$.subscribe(() => {
          watch.unsubscribe();
          done();
        });
      });
      await painted();
    };
    await edit(aside, "Y1", 1);
    await edit(aside, "Z1", { f: "=Y1*2" } as never);
    const floors: number[] = [];
    const found: Omit<Measured, "floor">[] = [];
    for (let count = 0; count < edits; count++) {
      floors.push((await edit(aside, "Y1", count)).shown);
      found.push(await edit(loads, NOMINAL, 40 + count));
    }
    return {
      floor: median(floors),
      shown: median(found.map(({ shown }) => shown)),
      functions: median(found.map(({ functions }) => functions)),
      drawing: median(found.map(({ drawing }) => drawing)),
    };
  },
};

function median(values: readonly number[]): number {
  return [...values].sort((one, other) => one - other)[values.length >> 1]!;
}
