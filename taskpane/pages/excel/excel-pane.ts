/** The pane over Excel, loaded once the page is known to be in it and is seen. */
import { budgets } from "../../budgets/budgets.js";
import { excelHost, type ExcelSettings } from "../../hosts/excel/excel-host.js";
import { mountPane, type PaneControl, type Visibility } from "../../pane.js";
import { stepsMemory } from "../../steps-memory.js";

export function startPane(
  root: HTMLElement,
  settings: ExcelSettings,
  visibility: Visibility,
): PaneControl {
  return mountPane(root, { host: excelHost(settings), budgets, memory: stepsMemory, visibility });
}
