/** Whether Excel starts the add-in with the workbook, which the workbook keeps: without it the functions come late. */
import type { WorkbookPlan } from "../../../src/plans/sheet-plan.js";
import { type CellWrite, type Host, HostError } from "../host.js";
import { messageOf, type Warn } from "./events.js";

/** Kept in the workbook: Excel's own answer is the same where the user turned it off and where nobody asked for it. */
const TURNED_OFF = "loadingTurnedOff";

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
        await keepChoice(on);
      } catch (error) {
        throw new HostError(`Excel does not keep that in this workbook: ${messageOf(error)}`, {
          cause: error,
        });
      }
    },
  };
}

function keepChoice(on: boolean): Promise<void> {
  const { settings } = Office.context.document;
  if (on) settings.remove(TURNED_OFF);
  else settings.set(TURNED_OFF, true);
  return new Promise((resolve, reject) => {
    settings.saveAsync(({ status, error }) => {
      if (status === Office.AsyncResultStatus.Succeeded) resolve();
      else reject(new Error(error.message));
    });
  });
}

/** After functions were written into the workbook, so that they are there when it is opened again: unless the user said no. */
export async function loadWithWorkbook(warn: Warn): Promise<void> {
  if (!excelLoading() || Office.context.document.settings.get(TURNED_OFF) === true) return;
  try {
    await Office.addin.setStartupBehavior(Office.StartupBehavior.load);
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
