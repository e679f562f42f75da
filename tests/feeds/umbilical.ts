/**
 * An umbilical of 1 kV with two stages one behind the other, typed from a practitioner's schedules. Its printed figures
 * come from a solver of his own, a damped sweep from no load, with the margin and without tolerances.
 */
import { askedFor, block, type PrintedCase, type TypedFeed } from "./typed-feed.js";

export interface UmbilicalChoice {
  /** Of the main stage. */
  readonly tolerance?: number | "exact";
  /** Main units running of 2. */
  readonly mainUnits?: number;
}

export function umbilical({ tolerance = 0.01, mainUnits = 2 }: UmbilicalChoice = {}): TypedFeed {
  return {
    blocks: [
      block(
        [
          "Supply",
          "Fed from",
          "Location",
          "Lowest V",
          "Voltage (V)",
          "Highest V",
          "Resistance (Ω)",
          "Rated W",
          "Current limit A",
          "Shuts down at A",
          "Within s",
        ],
        ["Topside supply", null, "Deck", 960, 1000, 1040, 0.5, 1200, 6, 5.5, 0.1],
      ),
      block(
        [
          "In line",
          "Fed from",
          "Location",
          "Kind",
          "Resistance (mΩ)",
          "Rated A",
          "Rated V",
          "Clears at A",
          "Within s",
        ],
        ["Topside fuse", "Topside supply", "Deck", "fuse", 30, 6, 1500, 25, 1],
        ["Slip ring", "Topside fuse", "Deck", "slip ring", 100, 10, 1500],
      ),
      block(
        [
          "Cable",
          "Fed from",
          "Location",
          "Length (m)",
          "Size",
          "Build",
          "Core Ω/km at 20 °C",
          "Conductor at most (°C)",
          "Rated V",
        ],
        ["Drum part", "Slip ring", "Deck", 200, null, null, 7.6, 70, 1000],
        ["Sea part", "Drum part", "Sea", 2800, null, null, 7.6, 10, 1000],
        ["Jumper", "Main stage", "Sea", 120, "4 mm²", "class 5", null, 15, 300],
      ),
      block(
        [
          "Stage",
          "Fed from",
          "Location",
          "Type",
          "In parallel",
          "Units needed",
          "Tolerance",
          "Isolation",
        ],
        ["Main stage", "Sea part", "Sea", "Main 10", mainUnits, 1, tolerance, "reinforced"],
        ["Frame 24 V", "Main stage", "Sea", "24 V 15 A", 1, 1],
        ["Node 24 V", "Jumper", "Sea", "24 V 10 A", 1, 1],
      ),
      block(
        [
          "Stage type",
          "Kind",
          "Steps down by",
          "Voltage (V)",
          "Lowest V",
          "Highest V",
          "Rated A",
          "Resistance (mΩ)",
          "Fixed loss (W)",
          "Linear loss (W/A)",
          "Quadratic loss (W/A²)",
          "Efficiency",
          "Input capacitance (µF)",
        ],
        ["Main 10", "ratio", 10, null, 800, 1100, 12, 20, 12, null, null, null, 20],
        ["24 V 15 A", "regulated", null, 24, 70, 115, 15, null, 2.5, 0.12, 0.015],
        ["24 V 10 A", "regulated", null, 24, 70, 115, 10, null, null, null, null, 0.9],
      ),
      block(
        [
          "Load",
          "Fed from",
          "Location",
          "Kind",
          "Light",
          "Nominal",
          "Peak",
          "Lowest V",
          "Highest V",
        ],
        ["Hydraulics control", "Frame 24 V", "Sea", "power", 60, 120, 180, 22, 27],
        ["Valves", "Frame 24 V", "Sea", "power", 0, 10, 80, 22, 27],
        ["Lights", "Main stage", "Sea", "power", 0, 300, 300, 85, 110],
        ["Sonar", "Node 24 V", "Sea", "power", 0, 80, 160, 22, 27],
        ["Instruments", "Node 24 V", "Sea", "power", 30, 55, 55, 22, 27],
      ),
      block(
        ["Location", "Coldest (°C)", "Hottest (°C)", "Altitude (m)", "Place", "Access"],
        ["Deck", -10, 45, 0, "immersed"],
        ["Sea", 4, 10, 0, "immersed"],
      ),
    ],
    askedFor: askedFor({
      Place: "immersed",
      "Load margin": 0.15,
      "Far-end fault cleared within": 1,
    }),
  };
}

/** Loops as printed, Ω. */
export const UMBILICAL_LOOPS = {
  "Drum part": "3.637360",
  "Sea part": "40.887392",
  Jumper: "1.164656",
} as const;

type Three = readonly [string, string, string];

function printed(
  loads: PrintedCase["loads"],
  loadPower: string,
  supplyPower: Three,
  mainIn: Three,
  mainOut: Three,
  nodeIn: Three,
): PrintedCase[] {
  return (["lowest", "nominal", "highest"] as const).map((supply, at) => ({
    loads,
    supply,
    supplyPower: supplyPower[at]!,
    loadPower,
    items: [
      ["Main stage", "Input V", mainIn[at]!],
      ["Main stage", "Output A", mainOut[at]!],
      ["Node 24 V", "Input V", nodeIn[at]!],
    ],
  }));
}

/** Survival (light), Operation (nominal), Peak. */
export const UMBILICAL_PRINTED: readonly PrintedCase[] = [
  ...printed(
    "light",
    "103.5",
    ["135.404", "135.316", "135.239"],
    ["953.631", "993.890", "1034.128"],
    ["1.1588", "1.1117", "1.0683"],
    ["94.881", "98.927", "102.969"],
  ),
  ...printed(
    "nominal",
    "649.75",
    ["725.395", "722.784", "720.502"],
    ["925.880", "967.363", "1008.717"],
    ["7.2970", "6.9797", "6.6900"],
    ["90.290", "94.541", "98.771"],
  ),
  ...printed(
    "peak",
    "891.25",
    ["1011.740", "1006.131", "1001.272"],
    ["912.412", "954.568", "996.527"],
    ["10.2759", "9.8099", "9.3868"],
    ["87.481", "91.876", "96.234"],
  ),
];

/** At peak and lowest supply. */
export const UMBILICAL_AT_WORST = {
  supplyCurrent: "1.0539",
  mainOutputVoltage: "91.138",
  frameCurrent: "12.458",
  nodeCurrent: "10.302",
  headroom: "3.592",
  /** One main unit lost: less power than before, since one fixed loss is gone. */
  oneLost: {
    supplyPower: "999.616",
    mainOutputVoltage: "91.093",
    mainOutputCurrent: "10.281",
  },
} as const;
