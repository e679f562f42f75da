import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, it } from "vitest";
import type { Argument, CellTable } from "../../functions/cells.js";
import { evaluate } from "../../functions/runner.js";
import { type CheckName, WHOLE_FEED } from "../../src/judgement/check-row.js";
import { askedFor } from "../feeds/typed-feed.js";
import {
  askedWith,
  changed,
  found,
  type Judged,
  judged,
  number,
  rowsBelow,
  spill,
} from "./judged.js";
import {
  COLD,
  type Figures,
  figures,
  HOLD_VOLTS,
  LOCATIONS,
  LOWER,
  MASSES,
  PLACES,
  PRICES,
  randomTable,
} from "./singly-feed.js";

// Every check of random feeds against the functions that compute it singly, called one by one over every case.

const ASKED = askedFor({
  Framework: "IEC 60364-4-41",
  Place: "dry",
  "Units lost": "not asked",
  "Largest loading of a cable": 0.9,
  "Efficiency, supply to load": 0.9,
  "Conductor at the end of a fault": 160,
  "Far-end fault cleared within": "table 41.1",
  "Ripple of a bus": 0.01,
  "Largest loss at one location": 40,
  "Largest mass": 25,
  "Largest price": 700,
});

function once(id: string, ...args: readonly Argument[]): number {
  const outcome = evaluate(id, args);
  assert.ok(outcome.ok, `${id}: ${JSON.stringify(outcome)}`);
  const { value } = outcome;
  const cell = Array.isArray(value) ? (value as CellTable)[0]?.[0] : value;
  assert.ok(typeof cell === "number", `${id} gives ${String(cell)}`);
  return cell;
}

function near(row: Judged, expected: number, heading = "Found"): void {
  const value = number(row, heading);
  assert.ok(
    Math.abs(value - expected) <= 1e-9 * Math.max(1, Math.abs(expected)),
    `${String(row["Item"])}, ${String(row["Check"])}: ${value}, singly ${expected}`,
  );
}

function holds(row: Judged, verdict: boolean): void {
  assert.equal(row["Verdict"], verdict ? "holds" : "fails", String(row["Check"]));
}

/** The found figure, which must not exceed its limit. */
function atMost(row: Judged, value: number, limit: number): void {
  near(row, value);
  near(row, limit, "Limit");
  holds(row, value <= limit);
}

/** The found figure, which must reach its limit. */
function atLeast(row: Judged, value: number, limit: number): void {
  near(row, value);
  near(row, limit, "Limit");
  holds(row, value >= limit);
}

const SUPPLIES = ["lowest", "nominal", "highest"] as const;
const CASES = ["light", "nominal", "peak"].flatMap((loads) =>
  SUPPLIES.map((supply) => [loads, supply] as const),
);

type ByItem = ReadonlyMap<string, Judged>;

function byItem(table: CellTable): ByItem {
  return new Map(rowsBelow(table).map((row) => [String(row["Item"]), row]));
}

/** The feed solved in each of the nine cases. */
function nineCases(feed: CellTable): readonly ByItem[] {
  return CASES.map(([loads, supply]) => byItem(spill("CHAIN_SOLVE", [feed, loads, supply])));
}

interface Solution {
  readonly ratio: number;
  readonly cells: ByItem;
}

/** The nine cases at every end of both tolerances, hot and cold. */
function atAllEnds(f: Figures, feed: CellTable): Solution[] {
  const ends = f.tolerance === 0 ? [0] : [-f.tolerance, f.tolerance];
  return [feed, whenCold(f, feed)].flatMap((table) => atTolerances(f, table, ends));
}

function atTolerances(f: Figures, table: CellTable, ends: readonly number[]): Solution[] {
  return ends.flatMap((bus) =>
    ends.flatMap((hold) => {
      const ratio = f.ratio * (1 + bus);
      const volts = { "Voltage (V)": HOLD_VOLTS * (1 + hold) };
      const moved = changed(changed(table, "Bus", { Ratio: ratio }), "Hold", volts);
      return nineCases(moved).map((cells) => ({ ratio, cells }));
    }),
  );
}

/** Every row at its least resistance. */
function whenCold(f: Figures, feed: CellTable): CellTable {
  const ohms = {
    Supply: f.ohms * (f.least ?? 1),
    Cable: f.cable * COLD,
    Branch: f.second * COLD,
    "Oven cable": f.third * COLD,
  };
  return Object.entries(ohms).reduce(
    (table, [item, cold]) => changed(table, item, { "Resistance (Ω)": cold }),
    feed,
  );
}

const INSULATION_LIMITS = { PVC: 70, XLPE: 90 }; // IEC 60364-5-52, table 52.1, from memory.

/** A random feed, its judgement, and what its checks are held against. */
class Singly {
  readonly feed: CellTable;
  readonly rows: readonly Judged[];
  readonly cableMass: number;
  /** Hot, nominal ratio and set point. */
  readonly nine: readonly ByItem[];
  readonly solutions: readonly Solution[];
  private readonly worst: readonly ByItem[];

  constructor(readonly f: Figures) {
    this.cableMass = once("CONDUCTOR_MASS", f.length, f.size);
    this.feed = randomTable(f, this.cableMass);
    this.worst = [this.feed, whenCold(f, this.feed)].map((table) =>
      byItem(spill("CHAIN_WORST", [table])),
    );
    this.rows = judged(this.feed, ASKED);
    this.nine = nineCases(this.feed);
    this.solutions = atAllEnds(f, this.feed);
  }

  row(item: string, check: CheckName): Judged {
    return found(this.rows, item, check);
  }

  has(item: string, check: CheckName): boolean {
    return this.rows.some(({ Item, Check }) => Item === item && Check === check);
  }

  /** The worst of CHAIN_WORST, hot or cold. */
  most(item: string, column: string): number {
    const values = this.worst.map((rows) => number(rows.get(item)!, column));
    return column.startsWith("Lowest") ? Math.min(...values) : Math.max(...values);
  }

  /** A column of CHAIN_SOLVE in every solution. */
  over(item: string, column: string): number[] {
    return this.solutions.map(({ cells }) => number(cells.get(item)!, column));
  }

  /** The most that falls from one voltage to another in one solution. */
  mostDrop(from: readonly [string, string], to: readonly [string, string]): number {
    const end = this.over(...to);
    return Math.max(...this.over(...from).map((volts, at) => volts - end[at]!));
  }
}

function voltagesAndLoadings(s: Singly): void {
  const { f } = s;
  for (const item of ["Bus", "Camp", "Hold"]) {
    const lowest = s.row(item, "Input above lowest");
    near(lowest, Math.min(...s.over(item, "Input V")));
    near(lowest, s.most(item, "Lowest input V"));
    near(s.row(item, "Input below highest"), s.most(item, "Highest input V"));
  }
  for (const item of ["Cable", "Bus", "Branch", "Hold", "Oven cable"])
    near(s.row(item, "Loading"), s.most(item, "Loading"));
  near(s.row("Oven cable", "Loading"), Math.max(...s.over("Oven cable", "Input A")) / 10);
  for (const [cable, nominal] of [
    ["Cable", 400],
    ["Branch", 400 * f.ratio],
    ["Oven cable", HOLD_VOLTS],
  ] as const)
    near(s.row(cable, "Drop"), s.mostDrop([cable, "Input V"], [cable, "Output V"]) / nominal);
  near(
    s.row("Bus", "Drop of a voltage level"),
    s.mostDrop(["Bus", "Output V"], ["Camp", "Input V"]) / (400 * f.ratio),
  );
  near(
    s.row("Hold", "Drop of a voltage level"),
    s.mostDrop(["Hold", "Output V"], ["Oven", "Input V"]) / HOLD_VOLTS,
  );
  const [watts, amperes] = [s.over("Supply", "Input W"), s.over("Supply", "Output A")];
  const used = Math.max(Math.max(...watts) / 9000, Math.max(...amperes) / 40);
  near(s.row("Supply", "Spare capacity"), 1 / used - 1);
  near(s.row("Supply", "Headroom to collapse"), once("CHAIN_HEADROOM", s.feed, "lowest"));

  // What all loads together drop is what a row that holds its power may start with.
  const noLoad = [f.lowest, 400, f.highest].map((volts) => once("RATIO_OUTPUT", volts, f.ratio));
  const starts = (
    [
      ["Camp", 20],
      ["Hold", 18],
    ] as const
  ).map(([item, lowest]) => ({
    lowest,
    drop: Math.max(
      ...s.nine.map((rows, at) => noLoad[at % 3]! - number(rows.get(item)!, "Input V")),
    ),
  }));
  const [first, second] = starts;
  const worse = second!.drop / second!.lowest > first!.drop / first!.lowest ? second! : first!;
  atMost(s.row("Bus", "Starts with its loads"), worse.drop, worse.lowest);
}

function wholeFeed(s: Singly): void {
  const { f, feed } = s;
  const efficiencies = SUPPLIES.map((supply) =>
    once("CHAIN_TOTAL", feed, "efficiency", "nominal", supply),
  );
  near(s.row(WHOLE_FEED, "Efficiency"), Math.min(...efficiencies));
  const heat = LOCATIONS.flatMap((location) =>
    s.nine.map((rows) =>
      Object.entries(PLACES).reduce(
        (sum, [item, places]) =>
          sum + (places.includes(location) ? number(rows.get(item)!, "Loss W") : 0),
        0,
      ),
    ),
  );
  atMost(s.row(WHOLE_FEED, "Loss at one location"), Math.max(...heat), 40);

  // Said only where power is not conserved.
  const loads = ["Camp", "Strings", "Oven"];
  for (const rows of s.nine) {
    const supplied = number(rows.get("Supply")!, "Input W");
    const gone = [...rows.values()].reduce((sum, row) => sum + number(row, "Loss W"), 0);
    const used = loads.reduce((sum, load) => sum + number(rows.get(load)!, "Input W"), 0);
    assert.ok(Math.abs(supplied - used - gone) <= 1e-9 * supplied, `${supplied} ${used} ${gone}`);
  }
  assert.ok(!s.has(WHOLE_FEED, "Closing error"));

  const sum = (parts: Readonly<Record<string, number>>) =>
    Object.values(parts).reduce((total, one) => total + one, 0);
  atMost(s.row(WHOLE_FEED, "Mass"), s.cableMass + f.stageMass + sum(MASSES), 25);
  const known = sum(PRICES) + (f.stagePrice ?? 0);
  const price = s.row(WHOLE_FEED, "Price");
  // What has no price yet only adds to it.
  if (f.stagePrice === null && known <= 700) assert.equal(price["Verdict"], "not determined");
  else atMost(price, known, 700);
  atMost(s.row(WHOLE_FEED, "Altitude"), Math.max(f.altitude, LOWER), 2000);
}

function bandsOfItems(s: Singly): void {
  const bands = rowsBelow(spill("CHAIN_BANDS", [s.feed, ASKED]));
  // An unlocked supply is touched whether the cable is locked or not; what is not isolated from the bus belongs to it.
  for (const [item, behind] of [
    ["Supply", bands.slice(0, 3)],
    ["Bus", bands.slice(3)],
  ] as const)
    for (const [check, when] of [
      ["Band in service", "in service"],
      ["Band after one fault", "after one fault"],
    ] as const) {
      const margins = behind.map((one) => number(one, `Margin ${when}`));
      const least = Math.min(...margins);
      const row = s.row(item, check);
      near(row, least, "Margin");
      assert.equal(row["Found"], behind[margins.indexOf(least)]![`Band ${when}`]);
      holds(row, least >= 0);
    }
}

function cables(s: Singly): void {
  const { f } = s;
  const current = s.most("Cable", "Highest input A");
  const warmed = evaluate("CONDUCTOR_TEMPERATURE", [
    current,
    f.size,
    f.hottest,
    f.outer,
    2,
    f.insulation,
    1,
    f.altitude,
  ]);
  // It runs away.
  if (!warmed.ok) assert.equal(warmed.code, "#N/A");
  for (const [check, limit] of [
    ["Conductor temperature", 70],
    ["Insulation temperature", INSULATION_LIMITS[f.insulation]],
  ] as const) {
    const row = s.row("Cable", check);
    if (warmed.ok) atMost(row, warmed.value as number, limit);
    else holds(row, false);
  }
  for (const [item, rated] of [
    ["Cable", f.cableVolts],
    ["Branch", 80],
  ] as const)
    atLeast(s.row(item, "Cable rated for the voltage"), rated, s.most(item, "Highest input V"));
}

/** More may flow where a least resistance on its way is not known: then what fails fails, and nothing holds. */
function atLeastIfKnown(row: Judged, isKnown: boolean, found: number, limit: number): void {
  if (isKnown || found < limit) atLeast(row, found, limit);
  else assert.equal(row["Verdict"], "not determined");
}

/** A fault behind the supply, whose own fuse, shutdown or current limit ends it. */
function faultsOfTheSupply(s: Singly): void {
  const { f } = s;
  atMost(s.row("Fuse", "Fuse carries the load"), s.most("Cable", "Highest input A"), 25);
  atLeast(s.row("Fuse", "Fuse breaks the voltage"), f.fuseVolts, s.most("Fuse", "Highest input V"));
  atMost(s.row("Fuse", "Fuse protects the cable"), 25, 30);
  const limit = f.limit ?? undefined;
  const least = once("FAULT_CURRENT", f.lowest, f.ohms, f.fuse + f.cable, limit, "least");
  const source = f.ohms * (f.least ?? 1);
  const greatest = once("FAULT_CURRENT", f.highest, source, f.fuse, limit, "greatest");
  const isKnown = f.least !== null;
  atLeastIfKnown(s.row("Fuse", "Fuse breaks the fault"), isKnown, f.breaks, greatest);

  const far = s.row("Cable", "Far-end fault blows the fuse");
  const blows = least >= f.clears;
  const shutsDown = f.shutsDown ?? Infinity;
  const stops = least >= shutsDown;
  if (blows) atLeast(far, least, f.clears);
  else if (stops) atLeast(far, least, shutsDown);
  // Held by the limit for ever: the cable must bear it.
  else if (limit !== undefined && limit <= least * (1 + 1e-12) && limit <= 30)
    atLeast(far, 30, limit);
  else atLeast(far, least, Math.min(f.clears, shutsDown));
  if (blows || stops)
    // Above 230 V dc the level feeds a stage, which makes it a distribution circuit of 5 s.
    atMost(
      s.row("Cable", "Fuse clears in time"),
      blows ? 0.4 : f.shutsWithin,
      once("DISCONNECTION_TIME", f.highest, "TN distribution"),
    );
  else assert.ok(!s.has("Cable", "Fuse clears in time"));

  if (f.shutsDown === null) assert.ok(!s.has("Fuse", "Fuse clears before the supply"));
  else {
    const before = s.row("Fuse", "Fuse clears before the supply");
    // Where both act, the faster one is first.
    const late = blows && stops && f.shutsWithin < 0.4;
    if (late)
      assert.match(`${String(before["Found"])} of ${String(before["Limit"])}`, /^0\.4 s of .+ s$/);
    else {
      near(before, least);
      near(before, f.clears, "Limit");
    }
    holds(before, blows && !late);
  }

  for (const [check, known, amperes, time] of [
    ["Cable withstands a fault", isKnown, greatest, 0.01],
    ["Cable withstands a slow fault", true, f.clears, 0.4],
  ] as const)
    atLeastIfKnown(
      s.row("Cable", check),
      known,
      once("CONDUCTOR_WITHSTAND_TIME", amperes, f.size, 70, 160),
      time,
    );
}

/** A fault behind a stage gets what all its units give at most. */
function faultsOfStages(s: Singly): void {
  const { f } = s;
  atMost(
    s.row("Branch fuse", "Fuse carries the load"),
    s.most("Branch", "Highest input A"),
    f.branchRated,
  );
  atLeast(
    s.row("Branch fuse", "Fuse breaks the voltage"),
    80,
    s.most("Branch fuse", "Highest input V"),
  );
  atMost(s.row("Branch fuse", "Fuse protects the cable"), f.branchRated, 25);
  assert.ok(!s.has("Branch fuse", "Fuse clears before the supply"));

  const ohms = 0.02 / f.inParallel;
  const limit = f.busLimit * f.inParallel;
  const [low, high] = [-f.tolerance, f.tolerance].map((part) => f.ratio * (1 + part));
  const full = f.highest * high!;
  const least = once("FAULT_CURRENT", f.lowest * low!, ohms, f.branchFuse + f.second, limit);
  const greatest = once("FAULT_CURRENT", full, ohms, f.branchFuse, limit);
  const isHeld = limit < full / (ohms + f.branchFuse);
  atLeastIfKnown(s.row("Branch fuse", "Fuse breaks the fault"), isHeld, 100, greatest);
  const far = s.row("Branch", "Far-end fault blows the fuse");
  if (least >= f.branchClears) {
    atLeast(far, least, f.branchClears);
    const inTime = s.row("Branch", "Fuse clears in time");
    // Of a final circuit; table 41.1 begins above 120 V dc.
    if (full > 120) atMost(inTime, 0.3, once("DISCONNECTION_TIME", full, "TN final"));
    else holds(inTime, true);
  } else {
    const held = limit <= least * (1 + 1e-12) && limit <= 25;
    if (held) atLeast(far, 25, limit);
    else atLeast(far, least, f.branchClears);
    assert.ok(!s.has("Branch", "Fuse clears in time"));
  }
  for (const [check, known, amperes, time] of [
    ["Cable withstands a fault", isHeld, greatest, 0.01],
    ["Cable withstands a slow fault", true, f.branchClears, 0.3],
  ] as const)
    atLeastIfKnown(
      s.row("Branch", check),
      known,
      once("CONDUCTOR_WITHSTAND_TIME", amperes, "4 mm²", 70, 160),
      time,
    );

  // No fuse: the stage's limit holds it where it reaches it, and else nothing is known to end it.
  const lowest = HOLD_VOLTS * (1 - f.tolerance);
  const reached = once("FAULT_CURRENT", lowest, 0.01, f.third, f.holdLimit);
  const unfused = s.row("Oven cable", "Far-end fault blows the fuse");
  if (f.holdLimit <= reached * (1 + 1e-12)) atLeast(unfused, 10, f.holdLimit);
  else assert.equal(unfused["Verdict"], "not determined");
}

function stages(s: Singly): void {
  const { f } = s;
  near(s.row("Supply", "Ripple"), f.ripple / 400);
  // A fixed ratio passes on what it is fed with, at its highest ratio.
  const passed = once("RATIO_OUTPUT", f.ripple, f.ratio * (1 + f.tolerance));
  near(s.row("Bus", "Ripple"), (f.busRipple ?? passed) / once("RATIO_OUTPUT", 400, f.ratio));
  near(s.row("Hold", "Ripple"), 0.05 / HOLD_VOLTS);

  const power = s.most("Bus", "Lowest input V") * s.most("Bus", "Highest input A");
  const loops = [f.ohms + f.cable, f.ohms * (f.least ?? 1) + f.cable * COLD];
  const margins = loops.map((ohms) =>
    evaluate("STABILITY_MARGIN", [
      f.lowest,
      power,
      ohms + f.fuse,
      f.inductance * 1e-6,
      f.micro * f.inParallel * 1e-6,
      0,
    ]),
  );
  const stability = s.row("Bus", "Stability margin");
  if (margins.every(({ ok }) => ok))
    near(stability, Math.min(...margins.map((one) => (one.ok ? (one.value as number) : 0))));
  else holds(stability, false);

  near(
    s.row("Bus", "Discharge time"),
    once("SAFETY_DISCHARGE_TIME", f.micro * 1e-6, f.highest, 60, f.bleed),
  );
  near(
    s.row("Bus", "Stored energy"),
    once("SAFETY_STORED_ENERGY", f.micro * f.inParallel * 1e-6, f.highest),
  );
  // 2 % for each kelvin above 30 °C: nothing is left at 80.
  const left = once("STAGE_DERATED", 1, f.hottest, 30, 80);
  atMost(s.row("Bus", "Stage in its ambient"), s.most("Bus", "Loading"), left);
  atLeast(s.row("Bus", "Lowest ambient"), f.coldest, -20);
  near(s.row("Bus", "Share of the worst unit"), worstShare(f, s.solutions, f.inParallel));
}

/** Of some of the bus's units, where they give most. */
function worstShare(f: Figures, solutions: readonly Solution[], units: number): number {
  const amperes = solutions.map(({ cells }) => number(cells.get("Bus")!, "Output A"));
  const load = Math.max(...amperes);
  const { ratio, cells } = solutions[amperes.indexOf(load)]!;
  const volts = number(cells.get("Bus")!, "Input V") * ratio;
  return units === 1 ? load : once("PARALLEL_WORST", load, units, volts, f.spread, 0.02, 0.1);
}

function oneUnitLost({ f, feed }: Singly): void {
  const rows = judged(feed, askedWith(ASKED, { "Units lost": 1 }));
  const left = f.inParallel - 1;
  const solutions = atAllEnds(f, changed(feed, "Bus", { "In parallel": left }));
  near(found(rows, "Bus", "One unit lost"), worstShare(f, solutions, left) / 20);
  const worst = byItem(spill("CHAIN_WORST", [feed, 1]));
  near(found(rows, "Camp", "Input above lowest"), number(worst.get("Camp")!, "Lowest input V"));
}

describe("CHAIN_CHECKS beside the functions that compute each check singly", () => {
  it("finds the same over all cases", () => {
    fc.assert(
      fc.property(figures, (f) => {
        fc.pre(evaluate("CHAIN_WORST", [randomTable(f, 1)]).ok);
        const singly = new Singly(f);
        voltagesAndLoadings(singly);
        wholeFeed(singly);
        bandsOfItems(singly);
        cables(singly);
        faultsOfTheSupply(singly);
        faultsOfStages(singly);
        stages(singly);
        oneUnitLost(singly);
      }),
      { numRuns: 25, endOnFailure: true },
    );
  });

  it("finds an operating point where all nine cases have one", () => {
    const met = new Set<boolean>();
    const part = fc.double({ min: 0.7, max: 1.3, noNaN: true });
    fc.assert(
      fc.property(figures, part, (f, part) => {
        const exact = { ...f, tolerance: 0 as const };
        const times = part * once("CHAIN_HEADROOM", randomTable(exact, 1), "lowest");
        const feed = randomTable(
          {
            ...exact,
            loads: f.loads.map((load) => load * times),
            current: f.current * times,
            oven: f.oven / times,
          },
          1,
        );
        const isCarried = nineCases(feed).every((rows) =>
          [...rows.values()].every((row) => typeof row["Input V"] === "number"),
        );
        met.add(isCarried);
        const point = found(judged(feed, ASKED), "Supply", "Operating point");
        holds(point, isCarried);
        if (isCarried) assert.equal(point["Found"], "in every case");
      }),
      { numRuns: 20, endOnFailure: true },
    );
    assert.equal(met.size, 2, "feeds on both sides of the collapse");
  });
});
