/** A random feed in which every check of an item has something to find, as it is typed in a feed table. */
import fc from "fast-check";
import type { Cell, CellTable } from "../../functions/cells.js";

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

export const figures = fc.record({
  lowest: between(300, 395),
  highest: between(405, 480),
  ohms: between(0.02, 0.4),
  least: fc.option(between(0.3, 1)),
  limit: fc.option(between(20, 400)),
  shutsDown: fc.option(between(30, 600)),
  shutsWithin: between(0.05, 8),
  fuse: between(0.001, 0.02),
  clears: between(10, 300),
  breaks: between(500, 20_000),
  fuseVolts: between(380, 520),
  cable: between(0.1, 2),
  cableVolts: between(380, 520),
  length: between(20, 400),
  size: fc.constantFrom("2.5 mm²", "4 mm²", "10 mm²"),
  outer: between(13, 22),
  insulation: fc.constantFrom("PVC" as const, "XLPE" as const),
  hottest: between(10, 55),
  coldest: between(-30, -1),
  altitude: between(1, 4000),
  ratio: fc.constantFrom(1 / 4, 1 / 8),
  inParallel: fc.constantFrom(2, 3),
  isolation: fc.constantFrom("basic", "reinforced"),
  spread: between(0.001, 0.02),
  tolerance: fc.constantFrom<0 | 0.02>(0, 0.02),
  busLimit: between(25, 120),
  branchFuse: between(0.001, 0.02),
  branchRated: between(5, 45),
  branchClears: between(20, 300),
  second: between(0.005, 0.1),
  loads: fc.array(between(5, 120), { minLength: 3, maxLength: 3 }),
  current: between(0.5, 8),
  holdLimit: between(5, 60),
  third: between(0.05, 0.5),
  oven: between(4, 40),
  micro: between(10, 4000),
  bleed: between(1000, 200_000),
  inductance: between(20, 400),
  access: fc.constantFrom("open", "locked"),
  ripple: between(0.1, 9),
  busRipple: fc.option(between(0.01, 2)),
  stageMass: between(1, 20),
  stagePrice: fc.option(between(50, 900)),
});

export type Figures = typeof figures extends fc.Arbitrary<infer T> ? T : never;

/** Cold cables have this part of their hot resistance. */
export const COLD = 0.8;

/** Of the bus's stage, in m. */
export const LOWER = 350;

export const HOLD_VOLTS = 12;

/** The cable lies in both. */
export const LOCATIONS = ["Hut", "Mast"] as const;

export const PLACES: Readonly<Record<string, readonly (typeof LOCATIONS)[number][]>> = {
  Supply: ["Hut"],
  Fuse: ["Hut"],
  Cable: ["Hut", "Mast"],
  Bus: ["Mast"],
  "Branch fuse": ["Mast"],
  Branch: ["Mast"],
  Camp: ["Mast"],
  Strings: ["Hut"],
  Hold: ["Mast"],
  "Oven cable": ["Mast"],
  Oven: ["Mast"],
};

/** All but those of the cable and the bus's stage, which are at random. */
export const MASSES = { Fuse: 0.2, "Branch fuse": 0.05, Branch: 0.4, Hold: 0.6, "Oven cable": 0.3 };
export const PRICES = {
  Supply: 300,
  Fuse: 12,
  Cable: 95,
  "Branch fuse": 3,
  Branch: 8,
  Hold: 60,
  "Oven cable": 7,
};

type Row = Readonly<Record<string, Cell>>;

/** A supply, a fused cable and a fixed ratio; behind it a fused branch, and a stage that holds its output for a heater. */
export function randomTable(f: Figures, cableMass: number): CellTable {
  const tolerance = f.tolerance === 0 ? "exact" : f.tolerance;
  const rows: Row[] = [
    {
      Item: "Supply",
      Kind: "supply",
      "Voltage (V)": 400,
      "Resistance (Ω)": f.ohms,
      "Least resistance (Ω)": f.least && f.ohms * f.least,
      "Lowest V": f.lowest,
      "Highest V": f.highest,
      "Rated A": 40,
      "Rated W": 9000,
      "Current limit A": f.limit,
      "Shuts down at A": f.shutsDown,
      "Within s": f.shutsWithin,
      "Ripple V rms": f.ripple,
    },
    {
      Item: "Fuse",
      "Fed from": "Supply",
      Kind: "series",
      "Resistance (Ω)": f.fuse,
      "Rated A": 25,
      "Rated V": f.fuseVolts,
      "In line kind": "fuse",
      "Clears at A": f.clears,
      "Within s": 0.4,
      "Clears near end s": 0.01,
      "Breaks A": f.breaks,
    },
    {
      Item: "Cable",
      "Fed from": "Fuse",
      Kind: "run",
      "Resistance (Ω)": f.cable,
      "Least resistance (Ω)": f.cable * COLD,
      "Length (m)": f.length,
      Size: f.size,
      "Outer diameter (mm)": f.outer,
      Insulation: f.insulation,
      "Altitude (m)": f.altitude,
      "Hottest (°C)": f.hottest,
      "Conductor at most (°C)": 70,
      "Rated A": 30,
      "Rated V": f.cableVolts,
      Tolerance: "exact",
      "Inductance (µH)": f.inductance,
      Access: f.access,
      "Mass (kg)": cableMass,
    },
    {
      Item: "Bus",
      "Fed from": "Cable",
      Kind: "ratio",
      Ratio: f.ratio,
      "Resistance (Ω)": 0.02,
      "Fixed loss (W)": 4,
      "In parallel": f.inParallel,
      "Units needed": f.inParallel - 1,
      "Lowest V": 250,
      "Highest V": 500,
      "Rated A": 20,
      Tolerance: tolerance,
      "Current limit A": f.busLimit,
      Isolation: f.isolation,
      "Set-point spread": f.spread,
      "Resistance spread": 0.1,
      "Input capacitance (µF)": f.micro,
      "Bleed (Ω)": f.bleed,
      "Hottest (°C)": f.hottest,
      "Full up to (°C)": 30,
      "Derating (1/K)": 0.02,
      "Highest (°C)": 80,
      "Coldest (°C)": f.coldest,
      "Altitude (m)": LOWER,
      "Lowest (°C)": -20,
      "Ripple V rms": f.busRipple,
      "Mass (kg)": f.stageMass,
      Price: f.stagePrice,
    },
    {
      Item: "Branch fuse",
      "Fed from": "Bus",
      Kind: "series",
      "Resistance (Ω)": f.branchFuse,
      "Rated A": f.branchRated,
      "Rated V": 80,
      "In line kind": "fuse",
      "Clears at A": f.branchClears,
      "Within s": 0.3,
      "Clears near end s": 0.01,
      "Breaks A": 100,
      Tolerance: "exact",
    },
    {
      Item: "Branch",
      "Fed from": "Branch fuse",
      Kind: "run",
      "Resistance (Ω)": f.second,
      "Least resistance (Ω)": f.second * COLD,
      Size: "4 mm²",
      "Conductor at most (°C)": 70,
      "Rated A": 25,
      "Rated V": 80,
      Tolerance: "exact",
    },
    {
      Item: "Camp",
      "Fed from": "Branch",
      Kind: "power load",
      "Light load": f.loads[0]!,
      Load: f.loads[1]!,
      "Peak load": f.loads[2]!,
      "Lowest V": 20,
      "Highest V": 140,
      Tolerance: "exact",
    },
    {
      Item: "Strings",
      "Fed from": "Bus",
      Kind: "current load",
      Load: f.current,
      Tolerance: "exact",
    },
    {
      Item: "Hold",
      "Fed from": "Bus",
      Kind: "regulated",
      "Voltage (V)": HOLD_VOLTS,
      "Resistance (Ω)": 0.01,
      Efficiency: 0.9,
      "Lowest V": 18,
      "Highest V": 100,
      "Rated A": 4,
      "Current limit A": f.holdLimit,
      Tolerance: tolerance,
      Isolation: "none",
      "Trip V": 15,
      "Ripple V rms": 0.05,
    },
    {
      Item: "Oven cable",
      "Fed from": "Hold",
      Kind: "run",
      "Resistance (Ω)": f.third,
      "Least resistance (Ω)": f.third * COLD,
      "Rated A": 10,
      Tolerance: "exact",
    },
    {
      Item: "Oven",
      "Fed from": "Oven cable",
      Kind: "resistance load",
      Load: f.oven,
      Tolerance: "exact",
    },
  ];
  const whole = rows.map((row): Row => {
    const item = String(row["Item"]);
    return {
      ...row,
      Price: row["Price"] ?? own(PRICES, item),
      "Mass (kg)": row["Mass (kg)"] ?? own(MASSES, item),
      Location: PLACES[item]!.join("; "),
    };
  });
  const headers = [...new Set(whole.flatMap((row) => Object.keys(row)))];
  return [headers, ...whole.map((row) => headers.map((header) => row[header] ?? ""))];
}

function own(figures: Readonly<Record<string, number>>, item: string): Cell {
  return figures[item] ?? "";
}
