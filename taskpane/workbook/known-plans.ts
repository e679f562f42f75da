/** The sheets of a budget as it was inserted, by its plan's id: what a copy of it takes its look from. */
import type { WorkbookPlan } from "../../src/plans/sheet-plan.js";
import type { Arrangement } from "../../src/tradeoffs/trade-space.js";
import { budgetPlan } from "../budgets/budget-plan.js";
import { CANDIDATE_ID, MOVED_ID } from "../budgets/names.js";
import type { Day } from "../budgets/sample.js";
import { blank } from "../budgets/samples/blank.js";
import { samples } from "../budgets/samples/samples.js";
import { candidatePlan } from "../tradeoffs/candidate-sample.js";
import { startTexts, tradeRequest } from "../tradeoffs/trade-fields.js";

/** An id may have several looks; none where it is not known. */
export function plansOf(id: string): readonly WorkbookPlan[] {
  if (id === CANDIDATE_ID) return CANDIDATES.map(candidateShape);
  if (id === MOVED_ID) return [undefined, ONE_DAY].map(movedShape);
  return samples.filter((sample) => sample.id === id).map(budgetPlan);
}

const ONE_DAY: Day = {
  periods: [{ name: "", hours: 24, loads: "nominal", supply: "nominal" }],
  energyPrice: 0,
};

function movedShape(day: Day | undefined): WorkbookPlan {
  return budgetPlan({ ...blank, ...(day && { day }) });
}

/** One for each number of stages in line. */
const CANDIDATES: readonly Arrangement[] = [[8], [4, 2]];

function candidateShape(arrangement: Arrangement): WorkbookPlan {
  const request = tradeRequest(new Map([...startTexts, ["voltages", "400"], ["sizes", "4"]]));
  const [[supply], [cable]] = [request.supplies, request.cables];
  if (!supply || !cable) throw new Error("a shape needs a supply and a cable");
  return candidatePlan(
    request,
    { supply, cable, arrangement, inParallel: 2 },
    { framework: "IEC 62368-1", condition: "dry" },
    "Trade-off candidate",
  );
}
