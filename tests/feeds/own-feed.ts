/**
 * A feed of one's own beside a track: 750 V, 180 m of cable behind a fuse, three units side by side, stages from types,
 * six loads; figures invented. As text that is typed on the sheets, and as the budget in which it stands.
 */
import type { BudgetSample, ScheduleName, ScheduleRow } from "../../taskpane/budgets/sample.js";
import { blank } from "../../taskpane/budgets/samples/blank.js";

export type Typed = Readonly<Record<string, string>>;

/** By label. */
export const OWN_ASKED: Typed = {
  Framework: "IEC 60364-4-41",
  Place: "wet",
  "Load margin": "20%",
  "Largest drop of a cable": "5%",
  "Largest loading of a stage": "90%",
  "Units lost": "1",
};

/** Sheet, block, rows by their headings. */
export const OWN_SCHEDULES: readonly (readonly [string, ScheduleName, readonly Typed[]])[] = [
  [
    "Feed",
    "Supply",
    [
      {
        Supply: "Substation",
        Location: "Trackside",
        "Lowest V": "500",
        "Voltage (V)": "750",
        "Highest V": "900",
        "Resistance (Ω)": "0.4",
        "Rated A": "10",
      },
    ],
  ],
  [
    "Feed",
    "Stage",
    [
      {
        Stage: "Bus units",
        "Fed from": "Trackside cable",
        Location: "Trackside",
        Type: "Bus 16",
        "In parallel": "3",
        Tolerance: "2%",
        Isolation: "reinforced",
      },
      {
        Stage: "24 V stage",
        "Fed from": "Bus units",
        Location: "Trackside",
        Type: "24 V 10 A",
        Tolerance: "2%",
      },
      {
        Stage: "5 V stage",
        "Fed from": "Bus units",
        Location: "Trackside",
        Type: "5 V 10 A",
        Tolerance: "2%",
      },
    ],
  ],
  [
    "Feed",
    "Cable",
    [
      {
        Cable: "Trackside cable",
        "Fed from": "Track fuse",
        Location: "Trackside",
        "Length (m)": "180",
        Size: "4 mm²",
        "Conductor at most (°C)": "70",
      },
    ],
  ],
  [
    "Feed",
    "In line",
    [
      {
        "In line": "Track fuse",
        "Fed from": "Substation",
        Location: "Trackside",
        Kind: "fuse",
        "Resistance (mΩ)": "20",
        "Rated A": "4",
      },
    ],
  ],
  [
    "Loads",
    "Load",
    [
      {
        Load: "Point machines",
        "Fed from": "24 V stage",
        Kind: "power",
        Nominal: "150",
        Peak: "300",
      },
      {
        Load: "Interlocking",
        "Fed from": "24 V stage",
        Kind: "power",
        Nominal: "16",
        Peak: "22.4",
      },
      {
        Load: "Radio",
        "Fed from": "5 V stage",
        Kind: "power",
        Nominal: "10",
        Peak: "20",
      },
      {
        Load: "Axle counters",
        "Fed from": "5 V stage",
        Kind: "power",
        Nominal: "10",
        Peak: "10",
      },
      {
        Load: "Heater",
        "Fed from": "Bus units",
        Kind: "resistance",
        Nominal: "12",
      },
      {
        Load: "Signal lamps",
        "Fed from": "Bus units",
        Kind: "current",
        Nominal: "1.5",
      },
    ],
  ],
  [
    "Types",
    "Location",
    [
      {
        Location: "Trackside",
        "Coldest (°C)": "-25",
        "Hottest (°C)": "55",
        "Altitude (m)": "1500",
        Place: "wet",
        Access: "enclosed",
      },
    ],
  ],
  [
    "Types",
    "Stage type",
    [
      {
        "Stage type": "Bus 16",
        Kind: "ratio",
        "Steps down by": "16",
        "Lowest V": "500",
        "Highest V": "900",
        "Rated A": "15",
        "Resistance (mΩ)": "20",
        "Fixed loss (W)": "8",
      },
      {
        "Stage type": "24 V 10 A",
        Kind: "regulated",
        "Voltage (V)": "24",
        "Lowest V": "28",
        "Highest V": "60",
        "Rated A": "10",
        "Fixed loss (W)": "2",
        "Linear loss (W/A)": "0.1",
        "Quadratic loss (W/A²)": "0.02",
      },
      {
        "Stage type": "5 V 10 A",
        Kind: "regulated",
        "Voltage (V)": "5",
        "Lowest V": "28",
        "Highest V": "60",
        "Rated A": "10",
        Efficiency: "90%",
      },
    ],
  ],
];

function entered(text: string): number | string {
  if (/^-?[\d.]+%$/.test(text)) return Number(text.slice(0, -1)) / 100;
  return /^-?[\d.]+$/.test(text) ? Number(text) : text;
}

function rowOf(typed: Typed): ScheduleRow {
  return Object.fromEntries(
    // Only what stands in brackets at the end is a unit that the sheet's own heading has.
    Object.entries(typed).map(([header, text]) => [
      header.replace(/ \([^()]*\)$/, ""),
      entered(text),
    ]),
  );
}

export const ownFeed: BudgetSample = {
  ...blank,
  emptyRows: 2,
  document: { title: "Trackside hut 7" },
  asked: Object.fromEntries(
    Object.entries(OWN_ASKED).map(([label, text]) => [label, entered(text)]),
  ),
  schedules: Object.fromEntries(OWN_SCHEDULES.map(([, name, rows]) => [name, rows.map(rowOf)])),
};
