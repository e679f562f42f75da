/** The hotel loads of a river ferry: from its traction pack through a fixed ratio onto a bus of some 50 V. All data invented. */
import { INVENTED } from "../cautions.js";
import type { BudgetSample } from "../sample.js";
import { ASKED_ALIKE } from "./asked.js";
import { ferryAnswers, OTHER_RATIO } from "./river-ferry-answers.js";
import { textTable } from "./text-table.js";

export const riverFerry: BudgetSample = {
  id: "river-ferry-hotel-loads",
  version: "2.0.0",
  stem: "Ferry",
  document: { title: "River ferry hotel loads" },
  story:
    "A traction pack of 168 cells, 504 to 706 V, feeds a ferry's hotel loads through a fixed ratio onto a bus of some 50 V.",
  origin: INVENTED,
  emptyRows: 0,
  asked: {
    ...ASKED_ALIKE,
    Framework: "IEC 62368-1",
    Place: { value: "dry", citation: "inside the ship" },
    "Load margin": { value: 0.15, citation: "growth and ageing" },
    "Largest drop of a cable": 0.03,
    "Units lost": 0,
    "Conductor at the end of a fault": { value: 250, citation: "XLPE" },
  },
  schedules: {
    Supply: textTable(`
Supply        | Location    | Lowest V | Voltage | Highest V | Resistance | Least resistance | Rated A | Ripple V rms | Ripple V peak | Basis
Traction pack | Engine room | 504      | 630     | 706       | 0.12       | 0.06             | 16      | 1.5          | 3.5           | assumed; 168 cells of 3.0, 3.75 and 4.2 V; resistance cold, end of life, and new, full and warm; ripple from the drives on it
`),
    Stage: textTable(`
Stage       | Fed from                | Location   | Type       | Tolerance | Overvoltage trip | Bleed | Basis
Hotel stage | Cable to the hotel room | Hotel room | 630 V to 52.5 V, 80 A | 0.01      |                  | 1600  | assumed; ± around the ratio, no load; resistor switched in when the contactor opens
28 V stage  | Hotel stage             | Hotel room | 28 V, 40 A | 0.02      | 33               |       | assumed; overvoltage trip of the stage
24 V stage  | Hotel stage             | Hotel room | 24 V, 20 A | 0.02      | 29               |       | assumed; overvoltage trip of the stage
`),
    Cable: textTable(`
Cable                   | Fed from           | Location                | Length | Size  | Build   | Conductor at most | Outer diameter | Insulation | Grouping | Rated A | Rated V | Core spacing | Mass | Price per m | Basis
Cable to the hotel room | Fuse and contactor | Engine room; Hotel room | 45     | 4 mm² | class 5 | 60                | 11.5           | XLPE       | 0.8      | 27      | 1000    | 4.2          | 0.21 | 11          | assumed; on a tray with others. Rated A: the rules of the ship's class govern
`),
    "In line": textTable(`
In line            | Fed from      | Location    | Kind | Resistance | Rated A | Rated V | Clears at A | Within s | Clears near end s | Breaks A | Basis
Fuse and contactor | Traction pack | Engine room | fuse | 12         | 16      | 1000    | 80          | 5        | 0.002             | 20000    | assumed; from the curve of the fuse
`),
    Load: textTable(`
Load               | Fed from    | Location   | Kind  | Light | Nominal | Peak | Lowest V | Highest V | Basis
Galley and heating | Hotel stage | Hotel room | power | 100   | 900     | 1500 | 34       | 60        | assumed
Lighting           | 28 V stage  | Hotel room | power | 120   | 420     | 600  | 24       | 30        | assumed
Navigation         | 24 V stage  | Hotel room | power | 150   | 180     | 240  | 21.6     | 26.4      | assumed
`),
    Location: textTable(`
Location    | Coldest | Hottest | Altitude | Place | Access   | Basis
Engine room | 0       | 45      | 20       | dry   | locked   | assumed; laid up in winter
Hotel room  | 0       | 35      | 20       | dry   | enclosed | assumed
`),
    "Stage type": textTable(`
Stage type            | Kind      | Steps down by | Voltage | Lowest V | Highest V | Rated A | Resistance | Fixed loss | Linear loss | Quadratic loss | Lowest | Full up to | Derating | Highest | Ripple V rms | Ripple V peak | Input capacitance | Input series resistance | Isolation  | Mass | Price | Basis
630 V to 52.5 V, 80 A | ratio     | 12            |         | 480      | 720       | 80      | 12         | 22         |             |                | -20    | 50         | 0.02     | 70      | 0.1          | 0.25          | 1200              | 50                      | reinforced | 4.1  | 1400  | assumed; isolation to be shown by the maker's certificate
28 V, 40 A            | regulated |               | 28      | 33       | 60        | 40      |            | 6          | 0.4         | 0.015          | -20    | 50         | 0.02     | 70      | 0.05         | 0.12          | 47                | 50                      | functional | 1.2  | 310   | assumed; functional isolation is not counted on in a fault
24 V, 20 A            | regulated |               | 24      | 33       | 60        | 20      |            | 3          | 0.4         | 0.02           | -20    | 50         | 0.02     | 70      | 0.04         | 0.1           | 47                | 50                      | functional | 0.7  | 190   | assumed; functional isolation is not counted on in a fault
`),
  },
  otherFigures: [
    {
      label: OTHER_RATIO,
      value: 14,
      unit: "to 1",
      basis: "assumed; compared on Answers, not solved",
    },
  ],
  day: {
    periods: [
      { name: "Night", hours: 8, loads: "light", supply: "highest" },
      { name: "Quay", hours: 5, loads: "peak", supply: "nominal" },
      { name: "Under way", hours: 11, loads: "nominal", supply: "nominal" },
    ],
    energyPrice: 0.28,
  },
  answers: ferryAnswers,
  remarks: [
    "The ratio 1/12 is deliberately tight: with the figures as inserted, a full pack with the tolerance comes within 0.6 V of 60 V. Answers shows another ratio, 1/14, beside it: it leaves room above and less below.",
    "The lighting and navigation stages are functionally isolated only: after one fault their outputs are counted at the bus's highest voltage.",
    "A charger on the pack may hold it above 4.2 V a cell for a moment; enter what it is allowed to reach as the highest voltage.",
    "The pack is taken as full at night, after charging, and as nominal at the quay and under way. Day solves each period; its price of energy is that of charging at the quay.",
  ],
};
