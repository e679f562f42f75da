/** Issues of a budget as its own sheet keeps them, and the document that they are issues of. */
import { DOCUMENT_LINES, type DocumentLine } from "../places.js";
import { type RangeRow, rangeRows, sameItem, textOf } from "../reading/range-table.js";
import type { FoundBudget, ReadRange } from "../reading/found-budget.js";

export const ISSUE_COLUMNS = [
  "Issue",
  "Date",
  "Purpose",
  "What changed",
  "Author",
  "Checker",
  "Approver",
  "Highest supply W",
  "Least margin",
  "Least margin at",
  "Checks that fail",
  "Fingerprint",
] as const;

/** What is written of each issue. */
export type IssueColumn = (typeof ISSUE_COLUMNS)[number];

/** In the order of the table; the last one is current. */
export function issues({ ranges }: Pick<FoundBudget, "ranges">): readonly RangeRow[] {
  return ranges["Issues"] ? rangeRows(ranges["Issues"]) : [];
}

/** Row of a line of the document in its range, from 0; undefined where there is none. */
export function documentRow(document: ReadRange, line: DocumentLine): number | undefined {
  const [, label] = DOCUMENT_LINES.find(([key]) => key === line)!;
  const row = document.values.findIndex(([first]) => sameItem(textOf(first), label));
  return row < 0 ? undefined : row;
}

/** As it is typed on Inputs; "" where it is empty. */
export function documentText(
  { ranges: { Document: document } }: Pick<FoundBudget, "ranges">,
  line: DocumentLine,
): string {
  const row = document && documentRow(document, line);
  return row === undefined ? "" : textOf(document?.values[row]?.[1]);
}

/** How the budget stands to its last issue. */
export type IssueState =
  | { readonly kind: "never issued" }
  | { readonly kind: "as issued" | "changed since"; readonly issue: string; readonly date: string }
  /** Inputs names another issue than the last one of the table. */
  | { readonly kind: "not issued"; readonly issue: string; readonly last: string };

/** @param fingerprint Of the schedules and requirements as they are now. */
export function issueState(budget: Pick<FoundBudget, "ranges">, fingerprint: string): IssueState {
  const last = issues(budget).at(-1);
  if (!last) return { kind: "never issued" };
  const named = documentText(budget, "issue");
  if (!sameItem(named, last.item)) return { kind: "not issued", issue: named, last: last.item };
  const isSame = documentText(budget, "fingerprint") === fingerprint;
  const date = textOf(last.value("Date"));
  return { kind: isSame ? "as issued" : "changed since", issue: last.item, date };
}

/** The one behind the last: `B` behind `A`, `P03` behind `P02`; `A` for the first. */
export function nextIssue(last: string | undefined): string {
  if (last === undefined || last === "") return "A";
  const [, before = "", number] = /^(.*?)(\d+)$/.exec(last) ?? [];
  if (number !== undefined)
    return `${before}${String(Number(number) + 1).padStart(number.length, "0")}`;
  const [, stem = "", letter = ""] = /^(.*?)([A-Ya-y])$/.exec(last) ?? [];
  return letter === "" ? `${last}2` : stem + String.fromCharCode(letter.charCodeAt(0) + 1);
}
