/** Issues the document that a budget is: a row in its table of issues, its lines on Inputs, and what it held, at once. */
import { rangeAddress, rangePlace, cellAddress } from "../../../src/plans/addresses.js";
import { fingerprint } from "../../budgets/issues/fingerprint.js";
import {
  cellsOfIssue,
  type HeldChange,
  heldCells,
  heldChanges,
  ISSUED_COLUMNS,
  issuedRows,
} from "../../budgets/issues/issued-values.js";
import type { DocumentLine } from "../../budgets/places.js";
import { rangeRows, numberOf, sameItem, textOf } from "../../budgets/reading/range-table.js";
import type { FoundBudget, ReadRange, ReadValue } from "../../budgets/reading/found-budget.js";
import { caseRows, greatest } from "../../budgets/reading/case-rows.js";
import {
  documentRow,
  documentText,
  ISSUE_COLUMNS,
  type IssueColumn,
  issues,
} from "../../budgets/issues/issues.js";
import { freeRow } from "../../budgets/warnings/acceptances.js";
import { type CellWrite, type Host, HostError, type SheetEdit } from "../../hosts/host.js";
import { issueWords as said } from "../../words/issue-words.js";
import { plainText } from "../accepting.js";

/** As it is entered; "" where nobody is named. */
export interface IssueEntry {
  readonly issue: string;
  readonly date: string;
  readonly purpose: string;
  /** In short. */
  readonly change: string;
  readonly author: string;
  readonly checker: string;
  readonly approver: string;
}

type KeptRows = readonly (readonly ReadValue[])[];

/** One undo step where the host can. @throws {HostError} where the budget has no room for it, or has that issue. */
export async function issueDocument(
  host: Pick<Host, "read" | "used" | "edit">,
  budget: FoundBudget,
  entry: IssueEntry,
): Promise<void> {
  await host.edit(issueEdits(budget, await keptRows(host, budget), entry));
}

/** What changed since the last issue; undefined where nothing was issued yet. */
export async function changesSinceIssue(
  host: Pick<Host, "read" | "used">,
  budget: FoundBudget,
): Promise<readonly HeldChange[] | undefined> {
  if (issues(budget).length === 0) return undefined;
  const kept = await keptRows(host, budget);
  return heldChanges(cellsOfIssue(kept, "As issued"), heldCells(budget));
}

/** Rows below the headings, as far down as their sheet goes. */
async function keptRows(
  host: Pick<Host, "read" | "used">,
  { ranges }: FoundBudget,
): Promise<KeptRows> {
  const head = ranges["Issued"];
  if (!head) return [];
  const { sheet, address } = head;
  const used = await host.used(sheet);
  const { top, left, right } = rangePlace(address);
  const { bottom } = rangePlace(used.address);
  if (bottom <= top) return [];
  const rows = rangeAddress({ top: top + 1, left, right, bottom });
  const [content] = await host.read([{ sheet, address: rows }]);
  return content?.values ?? [];
}

export function issueEdits(
  budget: FoundBudget,
  kept: KeptRows,
  entry: IssueEntry,
): readonly SheetEdit[] {
  const { Document: document, Issues: table, Issued: issued } = budget.ranges;
  if (!document || !table || !issued) throw new HostError(said.noTable(budget.stem));
  if (issues(budget).some(({ item }) => sameItem(item, entry.issue)))
    throw new HostError(said.isThere(entry.issue));
  const row = freeRow(table);
  if (row === undefined) throw new HostError(said.full(table.sheet));
  const print = fingerprint(budget);
  return [
    ...documentEdits(budget, document, { ...entry, fingerprint: print }),
    write(table, row, [issueCells(budget, entry, print)]),
    ...keptEdits(budget, issued, kept),
  ];
}

/** Only lines that say something else now. */
function documentEdits(
  budget: FoundBudget,
  document: ReadRange,
  lines: Readonly<Partial<Record<DocumentLine, string>>>,
): readonly SheetEdit[] {
  return (Object.entries(lines) as [DocumentLine | "change", string][]).flatMap(([line, text]) => {
    if (line === "change" || text === documentText(budget, line)) return [];
    const row = documentRow(document, line);
    if (row === undefined) return [];
    const { top, left } = rangePlace(document.address);
    const address = cellAddress({ row: top + row, column: left + 1 });
    return [
      {
        kind: "write" as const,
        range: { sheet: document.sheet, address },
        cells: [[plainText(text)]],
      },
    ];
  });
}

function issueCells(budget: FoundBudget, entry: IssueEntry, print: string): readonly CellWrite[] {
  const { Cases: cases, Checks: checks } = budget.ranges;
  const checked = checks ? rangeRows(checks) : [];
  const least = greatest(checked, "Margin", -1);
  const cells: Readonly<Record<IssueColumn, CellWrite>> = {
    Issue: plainText(entry.issue),
    Date: plainText(entry.date),
    Purpose: plainText(entry.purpose),
    "What changed": plainText(entry.change),
    Author: plainText(entry.author),
    Checker: plainText(entry.checker),
    Approver: plainText(entry.approver),
    "Highest supply W": highestSupply(cases),
    "Least margin": figureOf(least?.value("Margin")),
    "Least margin at": least ? `${least.item}: ${textOf(least.value("Check"))}` : NONE,
    "Checks that fail": checked.filter((one) => textOf(one.value("Verdict")) === "fails").length,
    Fingerprint: print,
  };
  return ISSUE_COLUMNS.map((column) => cells[column]);
}

/** The greatest of what is left would pass for the greatest of all. */
function highestSupply(cases: ReadRange | undefined): CellWrite {
  const rows = cases ? caseRows(cases) : [];
  const isSolved = rows.every((row) => numberOf(row.value("Supply W")) !== undefined);
  return isSolved ? figureOf(greatest(rows, "Supply W")?.value("Supply W")) : said.notSolved;
}

function figureOf(value: ReadValue | undefined): CellWrite {
  return typeof value === "number" ? value : NONE;
}

const NONE = "–";

function keptEdits(budget: FoundBudget, issued: ReadRange, kept: KeptRows): readonly SheetEdit[] {
  const rows = issuedRows(cellsOfIssue(kept, "As issued"), heldCells(budget));
  const empty = ISSUED_COLUMNS.map(() => "");
  const left = Math.max(0, kept.length - rows.length);
  const cells = [
    ...rows.map((row) => row.map(plainText)),
    ...Array.from({ length: left }, () => empty),
  ];
  return cells.length === 0 ? [] : [write(issued, 1, cells)];
}

/** Rows of a range from one on, `down` from its first. */
function write(
  range: ReadRange,
  down: number,
  cells: readonly (readonly CellWrite[])[],
): SheetEdit {
  const { sheet, address } = range;
  const { top, left } = rangePlace(address);
  const place = {
    top: top + down,
    left,
    bottom: top + down + cells.length - 1,
    right: left + (cells[0]?.length ?? 1) - 1,
  };
  return { kind: "write", range: { sheet, address: rangeAddress(place) }, cells };
}
