/** The report of a budget: one page that prints to PDF, from the cover to be signed to the sources of its figures. */
import { heading, list, text } from "../../functions/documents/markup.js";
import { rangePlace } from "../../src/plans/addresses.js";
import { BOUNDS, CAUTIONS } from "../budgets/cautions.js";
import { fingerprint } from "../budgets/issues/fingerprint.js";
import { issueState } from "../budgets/issues/issues.js";
import { textOf } from "../budgets/reading/range-table.js";
import type { FoundBudget } from "../budgets/reading/found-budget.js";
import { RESTS_ON } from "../budgets/sheets/notes-sheet.js";
import { judgedWarnings } from "../budgets/warnings/acceptances.js";
import { warningsOf } from "../budgets/warnings/warnings.js";
import type { CellRange, Host } from "../hosts/host.js";
import { issueWords } from "../words/issue-words.js";
import { readForCopy } from "../workbook/budget-copying.js";
import { checks } from "./checks.js";
import { cover } from "./cover.js";
import { diagram, pictures } from "./drawings.js";
import { figuresAsUsed } from "./figures-as-used.js";
import { issueTables } from "./issues.js";
import { References } from "./references.js";
import { documentLine, type ReportSource } from "./report-source.js";
import { reportStyle } from "./report-style.js";
import { schedules } from "./schedules.js";
import { solvedTables } from "./solved-tables.js";
import { summary } from "./summary.js";
import { workings } from "./workings.js";

/** HTML as text. @param workingsOf Cells whose working is shown. */
export async function budgetReport(
  host: Host,
  budget: FoundBudget,
  workingsOf: readonly CellRange[],
): Promise<string> {
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
  const body = [
    cover(source, print, day),
    section("across", issueTables(source, print)),
    section("summary", summary(source, judged)),
    section("", diagram(budget)),
    section(
      "across",
      `${schedules(source)}\n${figuresAsUsed(source)}\n${solvedTables(source)}\n${judgement}\n${steps}`,
    ),
    section("", drawn),
    section("", `${heading(2, "Cautions")}${list(CAUTIONS)}`),
    section("", `${heading(2, "What these figures do not say")}${list(BOUNDS)}`),
    section("", references.appendix()),
  ];
  return page(source, print, body.join("\n"));
}

function section(kind: string, content: string): string {
  if (content === "") return "";
  return `<section class="${kind}">\n${content}\n</section>`;
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

function page(source: ReportSource, print: string, body: string): string {
  const { title } = source;
  const [number, issue] = [documentLine(source, "number"), documentLine(source, "issue")];
  const named = issueWords.foot(issueState(source.budget, print), issue);
  const left = [title, number, named].filter((one) => one !== "");
  return `<!doctype html>
<html lang="en"><head><meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>${text(title)}</title><style>${reportStyle(left.join(" · "), `Fingerprint ${print}`)}</style></head>
<body>${body}</body></html>`;
}
