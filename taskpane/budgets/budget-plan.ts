/** From a sample to the workbook plan of its budget: one path for every feed. */
import type {
  PlanName,
  SheetPlan,
  WorkbookPlan,
} from "../../src/plans/sheet-plan.js";
import { BLOCK_AREAS } from "./names.js";
import { DOCUMENT_ROW, Places } from "./places.js";
import type { BudgetSample } from "./sample.js";
import { answerReach, answersSheet } from "./sheets/answers-sheet.js";
import { budgetSheet } from "./sheets/budget-sheet.js";
import { daySheet } from "./sheets/day-sheet.js";
import { inputsSheet } from "./sheets/inputs-sheet.js";
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
  const { day, answers } = sample;
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
    ...(answers ? [answersSheet(places, answers(answerReach(places)))] : []),
    tableSheet(places),
  ];
  const notes = notesSheet(places, calledIn(sheets));
  return {
    id: sample.id,
    title: sample.document.title,
    stem: sample.stem,
    sheets: [...sheets, notes.sheet],
    names: [
      ...(["table", "solved", "bands", "checks"] as const).map(
        (key): PlanName => ({
          name: SPILL_NAMES[key],
          sheet: places[key].sheet,
          area: plain(places[key].areaHere),
        }),
      ),
      { name: "Title", sheet: "inputs", area: `B${DOCUMENT_ROW}` },
      { name: "Asked", sheet: "inputs", area: plain(places.askedHere) },
      ...places.blocks.map(({ name, sheet, areaHere }) => ({
        name: BLOCK_AREAS[name],
        sheet,
        area: plain(areaHere),
      })),
      { name: "Accepted", sheet: "notes", area: notes.accepted },
      { name: "About", sheet: "notes", area: notes.about },
    ],
  };
}

const SPILL_NAMES = {
  table: "Feed",
  solved: "Solved",
  bands: "Bands",
  checks: "Checks",
} as const;

function plain(address: string): string {
  return address.replaceAll("$", "");
}

function calledIn(sheets: readonly SheetPlan[]): Set<string> {
  const formulas = sheets.flatMap(({ cells }) =>
    cells.flatMap(({ formula }) => formula ?? []),
  );
  const calls = /\{FEED\}\.([A-Z_]+)\(/g;
  return new Set(
    formulas.flatMap((formula) =>
      [...formula.matchAll(calls)].map(([, id = ""]) => id),
    ),
  );
}
