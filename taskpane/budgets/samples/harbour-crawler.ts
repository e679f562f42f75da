/** A crawler on the harbour bed: 800 V from the quay through 300 m of thin umbilical, two fixed-ratio units. All data invented. */
import { INVENTED } from "../cautions.js";
import type { BudgetSample } from "../sample.js";
import { ASKED_ALIKE } from "./asked.js";
import { crawlerAnswers, SONAR, UNIT_TYPE } from "./harbour-crawler-answers.js";
import { textTable } from "./text-table.js";

export const harbourCrawler: BudgetSample = {
  id: "harbour-survey-crawler",
  version: "2.0.0",
  stem: "Crawler",
  document: { title: "Harbour survey crawler" },
  story:
    "800 V from the quay feed a crawler on the harbour bed through 300 m of thin umbilical and two fixed-ratio units in parallel.",
  origin: INVENTED,
  emptyRows: 0,
  asked: {
    ...ASKED_ALIKE,
    Framework: "IEC 60364-4-41",
    Place: { value: "wet", citation: "in the water and on a wet quay" },
    "Load margin": { value: 0.1, citation: "growth and ageing" },
    "Largest drop of a cable": 0.08,
    "Units lost": 1,
    "Conductor at the end of a fault": { value: 250, citation: "XLPE" },
  },
  schedules: {
    Supply: textTable(`
Supply      | Location | Lowest V | Voltage | Highest V | Resistance | Least resistance | Rated A | Current limit A | Ripple V rms | Ripple V peak | Basis
Quay supply | Quay     | 760      | 800     | 840       | 0.4        | 0.35             | 6       | 30              | 3            | 7             | assumed; light load and regulation counted
`),
    Stage: textTable(`
Stage       | Fed from    | Location    | Type                | In parallel | Units needed | Tolerance | Overvoltage trip | Set-point spread | Resistance spread | Bleed | Basis
Ratio units | Umbilical   | Harbour bed | ${UNIT_TYPE} | 2           | 1            | 0.01      |                  | 0.002            | 0.1               | 30000 | assumed; matched units, nearer to each other than the tolerance; either may be lost
Sonar stage | Ratio units | Harbour bed | ${SONAR}            |             |              | 0.02      | 29               |                  |                   |       | assumed; overvoltage trip of the stage
`),
    Cable: textTable(`
Cable     | Fed from                | Location          | Length | Size    | Build   | Conductor at most | Outer diameter | Insulation | Grouping | Rated A | Rated V | Core spacing | Mass    | Price per m | Basis
Umbilical | Deck fuse and slip ring | Quay; Harbour bed | 300    | 1.5 mm² | class 5 | 45                | 12.5           | XLPE       | 0.6      | 8       | 1000    | 3.2          | 0.14167 | 14          | assumed; judged as what stays on the drum, in the shade: Grouping and Rated A are those of its layers. Mass: copper and what Other figures says
`),
    "In line": textTable(`
In line                 | Fed from    | Location | Kind | Resistance | Rated A | Rated V | Clears at A | Within s | Clears near end s | Breaks A | Basis
Deck fuse and slip ring | Quay supply | Quay     | fuse | 60         | 6.3     | 1000    | 24          | 5        | 0.004             | 10000    | assumed; from the curve of the fuse; the slip ring is rated 8 A
`),
    Load: textTable(`
Load          | Fed from    | Location    | Kind  | Light | Nominal | Peak | Lowest V | Highest V | Basis
Thrusters     | Ratio units | Harbour bed | power | 120   | 1400    | 2400 | 38       | 58        | assumed
Survey lights | Ratio units | Harbour bed | power | 40    | 240     | 300  | 36       | 58        | assumed
Sonar         | Sonar stage | Harbour bed | power | 60    | 100     | 120  | 21.6     | 26.4      | assumed
`),
    Location: textTable(`
Location    | Coldest | Hottest | Altitude | Place    | Access   | Basis
Quay        | -5      | 35      | 10       | wet      | locked   | assumed; on the drum in the shade, winter to summer
Harbour bed | 3       | 25      | 0        | immersed | enclosed | assumed
`),
    "Stage type": textTable(`
Stage type          | Kind      | Steps down by | Voltage | Lowest V | Highest V | Rated A | Resistance | Least resistance | Fixed loss | Linear loss | Quadratic loss | Load 1 W | Efficiency 1 | Load 2 W | Efficiency 2 | Load 3 W | Efficiency 3 | Load 4 W | Efficiency 4 | Load 5 W | Efficiency 5 | Lowest | Full up to | Derating | Highest | Ripple V rms | Ripple V peak | Input capacitance | Input series resistance | Isolation  | Mass | Price | Basis
${UNIT_TYPE} | ratio     | 16            |         | 620      | 880       | 70      | 30         | 24               | 11         |             |                |          |              |          |              |          |              |          |              |          |              | -10    | 40         | 0.02     | 60      | 0.15         | 0.35          | 50                | 600                     | reinforced | 1.4  | 620   | assumed, of one unit; isolation to be shown by the maker's certificate
${SONAR}            | regulated |               | 24      | 36       | 60        | 8       |            |                  | 2.2        | 0.4         | 0.06           | 24       | 0.9          | 48       | 0.937        | 96       | 0.953        | 144      | 0.955        | 192      | 0.954        | -10    | 40         | 0.02     | 60      | 0.03         | 0.08          | 47                | 50                      | functional | 0.5  | 160   | assumed; efficiencies rounded as a datasheet prints them
`),
  },
  otherFigures: [
    figure("Mass of all that is not power conductor", 0.115, "kg/m"),
    figure("Speed of the water across the umbilical", 0.4, "m/s"),
    practice("Drag factor of a cylinder", 1.2, ""),
    practice("Density of sea water", 1025, "kg/m³"),
  ],
  answers: crawlerAnswers,
  remarks: [
    "Mass counts: the umbilical is dragged over the harbour bed and lifted over the quay. Answers sets its mass against drop and loss for four sizes.",
    "Either unit may be lost: with the figures as inserted, the one that is left carries about its whole rating at peak loads on the lowest supply, and a little more with the tolerances. Cases has the worst case of every item with one unit lost.",
    "What stays on the drum is cooled badly: its rating is that of the drum, not of still air or water.",
    "800 V in water: insulation monitoring and a cut-off for a damaged umbilical belong to the installation and are not in this budget.",
  ],
};

function figure(label: string, value: number, unit: string) {
  return { label, value, unit, basis: "assumed" };
}

function practice(label: string, value: number, unit: string) {
  return { label, value, unit, basis: "common practice, no source" };
}
