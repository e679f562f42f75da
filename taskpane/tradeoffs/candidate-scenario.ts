/** A candidate of a trade-off as a whole budget: supply, cable, one or two fixed-ratio stages and the load. */
import {
  type AnswerReach,
  type AnswerTable,
  type BudgetReach,
  type BudgetScenario,
  type CheckReach,
  type CheckRow,
  COMMON_KEYS,
  type FeedRowPlan,
  type HandCheck,
  type InputReach,
} from "../../src/budget/budget-scenario.js";
import { budgetPlan } from "../../src/budget/budget-sheets.js";
import { powerLoadRow, rippleFigures } from "../../src/budget/feed-rows.js";
import { headroomCheck } from "../../src/budget/protection-checks.js";
import { call } from "../../src/plans/sheet-builder.js";
import type { WorkbookPlan } from "../../src/plans/sheet-plan.js";
import { STAGE_NAMES } from "../../src/tradeoffs/trade-feed.js";
import type { TradeRequest } from "../../src/tradeoffs/trade-request.js";
import type { TradeCandidate } from "../../src/tradeoffs/trade-space.js";
import { type CandidatePlace, candidateInputs } from "./candidate-inputs.js";
import { LOADED_CORES } from "./trade-fields.js";

/** Every candidate's budget is found by it, whatever its figures. */
export const CANDIDATE_ID = "trade-off-candidate";

const SUPPLY = "Supply";
const CABLE = "Cable";
const LOAD = "Load";

type Given = InputReach["given"];

/** @param name What tells it from other candidates. */
export function candidatePlan(
  request: TradeRequest,
  candidate: TradeCandidate,
  place: CandidatePlace,
  name: string,
): WorkbookPlan {
  return budgetPlan(candidateScenario(request, candidate, place, name));
}

export function candidateScenario(
  request: TradeRequest,
  candidate: TradeCandidate,
  place: CandidatePlace,
  name: string,
): BudgetScenario {
  const stages = STAGE_NAMES.slice(0, candidate.arrangement.length);
  return {
    id: CANDIDATE_ID,
    version: "1.1.0",
    title: name,
    stem: "Candidate",
    story:
      "A candidate of a trade-off: one supply, one cable, fixed-ratio stages and the whole load as one.",
    origin:
      "Figures as entered in the trade-off; the ones that it offers to start from are invented.",
    inputs: candidateInputs(request, candidate, place),
    feed: ({ given }) => feed(given, stages),
    handChecks: (reach) => handChecks(reach, stages),
    checks: (reach) => [
      ...cableChecks(reach),
      headroomCheck(reach, stages[0] ?? LOAD),
    ],
    ...(request.energy && {
      answers: (reach: AnswerReach) => costAnswers(reach, stages),
    }),
    remarks: [
      "The search solved light load on the highest supply, nominal load on the nominal one and peak load on the lowest one; the limits of drop, conductor temperature, rating and load voltage were held at peak load. Choose the same cases on Inputs.",
      "The search took the ratio at the end of its tolerance that is worse in each case. CHAIN_SOLVE takes the nominal ratio: at peak load the load's voltage can be lower than here by the tolerance.",
      "A unit is taken to be made for the nominal voltage behind its stage: its rated current, resistance and no-load loss follow from its rated power. Enter a maker's figures in the feed table when one is chosen.",
      "The search held voltages in service only. Bands says what one fault lets through; with no isolation entered, that is the whole supply.",
      "The search knows no connectors, fuses, ripple or inrush. Add a row for each connector and fuse, and look at the loads' capacitance before the supply is ordered.",
    ],
  };
}

function feed(given: Given, stages: readonly string[]): FeedRowPlan[] {
  return [
    {
      item: SUPPLY,
      kind: "supply",
      figures: {
        voltage: given(COMMON_KEYS.supplyVoltage, 1),
        resistance: given("supplyResistance"),
        lowest: given(COMMON_KEYS.supplyVoltage, 0),
        highest: given(COMMON_KEYS.supplyVoltage, 2),
        ...rippleFigures("supplyRipple", given),
      },
    },
    cableRow(given),
    ...stages.map((item, stage) =>
      stageRow(item, stages[stage - 1] ?? CABLE, stage, given),
    ),
    powerLoadRow(LOAD, stages.at(-1) ?? CABLE, "load", given),
  ];
}

function cableRow(given: Given): FeedRowPlan {
  const [size, hot] = [given("size"), given("temperature")];
  const [material, build] = [given("material"), given("build")];
  return {
    item: CABLE,
    fedFrom: SUPPLY,
    kind: "run",
    figures: {
      resistance: call(
        "CONDUCTOR_RESISTANCE",
        given("length"),
        size,
        hot,
        material,
        build,
      ),
      rated: call(
        "CONDUCTOR_AMPACITY",
        size,
        hot,
        given("ambient"),
        given("diameter"),
        String(LOADED_CORES),
        given("insulation"),
        "1",
        given(COMMON_KEYS.altitude),
        "0",
        material,
        build,
      ),
    },
    mass: call(
      "CONDUCTOR_MASS",
      given("length"),
      size,
      material,
      "1",
      String(LOADED_CORES),
      given("otherMass"),
    ),
    cost: `${given("cablePrice")}*${given("length")}`,
  };
}

function stageRow(
  item: string,
  fedFrom: string,
  stage: number,
  given: Given,
): FeedRowPlan {
  const behind = nominalBehind(stage, given);
  const [power, count] = [given("ratedPower"), given("unitCount")];
  return {
    item,
    fedFrom,
    kind: "ratio",
    figures: {
      resistance: `${given("droop")}*(${behind})^2/${power}`,
      ratio: `1/${given("steps", stage)}`,
      fixedLoss: `${given("noLoadLoss")}*${power}`,
      inParallel: count,
      rated: `${power}/(${behind})`,
      tolerance: given("tolerance"),
      isolation: given("isolation", stage),
    },
    mass: `${given("unitMass")}*${count}`,
    cost: `${given("unitPrice")}*${count}`,
  };
}

/** Formula of the nominal voltage behind a stage, without any drop. */
function nominalBehind(stage: number, given: Given): string {
  const steps = Array.from({ length: stage + 1 }, (_, index) =>
    given("steps", index),
  );
  return [given(COMMON_KEYS.supplyVoltage, 1), ...steps].join("/");
}

function handChecks(
  { given, entered, solved, solvedSupplyVoltage }: BudgetReach,
  stages: readonly string[],
): HandCheck[] {
  const current = solved(CABLE, "inputCurrent");
  const path = [SUPPLY, CABLE].map((item) => entered(item, "resistance"));
  return [
    {
      label: "First stage, input",
      how: "supply voltage less its current times the resistance of supply and cable",
      byHand: `${solvedSupplyVoltage}-${current}*(${path.join("+")})`,
      solved: solved(stages[0] ?? LOAD, "inputVoltage"),
      unit: "V",
      format: "0.00",
    },
    {
      label: "Loss in the cable",
      how: "CONDUCTOR_LOSS of the solved current",
      byHand: call(
        "CONDUCTOR_LOSS",
        current,
        given("length"),
        given("size"),
        given("temperature"),
        given("material"),
        given("build"),
      ),
      solved: solved(CABLE, "loss"),
      unit: "W",
      format: "0.00",
    },
    ...stages.map((item) => ({
      label: `${item}, output`,
      how: "input times ratio, less output current times output resistance over the units",
      byHand: `${solved(item, "inputVoltage")}*${entered(item, "ratio")}-${solved(item, "outputCurrent")}*${entered(item, "resistance")}/${entered(item, "inParallel")}`,
      solved: solved(item, "outputVoltage"),
      unit: "V",
      format: "0.00",
    })),
  ];
}

/** Against the temperature that its resistance is entered at, which is also the one allowed to it. */
function cableChecks({ given, worst }: CheckReach): CheckRow[] {
  return [
    {
      check: "Conductor temperature",
      item: CABLE,
      found: call(
        "CONDUCTOR_TEMPERATURE",
        worst(CABLE, "Highest input A"),
        given("size"),
        given("ambient"),
        given("diameter"),
        String(LOADED_CORES),
        given("insulation"),
        "1",
        given(COMMON_KEYS.altitude),
        "0",
        given("material"),
        given("build"),
      ),
      limit: given("temperature"),
      unit: "°C",
      format: "0.0",
      how: "CONDUCTOR_TEMPERATURE of its highest current in any case, tolerances too, in still air, alone and out of the sun",
    },
  ];
}

/** As the search counted it: bought, and what the loss at nominal load costs over the years. */
function costAnswers(
  { given, solved, feedTable }: AnswerReach,
  stages: readonly string[],
): AnswerTable[] {
  const loss = call("CHAIN_TOTAL", feedTable, '"loss"');
  const lost = `${loss}/1000*${given("hours")}*${given("energyPrice")}*${given("presentWorth")}`;
  const bought = [CABLE, ...stages]
    .map((item) => solved(item, "cost"))
    .join("+");
  const money = { text: "money" };
  const format = "#,##0.00";
  return [
    {
      kind: "table",
      title: "Cost as the trade-off counts it",
      how: "Cable and units, and the present cost of the energy lost at nominal load and nominal supply.",
      headings: ["Figure", "Value", "Unit"],
      rows: [
        {
          label: "Loss at nominal load and nominal supply",
          values: [{ formula: loss, format: "0.00" }, { text: "W" }],
        },
        {
          label: "Bought",
          values: [{ formula: bought, format }, money],
        },
        {
          label: "Lost energy, present cost",
          values: [{ formula: lost, format }, money],
        },
        {
          label: "Together",
          values: [{ formula: `${bought}+${lost}`, format }, money],
        },
      ],
    },
  ];
}
