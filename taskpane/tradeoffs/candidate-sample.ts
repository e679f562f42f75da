/** A candidate of a trade-off as a whole budget: supply, cable, one or two fixed-ratio stages and the load. */
import { NOT_ASKED } from "../../src/judgement/requirements.js";
import type { WorkbookPlan } from "../../src/plans/sheet-plan.js";
import type { FrameworkName, TouchCondition } from "../../src/safety/touch-bands.js";
import { STAGE_NAMES } from "../../src/tradeoffs/trade-feed.js";
import type { TradeRequest } from "../../src/tradeoffs/trade-request.js";
import type { TradeCandidate } from "../../src/tradeoffs/trade-space.js";
import { budgetPlan } from "../budgets/budget-plan.js";
import { CANDIDATE_ID } from "../budgets/names.js";
import type {
  AnswerReach,
  AnswerTable,
  BudgetSample,
  OtherFigure,
  ScheduleRow,
} from "../budgets/sample.js";
import { LOADED_CORES } from "./trade-fields.js";

/** What a search does not ask and a budget has to know. */
export interface CandidatePlace {
  readonly framework: FrameworkName;
  readonly condition: TouchCondition;
}

const SUPPLY = "Supply";
const CABLE = "Cable";
const LOAD = "Load";
const SITE = "Site";

const ENTERED = "entered in the trade-off";
const LEFT_OPEN = "not asked in the trade-off";

/** @param name What tells it from other candidates. */
export function candidatePlan(
  request: TradeRequest,
  candidate: TradeCandidate,
  place: CandidatePlace,
  name: string,
): WorkbookPlan {
  return budgetPlan(candidateSample(request, candidate, place, name));
}

export function candidateSample(
  request: TradeRequest,
  candidate: TradeCandidate,
  { framework, condition }: CandidatePlace,
  name: string,
): BudgetSample {
  const { limits, energy } = request;
  const stages = STAGE_NAMES.slice(0, candidate.arrangement.length);
  return {
    id: CANDIDATE_ID,
    version: "2.0.0",
    stem: "Candidate",
    document: { title: name },
    story:
      "A candidate of a trade-off: one supply, one cable, fixed-ratio stages and the whole load as one.",
    origin:
      "Figures as entered in the trade-off; the ones that it offers to start from are invented.",
    emptyRows: 2,
    asked: {
      Framework: framework,
      Place: {
        value: condition,
        citation: "chosen when the candidate was inserted",
      },
      "Load margin": {
        value: 0,
        citation: "as in the trade-off: its loads are the whole of it",
      },
      "Largest drop of a cable": limits.drop ?? NOT_ASKED,
      "Largest loading of a stage": 1,
      "Largest loading of a cable": 1,
      Currency: "money",
    },
    schedules: {
      Supply: [supplyRow(candidate)],
      Stage: stages.map((stage, at) =>
        stageRow(stage, stages[at - 1] ?? CABLE, request, candidate),
      ),
      Cable: [cableRow(request, candidate)],
      Load: [loadRow(request, stages.at(-1) ?? CABLE)],
      Location: [locationRow(candidate)],
      "Stage type": stages.map((stage, at) => typeRow(stage, at, request, candidate)),
    },
    ...(energy && {
      otherFigures: energyFigures(energy),
      answers: (reach: AnswerReach) => costAnswers(reach, stages),
    }),
    remarks: [
      "The search solved light load on the highest supply, nominal load on the nominal one and peak load on the lowest one; the limits of drop, conductor temperature, rating and load voltage were held at peak load.",
      "The search took the ratio at the end of its tolerance that is worse in each case. CHAIN_SOLVE takes the nominal ratio; Checks and the worst cases count the tolerance.",
      "A unit is taken to be made for the nominal voltage behind its stage: its rated current, resistance and no-load loss follow from its rated power. Enter a maker's figures in Types when one is chosen.",
      "The search checks normal operation only. Bands gives the voltages after one fault; with no isolation entered, that is the whole supply.",
      "The search knows no connectors, fuses, ripple or inrush. Add a row for each connector and fuse, and look at the loads' capacitance before the supply is ordered.",
    ],
  };
}

function supplyRow({ supply }: TradeCandidate): ScheduleRow {
  return {
    Supply: SUPPLY,
    "Lowest V": supply.lowestVoltage,
    Voltage: supply.voltage,
    "Highest V": supply.highestVoltage,
    Resistance: supply.resistance,
    Basis: `${ENTERED}; its resistance by its own drop at peak load`,
  };
}

function cableRow(
  { length }: TradeRequest,
  { cable: { make, material, size, massPerMetre, pricePerMetre } }: TradeCandidate,
): ScheduleRow {
  return {
    Cable: CABLE,
    "Fed from": SUPPLY,
    Location: SITE,
    Length: length,
    Cores: LOADED_CORES,
    Size: size,
    Material: material,
    Build: make.build,
    "Conductor at most": make.temperatureC,
    "Outer diameter": make.outerDiameterMm,
    Insulation: make.insulation,
    Mass: massPerMetre,
    "Price per m": pricePerMetre,
    Basis: `${ENTERED}; outer diameter worked out there from the size and the walls; Rated A by its heat balance in still air`,
  };
}

function stageRow(
  stage: string,
  fedFrom: string,
  { converter }: TradeRequest,
  { inParallel }: TradeCandidate,
): ScheduleRow {
  return {
    Stage: stage,
    "Fed from": fedFrom,
    Type: typeName(stage),
    "In parallel": inParallel,
    Tolerance: converter.tolerance === 0 ? "exact" : converter.tolerance,
    Isolation: "none",
    Basis: `units found by the trade-off; isolation ${LEFT_OPEN}, and unknown counts as none`,
  };
}

function typeName(stage: string): string {
  return `Unit of ${stage}`;
}

function typeRow(
  stage: string,
  at: number,
  { converter }: TradeRequest,
  { supply, arrangement }: TradeCandidate,
): ScheduleRow {
  const output = arrangement
    .slice(0, at + 1)
    .reduce((voltage, steps) => voltage / steps, supply.voltage);
  const { ratedPower, droop, noLoadLoss, mass, price } = converter;
  return {
    "Stage type": typeName(stage),
    Kind: "ratio",
    "Steps down by": arrangement[at]!,
    "Rated A": ratedPower / output,
    Resistance: (droop * output ** 2 * 1000) / ratedPower,
    "Fixed loss": noLoadLoss * ratedPower,
    Mass: mass,
    Price: price,
    Basis: `${ENTERED}: rated power, droop at its rating, no-load loss as a part of it`,
  };
}

function loadRow({ load }: TradeRequest, fedFrom: string): ScheduleRow {
  return {
    Load: LOAD,
    "Fed from": fedFrom,
    Kind: "power",
    Light: load.light === 0 ? "none" : load.light,
    Nominal: load.nominal,
    Peak: load.peak,
    "Lowest V": load.lowestVoltage,
    "Highest V": load.highestVoltage,
    Basis: ENTERED,
  };
}

function locationRow({ cable: { make } }: TradeCandidate): ScheduleRow {
  return {
    Location: SITE,
    Hottest: make.ambientC,
    Basis: `air around the cable, ${ENTERED}; altitude ${LEFT_OPEN}`,
  };
}

const FIGURES = {
  hours: "Hours a year at nominal load",
  price: "Price of energy",
  worth: "Years that count, at their present worth",
} as const;

function energyFigures({
  hoursPerYear,
  pricePerKwh,
  presentWorthFactor,
}: NonNullable<TradeRequest["energy"]>): OtherFigure[] {
  return [
    {
      label: FIGURES.hours,
      value: hoursPerYear,
      unit: "h",
      basis: ENTERED,
      format: "0",
    },
    {
      label: FIGURES.price,
      value: pricePerKwh,
      unit: "money per kWh",
      basis: ENTERED,
      format: "0.000",
    },
    {
      label: FIGURES.worth,
      value: presentWorthFactor,
      unit: "years",
      basis: `${ENTERED}, by the years and the discount rate`,
      format: "0.00",
    },
  ];
}

/** As the search counted it: bought, and what the loss at nominal load costs over the years. */
function costAnswers(
  { table, entered, figure }: AnswerReach,
  stages: readonly string[],
): AnswerTable[] {
  const loss = `{FEED}.CHAIN_TOTAL(${table},"loss")`;
  const worth = [FIGURES.hours, FIGURES.price, FIGURES.worth].map(figure);
  const lost = (losses: string) => `${losses}/1000*${worth.join("*")}`;
  const bought = [CABLE, ...stages].map((item) => `N(${entered(item, "Price")})`).join("+");
  const format = "#,##0.00";
  return [
    {
      title: "Cost as the trade-off counts it",
      how: "Cable and units, and the present cost of the energy lost at nominal load and nominal supply.",
      headings: ["Figure", "Value", "Unit"],
      rows: [
        {
          label: "Loss at nominal load and nominal supply",
          values: [{ formula: loss, format: "0.00" }, "W"],
        },
        { label: "Bought", values: [{ formula: bought, format }, "money"] },
        {
          label: "Lost energy, present cost",
          values: [{ formula: lost(loss), format }, "money"],
        },
        {
          label: "Together",
          values: [{ formula: `${bought}+${lost(loss)}`, format }, "money"],
        },
      ],
    },
  ];
}
