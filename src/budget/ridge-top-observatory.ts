/** A DC bus in a valley hut, 350 m of cable, one fixed-ratio stage and four loads on a ridge. All data invented. */
import { call } from "../plans/sheet-builder.js";
import {
  type BudgetReach,
  type BudgetScenario,
  COMMON_KEYS,
  type FeedRowPlan,
  type HandCheck,
  type InputReach,
} from "./budget-scenario.js";
import { powerLoadRow, rippleFigures } from "./feed-rows.js";
import { protectionChecks } from "./protection-checks.js";
import { ridgeTopInputs } from "./ridge-top-inputs.js";

const BUS = "Valley bus";
const FUSE = "Hut fuse and connectors";
const CABLE = "Cable to the summit";
const STAGE = "Summit stage";
const CAMERA_STAGE = "24 V stage";
const CAMERA_CABLE = "24 V cable";
const COMPUTER_STAGE = "12 V stage";
const SENSOR_STAGE = "5 V stage";
const SENSOR_PLUG = "5 V connector";

type Given = InputReach["given"];

function trunk(given: Given): FeedRowPlan[] {
  return [
    {
      item: BUS,
      kind: "supply",
      figures: {
        voltage: given(COMMON_KEYS.supplyVoltage, 1),
        resistance: given("busResistance"),
        lowest: given(COMMON_KEYS.supplyVoltage, 0),
        highest: given(COMMON_KEYS.supplyVoltage, 2),
        rated: given("busRated"),
        ...rippleFigures("supplyRipple", given),
      },
    },
    {
      item: FUSE,
      fedFrom: BUS,
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
        resistance: resistanceOf("cable", given),
        inParallel: given("cableCount"),
        rated: given("cableRated"),
      },
      mass: `${given("cableMass")}*${given("cableLength")}*${given("cableCount")}`,
      cost: `${given("cablePrice")}*${given("cableLength")}*${given("cableCount")}`,
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
  ];
}

/** Of both conductors, hot. */
function resistanceOf(run: "cable" | "branch", given: Given): string {
  return call(
    "CONDUCTOR_RESISTANCE",
    given(`${run}Length`),
    given(`${run}Size`),
    given(`${run}Temperature`),
    '"copper"',
    given(`${run}Build`),
  );
}

function regulatedStage(
  item: string,
  column: number,
  given: Given,
): FeedRowPlan {
  const byLosses = column < 2;
  return {
    item,
    fedFrom: STAGE,
    kind: "regulated",
    figures: {
      voltage: given("stageVoltage", column),
      ...(byLosses
        ? {
            fixedLoss: given("stageFixed", column),
            linearLoss: given("stageLinear", column),
            quadraticLoss: given("stageQuadratic", column),
          }
        : { efficiency: given("stageEfficiency") }),
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

function branches(given: Given): FeedRowPlan[] {
  return [
    powerLoadRow("Dome and mount drives", STAGE, "drives", given),
    regulatedStage(CAMERA_STAGE, 0, given),
    {
      item: CAMERA_CABLE,
      fedFrom: CAMERA_STAGE,
      kind: "run",
      figures: {
        resistance: resistanceOf("branch", given),
        rated: given("branchRated"),
      },
      mass: `${given("branchMass")}*${given("branchLength")}`,
      cost: `${given("branchPrice")}*${given("branchLength")}`,
    },
    powerLoadRow("Cameras and coolers", CAMERA_CABLE, "cameras", given),
    regulatedStage(COMPUTER_STAGE, 1, given),
    powerLoadRow("Computers", COMPUTER_STAGE, "computers", given),
    regulatedStage(SENSOR_STAGE, 2, given),
    {
      item: SENSOR_PLUG,
      fedFrom: SENSOR_STAGE,
      kind: "series",
      figures: {
        resistance: given("plugResistance"),
        rated: given("plugRated"),
      },
    },
    powerLoadRow("Weather and sky sensors", SENSOR_PLUG, "sensors", given),
  ];
}

function handChecks(reach: BudgetReach): HandCheck[] {
  const { given, entered, solved, solvedSupplyVoltage } = reach;
  const current = solved(BUS, "outputCurrent");
  const path = [BUS, FUSE].map((item) => entered(item, "resistance"));
  const cable = `${entered(CABLE, "resistance")}/${entered(CABLE, "inParallel")}`;
  return [
    {
      label: "Summit stage, input",
      how: "supply voltage less its current times the resistance of bus, fuse and cable",
      byHand: `${solvedSupplyVoltage}-${current}*(${[...path, cable].join("+")})`,
      solved: solved(STAGE, "inputVoltage"),
      unit: "V",
      format: "0.00",
    },
    {
      label: "50 V bus",
      how: "stage input times its ratio, less output current times output resistance",
      byHand: `${solved(STAGE, "inputVoltage")}*${entered(STAGE, "ratio")}-${solved(STAGE, "outputCurrent")}*${entered(STAGE, "resistance")}`,
      solved: solved(STAGE, "outputVoltage"),
      unit: "V",
      format: "0.00",
    },
    {
      label: "Loss in the cable",
      how: "CONDUCTOR_LOSS of the current in one cable, times the cables in parallel",
      byHand: `${call("CONDUCTOR_LOSS", `${current}/${given("cableCount")}`, given("cableLength"), given("cableSize"), given("cableTemperature"), '"copper"', given("cableBuild"))}*${given("cableCount")}`,
      solved: solved(CABLE, "loss"),
      unit: "W",
      format: "0.00",
    },
    {
      label: "Summit stage, loss",
      how: "no-load loss and output current squared times output resistance",
      byHand: `${entered(STAGE, "fixedLoss")}+${solved(STAGE, "outputCurrent")}^2*${entered(STAGE, "resistance")}`,
      solved: solved(STAGE, "loss"),
      unit: "W",
      format: "0.00",
    },
  ];
}

export const ridgeTopObservatory: BudgetScenario = {
  id: "ridge-top-observatory",
  version: "1.2.0",
  title: "Ridge-top observatory",
  stem: "Ridge",
  story:
    "A 400 V bus in a valley hut feeds the electronics of an observatory 350 m up the ridge.",
  inputs: ridgeTopInputs,
  feed: ({ given }) => [...trunk(given), ...branches(given)],
  handChecks,
  checks: (reach) =>
    protectionChecks(reach, {
      supply: BUS,
      fuse: FUSE,
      cable: CABLE,
      stage: STAGE,
      cables: reach.given("cableCount"),
    }),
  remarks: [
    "The 24 V, 12 V and 5 V stages are not isolated, or only functionally: after one fault their outputs are counted at the 50 V bus's highest voltage, whatever they trip at.",
    "The 5 V stage is entered by one efficiency, the others by three losses: CHAIN_SOLVE notes that the light-load loss of an efficiency is not counted.",
    "With the figures as inserted, the 50 V bus reaches 56.1 V at no load. Outdoors that is above what may be touched bare, so it needs an enclosure however well it is isolated from the valley.",
  ],
};
