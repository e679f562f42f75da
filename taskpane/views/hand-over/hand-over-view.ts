/** What leaves the workbook: copies that need no add-in, and the report of a budget. */
import { wholeCopy } from "../../../functions/working/whole-copy.js";
import { fingerprint } from "../../budgets/fingerprint.js";
import type { FoundBudget } from "../../budgets/reading/found-budget.js";
import { plainCopyPlan, plainCopySnapshot, readForCopy } from "../../workbook/budget-copying.js";
import { writeFile } from "../../hosts/files/file-run.js";
import { fileName } from "../../workbook/file-name.js";
import { type BudgetSearch, planIdOf, titleOf } from "../../workbook/found-budgets.js";
import type { CellRange, Host } from "../../hosts/host.js";
import { budgetReport } from "../../report/budget-report.js";
import { button, element } from "../parts/element.js";
import { repairSection } from "../warnings/repair-section.js";
import { latestOnly } from "../parts/latest.js";
import { words } from "../../words/words.js";

const said = words.handOver;

const FILE_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";

export interface HandOverOptions {
  readonly host: Host;
  readonly search: () => Promise<BudgetSearch>;
  readonly failed: (error: unknown) => void;
}

export interface HandOverView {
  readonly element: HTMLElement;
  refresh(): Promise<void>;
  /** Cells whose working the report shows, each once. */
  addToReport(cell: CellRange): void;
}

export function handOverView(options: HandOverOptions): HandOverView {
  const { host, search, failed } = options;
  const chosen = new Map<string, CellRange>();
  const groups = element("div", { class: "feed-groups" });
  const workings = element("p", { class: "feed-quiet" }, said.workings(0));
  const outcome = element("div", { class: "feed-outcome", role: "status" });
  const view = element(
    "div",
    {},
    element("h2", { class: "feed-heading" }, said.title),
    element("p", { class: "feed-quiet" }, said.copies),
    groups,
    workings,
    outcome,
    repairSection(host, failed),
  );
  const newest = latestOnly();
  const prints = new Map<string, HTMLElement>();
  let shown = "";

  async function refresh(): Promise<void> {
    const isNewest = newest();
    const found = await search();
    if (!isNewest()) return;
    for (const budget of found.budgets) printLine(budget);
    const stems = found.budgets.map(({ stem }) => stem).join(" ");
    // A recalculation is no reason to take the button away from under a finger.
    if (stems === shown && groups.childElementCount > 0) return;
    shown = stems;
    groups.replaceChildren(
      ...(found.budgets.length === 0
        ? [element("p", {}, said.noBudget)]
        : found.budgets.map(group)),
    );
  }

  /** Follows every edit; the report and the file are compared by it. */
  function printLine(budget: FoundBudget): HTMLElement {
    const line = prints.get(budget.stem) ?? element("p", { class: "feed-quiet" });
    prints.set(budget.stem, line);
    line.textContent = said.fingerprint(fingerprint(budget));
    return line;
  }

  function group(budget: FoundBudget): HTMLElement {
    const act = (label: string, action: () => Promise<void>) =>
      button(label, () => {
        outcome.textContent = said.working(label);
        action().catch((error: unknown) => {
          outcome.textContent = "";
          failed(error);
        });
      });
    return element(
      "section",
      { class: "feed-group" },
      element("h3", { class: "feed-group-heading" }, `${titleOf(budget)} · ${budget.stem}`),
      printLine(budget),
      element(
        "div",
        { class: "feed-actions" },
        act(said.whole, () => copyWhole(budget)),
        act(said.plainFile, () => plainFile(budget)),
        act(said.plainSheets, () => plainSheets(budget)),
        act(said.report, () => report(budget)),
      ),
    );
  }

  async function plainSheets(found: FoundBudget): Promise<void> {
    // Read anew: the search may be some changes old.
    const plan = await plainCopyPlan(host, await current(found));
    const { sheets } = await host.insert(plan);
    outcome.textContent = said.copied(plan.title, Object.values(sheets));
  }

  async function plainFile(found: FoundBudget): Promise<void> {
    const budget = await current(found);
    const { bytes } = await writeFile(await plainCopySnapshot(host, budget));
    const file = new Blob([bytes as Uint8Array<ArrayBuffer>], { type: FILE_TYPE });
    outcome.replaceChildren(
      `${said.plainFiled} `,
      element(
        "a",
        {
          href: URL.createObjectURL(file),
          download: said.plainFileName(fileName(titleOf(budget))),
        },
        said.savePlainFile,
      ),
    );
  }

  async function copyWhole(found: FoundBudget): Promise<void> {
    const budget = await current(found);
    const names = Object.entries(budget.ranges).flatMap(([name, range]) =>
      range ? [[name, range] as const] : [],
    );
    const plan = wholeCopy(await readForCopy(host, budget), {
      id: planIdOf(budget),
      stem: budget.stem,
      names: Object.fromEntries(names),
    });
    const { sheets } = await host.insert(plan);
    outcome.textContent = said.wholeCopied(plan.title, Object.values(sheets));
  }

  async function report(found: FoundBudget): Promise<void> {
    const budget = await current(found);
    const html = await budgetReport(host, budget, [...chosen.values()]);
    const address = URL.createObjectURL(new Blob([html], { type: "text/html;charset=utf-8" }));
    outcome.replaceChildren(
      `${said.reported} `,
      element(
        "a",
        {
          href: address,
          target: "_blank",
          rel: "noopener",
          download: `${fileName(titleOf(budget))} report.html`,
        },
        said.openReport,
      ),
    );
  }

  async function current({ stem }: FoundBudget): Promise<FoundBudget> {
    const found = (await search()).budgets.find((one) => one.stem === stem);
    if (!found) throw new Error(said.noBudget);
    return found;
  }

  return {
    element: view,
    refresh,
    addToReport(cell) {
      chosen.set(`${cell.sheet}!${cell.address}`, cell);
      workings.textContent = said.workings(chosen.size);
    },
  };
}
