/** What does not hold, open before accepted, and then every check as its sheet shows it. */
import { heading, paragraph } from "../../functions/documents/markup.js";
import { type Verdict, VERDICTS } from "../../src/judgement/check-row.js";
import type { ReadRange } from "../budgets/reading/found-budget.js";
import { type Accepted, findingLine, type JudgedWarning } from "../budgets/warnings/acceptances.js";
import { words as said } from "../words/words.js";
import type { References } from "./references.js";
import { type ReportSource, shownRange } from "./report-source.js";
import {
  LANDSCAPE,
  type ReportCell,
  reportTable,
  withoutEmptyColumns,
  words,
} from "./report-table.js";

const { severity: named, symbol: marked, because, lapsed } = said.warnings;

export function checks(
  source: ReportSource,
  judged: readonly JudgedWarning[],
  references: References,
): string {
  const lines = judged.flatMap(findingLines);
  const [open, accepted] = [false, true].map((is) => lines.filter(({ holds }) => holds === is));
  const range = source.budget.ranges["Checks"];
  return [
    heading(2, "Checks that do not hold"),
    warningTable("Open: fails, is not determined, or is worth a look", open ?? []),
    warningTable("Accepted with a reason", accepted ?? []),
    ...(range ? [heading(2, "Every check"), everyCheck(source, range, references)] : []),
  ].join("\n");
}

interface FindingLine {
  readonly holds: boolean;
  readonly cells: readonly ReportCell[];
}

function findingLines({ warning, findings, ...whole }: JudgedWarning): FindingLine[] {
  return findings.map(({ finding, ...own }) => {
    const { acceptance, holds }: Accepted = whole.acceptance ? whole : own;
    const line = findingLine({ ...finding, item: "" });
    const answer =
      acceptance === undefined
        ? ""
        : (holds ? because : lapsed)(acceptance.reason, acceptance.accepted);
    return {
      holds,
      cells: [
        `${marked[warning.severity]} ${named[warning.severity]}`,
        warning.check,
        finding.item,
        // Where nothing was found, what to enter is all there is to say.
        line === finding.remedy ? "" : line,
        finding.remedy,
        answer,
      ].map(words),
    };
  });
}

function warningTable(caption: string, lines: readonly FindingLine[]): string {
  if (lines.length === 0) return paragraph(`${caption}: none.`);
  return reportTable(
    withoutEmptyColumns({
      caption,
      head: ["", "Check", "Item", "Finding", "What to enter or try", "Reason"],
      rows: lines.map(({ cells }) => cells),
      room: LANDSCAPE,
    }),
  );
}

/** What to change stands with what does not hold; every other row has nothing there. */
const SHOWN = [
  ...["Item", "Check", "Verdict", "Found", "Asked", "Limit", "Unit", "Margin"],
  ...["Worst in", "Citation"],
];

/** By item as the sheet has them; what fails is first. */
function everyCheck(source: ReportSource, range: ReadRange, references: References): string {
  const [head = [], ...rows] = shownRange(source, range);
  const labels = head.map(({ text }) => text);
  const [citation, verdict] = [labels.indexOf("Citation"), labels.indexOf("Verdict")];
  const kept = SHOWN.map((label) => labels.indexOf(label)).filter((column) => column >= 0);
  const rank = (row: readonly ReportCell[]) => ORDER.indexOf(row[verdict]?.text ?? "");
  const asked = rows.filter((row) => row[verdict]?.text !== NOT_ASKED);
  const table = reportTable({
    caption: `Sheet ${range.sheet}, what fails first`,
    head: kept.map((column) => (column === citation ? "Source" : labels[column]!)),
    rows: asked
      .sort((one, other) => rank(one) - rank(other))
      .map((row) =>
        kept.map((column) => {
          const cell = row[column] ?? words("");
          return column === citation ? words(references.mark(cell.text)) : cell;
        }),
      ),
    room: LANDSCAPE,
    keys: 2,
  });
  const others = rows.filter((row) => row[verdict]?.text === NOT_ASKED);
  return [table, notAsked(others, labels)].join("\n");
}

const NOT_ASKED: Verdict = "not asked";

/** Nothing was found of them: which items each would be about is all there is to say. */
function notAsked(rows: readonly (readonly ReportCell[])[], labels: readonly string[]): string {
  const [item, check] = ["Item", "Check"].map((label) => labels.indexOf(label));
  const items = new Map<string, string[]>();
  for (const row of rows) {
    const name = row[check!]?.text ?? "";
    items.set(name, [...(items.get(name) ?? []), row[item!]?.text ?? ""]);
  }
  if (items.size === 0) return "";
  return reportTable({
    caption: "Not asked",
    head: ["Check", "Items"],
    rows: [...items].map(([name, about]) => [words(name), words(about.join("; "))]),
    room: LANDSCAPE,
  });
}

const ORDER: readonly string[] = [
  "fails",
  "not determined",
  ...VERDICTS.filter((one) => one !== "fails" && one !== "not determined"),
];
