/**
 * What the headings of everything that spills mean, for the note on each: its unit, which end is the worst, in which case.
 * By function, as two functions may say one word for two things; the sheets take them from here.
 */
import type { BANDS_COLUMNS } from "../../functions/families/chain-bands.js";
import type { CASES_COLUMNS } from "../../functions/families/chain-cases.js";
import type { WORST_COLUMNS } from "../../functions/families/chain-limits.js";
import type { SCHEDULE_COLUMNS } from "../../functions/families/chain-schedule.js";
import type { SOLVED_COLUMNS } from "../../functions/families/chain.js";
import type { CHECKS_COLUMNS, Verdict } from "../../src/judgement/check-row.js";
import { BLOCKS, TABLE_BLOCKS, type TableField } from "../../src/schedules/columns.js";

type Meanings<Columns extends readonly string[]> = Readonly<Record<Columns[number], string>>;

const ITEM = "name of the item, as its schedule has it, in feeding order";
const WINDOW =
  "part of a bound: (V − Lowest V) ÷ Lowest V or (Highest V − V) ÷ Highest V of the input, the lesser; below 0 outside the window";

export const SOLVED_MEANINGS: Meanings<typeof SOLVED_COLUMNS> = {
  Item: ITEM,
  "Input V": "voltage at its input; of a supply open circuit",
  "Input A": "current into the whole row, all in parallel together",
  "Input W": "Input V × Input A; of a load what it takes, its margin counted",
  "Output V": "voltage at its output; a load has none",
  "Output A": "current out of the whole row, all in parallel together",
  "Output W": "Output V × Output A",
  "Loss W": "given off as heat by the whole row",
  Efficiency: "Output W ÷ Input W",
  "Share of losses": "Loss W ÷ losses of the whole feed",
  Loading: "current of the row ÷ Rated A of all in parallel; 100 % is at its rating",
  Note: "what to know beside the row's figures, or why it is not solved",
};

export const BANDS_MEANINGS: Meanings<typeof BANDS_COLUMNS> = {
  Item: ITEM,
  "In service V":
    "the highest there with nothing at fault: supplies at their highest, tolerances up, no load, no drop",
  "After one fault V":
    "the highest there after any one fault of one stage: of its insulation, or of its regulation up to its Overvoltage trip",
  "Band in service":
    "of the framework that Inputs names, at In service V with ripple; Notes says what each band means",
  "Band after one fault": "the same, at After one fault V",
  "Limit V":
    "dc, of the band that people may touch, in the place that Inputs names; – or not determined where the framework prints none",
  "Margin in service":
    "distance to the limit as a part of it, with ripple; below 0 beyond the limit",
  "Margin after one fault": "the same, after the fault that is worst for the item",
  "Which fault": "stage and fault that bring After one fault V; – where none raises it",
  "Isolation to the supply":
    "the strongest of the stages between the item's circuit and the supply; – on the supply's own",
  Note: "what to know beside the bands, or what to enter",
};

export const CASES_MEANINGS: Meanings<typeof CASES_COLUMNS> = {
  Case: "supplies at their lowest, nominal or highest voltage; loads light, nominal or peak",
  "Supply W": "of all supplies at their open-circuit voltage",
  "Load W": "into all loads, their margin counted",
  "Loss W": "given off as heat on the way, in the supply's own resistance too",
  Efficiency: "Load W ÷ Supply W",
  "Least margin": `${WINDOW}; the least of all items`,
  "Least margin at": "item that has it",
  "Highest loading": "current ÷ Rated A of all in parallel; the highest of all items",
  "Highest loading at": "item that has it",
  "Closing error W": "Supply W − Load W − Loss W: what rounding leaves",
  Note: "why the case has no answer",
};

export const WORST_MEANINGS: Meanings<typeof WORST_COLUMNS> = {
  Item: ITEM,
  "Lowest input V":
    "the lowest over supplies, loads, tolerances and a unit lost where that is asked",
  "Highest input V": "the highest over the same; without any drop, stages off",
  "Highest input A": "the highest over the same, of the whole row",
  "Highest loss W": "the highest over the same, of the whole row",
  Loading: "the highest over the same: current ÷ Rated A of all in parallel",
  "Least margin": `${WINDOW}; the least over the same`,
  "Where it happens": "case of the row's least margin; of its lowest input where it has no window",
  Note: "what to know beside the row, and where no proof was found that no case is worse",
};

/** Above what CHAIN_HEADROOM spills, which has no headings of its own. */
export const HEADROOM_COLUMNS = [
  "Times the loads at collapse",
  "Item that collapses",
  "Times the loads at the first limit",
  "Item at its limit",
] as const;

export const HEADROOM_MEANINGS: Meanings<typeof HEADROOM_COLUMNS> = {
  "Times the loads at collapse":
    "all loads, nominal or peak, whichever is worse, may grow so many times until a voltage collapses; below 1 it does already",
  "Item that collapses": "whose voltage does",
  "Times the loads at the first limit":
    "the same until a first item leaves its window downward or exceeds its Rated A",
  "Item at its limit": "that does",
};

/** Of the checks by hand beside the solved items. */
export const HAND_COLUMNS = [
  "Item",
  "By hand V",
  "Solved V",
  "Difference V",
  "By hand W",
  "Solved W",
  "Difference W",
] as const;

export const HAND_MEANINGS: Meanings<typeof HAND_COLUMNS> = {
  Item: "row of the feed table that is checked",
  "By hand V": "output by the closed form of its kind, of its solved input voltage and current",
  "Solved V": "Output V of the item",
  "Difference V": "By hand V − Solved V: what rounding leaves",
  "By hand W": "loss by the closed form of its kind, of its solved current",
  "Solved W": "Loss W of the item",
  "Difference W": "By hand W − Solved W: what rounding leaves",
};

export const VERDICT_MEANINGS: Readonly<Record<Verdict, string>> = {
  holds: "in every case that was looked at",
  fails: "in the case that Worst in names",
  "not determined": "a figure or a requirement is missing: Enter or try says which",
  "not asked": "Inputs says so; nothing is judged",
};

export const CHECKS_MEANINGS: Meanings<typeof CHECKS_COLUMNS> = {
  Item: "what is judged: an item, or Whole feed",
  Check: "the question; one row for each that applies to the item",
  "Worst in": "the case in which it is worst, to which Found belongs",
  Found: "figure in the unit of Unit, in the worst case; – where there is none",
  Asked: "how Found is to stand to Limit",
  Limit: "figure in the same unit: of Inputs, or the item's own rating or window",
  Unit: "of Found and Limit; empty or “of …” for a part of 1",
  Margin:
    "at most: (Limit − Found) ÷ Limit; at least: (Found − Limit) ÷ Limit; below 0 it fails by so much",
  Verdict: Object.entries(VERDICT_MEANINGS)
    .map(([verdict, means]) => `${verdict}: ${means}`)
    .join("\n"),
  Weight: "what it is where it does not hold: danger, warning or note",
  Cause: "item whose row is to be changed; empty: the item itself; Asked for: a line of Inputs",
  Column: "heading of the figure to enter or to change, in that item's schedule",
  "Enter or try":
    "what is missing; of a failed check the least change of one figure with which it holds in every case",
  Citation: "where the rule comes from; empty where it is plain arithmetic",
};

const OF_NINE = "highest of the nine cases, tolerances not counted, of the whole row";

export const SCHEDULE_MEANINGS: Meanings<typeof SCHEDULE_COLUMNS> = {
  List: "Cable or Stage",
  Item: ITEM,
  "Fed from": "name of the item that feeds it",
  Location: "where it is; several parted by “;”",
  "In parallel": "how many are side by side; figures of the row are of all together",
  "Length (m)": "route, one way",
  Cores: "that carry current, in each cable",
  Size: "of one core",
  Material: "of the cores",
  Build: "of the cores; empty: class 2 of a metric size, solid for AWG",
  Type: "of the stage, as on Types",
  "Highest A": `output current, ${OF_NINE}`,
  "Rated A": "of all in parallel together",
  "Highest drop V": `from input to output, ${OF_NINE}`,
  "Highest loss W": `given off as heat, ${OF_NINE}`,
  "Highest output W": `${OF_NINE}`,
  "Output per litre (W/l)": "Highest output W ÷ Volume",
  "Mass (kg)": "of the whole row",
  "Volume (l)": "of the whole row",
  Price: "of the whole row, in the currency of Inputs",
  Basis: "where the figures come from",
  Note: "cases without an answer",
};

/** Where the table has another figure than was typed; of all others the schedules' own headings say what they mean. */
const OF_TABLE: Partial<Readonly<Record<TableField, string>>> = {
  item: ITEM,
  kind: "what it is to the feed; a cable is a run, what is in line a series row",
  voltage:
    "supply: open circuit, nominal; regulated stage: set point; in line: drop that does not change with current",
  resistance:
    "of one. Supply: at its greatest; cable: loop of its cores at Conductor at most; in line: both poles; stage: output, hot",
  leastResistance:
    "of one, at its least. Supply: as typed; cable: loop of its cores in the coldest air; stage: output, cold",
  ratio: "output ÷ input of a ratio stage: 1 ÷ Steps down by",
  fixedLoss: "of one stage at no load, typed or fitted to its type's points",
  linearLoss: "of one stage, for each ampere of output, typed or fitted to its type's points",
  quadraticLoss:
    "of one stage, for each square ampere of output, typed or fitted to its type's points",
  efficiency: "of a stage at any load, where no losses are known",
  lightLoad:
    "W, A or Ω by Kind: all of Quantity, with Margin; a heater as ohms; “none”: draws nothing",
  load: "nominal: W, A or Ω by Kind: all of Quantity, with Margin; a heater as ohms",
  peakLoad: "W, A or Ω by Kind: all of Quantity, with Margin; a heater as ohms; empty: as Load",
  inParallel: "side by side; other figures are of one, Mass and Price of the row",
  ratedCurrent: "of one; of a cable without one typed by its heat balance, as Rated by says",
  ratedBy: "how Rated A was found where nobody typed it",
  tolerance: "± part. Stage: set point or ratio; cable, in line: resistance; load: what it takes",
  capacitance: "supply: at its output; load: at its input, all of Quantity",
  material: "of the cores, with copper where none was typed",
  conductorC: "hottest that the metal gets, typed or the usual limit of its insulation",
  inductance: "of the loop of one cable, over its whole length",
  mass: "of the whole row",
  price: "of the whole row, in the currency of Inputs",
  margin: "on top of a load: its own, or Load margin of Inputs",
  coldestC: "air, lowest in service; of several locations the worse",
  hottestC: "air, highest in service; of several locations the worse",
  altitude: "above the sea; of several locations the worse",
  place: "dry, wet or immersed; of several locations the worse",
  access: "open, enclosed or locked; of several locations the worse",
  sun: "of several locations the worse; empty: none",
  inLineKind: "what the row in line is",
  block: "schedule in which the row was typed",
  row: "of that schedule; 1 is the first below its header",
  note: "what was taken where nothing was typed, or why the row is not solved",
};

const ITEM_TYPES = TABLE_BLOCKS.filter((block) => block !== "Asked for");

export function tableMeaning(field: TableField): string {
  return OF_TABLE[field] ?? meaningInSchedules(field);
}

/** As the schedules say it; where they say different things, which of them says what. */
function meaningInSchedules(field: TableField): string {
  const blocksBy = new Map<string, string[]>();
  for (const block of ITEM_TYPES)
    for (const column of BLOCKS[block]) {
      if (column.field !== field) continue;
      blocksBy.set(column.means, [...(blocksBy.get(column.means) ?? []), block]);
    }
  const [only, ...others] = blocksBy.keys();
  if (only !== undefined && others.length === 0) return only;
  return [...blocksBy].map(([means, blocks]) => `${blocks.join(", ")}: ${means}`).join("\n");
}
