/** The hotel loads of a river ferry: from its traction pack through a fixed ratio onto a bus of some 50 V. All data invented. */
import { call } from "../plans/sheet-builder.js";
import {
  type AnswerReach,
  type AnswerTable,
  type BudgetReach,
  type BudgetScenario,
  COMMON_KEYS,
  type FeedRowPlan,
  type HandCheck,
  type InputReach,
} from "./budget-scenario.js";
import { powerLoadRow, rippleFigures } from "./feed-rows.js";
import { protectionChecks } from "./protection-checks.js";
import { riverFerryInputs } from "./river-ferry-inputs.js";

const PACK = "Traction pack";
const FUSE = "Fuse and contactor";
const CABLE = "Cable to the hotel room";
const STAGE = "Hotel stage";
const LIGHT_STAGE = "28 V stage";
const NAVIGATION_STAGE = "24 V stage";

type Given = InputReach["given"];

function feed({ given }: InputReach): FeedRowPlan[] {
  return [
    {
      item: PACK,
      kind: "supply",
      figures: {
        voltage: given(COMMON_KEYS.supplyVoltage, 1),
        resistance: given("packResistance"),
        lowest: given(COMMON_KEYS.supplyVoltage, 0),
        highest: given(COMMON_KEYS.supplyVoltage, 2),
        rated: given("packRated"),
        ...rippleFigures("supplyRipple", given),
      },
    },
    {
      item: FUSE,
      fedFrom: PACK,
      kind: "series",
      figures: {
        resistance: given("fuseResistance"),
        rated: given("fuseRated"),
      },
    },
    {
      item: CABLE,
      fedFrom: FUSE,
      kind: "run",
      figures: {
        resistance: call(
          "CONDUCTOR_RESISTANCE",
          given("cableLength"),
          given("cableSize"),
          given("cableTemperature"),
          '"copper"',
          given("cableBuild"),
        ),
        rated: given("cableRated"),
      },
      mass: `${given("cableMass")}*${given("cableLength")}`,
      cost: `${given("cablePrice")}*${given("cableLength")}`,
    },
    {
      item: STAGE,
      fedFrom: CABLE,
      kind: "ratio",
      figures: {
        resistance: given("ratioResistance"),
        ratio: `1/${given("ratioSteps")}`,
        fixedLoss: given("ratioFixed"),
        lowest: given("ratioLowest"),
        highest: given("ratioHighest"),
        rated: given("ratioRated"),
        tolerance: given("ratioTolerance"),
        isolation: given("ratioIsolation"),
        ...rippleFigures("ratioRipple", given),
      },
      mass: given("ratioMass"),
      cost: given("ratioPrice"),
    },
    powerLoadRow("Galley and heating", STAGE, "galley", given),
    stage(LIGHT_STAGE, 0, given),
    powerLoadRow("Lighting", LIGHT_STAGE, "lighting", given),
    stage(NAVIGATION_STAGE, 1, given),
    powerLoadRow("Navigation", NAVIGATION_STAGE, "navigation", given),
  ];
}

function stage(item: string, column: number, given: Given): FeedRowPlan {
  return {
    item,
    fedFrom: STAGE,
    kind: "regulated",
    figures: {
      voltage: given("stageVoltage", column),
      fixedLoss: given("stageFixed", column),
      linearLoss: given("stageLinear", column),
      quadraticLoss: given("stageQuadratic", column),
      lowest: given("stageLowest", column),
      highest: given("stageHighest", column),
      rated: given("stageRated", column),
      tolerance: given("stageTolerance", column),
      isolation: given("stageIsolation", column),
      trip: given("stageTrip", column),
      ...rippleFigures("stageRipple", given, column),
    },
    mass: given("stageMass", column),
    cost: given("stagePrice", column),
  };
}

function handChecks(reach: BudgetReach): HandCheck[] {
  const { entered, solved, solvedSupplyVoltage } = reach;
  const current = solved(PACK, "outputCurrent");
  const path = [PACK, FUSE, CABLE].map((item) => entered(item, "resistance"));
  return [
    {
      label: "Hotel stage, input",
      how: "pack voltage less its current times the resistance of pack, fuse and cable",
      byHand: `${solvedSupplyVoltage}-${current}*(${path.join("+")})`,
      solved: solved(STAGE, "inputVoltage"),
      unit: "V",
      format: "0.00",
    },
    {
      label: "Hotel bus",
      how: "stage input times its ratio, less output current times output resistance",
      byHand: `${solved(STAGE, "inputVoltage")}*${entered(STAGE, "ratio")}-${solved(STAGE, "outputCurrent")}*${entered(STAGE, "resistance")}`,
      solved: solved(STAGE, "outputVoltage"),
      unit: "V",
      format: "0.00",
    },
    {
      label: "Loss in the cable",
      how: "pack current squared times the cable's resistance",
      byHand: `${current}^2*${entered(CABLE, "resistance")}`,
      solved: solved(CABLE, "loss"),
      unit: "W",
      format: "0.00",
    },
  ];
}

function answers(reach: AnswerReach): AnswerTable[] {
  const { given, solved } = reach;
  const pack = (column: number) => given(COMMON_KEYS.supplyVoltage, column);
  const tolerance = given("ratioTolerance");
  const current = solved(STAGE, "outputCurrent");
  const lowest = (steps: string) =>
    `(${lowestAtStage(reach)})/(${steps})*(1-${tolerance})-${current}*${given("ratioResistance")}`;
  const ratioRow = (label: string, steps: string) => ({
    label,
    values: [
      { formula: lowest(steps), format: "0.0" },
      { formula: `${pack(1)}/(${steps})`, format: "0.0" },
      {
        formula: call(
          "SAFETY_WORST_VOLTAGE",
          pack(2),
          `1/(${steps})`,
          tolerance,
        ),
        format: "0.0",
      },
      {
        formula: `${lowest(steps)}-${given("galleyWindow", 0)}`,
        format: "0.0",
      },
      {
        formula: `${given("galleyWindow", 1)}-${call("SAFETY_WORST_VOLTAGE", pack(2), `1/(${steps})`, tolerance)}`,
        format: "0.0",
      },
    ],
  });
  return [
    {
      kind: "table",
      title: "Lowest and highest pack voltage through the ratio",
      how: "Lowest at the solved currents, their drop on the way counted; highest at no load with the tolerance (SAFETY_WORST_VOLTAGE), against the bus's highest.",
      headings: [
        "Ratio",
        "Lowest (V)",
        "Nominal (V)",
        "Highest (V)",
        "Room below (V)",
        "Room above (V)",
      ],
      rows: [
        ratioRow("as entered", given("ratioSteps")),
        ratioRow("beside it, the way out", given("otherSteps")),
      ],
    },
    {
      kind: "spill",
      title: "Whole ratios that fit the galley's window",
      how: "RATIO_CHOICES with the lowest input less the solved drop; room as a share of that end of the window.",
      headings: [
        "Ratio",
        "Lowest (V)",
        "Highest (V)",
        "Room below (share)",
        "Room above (share)",
      ],
      formula: choices(reach),
      rows: 3,
      columns: 5,
    },
    {
      kind: "table",
      title: "Discharge after the contactor opens",
      how: "SAFETY_DISCHARGE_TIME from the highest pack voltage to 60 V, which 5 s are common for; verify by measurement.",
      headings: ["Figure", "Value", "Unit"],
      rows: [
        {
          label: "Time to 60 V",
          values: [
            {
              formula: call(
                "SAFETY_DISCHARGE_TIME",
                given("busCapacitance"),
                pack(2),
                "60",
                given("bleedResistance"),
              ),
              format: "0.00",
            },
            { text: "s" },
          ],
        },
        {
          label: "Energy before it",
          values: [
            {
              formula: call(
                "SAFETY_STORED_ENERGY",
                given("busCapacitance"),
                pack(2),
              ),
              format: "0",
            },
            { text: "J" },
          ],
        },
        {
          label: "Power in the resistor as it is switched in",
          values: [
            {
              formula: `${pack(2)}^2/${given("bleedResistance")}`,
              format: "0",
            },
            { text: "W" },
          ],
        },
      ],
    },
  ];
}

/** The lowest pack voltage less the drop of the solved current up to the stage. */
function lowestAtStage({ given, solved, entered }: AnswerReach): string {
  const drop = [PACK, FUSE, CABLE].map((item) => entered(item, "resistance"));
  const input = solved(PACK, "outputCurrent");
  return `${given(COMMON_KEYS.supplyVoltage, 0)}-${input}*(${drop.join("+")})`;
}

/** At the stage's input; the highest without drop. */
function choices(reach: AnswerReach): string {
  const { given, solved } = reach;
  return call(
    "RATIO_CHOICES",
    lowestAtStage(reach),
    given(COMMON_KEYS.supplyVoltage, 2),
    given("galleyWindow", 0),
    given("galleyWindow", 1),
    given("ratioTolerance"),
    solved(STAGE, "outputCurrent"),
    given("ratioResistance"),
  );
}

export const riverFerry: BudgetScenario = {
  id: "river-ferry-hotel-loads",
  version: "1.2.0",
  title: "River ferry hotel loads",
  stem: "Ferry",
  story:
    "A traction pack of 168 cells, 504 to 706 V, feeds a ferry's hotel loads through a fixed ratio onto a bus of some 50 V.",
  inputs: riverFerryInputs,
  feed,
  handChecks,
  checks: (reach) =>
    protectionChecks(reach, {
      supply: PACK,
      fuse: FUSE,
      cable: CABLE,
      stage: STAGE,
    }),
  answers,
  remarks: [
    "The ratio 1/12 is deliberately tight: with the figures as inserted, a full pack with the tolerance comes within 0.6 V of 60 V. Answers shows the other ratio of Inputs, 1/14, beside it: it leaves room above and less below.",
    "The lighting and navigation stages are functionally isolated only: after one fault their outputs are counted at the bus's highest voltage.",
    "A charger on the pack may hold it above 4.2 V a cell for a moment; enter what it is allowed to reach as the highest voltage.",
    "The pack is taken as full at night, after charging, and as nominal at the quay and under way. Day solves each period; its price of energy is that of charging at the quay.",
  ],
};
