/** Makes the workbook plan of a sample's budget: one path for every feed. */
import type { PlanName, SheetPlan, WorkbookPlan } from "../../src/plans/sheet-plan.js";
import { BLOCK_AREAS } from "./names.js";
import { DOCUMENT_ROW, Places } from "./places.js";
import type { BudgetSample } from "./sample.js";
import { answerReach, answersRange, answersSheet } from "./sheets/answers-sheet.js";
import { balanceRange, budgetSheet } from "./sheets/budget-sheet.js";
import { dayRange, daySheet } from "./sheets/day-sheet.js";
import { inputsSheet } from "./sheets/inputs-sheet.js";
import { ISSUED_RANGE, ISSUES_RANGE, issuesSheet } from "./sheets/issues-sheet.js";
import { notesSheet } from "./sheets/notes-sheet.js";
import { scheduleSheet } from "./sheets/schedule-sheets.js";
import {
  bandsSheet,
  casesSheet,
  checksSheet,
  proposalSheet,
  tableSheet,
} from "./sheets/spilled-sheets.js";

/** @throws {RangeError} where a sample names a column, an item or a figure that there is not. */
export function budgetPlan(sample: BudgetSample): WorkbookPlan {
  const places = new Places(sample);
  const { day } = sample;
  const answers = sample.answers?.(answerReach(places));
  const sheets = [
    inputsSheet(places),
    scheduleSheet(places, "feed"),
    scheduleSheet(places, "loads"),
    scheduleSheet(places, "types"),
    budgetSheet(places),
    bandsSheet(places),
    casesSheet(places),
    checksSheet(places),
    proposalSheet(places),
    ...(day ? [daySheet(places, day)] : []),
    ...(answers ? [answersSheet(places, answers)] : []),
    tableSheet(places),
  ];
  const notes = notesSheet(places, calledIn(sheets));
  return {
    id: sample.id,
    title: sample.document.title,
    stem: sample.stem,
    sheets: [...sheets, issuesSheet(places), notes.sheet],
    names: [
      ...SPILLS.map((key): PlanName => ({
        name: SPILL_NAMES[key],
        sheet: places[key].sheet,
        range: plain(places[key].rangeHere),
      })),
      ...(day ? [{ name: "Day", sheet: "day", range: dayRange(places) }] : []),
      ...(answers ? [{ name: "Answers", sheet: "answers", range: answersRange(answers) }] : []),
      { name: "Balance", sheet: "budget", range: balanceRange(places) },
      { name: "Title", sheet: "inputs", range: `B${DOCUMENT_ROW}` },
      { name: "Document", sheet: "inputs", range: plain(places.documentHere) },
      { name: "Asked", sheet: "inputs", range: plain(places.askedHere) },
      ...places.blocks.map(({ name, sheet, rangeHere }) => ({
        name: BLOCK_AREAS[name],
        sheet,
        range: plain(rangeHere),
      })),
      { name: "Issues", sheet: "issues", range: ISSUES_RANGE },
      { name: "Issued", sheet: "issues", range: ISSUED_RANGE },
      { name: "Accepted", sheet: "notes", range: notes.accepted },
      { name: "Lists", sheet: "notes", range: notes.lists },
      { name: "About", sheet: "notes", range: notes.about },
    ],
  };
}

const SPILLS = ["table", "solved", "bands", "cases", "checks", "schedule"] as const;

const SPILL_NAMES = {
  table: "Feed",
  solved: "Solved",
  bands: "Bands",
  cases: "Cases",
  checks: "Checks",
  schedule: "Schedule",
} as const satisfies Readonly<Record<(typeof SPILLS)[number], string>>;

function plain(address: string): string {
  return address.replaceAll("$", "");
}

function calledIn(sheets: readonly SheetPlan[]): Set<string> {
  const formulas = sheets.flatMap(({ cells }) => cells.flatMap(({ formula }) => formula ?? []));
  const calls = /\{FEED\}\.([A-Z_]+)\(/g;
  return new Set(
    formulas.flatMap((formula) => [...formula.matchAll(calls)].map(([, id = ""]) => id)),
  );
}
