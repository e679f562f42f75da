/** A budget of 0.2 as schedules: what is asked of it, its items, its day; and in words what could not be carried. */
import type { Label } from "../../../src/judgement/requirements.js";
import { MOVED_ID } from "../names.js";
import { textOf } from "../reading/range-table.js";
import type { FoundBudget } from "../reading/found-budget.js";
import type { Asked, BudgetSample, Day, DayPeriod } from "../sample.js";
import { otherAcceptances } from "./moved-acceptances.js";
import { MovedRows } from "./moved-schedules.js";
import { oldRows } from "./old-feed.js";
import { OldInputs, type OldSheet } from "./old-inputs.js";

export interface MovedBudget {
  readonly sample: BudgetSample;
  /** What it could not carry, a line each. */
  readonly lost: readonly string[];
}

/** @throws {RangeError} where the sheets of the budget are not all there. */
export function movedBudget(found: FoundBudget, sheets: readonly OldSheet[]): MovedBudget {
  const { Feed: feed } = found.ranges;
  const sheet = sheets.find(({ name }) => name === feed?.sheet);
  const typed = sheets.find(OldInputs.isInputs);
  if (!feed || !sheet || !typed) throw new RangeError("its feed table or its Inputs are not there");
  const title = textOf(typed.values[0]?.[0]).replace(/: inputs$/, "") || found.stem;
  const lost: string[] = [];
  const inputs = new OldInputs(typed);
  const asked = askedOf(inputs);
  const { value: margin } = asked["Load margin"] ?? { value: 0 };
  const rows = oldRows(feed, sheet, inputs, (line) => lost.push(line));
  const moved = new MovedRows(rows, inputs, typeof margin === "number" ? margin : 0, (line) =>
    lost.push(line),
  );
  const schedules = moved.finish(found);
  const day = dayOf(inputs);
  lost.push(...inputs.left().map((line) => `Inputs: ${line}`));
  lost.push(...otherAcceptances(found));
  if (found.ranges["Answers"]) lost.push("Answers: its own questions; they stay on the old sheets");
  return {
    lost,
    sample: {
      id: MOVED_ID,
      version: "2.0.0",
      stem: `${found.stem}Moved`,
      document: { title },
      story: `Moved from ${found.stem}, a budget of version 0.2, whose sheets stay as they are.`,
      origin: "",
      asked,
      schedules: rows.length === 0 ? { Supply: [{ Supply: "Supply" }] } : schedules,
      emptyRows: rows.length === 0 ? ROOM : 0,
      ...(day && { day }),
      remarks: lost.map((line) => `Not carried: ${line}.`),
    },
  };
}

/** Rows of every block that wait to be typed where the old feed table was empty. */
const ROOM = 8;

/** What 0.2 asked for, by its labels on Inputs. */
const ASKED: readonly (readonly [RegExp, readonly Label[], ((value: number) => number)?])[] = [
  [/^Framework of the voltage bands$/, ["Framework"]],
  [/^Place where people can touch$/, ["Place"]],
  [/^Margin for growth and ageing/, ["Load margin"]],
  [/^Largest drop of a run$/, ["Largest drop of a cable"]],
  [
    /^Largest loading of anything with a rating$/,
    [
      "Largest loading of a stage",
      "Largest loading of a supply",
      "Largest loading of a cable",
      "Largest loading of a contact",
    ],
  ],
  [/^Clearances hold as printed up to$/, ["Altitude, clearances hold up to"]],
  [/^Currency of prices$/, ["Currency"]],
  [/^Units lost of those in parallel/, ["Units lost"]],
  [/^Headroom to collapse asked for/, ["Headroom to collapse"]],
  [/^Stability margin asked for$/, ["Stability margin"]],
  [/^Fuse over load current/, ["Load current of a fuse, at most"], (times) => 1 / times],
  [/^Conductor temperature at the end of a fault/, ["Conductor at the end of a fault"]],
  [/^Voltage to be discharged to$/, ["Discharge to"]],
  [/^Time to get there, at most$/, ["Discharge within"]],
  [/^Stored energy that counts as hazardous$/, ["Stored energy"]],
];

function askedOf(inputs: OldInputs): Partial<Record<Label, Asked>> {
  const asked: Partial<Record<Label, Asked>> = {};
  for (const [old, labels, convert] of ASKED) {
    const found = inputs.takeFirst(old);
    if (!found) continue;
    const { value, basis } = found;
    for (const label of labels)
      asked[label] = {
        value: convert && typeof value === "number" ? convert(value) : value,
        citation: basis,
      };
  }
  // What 0.2 judged without being asked.
  asked["Margin to each window"] = { value: 0, citation: AS_BEFORE };
  if (asked["Load current of a fuse, at most"])
    asked["Far-end fault cleared within"] = { value: 5, citation: AS_BEFORE };
  return asked;
}

const AS_BEFORE = "as version 0.2 judged it";

/** Periods that have hours. */
function dayOf(inputs: OldInputs): Day | undefined {
  const line = (label: string) =>
    inputs.rows.find((row) => row.group === "A day" && row.label === label);
  const at = (label: string, column: string) => {
    const [cell] = [...(line(label)?.values.keys() ?? [])].filter((one) => one.startsWith(column));
    return cell === undefined ? undefined : inputs.take(cell);
  };
  const periods = ["B", "C", "D"].flatMap((column): DayPeriod[] => {
    const [hours, loads] = [at("Hours", column), at("Loads in that time", column)];
    const [name, supply] = [at("Called", column), at("Supply voltage in that time", column)];
    if (typeof hours !== "number" || hours <= 0) return [];
    return [
      {
        name: textOf(name),
        hours,
        loads: typeof loads === "number" ? loads : textOf(loads) || "nominal",
        supply: textOf(supply) as DayPeriod["supply"],
      },
    ];
  });
  const price = inputs.takeFirst(/^Price of energy$/);
  return periods.length === 0 ? undefined : { periods, energyPrice: price?.value ?? 0 };
}
