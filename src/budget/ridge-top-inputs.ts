/** What the ridge-top observatory's budget assumes. All figures invented, but for those with a citation. */
import { COMMON_KEYS, type InputBlock } from "./budget-scenario.js";
import {
  cableSurroundings,
  chargeAndStability,
  fuseAndFaults,
} from "./protection-inputs.js";
import {
  amount,
  amountOrNone,
  anyIsolation,
  coldestConductor,
  conductorBuild,
  conductorSize,
  conductorTemperature,
  numberFrom,
  price,
  requirements,
  rippleLines,
  share,
  SOLVED_CASE,
  STAGE_WINDOW,
  wholeFrom,
  word,
} from "./input-lines.js";

const supply: readonly InputBlock[] = [
  {
    title: "Supply voltage",
    columns: ["Lowest", "Nominal", "Highest"],
    lines: [
      amount(
        COMMON_KEYS.supplyVoltage,
        "Valley bus, open circuit",
        [360, 400, 440],
        "V",
        "0",
        "assumed; float charge, regeneration and light load counted",
      ),
    ],
  },
  {
    title: "Supply and its fuse",
    columns: ["Value"],
    lines: [
      amount(
        "busResistance",
        "Internal resistance of the bus",
        [0.3],
        "Ω",
        "0.00",
      ),
      amount("busRated", "Rated current of the bus", [8], "A", "0.0"),
      ...rippleLines("supplyRipple", "the bus", [2], [4.5]),
      amount(
        "fuseResistance",
        "Hut fuse and connectors, both poles",
        [0.02],
        "Ω",
        "0.000",
      ),
      amount("fuseRated", "Rated current of the hut fuse", [10], "A", "0.0"),
    ],
  },
];

const cable: InputBlock = {
  title: "Cable from hut to summit",
  columns: ["Value"],
  lines: [
    amount("cableLength", "Route length, one way", [350], "m", "0"),
    conductorSize("cableSize", "4 mm²"),
    conductorBuild("cableBuild", "class 2"),
    conductorTemperature(
      "cableTemperature",
      40,
      "assumed; buried, lightly loaded",
    ),
    coldestConductor(-20, "assumed; winter, no load"),
    {
      key: "cableCount",
      label: "Cables in parallel",
      values: [1],
      unit: "",
      basis: "assumed",
      format: "0",
      allowed: wholeFrom(1, 20),
    },
    amount(
      "cableRated",
      "Rated current of one cable",
      [25],
      "A",
      "0.0",
      "assumed; the installation tables of the local code govern",
    ),
    amount("cableMass", "Mass of one cable", [0.19], "kg/m", "0.00"),
    price("cablePrice", "Price of one cable, laid", [9.5], "per m", "0.00"),
  ],
};

const ratioStage: InputBlock = {
  title: "Fixed-ratio stage at the summit",
  columns: ["Value"],
  lines: [
    amount("ratioSteps", "Steps the voltage down by", [8], "to 1", "0"),
    amount("ratioResistance", "Output resistance, hot", [0.015], "Ω", "0.000"),
    amountOrNone("ratioFixed", "No-load loss", [18], "W", "0.0"),
    amount("ratioLowest", "Lowest input", [320], "V", "0", STAGE_WINDOW),
    amount("ratioHighest", "Highest input", [460], "V", "0", STAGE_WINDOW),
    amount("ratioRated", "Rated output current", [60], "A", "0"),
    ...rippleLines("ratioRipple", "its output", [0.15], [0.35]),
    share(
      "ratioTolerance",
      "Tolerance of the ratio",
      [0.02],
      numberFrom(0.0001, 0.5),
      "assumed; ± around the ratio, no load",
    ),
    word(
      "ratioIsolation",
      "Isolation, input to output",
      ["reinforced"],
      anyIsolation,
      "assumed; to be shown by the maker's certificate",
    ),
    amount("ratioMass", "Mass", [3.2], "kg", "0.0"),
    price("ratioPrice", "Price", [1150], "each", "0"),
  ],
};

const regulatedStages: InputBlock = {
  title: "Regulated stages on the 50 V bus",
  columns: ["24 V", "12 V", "5 V"],
  lines: [
    amount("stageVoltage", "Set point", [24, 12, 5], "V", "0.0"),
    amount("stageLowest", "Lowest input", [36, 36, 36], "V", "0", STAGE_WINDOW),
    amount(
      "stageHighest",
      "Highest input",
      [58, 58, 58],
      "V",
      "0",
      STAGE_WINDOW,
    ),
    amount("stageRated", "Rated output current", [15, 12, 12], "A", "0"),
    share(
      "stageTolerance",
      "Tolerance of the set point",
      [0.02, 0.02, 0.02],
      numberFrom(0.0001, 0.5),
    ),
    word(
      "stageIsolation",
      "Isolation, input to output",
      ["none", "functional", "none"],
      anyIsolation,
      "assumed; functional isolation is not counted on in a fault",
    ),
    amount(
      "stageTrip",
      "Output stopped at, regulation lost",
      [28, 14.5, 6],
      "V",
      "0.0",
      "assumed; overvoltage trip of the stage",
    ),
    ...rippleLines(
      "stageRipple",
      "its output",
      [0.04, 0.03, 0.02],
      [0.1, 0.08, 0.05],
    ),
    amount("stageMass", "Mass", [0.6, 0.4, 0.3], "kg", "0.0"),
    price("stagePrice", "Price", [180, 140, 95], "each", "0"),
  ],
};

/** The 5 V stage is known by one efficiency only, which is instead of the three losses. */
const stageLosses: readonly InputBlock[] = [
  {
    title: "Losses of the 24 V and 12 V stages",
    columns: ["24 V", "12 V"],
    lines: [
      amountOrNone("stageFixed", "Fixed", [3.5, 1.8], "W", "0.0"),
      amountOrNone(
        "stageLinear",
        "Per ampere of output",
        [0.3, 0.2],
        "W/A",
        "0.00",
      ),
      amountOrNone(
        "stageQuadratic",
        "Per ampere squared",
        [0.05, 0.03],
        "W/A²",
        "0.000",
      ),
    ],
  },
  {
    title: "Loss of the 5 V stage",
    columns: ["5 V"],
    lines: [
      share(
        "stageEfficiency",
        "Efficiency at its load",
        [0.9],
        numberFrom(0.3, 1),
        "assumed; one figure, so its light-load loss is not counted",
      ),
    ],
  },
];

const summitWiring: InputBlock = {
  title: "Wiring at the summit",
  columns: ["Value"],
  lines: [
    amount("branchLength", "24 V cable, route length one way", [15], "m", "0"),
    conductorSize("branchSize", "10 mm²", "24 V cable, size"),
    conductorBuild("branchBuild", "class 2", "24 V cable, build"),
    conductorTemperature(
      "branchTemperature",
      40,
      "assumed",
      "24 V cable, hottest",
    ),
    amount(
      "branchRated",
      "24 V cable, rated current",
      [40],
      "A",
      "0.0",
      "assumed; the installation tables of the local code govern",
    ),
    amount("branchMass", "24 V cable, mass", [0.31], "kg/m", "0.00"),
    price("branchPrice", "24 V cable, price", [6.5], "per m", "0.00"),
    amount(
      "plugResistance",
      "5 V connector, both poles",
      [0.005],
      "Ω",
      "0.000",
    ),
    amount("plugRated", "5 V connector, rated current", [12], "A", "0.0"),
  ],
};

const loads: readonly InputBlock[] = [
  {
    title: "Loads before the margin",
    columns: ["Light", "Nominal", "Peak"],
    lines: [
      amountOrNone(
        "drives",
        "Dome and mount drives",
        [120, 960, 1440],
        "W",
        "0",
      ),
      amountOrNone(
        "cameras",
        "Cameras and coolers, 24 V",
        [64, 192, 240],
        "W",
        "0",
      ),
      amountOrNone("computers", "Computers, 12 V", [48, 72, 96], "W", "0"),
      amountOrNone(
        "sensors",
        "Weather and sky sensors, 5 V",
        [24, 32, 40],
        "W",
        "0",
      ),
    ],
  },
  {
    title: "Voltage that the loads accept",
    columns: ["Lowest", "Highest"],
    lines: [
      amount("drivesWindow", "Dome and mount drives", [36, 58], "V", "0.0"),
      amount(
        "camerasWindow",
        "Cameras and coolers, 24 V",
        [21.6, 26.4],
        "V",
        "0.0",
      ),
      amount("computersWindow", "Computers, 12 V", [11.4, 12.6], "V", "0.0"),
      amount(
        "sensorsWindow",
        "Weather and sky sensors, 5 V",
        [4.75, 5.25],
        "V",
        "0.00",
      ),
    ],
  },
];

export const ridgeTopInputs: readonly InputBlock[] = [
  SOLVED_CASE,
  requirements({
    framework: "IEC 60364-4-41",
    condition: "wet",
    conditionBasis: "outdoors on a ridge: wet",
    margin: 0.25,
    dropLimit: 0.05,
    altitude: 2600,
    currency: "EUR",
    unitsLost: 1,
  }),
  ...supply,
  cable,
  cableSurroundings({
    ambientC: 30,
    ambientBasis: "assumed; ducts of the last metres, summer",
    outerDiameterMm: 12,
    insulation: "PVC",
    insulationLimitC: 70,
    grouping: 1,
    groupingBasis: "assumed; a cable alone",
  }),
  fuseAndFaults({
    fuseVolts: 500,
    blowingAmperes: 45,
    blowingSeconds: 5,
    clearingSeconds: 0.01,
    breakingAmperes: 10_000,
    leastSupplyResistance: 0.25,
    leastResistanceBasis: "assumed; battery new, full and warm",
    faultEndC: 160,
  }),
  ratioStage,
  chargeAndStability({
    capacitance: 0.00033,
    bleedResistance: 6800,
    capacitorResistance: 0.15,
    coreDiameterMm: 2.55,
    spacingMm: 4.2,
  }),
  regulatedStages,
  ...stageLosses,
  summitWiring,
  ...loads,
];
