/** What the river ferry's budget assumes. All figures invented, but for those with a citation. */
import { COMMON_KEYS, type InputBlock } from "./budget-scenario.js";
import { dayBlocks } from "./day-lines.js";
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
  word,
} from "./input-lines.js";

const supply: readonly InputBlock[] = [
  {
    title: "Pack voltage",
    columns: ["Lowest", "Nominal", "Highest"],
    lines: [
      amount(
        COMMON_KEYS.supplyVoltage,
        "Traction pack, open circuit",
        [504, 630, 706],
        "V",
        "0",
        "assumed; 168 cells of 3.0, 3.75 and 4.2 V",
      ),
    ],
  },
  {
    title: "Pack and its fuse",
    columns: ["Value"],
    lines: [
      amount(
        "packResistance",
        "Resistance of the pack",
        [0.12],
        "Ω",
        "0.00",
        "assumed; cold, end of life",
      ),
      amount("packRated", "Rated current of the hotel feed", [16], "A", "0.0"),
      ...rippleLines(
        "supplyRipple",
        "the pack",
        [1.5],
        [3.5],
        "assumed, from the drives on it",
      ),
      amount(
        "fuseResistance",
        "Fuse and contactor, both poles",
        [0.012],
        "Ω",
        "0.000",
      ),
      amount("fuseRated", "Rated current of the fuse", [16], "A", "0.0"),
      amount(
        "busCapacitance",
        "Capacitance on the hotel feed",
        [0.0012],
        "F",
        "0.0000",
      ),
      amount(
        "bleedResistance",
        "Discharge resistor, switched in when the contactor opens",
        [1600],
        "Ω",
        "0",
      ),
    ],
  },
];

const cable: InputBlock = {
  title: "Cable from pack to hotel room",
  columns: ["Value"],
  lines: [
    amount("cableLength", "Route length, one way", [45], "m", "0"),
    conductorSize("cableSize", "4 mm²"),
    conductorBuild("cableBuild", "class 5"),
    conductorTemperature("cableTemperature", 60, "assumed; engine room"),
    coldestConductor(0, "assumed; laid up in winter"),
    amount(
      "cableRated",
      "Rated current of the cable",
      [27],
      "A",
      "0.0",
      "assumed; the rules of the ship's class govern",
    ),
    amount("cableMass", "Mass of the cable", [0.21], "kg/m", "0.00"),
    price("cablePrice", "Price of the cable, laid", [11], "per m", "0.00"),
  ],
};

const stages: readonly InputBlock[] = [
  {
    title: "Fixed-ratio stage in the hotel room",
    columns: ["Value"],
    lines: [
      amount(
        "ratioSteps",
        "Steps the voltage down by",
        [12],
        "to 1",
        "0",
        "assumed",
      ),
      amount(
        "otherSteps",
        "Another ratio to set beside it, steps down by",
        [14],
        "to 1",
        "0",
        "assumed; compared on Answers, not solved",
      ),
      amount(
        "ratioResistance",
        "Output resistance, hot",
        [0.012],
        "Ω",
        "0.000",
      ),
      amountOrNone("ratioFixed", "No-load loss", [22], "W", "0.0"),
      amount("ratioLowest", "Lowest input", [480], "V", "0", STAGE_WINDOW),
      amount("ratioHighest", "Highest input", [720], "V", "0", STAGE_WINDOW),
      amount("ratioRated", "Rated output current", [80], "A", "0"),
      ...rippleLines("ratioRipple", "its output", [0.1], [0.25]),
      share(
        "ratioTolerance",
        "Tolerance of the ratio",
        [0.01],
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
      amount("ratioMass", "Mass", [4.1], "kg", "0.0"),
      price("ratioPrice", "Price", [1400], "each", "0"),
    ],
  },
  {
    title: "Regulated stages on the hotel bus",
    columns: ["28 V", "24 V"],
    lines: [
      amount("stageVoltage", "Set point", [28, 24], "V", "0.0"),
      amount("stageLowest", "Lowest input", [33, 33], "V", "0", STAGE_WINDOW),
      amount("stageHighest", "Highest input", [60, 60], "V", "0", STAGE_WINDOW),
      amount("stageRated", "Rated output current", [40, 20], "A", "0"),
      amountOrNone("stageFixed", "Fixed loss", [6, 3], "W", "0.0"),
      amountOrNone(
        "stageLinear",
        "Loss per ampere of output",
        [0.4, 0.4],
        "W/A",
        "0.00",
      ),
      amountOrNone(
        "stageQuadratic",
        "Loss per ampere squared",
        [0.015, 0.02],
        "W/A²",
        "0.000",
      ),
      share(
        "stageTolerance",
        "Tolerance of the set point",
        [0.02, 0.02],
        numberFrom(0.0001, 0.5),
      ),
      word(
        "stageIsolation",
        "Isolation, input to output",
        ["functional", "functional"],
        anyIsolation,
        "assumed; functional isolation is not counted on in a fault",
      ),
      amount(
        "stageTrip",
        "Output stopped at, regulation lost",
        [33, 29],
        "V",
        "0.0",
        "assumed; overvoltage trip of the stage",
      ),
      ...rippleLines("stageRipple", "its output", [0.05, 0.04], [0.12, 0.1]),
      amount("stageMass", "Mass", [1.2, 0.7], "kg", "0.0"),
      price("stagePrice", "Price", [310, 190], "each", "0"),
    ],
  },
];

const loads: readonly InputBlock[] = [
  {
    title: "Loads before the margin",
    columns: ["Light", "Nominal", "Peak"],
    lines: [
      amountOrNone(
        "galley",
        "Galley and heating on the bus",
        [100, 900, 1500],
        "W",
        "0",
      ),
      amountOrNone("lighting", "Lighting, 28 V", [120, 420, 600], "W", "0"),
      amountOrNone("navigation", "Navigation, 24 V", [150, 180, 240], "W", "0"),
    ],
  },
  {
    title: "Voltage that the loads accept",
    columns: ["Lowest", "Highest"],
    lines: [
      amount(
        "galleyWindow",
        "Galley and heating on the bus",
        [34, 60],
        "V",
        "0.0",
      ),
      amount("lightingWindow", "Lighting, 28 V", [24, 30], "V", "0.0"),
      amount("navigationWindow", "Navigation, 24 V", [21.6, 26.4], "V", "0.0"),
    ],
  },
  ...dayBlocks(
    [
      { name: "Night", hours: 8, loads: "light", supply: "highest" },
      { name: "Quay", hours: 5, loads: "peak", supply: "nominal" },
      { name: "Under way", hours: 11, loads: "nominal", supply: "nominal" },
    ],
    0.28,
  ),
];

export const riverFerryInputs: readonly InputBlock[] = [
  SOLVED_CASE,
  requirements({
    framework: "IEC 62368-1",
    condition: "dry",
    conditionBasis: "inside the ship: dry",
    margin: 0.15,
    dropLimit: 0.03,
    altitude: 20,
    currency: "EUR",
  }),
  ...supply,
  cable,
  cableSurroundings({
    ambientC: 45,
    ambientBasis: "assumed; engine room",
    outerDiameterMm: 11.5,
    insulation: "XLPE",
    insulationLimitC: 90,
    grouping: 0.8,
    groupingBasis: "assumed; on a tray with others",
  }),
  fuseAndFaults({
    fuseVolts: 1000,
    blowingAmperes: 80,
    blowingSeconds: 5,
    clearingSeconds: 0.002,
    breakingAmperes: 20_000,
    leastSupplyResistance: 0.06,
    leastResistanceBasis: "assumed; pack new, full and warm",
    faultEndC: 250,
  }),
  chargeAndStability({
    capacitorResistance: 0.05,
    coreDiameterMm: 2.6,
    spacingMm: 4.2,
  }),
  ...stages,
  ...loads,
];
