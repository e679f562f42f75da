/** What the harbour survey crawler's budget assumes. All figures invented, but for those with a citation. */
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
        "Quay supply, open circuit",
        [760, 800, 840],
        "V",
        "0",
        "assumed; light load and regulation counted",
      ),
    ],
  },
  {
    title: "Supply, deck fuse and slip ring",
    columns: ["Value"],
    lines: [
      amount(
        "quayResistance",
        "Internal resistance of the supply",
        [0.4],
        "Ω",
        "0.00",
      ),
      amount("quayRated", "Rated current of the supply", [6], "A", "0.0"),
      ...rippleLines("supplyRipple", "the supply", [3], [7]),
      amount(
        "ringResistance",
        "Deck fuse and slip ring, both poles",
        [0.06],
        "Ω",
        "0.000",
      ),
      amount("ringRated", "Rated current of the slip ring", [8], "A", "0.0"),
      amount("fuseRated", "Rated current of the deck fuse", [6.3], "A", "0.0"),
    ],
  },
];

const umbilical: InputBlock = {
  title: "Umbilical from quay to crawler",
  columns: ["Value"],
  lines: [
    amount("cableLength", "Length paid out", [300], "m", "0"),
    conductorSize("cableSize", "1.5 mm²", "Size of each power conductor"),
    conductorBuild("cableBuild", "class 5"),
    conductorTemperature(
      "cableTemperature",
      45,
      "assumed; what stays on the drum in the sun",
    ),
    coldestConductor(-5, "assumed; on the quay in winter, no load"),
    amount(
      "cableRated",
      "Rated current of the umbilical",
      [8],
      "A",
      "0.0",
      "assumed; layers on the drum, not still air",
    ),
    amount(
      "cableOther",
      "Mass of all that is not power conductor",
      [0.115],
      "kg/m",
      "0.000",
      "assumed; fibres, strength member, jacket",
    ),
    price("cablePrice", "Price of the umbilical", [14], "per m", "0.00"),
    amount("cableDiameter", "Outer diameter", [12.5], "mm", "0.0"),
    amount("waterSpeed", "Speed of the water across it", [0.4], "m/s", "0.00"),
    amount(
      "dragFactor",
      "Drag factor of a cylinder",
      [1.2],
      "",
      "0.0",
      "common practice, no source",
    ),
    amount(
      "waterDensity",
      "Density of sea water",
      [1025],
      "kg/m³",
      "0",
      "common practice, no source",
    ),
  ],
};

const stages: readonly InputBlock[] = [
  {
    title: "Fixed-ratio units in the crawler, of one unit",
    columns: ["Value"],
    lines: [
      {
        key: "unitCount",
        label: "Units in parallel",
        values: [2],
        unit: "",
        basis: "assumed; either may be lost",
        format: "0",
        allowed: wholeFrom(1, 20),
      },
      amount("ratioSteps", "Steps the voltage down by", [16], "to 1", "0"),
      amount("ratioResistance", "Output resistance, hot", [0.03], "Ω", "0.000"),
      amount(
        "ratioColdResistance",
        "Output resistance, cold",
        [0.024],
        "Ω",
        "0.000",
        "assumed; just switched on, in cold water; may stay empty",
      ),
      amountOrNone("ratioFixed", "No-load loss", [11], "W", "0.0"),
      amount("ratioLowest", "Lowest input", [620], "V", "0", STAGE_WINDOW),
      amount("ratioHighest", "Highest input", [880], "V", "0", STAGE_WINDOW),
      amount("ratioRated", "Rated output current", [70], "A", "0"),
      ...rippleLines("ratioRipple", "its output", [0.15], [0.35]),
      share(
        "ratioTolerance",
        "Tolerance of the ratio",
        [0.01],
        numberFrom(0.0001, 0.5),
        "assumed; ± around the ratio, no load",
      ),
      share(
        "unitMismatch",
        "Units differ in ratio by",
        [0.002],
        numberFrom(0, 0.5),
        "assumed; matched units: nearer to each other than the tolerance",
      ),
      share(
        "unitResistanceMismatch",
        "Units differ in resistance by",
        [0.1],
        numberFrom(0, 0.9),
        "assumed; ± around the output resistance",
      ),
      word(
        "ratioIsolation",
        "Isolation, input to output",
        ["reinforced"],
        anyIsolation,
        "assumed; to be shown by the maker's certificate",
      ),
      amount("ratioMass", "Mass", [1.4], "kg", "0.0"),
      price("ratioPrice", "Price", [620], "each", "0"),
    ],
  },
  {
    title: "Regulated stage of the sonar",
    columns: ["Value"],
    lines: [
      amount("sonarVoltage", "Set point", [24], "V", "0.0"),
      amount("sonarLowest", "Lowest input", [36], "V", "0", STAGE_WINDOW),
      amount("sonarHighest", "Highest input", [60], "V", "0", STAGE_WINDOW),
      amount("sonarRated", "Rated output current", [8], "A", "0"),
      ...rippleLines("sonarRipple", "its output", [0.03], [0.08]),
      amountOrNone("sonarFixed", "Fixed loss", [2.2], "W", "0.0"),
      amountOrNone(
        "sonarLinear",
        "Loss per ampere of output",
        [0.4],
        "W/A",
        "0.00",
      ),
      amountOrNone(
        "sonarQuadratic",
        "Loss per ampere squared",
        [0.06],
        "W/A²",
        "0.000",
      ),
      share(
        "sonarTolerance",
        "Tolerance of the set point",
        [0.02],
        numberFrom(0.0001, 0.5),
      ),
      word(
        "sonarIsolation",
        "Isolation, input to output",
        ["functional"],
        anyIsolation,
        "assumed; functional isolation is not counted on in a fault",
      ),
      amount(
        "sonarTrip",
        "Output stopped at, regulation lost",
        [29],
        "V",
        "0.0",
        "assumed; overvoltage trip of the stage",
      ),
      amount("sonarMass", "Mass", [0.5], "kg", "0.0"),
      price("sonarPrice", "Price", [160], "each", "0"),
    ],
  },
];

/** Plausible, and with some rounding of the losses above, as a datasheet prints it. */
const SONAR_POINTS = [
  [24, 0.9],
  [48, 0.937],
  [96, 0.953],
  [144, 0.955],
  [192, 0.954],
] as const;

export const sonarPointKeys = SONAR_POINTS.map(
  (_, index) => `sonarPoint${index + 1}`,
);

const sonarPoints: InputBlock = {
  title: "Datasheet of the sonar's stage",
  columns: ["Output", "Efficiency"],
  lines: SONAR_POINTS.map((values, index) =>
    amount(
      sonarPointKeys[index] ?? "",
      `Point ${index + 1}`,
      values,
      "W, –",
      "0.0##",
    ),
  ),
};

const loads: readonly InputBlock[] = [
  {
    title: "Loads before the margin",
    columns: ["Light", "Nominal", "Peak"],
    lines: [
      amountOrNone("thrusters", "Thrusters", [120, 1400, 2400], "W", "0"),
      amountOrNone("lights", "Survey lights", [40, 240, 300], "W", "0"),
      amountOrNone("sonar", "Sonar, 24 V", [60, 100, 120], "W", "0"),
    ],
  },
  {
    title: "Voltage that the loads accept",
    columns: ["Lowest", "Highest"],
    lines: [
      amount("thrustersWindow", "Thrusters", [38, 58], "V", "0.0"),
      amount("lightsWindow", "Survey lights", [36, 58], "V", "0.0"),
      amount("sonarWindow", "Sonar, 24 V", [21.6, 26.4], "V", "0.0"),
    ],
  },
];

export const harbourCrawlerInputs: readonly InputBlock[] = [
  SOLVED_CASE,
  requirements({
    framework: "IEC 60364-4-41",
    condition: "wet",
    conditionBasis: "in the water and on a wet quay: wet",
    margin: 0.1,
    dropLimit: 0.08,
    altitude: 10,
    currency: "EUR",
    unitsLost: 1,
  }),
  ...supply,
  umbilical,
  cableSurroundings({
    ambientC: 35,
    ambientBasis: "assumed; on the drum in the shade",
    outerDiameterMm: 12.5,
    insulation: "XLPE",
    insulationLimitC: 90,
    grouping: 0.6,
    groupingBasis: "assumed; layers on the drum, which is not still air",
  }),
  fuseAndFaults({
    fuseVolts: 1000,
    blowingAmperes: 24,
    blowingSeconds: 5,
    clearingSeconds: 0.004,
    breakingAmperes: 10_000,
    leastSupplyResistance: 0.35,
    leastResistanceBasis: "assumed; before its current limit acts",
    faultEndC: 250,
    currentLimit: 30,
  }),
  ...stages,
  sonarPoints,
  chargeAndStability({
    capacitance: 0.0001,
    bleedResistance: 15000,
    capacitorResistance: 0.3,
    coreDiameterMm: 1.6,
    spacingMm: 3.2,
  }),
  ...loads,
];
