/** A crawler on the harbour bed: 800 V from the quay through 300 m of thin umbilical, two fixed-ratio units. All data invented. */
import { call } from "../plans/sheet-builder.js";
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
} from "./budget-scenario.js";
import { powerLoadRow, rippleFigures } from "./feed-rows.js";
import { protectionChecks } from "./protection-checks.js";
import {
  harbourCrawlerInputs,
  sonarPointKeys,
} from "./harbour-crawler-inputs.js";

const QUAY = "Quay supply";
const RING = "Deck fuse and slip ring";
const UMBILICAL = "Umbilical";
const UNITS = "Ratio units";
const SONAR_STAGE = "Sonar stage";

type Given = InputReach["given"];

function feed({ given }: InputReach): FeedRowPlan[] {
  return [
    {
      item: QUAY,
      kind: "supply",
      figures: {
        voltage: given(COMMON_KEYS.supplyVoltage, 1),
        resistance: given("quayResistance"),
        lowest: given(COMMON_KEYS.supplyVoltage, 0),
        highest: given(COMMON_KEYS.supplyVoltage, 2),
        rated: given("quayRated"),
        ...rippleFigures("supplyRipple", given),
      },
    },
    {
      item: RING,
      fedFrom: QUAY,
      kind: "series",
      figures: {
        resistance: given("ringResistance"),
        rated: given("ringRated"),
      },
    },
    {
      item: UMBILICAL,
      fedFrom: RING,
      kind: "run",
      figures: {
        resistance: umbilicalResistance(given, given("cableSize")),
        rated: given("cableRated"),
      },
      mass: umbilicalMass(given, given("cableSize")),
      cost: `${given("cablePrice")}*${given("cableLength")}`,
    },
    {
      item: UNITS,
      fedFrom: UMBILICAL,
      kind: "ratio",
      figures: {
        resistance: given("ratioResistance"),
        ratio: `1/${given("ratioSteps")}`,
        fixedLoss: given("ratioFixed"),
        inParallel: given("unitCount"),
        lowest: given("ratioLowest"),
        highest: given("ratioHighest"),
        rated: given("ratioRated"),
        tolerance: given("ratioTolerance"),
        isolation: given("ratioIsolation"),
        ...rippleFigures("ratioRipple", given),
      },
      mass: `${given("ratioMass")}*${given("unitCount")}`,
      cost: `${given("ratioPrice")}*${given("unitCount")}`,
    },
    powerLoadRow("Thrusters", UNITS, "thrusters", given),
    powerLoadRow("Survey lights", UNITS, "lights", given),
    sonarStage(given),
    powerLoadRow("Sonar", SONAR_STAGE, "sonar", given),
  ];
}

/** Of both conductors, hot. */
function umbilicalResistance(given: Given, size: string): string {
  return call(
    "CONDUCTOR_RESISTANCE",
    given("cableLength"),
    size,
    given("cableTemperature"),
    '"copper"',
    given("cableBuild"),
  );
}

function umbilicalMass(given: Given, size: string): string {
  return call(
    "CONDUCTOR_MASS",
    given("cableLength"),
    size,
    '"copper"',
    "1",
    "2",
    given("cableOther"),
  );
}

function sonarStage(given: Given): FeedRowPlan {
  return {
    item: SONAR_STAGE,
    fedFrom: UNITS,
    kind: "regulated",
    figures: {
      voltage: given("sonarVoltage"),
      fixedLoss: given("sonarFixed"),
      linearLoss: given("sonarLinear"),
      quadraticLoss: given("sonarQuadratic"),
      lowest: given("sonarLowest"),
      highest: given("sonarHighest"),
      rated: given("sonarRated"),
      tolerance: given("sonarTolerance"),
      isolation: given("sonarIsolation"),
      trip: given("sonarTrip"),
      ...rippleFigures("sonarRipple", given),
    },
    mass: given("sonarMass"),
    cost: given("sonarPrice"),
  };
}

function handChecks(reach: BudgetReach): HandCheck[] {
  const { entered, solved, solvedSupplyVoltage } = reach;
  const current = solved(QUAY, "outputCurrent");
  const path = [QUAY, RING, UMBILICAL].map((item) =>
    entered(item, "resistance"),
  );
  return [
    {
      label: "Ratio units, input",
      how: "supply voltage less its current times the resistance of supply, slip ring and umbilical",
      byHand: `${solvedSupplyVoltage}-${current}*(${path.join("+")})`,
      solved: solved(UNITS, "inputVoltage"),
      unit: "V",
      format: "0.00",
    },
    {
      label: "Bus in the crawler",
      how: "input of the units times their ratio, less output current times output resistance over the units",
      byHand: `${solved(UNITS, "inputVoltage")}*${entered(UNITS, "ratio")}-${solved(UNITS, "outputCurrent")}*${entered(UNITS, "resistance")}/${entered(UNITS, "inParallel")}`,
      solved: solved(UNITS, "outputVoltage"),
      unit: "V",
      format: "0.00",
    },
    {
      label: "Loss in the umbilical",
      how: "supply current squared times the umbilical's resistance",
      byHand: `${current}^2*${entered(UMBILICAL, "resistance")}`,
      solved: solved(UMBILICAL, "loss"),
      unit: "W",
      format: "0.00",
    },
  ];
}

function checks(reach: CheckReach): CheckRow[] {
  return [
    ...protectionChecks(reach, {
      supply: QUAY,
      fuse: RING,
      cable: UMBILICAL,
      stage: UNITS,
      hasCurrentLimit: true,
    }),
    unitCheck(reach, "Share of the worst unit", reach.given("unitCount")),
    unitCheck(reach, "One unit lost", `MAX(1,${reach.given("unitCount")}-1)`),
  ];
}

/** What units differ by in voltage drives the more current, the less resistance there is; an empty cell is passed over. */
function leastUnitResistance(given: Given): string {
  return `MIN(${given("ratioResistance")},${given("ratioColdResistance")})`;
}

function unitCheck(
  { given, worst, entered }: CheckReach,
  check: "Share of the worst unit" | "One unit lost",
  units: string,
): CheckRow {
  const ratio = entered(UNITS, "ratio");
  return {
    check,
    item: UNITS,
    found: call(
      "PARALLEL_WORST",
      `${worst(UNITS, "Highest input A")}/${ratio}`,
      units,
      `${worst(UNITS, "Lowest input V")}*${ratio}`,
      given("unitMismatch"),
      leastUnitResistance(given),
      given("unitResistanceMismatch"),
    ),
    limit: given("ratioRated"),
    unit: "A",
    format: "0.0",
    how: "PARALLEL_WORST of the highest input current over the ratio, which counts the no-load current as load: on the safe side",
    taken: `IF(N(${given("ratioColdResistance")})=0,"with the hot output resistance, none is entered cold: cold units share worse",IF(${given("ratioColdResistance")}<${given("ratioResistance")},"with the cold output resistance: cold units share worse","with the hot output resistance, the lesser"))`,
  };
}

/** Sizes that an umbilical of this kind is made with. */
const SIZES = ["1 mm²", "1.5 mm²", "2.5 mm²", "4 mm²"];

function answers(reach: AnswerReach): AnswerTable[] {
  const { given, solved } = reach;
  const current = solved(UMBILICAL, "inputCurrent");
  return [
    {
      kind: "table",
      title: "Which umbilical: mass against loss, at the solved current",
      how: "Mass by CONDUCTOR_MASS, with all that is not conductor; drop and loss by CONDUCTOR_RESISTANCE and the umbilical's solved current, as if another size left the current as it is.",
      headings: ["Size", "Mass (kg)", "Drop (V)", "Loss (W)"],
      rows: SIZES.map((size) => ({
        label: size,
        values: [
          { formula: umbilicalMass(given, `"${size}"`), format: "0.0" },
          {
            formula: `${current}*${umbilicalResistance(given, `"${size}"`)}`,
            format: "0.0",
          },
          {
            formula: `${current}^2*${umbilicalResistance(given, `"${size}"`)}`,
            format: "0.0",
          },
        ],
      })),
    },
    {
      kind: "table",
      title: "Pull of the water on the umbilical",
      how: "Half the density times speed squared, times drag factor, diameter and length: as if all of it lay across the stream.",
      headings: ["Figure", "Value", "Unit"],
      rows: [
        {
          label: "Force, all of the length across the stream",
          values: [
            {
              formula: `0.5*${given("waterDensity")}*${given("waterSpeed")}^2*${given("dragFactor")}*${given("cableDiameter")}/1000*${given("cableLength")}`,
              format: "0",
            },
            { text: "N" },
          ],
        },
      ],
    },
    {
      kind: "table",
      title: "One of the units lost, at the solved load",
      how: "PARALLEL_WORST: the worst-placed unit carries this much, with set voltages and resistances as far apart as Inputs says of matched units, cold where a cold resistance is entered.",
      headings: ["Units left", "Worst unit (A)", "Rated (A)"],
      rows: [
        ["all", given("unitCount")],
        ["one fewer", `MAX(1,${given("unitCount")}-1)`],
      ].map(([label = "", count = ""]) => ({
        label,
        values: [
          {
            formula: call(
              "PARALLEL_WORST",
              solved(UNITS, "outputCurrent"),
              count,
              solved(UNITS, "outputVoltage"),
              given("unitMismatch"),
              leastUnitResistance(given),
              given("unitResistanceMismatch"),
            ),
            format: "0.0",
          },
          { formula: given("ratioRated"), format: "0" },
        ],
      })),
    },
    unitSharing(reach),
    sonarFit(reach),
  ];
}

/** One unit as high and as stiff as Inputs lets it be, beside one as low and as soft. */
function unitSharing({ given, solved, entered }: AnswerReach): AnswerTable {
  const setVoltage = `${solved(UNITS, "inputVoltage")}*${entered(UNITS, "ratio")}`;
  const current = solved(UNITS, "outputCurrent");
  return {
    kind: "table",
    title: "How two units share the solved load",
    how: "PARALLEL_SHARE: set voltage is the units' input times their ratio, no load; apart by what Inputs says units differ by.",
    headings: ["Unit", "Set (V)", "Resistance (Ω)", "Current (A)", "Share"],
    rows: ["+", "-"].map((sign, index) => {
      const share = (column: 1 | 2) => (area: (column: number) => string) =>
        `INDEX(${call("PARALLEL_SHARE", area(0), area(1), current)},${index + 1},${column})`;
      const stiffness = sign === "+" ? "-" : "+";
      return {
        label: sign === "+" ? "Unit that carries most" : "The other unit",
        values: [
          {
            formula: `${setVoltage}*(1${sign}${given("unitMismatch")})`,
            format: "0.00",
          },
          {
            formula: `${given("ratioResistance")}*(1${stiffness}${given("unitResistanceMismatch")})`,
            format: "0.0000",
          },
          { formula: share(1), format: "0.0" },
          { formula: share(2), format: "0.0%" },
        ],
      };
    }),
  };
}

/** Both are there to be compared; the budget is solved with what is entered. */
function sonarFit({ given }: AnswerReach): AnswerTable {
  const [first = "", last = ""] = [sonarPointKeys[0], sonarPointKeys.at(-1)];
  const points = (column: number) =>
    `${given(first, column)}:${given(last, column).replace(/^.*!/, "")}`;
  const fit = call("STAGE_FIT", given("sonarVoltage"), points(0), points(1));
  const formats = ["0.00", "0.000", "0.0000", "0.0%"];
  return {
    kind: "table",
    title: "Losses of the sonar's stage: entered, and fitted to its datasheet",
    how: "STAGE_FIT over the datasheet's points on Inputs; the last column is how far the fitted efficiency is off at most.",
    headings: ["Losses", "Fixed (W)", "Linear (V)", "Quadratic (Ω)", "Misfit"],
    rows: [
      {
        label: "Entered",
        values: ["sonarFixed", "sonarLinear", "sonarQuadratic"].map(
          (key, index) => ({
            formula: given(key),
            format: formats[index] ?? "",
          }),
        ),
      },
      {
        label: "Fitted",
        values: formats.map((format, index) => ({
          formula: `INDEX(${fit},1,${index + 1})`,
          format,
        })),
      },
    ],
  };
}

export const harbourCrawler: BudgetScenario = {
  id: "harbour-survey-crawler",
  version: "1.2.0",
  title: "Harbour survey crawler",
  stem: "Crawler",
  story:
    "800 V from the quay feed a crawler on the harbour bed through 300 m of thin umbilical and two fixed-ratio units in parallel.",
  inputs: harbourCrawlerInputs,
  feed,
  handChecks,
  checks,
  answers,
  remarks: [
    "Mass counts: the umbilical is dragged over the harbour bed and lifted over the quay. Answers sets its mass against drop and loss for four sizes.",
    "Either unit may be lost: with the figures as inserted, the one that is left carries about its whole rating at peak loads on the lowest supply, and a little more with the tolerances. Cases has the worst case of every item with one unit lost.",
    "What stays on the drum is cooled badly: its rating is that of the drum, not of still air or water.",
    "800 V in water: insulation monitoring and a cut-off for a damaged umbilical belong to the installation and are not in this budget.",
  ],
};
