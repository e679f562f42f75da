/** The pumps of a quarry at the end of a cable, with two voltages to choose from; figures invented. */
import { askedFor, block, type TypedFeed } from "../feeds/typed-feed.js";
import type { Cell } from "../../functions/cells.js";
import type { CellChange, TypedVariation } from "../../functions/tradeoffs/varied-blocks.js";

/** The requirements that a shorter list leaves open are not asked. */
export function quarry(own: Readonly<Record<string, Cell>> = {}): TypedFeed {
  return {
    blocks: [
      block(
        [
          "Supply",
          "Location",
          "Lowest V",
          "Voltage (V)",
          "Highest V",
          "Resistance (Ω)",
          "Rated A",
          "Price",
        ],
        ["Mains rectifier", "Shed", 370, 400, 430, 0.2, 15, 900],
      ),
      block(
        [
          "Cable",
          "Fed from",
          "Location",
          "Length (m)",
          "Size",
          "Build",
          "Conductor at most (°C)",
          "Rated A",
          "Rated V",
          "Mass (kg/m)",
          "Price per m",
        ],
        [
          "Pit cable",
          "Mains rectifier",
          "Shed; Pit",
          320,
          "2.5 mm²",
          "class 5",
          60,
          20,
          1000,
          0.16,
          3.1,
        ],
        ["Pump lead", "Pump stage", "Pit", 20, "35 mm²", "class 5", 60, 110, 1000, 0.9, 16],
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
        ["Pump stage", "Pit cable", "Pit", "8 to 1", 2, 1, 0.01, "reinforced"],
      ),
      block(
        [
          "Stage type",
          "Kind",
          "Steps down by",
          "Lowest V",
          "Highest V",
          "Rated A",
          "Resistance (mΩ)",
          "Fixed loss (W)",
          "Mass (kg)",
          "Volume (cm³)",
          "Price",
        ],
        ["8 to 1", "ratio", 8, 300, 450, 45, 14, 9, 1.9, 900, 310],
        ["16 to 1", "ratio", 16, 560, 860, 45, 16, 14, 2.6, 1500, 640],
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
        ["Pumps", "Pump lead", "Pit", "power", 60, 1100, 1600, 36, 58],
      ),
      block(
        ["Location", "Coldest (°C)", "Hottest (°C)", "Altitude (m)", "Place", "Access"],
        ["Shed", -10, 40, 300, "dry", "locked"],
        ["Pit", -10, 40, 300, "wet", "enclosed"],
      ),
    ],
    askedFor: askedFor({
      Place: "wet",
      "Load margin": 0.1,
      "Largest drop of a cable": 0.08,
      "Largest drop of a voltage level": 0.08,
      "Largest loading of a cable": 1,
      "Spare capacity of the supply": "not asked",
      "Units lost": 0,
      ...own,
    }),
  };
}

function cell(block: CellChange["block"], row: string, header: string, value: Cell): CellChange {
  return { block, row, header, value };
}

/** 750 V costs more at the supply, and has stages of its own that cost more too. */
export const VOLTAGES: TypedVariation = {
  name: "Voltage of Mains rectifier",
  choices: [
    [400, 370, 430, 900],
    [750, 700, 800, 1500],
  ].map(([voltage, lowest, highest, price]) => ({
    name: `${voltage} V`,
    cells: [
      cell("Supply", "Mains rectifier", "Voltage", voltage!),
      cell("Supply", "Mains rectifier", "Lowest V", lowest!),
      cell("Supply", "Mains rectifier", "Highest V", highest!),
      cell("Supply", "Mains rectifier", "Price", price!),
    ],
  })),
};

/** Each size with what a metre weighs and costs. */
export const SIZES: TypedVariation = {
  name: "Size of Pit cable",
  choices: (
    [
      ["1.5 mm²", 15, 0.12, 2.2],
      ["2.5 mm²", 20, 0.16, 3.1],
      ["4 mm²", 27, 0.22, 4.6],
      ["6 mm²", 34, 0.3, 6.5],
      ["10 mm²", 47, 0.47, 10.2],
    ] as const
  ).map(([size, rated, mass, price]) => ({
    name: size,
    cells: [
      cell("Cable", "Pit cable", "Size", size),
      cell("Cable", "Pit cable", "Rated A", rated),
      cell("Cable", "Pit cable", "Mass", mass),
      cell("Cable", "Pit cable", "Price per m", price),
    ],
  })),
};

export const TYPES: TypedVariation = {
  name: "Type of Pump stage",
  choices: ["8 to 1", "16 to 1"].map((type) => ({
    name: type,
    cells: [cell("Stage", "Pump stage", "Type", type)],
  })),
};

export const UNITS: TypedVariation = {
  name: "In parallel of Pump stage",
  choices: [1, 2, 3].map((units) => ({
    name: String(units),
    cells: [cell("Stage", "Pump stage", "In parallel", units)],
  })),
};
