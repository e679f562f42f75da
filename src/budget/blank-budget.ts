/** The same sheets without a figure in them: what is asked for is entered on Inputs, the feed is typed on Budget. */
import type { BudgetScenario } from "./budget-scenario.js";
import { dayBlocks, type DayPeriod } from "./day-lines.js";
import { requirements, SOLVED_CASE } from "./input-lines.js";
import { headroomCheck } from "./protection-checks.js";
import { HEADROOM_ASKED } from "./protection-inputs.js";

const ROWS = 12;
const TO_ENTER = "enter; where it comes from goes here";

const UNUSED: DayPeriod = {
  name: "",
  hours: "",
  loads: "nominal",
  supply: "nominal",
};

export const blankBudget: BudgetScenario = {
  id: "blank-budget",
  version: "1.1.0",
  title: "Blank budget",
  stem: "Blank",
  story:
    "An empty budget: enter what is asked for here, then type the feed table of Budget, one row for each item.",
  inputs: [
    SOLVED_CASE,
    requirements({
      framework: "",
      condition: "wet",
      conditionBasis: "wet until you know that it is dry",
      margin: "",
      dropLimit: "",
      loadingLimit: "",
      altitude: "",
      altitudeBasis: TO_ENTER,
      currency: "",
      currencyBasis: "enter; names the unit of every price and cost",
      unitsLost: 1,
    }),
    {
      title: "What the checks ask for",
      columns: ["Value"],
      lines: [HEADROOM_ASKED],
    },
    ...dayBlocks([UNUSED, UNUSED, UNUSED], "", "enter; may stay empty"),
  ],
  origin: "",
  typedRows: ROWS,
  feed: () => [],
  handChecks: () => [],
  checks: (reach) => [headroomCheck(reach, "Whole feed")],
  remarks: [
    "Nothing is solved while a requirement of Inputs or the supply is missing: line 3 of Budget, and the pane, say what to enter first. Rows that stay empty are passed over.",
    "Each row of the feed table has a name of its own, the name of what feeds it, and a kind; what else a kind needs, its Check says. A resistance of a run may be a formula: CONDUCTOR_RESISTANCE gives it from length, size and temperature.",
    "Loads are typed before the margin, the columns beside them have it. On a resistance load the margin makes the resistance smaller.",
    "The kinds of a feed: supply, run, series (contacts, fuses, anything in line), ratio, regulated, and power, current and resistance loads.",
  ],
};
