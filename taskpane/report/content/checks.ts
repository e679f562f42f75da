/** What does not hold, open before accepted, and then every check as its sheet shows it. */
import { NONE, type Verdict, VERDICTS, WHOLE_FEED } from "../../../src/judgement/check-row.js";
import type { ReadRange } from "../../budgets/reading/found-budget.js";
import {
  type Accepted,
  findingLine,
  type JudgedFinding,
  type JudgedWarning,
} from "../../budgets/warnings/acceptances.js";
import { words as said } from "../../words/words.js";
import {
  heading,
  paragraph,
  type ReportBlock,
  type ReportCell,
  table,
  withoutEmptyColumns,
  words,
} from "./blocks.js";
import type { References } from "./references.js";
import { type ReportSource, shownRange } from "./report-source.js";

const { severity: named, symbol: marked, because, lapsed } = said.warnings;

export function checks(
  source: ReportSource,
  judged: readonly JudgedWarning[],
  references: References,
): readonly ReportBlock[] {
  const lines = judged.flatMap(findingLines);
  const waiting = judged.map(waitingLine).filter((line) => line !== undefined);
  const [open, accepted] = [false, true].map((is) => lines.filter(({ holds }) => holds === is));
  const range = source.budget.ranges["Checks"];
  return [
    heading("Checks that do not hold"),
    warningTable("Open: fails, is not determined, or is worth a look", open ?? []),
    ...(waiting.length === 0 ? [] : [waitingTable(waiting)]),
    warningTable("Accepted with a reason", accepted ?? []),
    ...(range ? [heading("Every check"), ...everyCheck(source, range, references)] : []),
  ];
}

interface FindingLine {
  readonly holds: boolean;
  readonly cells: readonly ReportCell[];
}

/** Nothing was found, and nobody has accepted that: what to enter is all there is to say. */
function isWaiting({ acceptance }: Accepted, { acceptance: own, finding }: JudgedFinding): boolean {
  const { found, limit } = finding;
  const isUnknown = [found, limit].every((one) => one === NONE || one === "");
  return isUnknown && acceptance === undefined && own === undefined;
}

/** One for all items that wait for the same. */
function waitingLine(judged: JudgedWarning): readonly ReportCell[] | undefined {
  const { warning, findings } = judged;
  if (warning.severity !== "not determined") return undefined;
  const waiting = findings.flatMap((one) => (isWaiting(judged, one) ? [one.finding] : []));
  if (waiting.length === 0) return undefined;
  const remedies = waiting.map(({ item, remedy }) =>
    remedy.replace(` of ${item}`, "").replace(`enter ${item}`, "enter a value"),
  );
  return [
    warning.check,
    waiting.map(({ item }) => item || WHOLE_FEED).join("; "),
    [...new Set(remedies)].join("; "),
  ].map(words);
}

function waitingTable(rows: readonly (readonly ReportCell[])[]): ReportBlock {
  return table({
    caption: "Open: not determined until a figure is entered",
    head: ["Check", "Items", "What to enter"],
    rows,
  });
}

function findingLines(judged: JudgedWarning): FindingLine[] {
  const { warning, findings, ...whole } = judged;
  const isListed = (one: JudgedFinding) =>
    warning.severity !== "not determined" || !isWaiting(judged, one);
  return findings.filter(isListed).map(({ finding, ...own }) => {
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
        line === finding.remedy ? "" : line,
        finding.remedy,
        answer,
      ].map(words),
    };
  });
}

function warningTable(caption: string, lines: readonly FindingLine[]): ReportBlock {
  if (lines.length === 0) return paragraph(`${caption}: none.`);
  return table(
    withoutEmptyColumns({
      caption,
      head: ["", "Check", "Item", "Finding", "What to enter or try", "Reason"],
      rows: lines.map(({ cells }) => cells),
    }),
  );
}

/** What to change stands with what does not hold; every other row has nothing there. */
const SHOWN = [
  ...["Item", "Check", "Verdict", "Found", "Asked", "Limit", "Unit", "Margin"],
  ...["Worst in", "Citation"],
];

/** By item as the sheet has them; what fails is first. */
function everyCheck(
  source: ReportSource,
  range: ReadRange,
  references: References,
): readonly ReportBlock[] {
  const [head = [], ...rows] = shownRange(source, range);
  const labels = head.map(({ text }) => text);
  const [citation, verdict] = [labels.indexOf("Citation"), labels.indexOf("Verdict")];
  const kept = SHOWN.map((label) => labels.indexOf(label)).filter((column) => column >= 0);
  const rank = (row: readonly ReportCell[]) => ORDER.indexOf(row[verdict]?.text ?? "");
  const found = labels.indexOf("Found");
  const of = (one: Verdict) => rows.filter((row) => row[verdict]?.text === one);
  const unknown = of("not determined").filter((row) => row[found]?.text === NONE);
  const asked = rows.filter((row) => row[verdict]?.text !== NOT_ASKED && !unknown.includes(row));
  const every = table({
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
    keys: 2,
  });
  return [
    every,
    ...byCheck("Not determined, and no figure found: what to enter stands above", unknown, labels),
    ...byCheck("Not asked", of(NOT_ASKED), labels),
  ];
}

const NOT_ASKED: Verdict = "not asked";

/** Nothing was found of them: which items each would be about is all there is to say. */
function byCheck(
  caption: string,
  rows: readonly (readonly ReportCell[])[],
  labels: readonly string[],
): readonly ReportBlock[] {
  const [item, check] = ["Item", "Check"].map((label) => labels.indexOf(label));
  const items = new Map<string, string[]>();
  for (const row of rows) {
    const name = row[check!]?.text ?? "";
    items.set(name, [...(items.get(name) ?? []), row[item!]?.text ?? ""]);
  }
  if (items.size === 0) return [];
  const lines = [...items].map(([name, about]) => [words(name), words(about.join("; "))]);
  return [table({ caption, head: ["Check", "Items"], rows: lines })];
}

const ORDER: readonly string[] = [
  "fails",
  "not determined",
  ...VERDICTS.filter((one) => one !== "fails" && one !== "not determined"),
];
