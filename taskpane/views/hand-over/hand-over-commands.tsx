/** What the view does with a budget, each command on the workbook as it is now. */
import type { ComponentChildren } from "preact";
import type { HeldChange } from "../../budgets/issues/issued-values.js";
import type { FoundBudget } from "../../budgets/reading/found-budget.js";
import { writeFile } from "../../hosts/files/file-run.js";
import type { CellRange, Host } from "../../hosts/host.js";
import { budgetReport } from "../../report/content/report.js";
import { reportPage } from "../../report/page/report-page.js";
import { reportPlan } from "../../report/sheet/report-sheet.js";
import { plainCopyPlan, plainCopySnapshot } from "../../workbook/budget-copying.js";
import { fileName } from "../../workbook/file-name.js";
import { titleOf } from "../../workbook/found-budgets.js";
import {
  changesSinceIssue,
  issueDocument,
  type IssueEntry,
} from "../../workbook/issues/issuing.js";
import { type Version, versionsOf } from "../../workbook/versions/compared-versions.js";
import { comparisonPlan } from "../../workbook/versions/comparison-plan.js";
import { versionPlan } from "../../workbook/versions/kept-version.js";
import type { WorkbookStore } from "../../workbook/workbook-store.js";
import { issueWords } from "../../words/issue-words.js";
import { words } from "../../words/words.js";
import { GoTo } from "../parts/button.js";

const said = words.handOver;

const XLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";

export interface HandOverCommands {
  /** As a budget of its own, under a title. @throws {Error} where it has none, or another one's, or cannot be written. */
  keep(budget: FoundBudget, title: string): Promise<void>;
  /** Each of the others held against the first. */
  compare(first: Version, others: readonly Version[]): void;
  /** As a file of its own. */
  plainFile(budget: FoundBudget): void;
  plainSheets(budget: FoundBudget): void;
  /** As a page for a browser. */
  report(budget: FoundBudget): void;
  reportSheet(budget: FoundBudget): void;
  /** Undefined where nothing was issued yet. */
  changes(budget: FoundBudget): Promise<readonly HeldChange[] | undefined>;
  /** @throws {HostError} where it cannot be written. */
  issue(budget: FoundBudget, entry: IssueEntry): Promise<void>;
}

export interface HandOverCommandsOptions {
  readonly host: Host;
  readonly store: WorkbookStore;
  readonly workings: readonly CellRange[];
  readonly tell: (outcome: ComponentChildren) => void;
  readonly failed: (error: unknown) => void;
}

export function handOverCommands(options: HandOverCommandsOptions): HandOverCommands {
  const { host, store, workings, tell, failed } = options;

  /** The budget read anew: the last reading may be some changes old. */
  async function act(
    label: string,
    { stem }: FoundBudget,
    action: (budget: FoundBudget, budgets: readonly FoundBudget[]) => Promise<ComponentChildren>,
  ): Promise<void> {
    tell(said.working(label));
    try {
      const { budgets } = await store.read();
      const budget = budgets.find((one) => one.stem === stem);
      if (!budget) throw new Error(said.noBudget);
      tell(await action(budget, budgets));
    } catch (error) {
      tell("");
      throw error;
    }
  }

  return {
    keep: (found, title) =>
      act(said.versions.keep, found, async (budget, budgets) => {
        const plan = await versionPlan(host, budget, title, budgets);
        const { sheets } = await host.insert(plan);
        return said.versions.kept(plan.title, Object.values(sheets));
      }),
    compare(first, others) {
      act(said.versions.compare, first.budget, async (_, budgets) => {
        const versions = versionsOf(budgets);
        const now = ({ budget }: Version) =>
          versions.filter((one) => one.budget.stem === budget.stem);
        const [a] = now(first);
        if (!a) throw new Error(said.noBudget);
        const { sheets } = await host.insert(comparisonPlan(a, others.flatMap(now)));
        const [sheet = ""] = Object.values(sheets);
        return (
          <>
            {`${said.versions.compared(sheet)} `}
            <GoTo to={{ sheet, address: "A1" }}>{said.goTo(sheet)}</GoTo>
          </>
        );
      }).catch(failed);
    },
    plainFile(found) {
      act(said.plainFile, found, async (budget) => {
        const { bytes } = await writeFile(await plainCopySnapshot(host, budget));
        const file = new Blob([bytes as Uint8Array<ArrayBuffer>], { type: XLSX });
        const name = said.plainFileName(fileName(titleOf(budget)));
        return (
          <>
            {`${said.plainFiled} `}
            <a href={URL.createObjectURL(file)} download={name}>
              {said.savePlainFile}
            </a>
          </>
        );
      }).catch(failed);
    },
    plainSheets(found) {
      act(said.plainSheets, found, async (budget) => {
        const plan = await plainCopyPlan(host, budget);
        const { sheets } = await host.insert(plan);
        return said.copied(plan.title, Object.values(sheets));
      }).catch(failed);
    },
    report(found) {
      act(said.report, found, async (budget) => {
        const html = reportPage(await budgetReport(host, budget, workings));
        const file = new Blob([html], { type: "text/html;charset=utf-8" });
        const href = URL.createObjectURL(file);
        return (
          <>
            {`${said.reported} `}
            <a href={href} target="_blank" rel="noopener">
              {said.openReport}
            </a>{" "}
            <a href={href} download={`${fileName(titleOf(budget))} report.html`}>
              {said.saveReport}
            </a>
          </>
        );
      }).catch(failed);
    },
    reportSheet(found) {
      act(said.reportSheet, found, async (budget) => {
        const report = await budgetReport(host, budget, workings);
        const { sheets } = await host.insert(reportPlan(report));
        return said.reportPlaced(sheets["report"] ?? "");
      }).catch(failed);
    },
    changes: (budget) => changesSinceIssue(host, budget),
    issue: (found, entry) =>
      act(issueWords.open, found, async (budget) => {
        await issueDocument(host, budget, entry);
        await store.read();
        return issueWords.done(entry.issue, budget.ranges["Issues"]?.sheet ?? "");
      }),
  };
}
