/** A DC bus in a valley hut, 350 m of cable, one fixed-ratio stage and four loads on a ridge. All data invented. */
import { INVENTED } from "../cautions.js";
import type { BudgetSample } from "../sample.js";
import { ASKED_ALIKE } from "./asked.js";
import { textTable } from "./text-table.js";

export const ridgeTop: BudgetSample = {
  id: "ridge-top-observatory",
  version: "2.0.0",
  stem: "Ridge",
  document: { title: "Ridge-top observatory" },
  story: "A 400 V bus in a valley hut feeds the electronics of an observatory 350 m up the ridge.",
  origin: INVENTED,
  emptyRows: 0,
  asked: {
    ...ASKED_ALIKE,
    Framework: "IEC 60364-4-41",
    Place: { value: "wet", citation: "outdoors on a ridge" },
    "Load margin": { value: 0.25, citation: "growth and ageing" },
    "Largest drop of a cable": 0.05,
    "Units lost": 1,
    "Conductor at the end of a fault": { value: 160, citation: "PVC" },
  },
  schedules: {
    Supply: textTable(`
Supply     | Location   | Lowest V | Voltage | Highest V | Resistance | Least resistance | Rated A | Ripple V rms | Ripple V peak | Basis
Valley bus | Valley hut | 360      | 400     | 440       | 0.3        | 0.25             | 8       | 2            | 4.5           | assumed; float charge, regeneration and light load counted; least resistance of a battery that is new, full and warm
`),
    Stage: textTable(`
Stage        | Fed from            | Location | Type                | Tolerance | Overvoltage trip | Bleed | Basis
Summit stage | Cable to the summit | Summit   | 400 V to 50 V, 60 A | 0.02      |                  | 6800  | assumed; ± around the ratio, no load
24 V stage   | Summit stage        | Summit   | 24 V, 15 A          | 0.02      | 28               |       | assumed; overvoltage trip of the stage
12 V stage   | Summit stage        | Summit   | 12 V, 12 A          | 0.02      | 14.5             |       | assumed; overvoltage trip of the stage
5 V stage    | Summit stage        | Summit   | 5 V, 12 A           | 0.02      | 6                |       | assumed; overvoltage trip of the stage
`),
    Cable: textTable(`
Cable               | Fed from                | Location           | Length | Size   | Build   | Conductor at most | Outer diameter | Insulation | Rated A | Rated V | Core spacing | Mass | Price per m | Basis
Cable to the summit | Hut fuse and connectors | Valley hut; Trench | 350    | 4 mm²  | class 2 | 40                | 12             | PVC        | 25      | 1000    | 4.2          | 0.19 | 9.5         | assumed; buried, lightly loaded. Rated A: the installation tables of the local code govern
24 V cable          | 24 V stage              | Summit             | 15     | 10 mm² | class 2 | 40                | 16             | PVC        | 40      | 450     |              | 0.31 | 6.5         | assumed. Rated A: the installation tables of the local code govern
`),
    "In line": textTable(`
In line                 | Fed from   | Location   | Kind      | Resistance | Rated A | Rated V | Clears at A | Within s | Clears near end s | Breaks A | Basis
Hut fuse and connectors | Valley bus | Valley hut | fuse      | 20         | 10      | 500     | 45          | 5        | 0.01              | 10000    | assumed; from the curve of the fuse
5 V connector           | 5 V stage  | Summit     | connector | 5          | 12      |         |             |          |                   |          | assumed; both poles
`),
    Load: textTable(`
Load                    | Fed from      | Location | Kind  | Light | Nominal | Peak | Lowest V | Highest V | Basis
Dome and mount drives   | Summit stage  | Summit   | power | 120   | 960     | 1440 | 36       | 58        | assumed
Cameras and coolers     | 24 V cable    | Summit   | power | 64    | 192     | 240  | 21.6     | 26.4      | assumed
Computers               | 12 V stage    | Summit   | power | 48    | 72      | 96   | 11.4     | 12.6      | assumed
Weather and sky sensors | 5 V connector | Summit   | power | 24    | 32      | 40   | 4.75     | 5.25      | assumed
`),
    Location: textTable(`
Location   | Coldest | Hottest | Altitude | Place | Access   | Basis
Valley hut | -20     | 30      | 1400     | dry   | locked   | assumed
Trench     | -20     | 30      | 2600     | wet   | enclosed | assumed; buried, in ducts for the last metres
Summit     | -20     | 30      | 2600     | wet   | open     | assumed
`),
    "Stage type": textTable(`
Stage type          | Kind      | Steps down by | Voltage | Lowest V | Highest V | Rated A | Limit A | Resistance | Fixed loss | Linear loss | Quadratic loss | Efficiency | Lowest | Full up to | Derating | Highest | Ripple V rms | Ripple V peak | Input capacitance | Input series resistance | Isolation  | Mass | Price | Basis
400 V to 50 V, 60 A | ratio     | 8             |         | 320      | 460       | 60      |         | 15         | 18         |             |                |            | -40    | 50         | 0.02     | 70      | 0.15         | 0.35          | 330               | 150                     | reinforced | 3.2  | 1150  | assumed; isolation to be shown by the maker's certificate
24 V, 15 A          | regulated |               | 24      | 36       | 58        | 15      | 20      |            | 3.5        | 0.3         | 0.05           |            | -40    | 50         | 0.02     | 70      | 0.04         | 0.1           | 47                | 50                      | none       | 0.6  | 180   | assumed; what the stage accepts at its input
12 V, 12 A          | regulated |               | 12      | 36       | 58        | 12      | 16      |            | 1.8        | 0.2         | 0.03           |            | -40    | 50         | 0.02     | 70      | 0.03         | 0.08          | 47                | 50                      | functional | 0.4  | 140   | assumed; functional isolation is not counted on in a fault
5 V, 12 A           | regulated |               | 5       | 36       | 58        | 12      | 16      |            |            |             |                | 0.9        | -40    | 50         | 0.02     | 70      | 0.02         | 0.05          | 47                | 50                      | none       | 0.3  | 95    | assumed; one efficiency, so its light-load loss is not counted
`),
    Spread: textTable(`
Spread                | Column     | Tolerance | Distribution | Group            | Basis
Cable to the summit   | Resistance | 0.06      |              | weather | assumed; length as laid, metal, and how warm the trench is
24 V cable            | Resistance | 0.06      |              | weather | assumed; the same cold or warm day
Summit stage          | Fixed loss | 0.15      |              |                  | assumed; from one unit to the next
Dome and mount drives | Load       | 0.2       | triangular   |                  | assumed; wind on the dome
Cameras and coolers   | Load       | 0.1       | normal       |                  | assumed; measured on three nights
`),
  },
  remarks: [
    "The 24 V, 12 V and 5 V stages are not isolated, or only functionally: after one fault their outputs are counted at the 50 V bus's highest voltage, whatever they trip at.",
    "The 5 V stage is entered by one efficiency, the others by three losses: CHAIN_SOLVE notes that the light-load loss of an efficiency is not counted.",
    "With the figures as inserted, the 50 V bus reaches 56.1 V at no load. Outdoors that is above what may be touched bare, so it needs an enclosure however well it is isolated from the valley.",
  ],
};
