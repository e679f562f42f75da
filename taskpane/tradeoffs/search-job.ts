/** What a search is asked for, from a budget as it was read. */
import type { TypedVariation } from "../../functions/tradeoffs/varied-blocks.js";
import { CHECK_NAMES, type CheckName, VERDICTS } from "../../src/judgement/check-row.js";
import { CHECKS } from "../../src/judgement/checks.js";
import { checksToHold } from "../../src/tradeoffs/candidate-judge.js";
import type { Objective } from "../../src/tradeoffs/objectives.js";
import { choicesAt } from "../../src/tradeoffs/varied-feed.js";
import { blockTables } from "../budgets/reading/block-tables.js";
import type { FoundBudget } from "../budgets/reading/found-budget.js";
import { rangeRows, textOf } from "../budgets/reading/range-table.js";
import { type Mark } from "./marks.js";
import { variationsOf } from "./mark-reading.js";
import type { SearchJob } from "./search-messages.js";

/** @throws {MarkError} for the first choice that cannot be. */
export function searchJob(
  budget: FoundBudget,
  marks: readonly Mark[],
  checks: readonly CheckName[],
  objectives: readonly Objective[],
): SearchJob {
  const { "Asked for": askedFor = [], ...others } = Object.fromEntries(blockTables(budget));
  const blocks = Object.values(others);
  return { blocks, askedFor, variations: variationsOf(marks, blocks), checks, objectives };
}

export interface HeldCheck {
  readonly check: CheckName;
  /** Items at which it fails now. */
  readonly failsAt: readonly string[];
  /** Unless its user says otherwise. */
  readonly isHeld: boolean;
}

/** Checks of the budget's judgement as it stands on its sheet; a mere note holds nothing up. */
export function heldChecks({ ranges }: FoundBudget): readonly HeldCheck[] {
  const rows = (ranges["Checks"] ? rangeRows(ranges["Checks"]) : []).map(({ item, value }) => ({
    item,
    check: CHECK_NAMES.find((name) => name === textOf(value("Check"))),
    verdict: VERDICTS.find((verdict) => verdict === textOf(value("Verdict"))),
  }));
  const judged = rows.flatMap(({ item, check, verdict }) =>
    check && verdict ? [{ item, check, verdict }] : [],
  );
  const held = checksToHold(judged);
  return CHECK_NAMES.filter((name) => name !== "Operating point" && CHECKS[name].weight !== "note")
    .filter((name) => judged.some(({ check }) => check === name))
    .map((check) => ({
      check,
      isHeld: held.includes(check),
      failsAt: judged.flatMap((row) =>
        row.check === check && row.verdict === "fails" ? [row.item] : [],
      ),
    }));
}

/** What each variation's choice is called, in one line. */
export function optionName(variations: readonly TypedVariation[], index: number): string {
  return choicesAt({ variations }, index)
    .map((choice, at) => variations[at]!.choices[choice]!.name)
    .join(" · ");
}
