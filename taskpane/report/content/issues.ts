/** Issues of the document, and what changed from one to the next. */
import { rangePlace } from "../../../src/plans/addresses.js";
import {
  cellsOfIssue,
  type Held,
  type HeldCell,
  type HeldChange,
  heldCells,
  heldChanges,
} from "../../budgets/issues/issued-values.js";
import { issues, issueState } from "../../budgets/issues/issues.js";
import {
  heading,
  paragraph,
  type ReportBlock,
  type ReportCell,
  table,
  withoutEmptyColumns,
  words,
} from "./blocks.js";
import { type ReportSource, shownCell, shownRange } from "./report-source.js";

/** None where nothing was issued yet: the cover says so. */
export function issueTables(source: ReportSource, fingerprint: string): readonly ReportBlock[] {
  const { budget } = source;
  const range = budget.ranges["Issues"];
  const all = issues(budget);
  const [before, last] = [all.at(-2), all.at(-1)];
  if (!range || !last) return [];
  const [head = [], ...rows] = shownRange(source, range);
  const isAsIssued = issueState(budget, fingerprint).kind === "as issued";
  const { was, issued } = kept(source);
  return [
    heading("Issues"),
    table(
      withoutEmptyColumns({
        caption: "Issues of this document, the last one current",
        head: head.map(({ text }) => text),
        rows,
      }),
    ),
    ...(before ? [changes(`From issue ${before.item} to issue ${last.item}`, was, issued)] : []),
    ...(isAsIssued ? [] : [changes(`Since issue ${last.item}`, issued, heldCells(budget))]),
  ];
}

/** What the schedules held at the issue before the last one, and at the last one. */
function kept({ budget, sheets }: ReportSource) {
  const head = budget.ranges["Issued"];
  const sheet = sheets.find(({ name }) => name === head?.sheet);
  const { bottom, left, right } = rangePlace(head?.address ?? "A1");
  const rows = (sheet?.values ?? []).slice(bottom + 1).map((row) => row.slice(left, right + 1));
  return { was: cellsOfIssue(rows, "Issue before"), issued: cellsOfIssue(rows, "As issued") };
}

function changes(caption: string, was: readonly HeldCell[], is: readonly HeldCell[]): ReportBlock {
  const rows = heldChanges(was, is).map(changeRow);
  if (rows.length === 0)
    return paragraph(`${caption}: no figure changed; the order of rows or columns may have.`);
  return table({
    caption: `${caption}, in the schedules and in what is asked for`,
    head: ["Schedule", "Item", "Column", "Was", "Is"],
    rows,
    keys: 2,
  });
}

function changeRow(change: HeldChange): ReportCell[] {
  const { schedule, item } = change;
  if (change.kind !== "changed") return [schedule, item, change.kind, "", ""].map(words);
  return [words(schedule), words(item), words(change.column), held(change.was), held(change.is)];
}

function held(value: Held): ReportCell {
  if (typeof value === "number") return shownCell(value, "General");
  return words(value === "" ? "empty" : String(value));
}
