/** From a scenario to the workbook plan of its budget. */
import type { WorkbookPlan } from "../plans/sheet-plan.js";
import { area } from "../plans/sheet-builder.js";
import { answersArea, answersSheet } from "./answers-sheet.js";
import { bandsArea } from "./bands-layout.js";
import { bandsSheet } from "./bands-sheet.js";
import {
  answerReach,
  BALANCE_ROW,
  balanceRows,
  budgetLayout,
  budgetReach,
  feedArea,
  LIMIT_LABEL_COLUMN,
  LIMIT_UNIT_COLUMN,
  limitRows,
  solvedArea,
} from "./budget-layout.js";
import { budgetSheet } from "./budget-sheet.js";
import { checksArea, checksSheet } from "./checks-sheet.js";
import { casesArea, checkReach } from "./cases-layout.js";
import { casesSheet } from "./cases-sheet.js";
import { type BudgetScenario, DAY_KEYS } from "./budget-scenario.js";
import { dayArea } from "./day-layout.js";
import { daySheet } from "./day-sheet.js";
import { inputReach, inputsSheet } from "./inputs-sheet.js";
import { ABOUT_ROW, acceptedArea, notesSheet } from "./notes-sheet.js";

export function budgetPlan(scenario: BudgetScenario): WorkbookPlan {
  const inputs = inputReach(scenario);
  const feed = scenario.feed(inputs);
  // Where the solved rows stand depends on how many checks there are, not on what they say.
  const { typedRows } = scenario;
  const without = budgetLayout(feed, 0, typedRows);
  const count = scenario.handChecks(budgetReach(inputs, without)).length;
  const layout = budgetLayout(feed, count, typedRows);
  const handChecks = scenario.handChecks(budgetReach(inputs, layout));
  const limitsLast = Math.max(...Object.values(limitRows));
  const answers = scenario.answers
    ? [answersSheet(scenario, scenario.answers(answerReach(inputs, layout)))]
    : [];
  const checks = checksSheet(
    scenario,
    scenario.checks(checkReach(answerReach(inputs, layout), layout)),
  );
  const notes = notesSheet(scenario);
  const { title } = scenario;
  const days = inputs.has(DAY_KEYS.hours)
    ? [daySheet({ layout, feed, inputs, title })]
    : [];
  const plain = (fixed: string) => fixed.replaceAll("$", "");
  return {
    id: scenario.id,
    title: scenario.title,
    stem: scenario.stem,
    sheets: [
      inputsSheet(scenario),
      budgetSheet({ scenario, layout, feed, handChecks, inputs }),
      bandsSheet(layout, scenario.title),
      casesSheet(layout, inputs, scenario.title),
      ...days,
      checks,
      ...answers,
      notes,
    ],
    names: [
      { name: "Feed", sheet: "budget", area: plain(feedArea(layout)) },
      { name: "Solved", sheet: "budget", area: plain(solvedArea(layout)) },
      {
        name: "Bands",
        sheet: "bands",
        area: plain(bandsArea(layout.items.length)),
      },
      { name: "Cases", sheet: "cases", area: plain(casesArea()) },
      {
        name: "Closing",
        sheet: "budget",
        area: area(0, balanceRows.closingError, 2, balanceRows.closingCheck),
      },
      {
        name: "Limits",
        sheet: "budget",
        area: area(
          LIMIT_LABEL_COLUMN,
          BALANCE_ROW,
          LIMIT_UNIT_COLUMN,
          limitsLast,
        ),
      },
      { name: "Checks", sheet: checks.key, area: checksArea(checks) },
      ...days.map(({ key }) => ({
        name: "Day",
        sheet: key,
        area: plain(dayArea()),
      })),
      ...answers.map((sheet) => ({
        name: "Answers",
        sheet: sheet.key,
        area: answersArea(sheet),
      })),
      { name: "Accepted", sheet: notes.key, area: acceptedArea(notes) },
      { name: "About", sheet: "notes", area: area(0, ABOUT_ROW, 2, ABOUT_ROW) },
    ],
  };
}
