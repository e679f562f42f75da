/** The pane over Excel, loaded once the page is known to be in it. */
import { budgets } from "../../budgets/budgets.js";
import { excelHost, type ExcelSettings } from "../../hosts/excel/excel-host.js";
import { mountPane, type PaneControl } from "../../pane.js";
import { stepsMemory } from "../../steps-memory.js";

export function startPane(root: HTMLElement, settings: ExcelSettings): PaneControl {
  return mountPane(root, { host: excelHost(settings), budgets, memory: stepsMemory });
}
