/** What the pane and the report say of the issues of a document. */
import { figure } from "../../../src/quantities/figures.js";
import type { Held, HeldChange } from "../../budgets/issues/issued-values.js";
import type { IssueState } from "../../budgets/issues/issues.js";

const MOST_IN_SHORT = 3;

function heldText(value: Held): string {
  if (value === "") return "empty";
  return typeof value === "number" ? figure(value) : String(value);
}

/** One line of a list of changes. */
function changeLine(change: HeldChange): string {
  if (change.kind === "changed")
    return `${change.item}: ${change.column} ${heldText(change.was)} → ${heldText(change.is)}`;
  return change.kind === "new"
    ? `${change.item} is new in ${change.schedule}`
    : `${change.item} is gone from ${change.schedule}`;
}

export const issueWords = {
  printedFingerprint: (print: string) => `Fingerprint ${print}`,
  open: "Issue this document",
  title: (title: string) => `Issue of ${title}`,
  about: (sheet: string) =>
    `Writes a row in the table of issues on sheet ${sheet}, the lines of the document on Inputs, and what the schedules hold now; one step to undo. The report prints them.`,
  issue: "Issue",
  date: "Date",
  purpose: "Purpose",
  purposes: ["for information", "for review", "for construction", "as built"],
  author: "Author",
  checker: "Checker",
  approver: "Approver",
  change: "What changed, in short",
  firstChange: "first issue",
  save: "Write the issue",
  cancel: "Cancel",
  issueNeeded: "The issue needs a letter or a number.",
  changed: (issue: string) => `Changed since issue ${issue}`,
  unchanged: (issue: string) => `No figure has changed since issue ${issue}.`,
  more: (count: number) => `and ${count} more; the report lists all.`,
  done: (issue: string, sheet: string) =>
    `Issue ${issue} is in the table on sheet ${sheet}. Undo in the spreadsheet takes it back.`,

  state: (state: IssueState): string => {
    switch (state.kind) {
      case "never issued":
        return "Not issued yet";
      case "as issued":
        return `As issue ${state.issue}${state.date === "" ? "" : ` of ${state.date}`}: the schedules have not changed since`;
      case "changed since":
        return `Changed since issue ${state.issue}${state.date === "" ? "" : ` of ${state.date}`}`;
      case "not issued":
        return `Issue ${state.issue === "" ? "(none named)" : state.issue} was not issued; the last one was ${state.last}`;
    }
  },

  /** Foot of a page: no paper passes for an issue that it is not. */
  foot: (state: IssueState, named: string): string => {
    if (state.kind === "as issued") return `issue ${state.issue}`;
    if (state.kind === "changed since") return `changed since issue ${state.issue}`;
    return named === "" ? "" : `issue ${named}, not issued`;
  },

  changeLine,

  /** The first few changes, for a cell and for the form. */
  changesInShort: (changes: readonly HeldChange[]): string => {
    const lines = changes.slice(0, MOST_IN_SHORT).map(changeLine);
    const more = changes.length - lines.length;
    return [...lines, ...(more > 0 ? [`and ${more} more`] : [])].join("; ");
  },

  noTable: (stem: string) =>
    `${stem} has no table of issues: it was made before tables of issues existed. A budget that is inserted now has one.`,
  isThere: (issue: string) => `there is an issue ${issue} in the table already`,
  full: (sheet: string) =>
    `the table of issues on ${sheet} is full: insert a row above its last one`,
  notSolved: "not solved in every case",
} as const;
