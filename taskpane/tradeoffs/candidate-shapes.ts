/** What a candidate's budget looks like, whatever its figures: by these a budget from an earlier search is known again. */
import type { WorkbookPlan } from "../../src/plans/sheet-plan.js";
import type { Arrangement } from "../../src/tradeoffs/trade-space.js";
import { candidatePlan } from "./candidate-scenario.js";
import { startTexts, tradeRequest } from "./trade-fields.js";

const TITLE = "Trade-off candidate";

/** One for each number of stages in line. */
export const candidateShapes: readonly WorkbookPlan[] = [[8], [4, 2]].map(
  shapeOf,
);

function shapeOf(arrangement: Arrangement): WorkbookPlan {
  const request = tradeRequest(
    new Map([...startTexts, ["voltages", "400"], ["sizes", "4"]]),
  );
  const [[supply], [cable]] = [request.supplies, request.cables];
  if (!supply || !cable) throw new Error("a shape needs a supply and a cable");
  return candidatePlan(
    request,
    { supply, cable, arrangement, units: 2 },
    { framework: "IEC 62368-1", condition: "dry" },
    TITLE,
  );
}
