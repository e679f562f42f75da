/**
 * A trackside cabinet on a traction line of 750 V, typed from a practitioner's schedules. Its printed figures come from
 * a solver of his own, a damped sweep from no load, with the margin and without tolerances.
 */
import type { Cell } from "../../functions/cells.js";
import { askedFor, block, type PrintedCase, type TypedFeed } from "./typed-feed.js";

export interface TracksideChoice {
  /** On a cold night the heater draws 200 W; the columns of all other modes have none. */
  readonly heater?: "off" | "on";
  /** Of the bus units. */
  readonly tolerance?: number | "exact";
  readonly pointSize?: string;
  /** Running at once; an interlock allows 2 of the 4. */
  readonly pointMachines?: number;
}

export function trackside({
  heater = "off",
  tolerance = 0.02,
  pointSize = "6 mm²",
  pointMachines = 2,
}: TracksideChoice = {}): TypedFeed {
  const heats: readonly Cell[] = heater === "on" ? ["none", 200, "none"] : [0, 0, 0];
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
          "Rated A",
          "Basis",
        ],
        [
          "Traction tap",
          null,
          "Hut",
          500,
          750,
          900,
          0.05,
          25,
          "750 V traction (1000 V for 5 min, from memory)",
        ],
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
          "Breaks A",
        ],
        ["Hut fuse", "Traction tap", "Hut", "fuse", 10, 16, 1000, 80, 0.4, 10000],
        ["Cabinet isolator", "Trackside cable", "Cabinet", "isolator", 4, 25, 1000],
      ),
      block(
        ["Cable", "Fed from", "Location", "Length (m)", "Size", "Build", "Conductor at most (°C)"],
        ["Trackside cable", "Hut fuse", "Hut; Track; Cabinet", 850, "10 mm²", "class 2", 60],
        ["Point cable", "Cabinet bus", "Cabinet; Track", 22, pointSize, "class 5 tinned", 60],
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
        ["Cabinet bus", "Cabinet isolator", "Cabinet", "Bus 16", 3, 2, tolerance, "reinforced"],
        ["24 V logic", "Cabinet bus", "Cabinet", "24 V 15 A", 1, 1],
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
        ],
        ["Bus 16", "ratio", 16, null, 480, 920, 30, 20, 8],
        ["24 V 15 A", "regulated", null, 24, 28, 60, 15, null, 2, 0.1, 0.02],
      ),
      block(
        [
          "Load",
          "Fed from",
          "Location",
          "Kind",
          "Rated V",
          "Quantity",
          "Light",
          "Nominal",
          "Peak",
          "Lowest V",
          "Highest V",
        ],
        ["Point machines", "Point cable", "Track", "power", null, pointMachines, 0, 0, 350, 24, 60],
        ["Interlocking", "24 V logic", "Cabinet", "power", null, 1, 90, 110, 130, 21.6, 28],
        ["Radio", "24 V logic", "Cabinet", "power", null, 1, 15, 45, 90, 21.6, 28],
        ["Axle counters", "24 V logic", "Track", "power", null, 4, 6, 6, 6, 21.6, 28],
        ["Signal LEDs", "24 V logic", "Track", "current", null, 1, 0.6, 1.2, 1.2],
        ["Cabinet heater", "Cabinet bus", "Cabinet", "heater", 48, 1, ...heats],
      ),
      block(
        ["Location", "Coldest (°C)", "Hottest (°C)", "Altitude (m)", "Place", "Access"],
        ["Hut", -25, 55, 1500, "wet", "locked"],
        ["Track", -25, 55, 1500, "wet", "enclosed"],
        ["Cabinet", -25, 55, 1500, "wet", "locked"],
      ),
    ],
    askedFor: askedFor({
      Place: "wet",
      "Load margin": 0.2,
      "Far-end fault cleared within": 0.4,
    }),
  };
}

/** Loops as printed, Ω. */
export const TRACKSIDE_LOOPS = {
  "Trackside cable": "3.600049",
  "Point cable": "0.172608",
} as const;

function printed(
  loads: PrintedCase["loads"],
  supply: PrintedCase["supply"],
  supplyPower: string,
  loadPower: string,
  busIn: string,
  busOut: string,
  ...more: PrintedCase["items"]
): PrintedCase {
  return {
    loads,
    supply,
    supplyPower,
    loadPower,
    items: [["Cabinet bus", "Input V", busIn], ["Cabinet bus", "Output V", busOut], ...more],
  };
}

/** Light, Normal (nominal) and Points moving (peak), heater off. */
export const TRACKSIDE_PRINTED: readonly PrintedCase[] = [
  printed("light", "lowest", "200.628", "172.080", "498.530", "31.120"),
  printed("nominal", "lowest", "280.156", "249.360", "497.947", "31.067"),
  printed("nominal", "nominal", "279.264", "249.360", "748.636", "46.753"),
  printed("nominal", "highest", "279.047", "249.360", "898.864", "56.149"),
  printed(
    "peak",
    "lowest",
    "1448.969",
    "1167.360",
    "489.382",
    "30.282",
    ["Traction tap", "Output A", "2.8979"],
    ["Cabinet bus", "Output A", "45.582"],
    ["Point cable", "Output A", "34.538"],
    ["Point machines", "Input V", "24.321"],
    ["24 V logic", "Output A", "13.640"],
  ),
  printed("peak", "nominal", "1279.992", "1167.360", "743.747", "46.306"),
  printed("peak", "highest", "1251.983", "1167.360", "894.903", "55.786"),
];

/** The nominal column with the heater on. */
export const TRACKSIDE_COLD: readonly PrintedCase[] = [
  printed("nominal", "lowest", "381.663", "349.457", "497.203", "30.999"),
  printed("nominal", "nominal", "507.648", "476.062", "747.520", "46.651"),
];

/** Greatest multiple of all loads at peak and lowest supply. */
export const TRACKSIDE_HEADROOM = "1.4665";

/** Points moving at the lowest supply with another point cable: Ω/km of its core, volts at the machines, headroom. */
export const TRACKSIDE_THICKER = {
  "two at once, 16 mm²": { machines: "28.531", headroom: "3.261" },
  "four at once, 10 mm²": { machines: "21.680" },
  "four at once, 16 mm²": { machines: "25.449" },
} as const;
