/** The report of a budget, from the cover to be signed to the sources of its figures. */
import { rangePlace } from "../../../src/plans/addresses.js";
import { BOUNDS, CAUTIONS } from "../../budgets/cautions.js";
import { fingerprint } from "../../budgets/issues/fingerprint.js";
import { issueState } from "../../budgets/issues/issues.js";
import { textOf } from "../../budgets/reading/range-table.js";
import type { FoundBudget } from "../../budgets/reading/found-budget.js";
import { RESTS_ON } from "../../budgets/sheets/notes-sheet.js";
import { judgedWarnings } from "../../budgets/warnings/acceptances.js";
import { warningsOf } from "../../budgets/warnings/warnings.js";
import type { CellRange, Host } from "../../hosts/host.js";
import { issueWords } from "../../words/issue-words.js";
import { readForCopy } from "../../workbook/budget-copying.js";
import { heading, list, type Report, type ReportSection } from "./blocks.js";
import { checks } from "./checks.js";
import { cover } from "./cover.js";
import { diagram, pictures } from "./drawings.js";
import { figuresAsUsed } from "./figures-as-used.js";
import { issueTables } from "./issues.js";
import { References } from "./references.js";
import { documentLine, type ReportSource } from "./report-source.js";
import { schedules } from "./schedules.js";
import { solvedTables, whatMatters } from "./solved-tables.js";
import { summary } from "./summary.js";
import { workings } from "./workings.js";

/** @param workingsOf Cells whose working is shown. */
export async function budgetReport(
  host: Host,
  budget: FoundBudget,
  workingsOf: readonly CellRange[],
): Promise<Report> {
  const { title, sheets } = await readForCopy(host, budget);
  const source: ReportSource = { budget, title, sheets };
  const print = fingerprint(budget);
  const judged = judgedWarnings(warningsOf(budget), budget);
  const references = new References();
  const day = new Date().toLocaleDateString(undefined, { dateStyle: "long" });
  const judgement = checks(source, judged, references);
  const steps = await workings(host, workingsOf, references);
  const drawn = await pictures(host, budget);
  for (const line of restsOn(source)) references.mark(line);
  const sections: readonly ReportSection[] = [
    { kind: "cover", blocks: cover(source, print, day) },
    { kind: "across", blocks: issueTables(source, print) },
    { kind: "upright", blocks: summary(source, judged) },
    { kind: "upright", blocks: diagram(budget) },
    {
      kind: "across",
      blocks: [
        ...schedules(source),
        ...figuresAsUsed(source),
        ...solvedTables(source),
        ...whatMatters(source),
        ...judgement,
        ...steps,
      ],
    },
    { kind: "upright", blocks: drawn },
    { kind: "upright", blocks: [heading("Cautions"), ...list(CAUTIONS)] },
    { kind: "upright", blocks: [heading("What these figures do not say"), ...list(BOUNDS)] },
    { kind: "upright", blocks: references.appendix() },
  ];
  return {
    title,
    foot: foot(source, print),
    fingerprint: print,
    sections: sections.filter(({ blocks }) => blocks.length > 0),
  };
}

/** Sources of the functions that calculate the sheets, as Notes lists them. */
function restsOn({ budget, sheets }: ReportSource): string[] {
  const about = budget.ranges["About"];
  const notes = sheets
    .find(({ name }) => name === about?.sheet)
    ?.values.map(([first]) => textOf(first));
  if (!notes || !about) return [];
  const from = notes.indexOf(RESTS_ON, rangePlace(about.address).bottom) + 1;
  const end = notes.indexOf("", from);
  return from === 0 ? [] : notes.slice(from, end < 0 ? undefined : end);
}

function foot(source: ReportSource, print: string): string {
  const [number, issue] = [documentLine(source, "number"), documentLine(source, "issue")];
  const named = issueWords.foot(issueState(source.budget, print), issue);
  return [source.title, number, named].filter((one) => one !== "").join(" · ");
}
