/** Whether Excel starts the add-in with the workbook, which the workbook keeps: without it the functions come late. */
import type { WorkbookPlan } from "../../../src/plans/sheet-plan.js";
import { type CellWrite, type Host, HostError } from "../host.js";
import { messageOf, type Warn } from "./events.js";

export function excelLoading(): Host["loading"] {
  if (!Office.context.requirements.isSetSupported("SharedRuntime", "1.1")) return undefined;
  return {
    async read() {
      return (await Office.addin.getStartupBehavior()) === Office.StartupBehavior.load;
    },
    async set(on) {
      const behaviour = on ? Office.StartupBehavior.load : Office.StartupBehavior.none;
      try {
        await Office.addin.setStartupBehavior(behaviour);
      } catch (error) {
        throw new HostError(`Excel does not keep that in this workbook: ${messageOf(error)}`, {
          cause: error,
        });
      }
    },
  };
}

/** After functions were written into the workbook, so that they are there when it is opened again. */
export async function loadWithWorkbook(warn: Warn): Promise<void> {
  try {
    await excelLoading()?.set(true);
  } catch (error) {
    // What was written is in the sheets and works; only the next opening is the worse for it.
    warn(`Excel will not load Downfeed with this workbook by itself: ${messageOf(error)}`);
  }
}

/** Pictures, values and copies in native formulas need no add-in. */
export function callsFunctions({ sheets }: WorkbookPlan): boolean {
  return sheets.some(({ cells }) =>
    cells.some(({ formula = "" }) => outsideTexts(formula).includes("{FEED}.")),
  );
}

export function isCall(content: CellWrite, namespace: string): boolean {
  return (
    typeof content === "string" &&
    content.startsWith("=") &&
    outsideTexts(content).toUpperCase().includes(`${namespace}.`)
  );
}

function outsideTexts(formula: string): string {
  return formula.replace(/"(?:[^"]|"")*"/g, "");
}
