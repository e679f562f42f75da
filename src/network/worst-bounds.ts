/**
 * Bounds of every voltage and current of a tree over all of its supply window, loads and tolerances together, and what
 * they prove about where the extremes lie.
 *
 * Each row draws a current that is convex in its input voltage and grows with every load below it, so that the highest
 * current of a row is met at an end of its voltage, with its own loads at their most. What is left to prove is which
 * end of each tolerance draws more. That is a matter of signs: with ε, the elasticity of a current in its voltage (−1
 * for constant power, 0 for constant current, 1 for a resistance),
 *
 *   run, series   a larger resistance draws more where ε of what it feeds is below 0, less where it is above
 *   ratio         a larger ratio draws more where ε at its input is above −1; its output rises while Z·I < V, with Z
 *                 the resistance that feeds it as it is seen there
 *   regulated     a larger set point draws more where ε of what it feeds is above −1
 *
 * The bounds are found by interval arithmetic: assume a lowest voltage of every row, take the largest currents that
 * allows, and see that no voltage falls below what was assumed. Voltages change steadily from one case to another, so
 * none can leave the bounds. Where the bounds do not close, as near collapse, or a sign is not certain, as where
 * constant power and resistances share a cable, nothing is proven.
 */
import { NO_PARENT } from "./feed-state.js";
import type { CompiledFeed } from "./compiled-feed.js";
import { type LoadSet, loadOf } from "./feed-conditions.js";
import { isToleranced, type Shift, supplyAt } from "./feed-corner.js";
import { enterRow } from "./feed-numbers.js";
import { drawnLoss, EQUATION, type Equation, KINDS } from "./row-kinds.js";

export interface TreeProof {
  /** By row: the end of its tolerance at which the feed draws more; of a row in which that is not certain, the likelier one. */
  readonly drawsMore: Int8Array;
  /** By row: its extremes are met at the ends that the search tries. */
  readonly proven: Uint8Array;
}

/** What rounding may do to a sign without harm. */
const ROUNDING = 1e-9;

interface Interval {
  readonly low: number;
  readonly high: number;
}

/** Coefficients of a row at the ends of its tolerance. */
interface RowRange {
  readonly equation: Equation;
  readonly resistance: Interval;
  readonly voltage: Interval;
  readonly ratio: Interval;
  readonly demand: number;
}

/** Bounds on each row's voltages, and on its currents with its own loads at their highest. */
interface Bounds {
  readonly range: readonly RowRange[];
  readonly lowestInput: Float64Array;
  readonly highestInput: Float64Array;
  readonly lowestOutput: Float64Array;
  readonly highestOutput: Float64Array;
  readonly inputCurrent: Interval[];
  readonly outputCurrent: Interval[];
}

/**
 * For a tree that was just solved at these loads, on the lowest supply and as given: its slopes there tell the likelier
 * ends, its voltages where to begin. The feed's numbers are left as given.
 *
 * @param lost Row of which one unit is lost.
 */
export function treeProof(
  order: Int32Array,
  feed: CompiledFeed,
  loads: LoadSet,
  lost: number | undefined,
): TreeProof {
  const { count } = feed.columns;
  const drawsMore = likelyEnds(order, feed);
  const proven = new Uint8Array(count);
  const bounds = boundsOf(order, feed, loads, lost);
  if (bounds) prove(order, feed, bounds, { drawsMore, proven });
  return { drawsMore, proven };
}

/** Of a tree that was just solved: by the slopes there, the ends of its tolerances at which the feed is likely to draw more. */
export function likelyEnds(order: Int32Array, feed: CompiledFeed): Int8Array {
  const { columns, numbers, state } = feed;
  const ends = new Int8Array(columns.count);
  for (const row of order) {
    const slope = state.betaFed[row]!;
    ends[row] = end(numbers.equation[row] as Equation, {
      fed: slope,
      input: state.inputCurrent[row]! + state.beta[row]! * state.inputVoltage[row]!,
      own: state.outputCurrent[row]! + slope * state.outputVoltage[row]!,
    });
  }
  return ends;
}

function end(
  equation: Equation,
  sign: { readonly fed: number; readonly input: number; readonly own: number },
): Shift {
  switch (equation) {
    case EQUATION.supply:
      return 0;
    case EQUATION.line:
      return sign.fed > 0 ? -1 : 1;
    case EQUATION.ratio:
      return sign.input < 0 ? -1 : 1;
    case EQUATION.regulated:
      return sign.own < 0 ? -1 : 1;
    case EQUATION.power:
    case EQUATION.current:
      return 1;
    case EQUATION.conductance:
      return -1;
  }
}

/** Rounds in which assumed voltages settle, if they do. */
const MOST_ROUNDS = 80;

/** Part of each voltage that is left as room, so that the bounds close. */
const ROOM = 1e-6;

function boundsOf(
  order: Int32Array,
  feed: CompiledFeed,
  loads: LoadSet,
  lost: number | undefined,
): Bounds | undefined {
  const { count } = feed.columns;
  const bounds: Bounds = {
    range: rowRanges(order, feed, loads, lost),
    lowestInput: Float64Array.from(feed.state.inputVoltage),
    highestInput: new Float64Array(count),
    lowestOutput: new Float64Array(count),
    highestOutput: new Float64Array(count),
    inputCurrent: new Array<Interval>(count),
    outputCurrent: new Array<Interval>(count),
  };
  const root = order[0]!;
  const ends = supplyEnds(feed, root);
  enterHighest(order, feed, bounds, ends.high);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    enterCurrents(order, feed, bounds);
    const fallen = enterLowest(order, feed, bounds, ends.low);
    if (fallen === "none") return bounds;
    if (fallen === "to nothing") return undefined;
  }
  return undefined;
}

function supplyEnds({ columns }: CompiledFeed, root: number): Interval {
  const nominal = supplyAt(columns, root, "nominal");
  const orNominal = (value: number) => (Number.isNaN(value) ? nominal : value);
  return {
    low: orNominal(supplyAt(columns, root, "lowest")),
    high: orNominal(supplyAt(columns, root, "highest")),
  };
}

/** Leaves the feed's numbers as they are as given, with the loads of the set. */
function rowRanges(
  order: Int32Array,
  { columns, numbers }: CompiledFeed,
  loads: LoadSet,
  lost: number | undefined,
): RowRange[] {
  const { figures } = columns;
  const ranges = new Array<RowRange>(columns.count);
  for (const row of order) {
    const voltage = figures.voltage[row] || 0;
    const inParallel = figures.inParallel[row]! - (row === lost ? 1 : 0);
    const load = loadOf(columns, row, loads);
    enterRow(numbers, columns, row, voltage, load, 1, inParallel);
    const tolerance = isToleranced(columns, row) ? figures.tolerance[row]! : 0;
    const { toleranced, equation } = KINDS[columns.kind[row]!]!;
    const ends = (name: "voltage" | "resistance" | "ratio"): Interval => {
      const value = numbers[name][row]!;
      const part = toleranced.includes(name) ? tolerance : 0;
      return { low: value * (1 - part), high: value * (1 + part) };
    };
    ranges[row] = {
      equation,
      resistance: ends("resistance"),
      voltage: ends("voltage"),
      ratio: ends("ratio"),
      demand:
        equation === EQUATION.conductance
          ? numbers.demand[row]! / (1 - tolerance)
          : numbers.demand[row]! * (1 + tolerance),
    };
  }
  return ranges;
}

/** Nothing draws and nothing drops; ratios and set points at their upper end. */
function enterHighest(
  order: Int32Array,
  { parent }: CompiledFeed,
  { range, highestInput, highestOutput }: Bounds,
  supply: number,
): void {
  for (const row of order) {
    const feeding = parent[row]!;
    const input = feeding === NO_PARENT ? supply : highestOutput[feeding]!;
    highestInput[row] = input;
    const { equation, ratio, voltage } = range[row]!;
    switch (equation) {
      case EQUATION.supply:
      case EQUATION.line:
        highestOutput[row] = input;
        break;
      case EQUATION.ratio:
        highestOutput[row] = ratio.high * input;
        break;
      case EQUATION.regulated:
        highestOutput[row] = voltage.high;
        break;
      case EQUATION.power:
      case EQUATION.current:
      case EQUATION.conductance:
        highestOutput[row] = 0;
        break;
      default:
        equation satisfies never;
    }
  }
}

/** From the leaves up: the currents that the assumed voltages allow. */
function enterCurrents(order: Int32Array, { parent, numbers }: CompiledFeed, bounds: Bounds): void {
  const { inputCurrent, outputCurrent } = bounds;
  for (const row of order) outputCurrent[row] = { low: 0, high: 0 };
  for (let index = order.length - 1; index >= 0; index--) {
    const row = order[index]!;
    const drawn = inputCurrentOf(row, numbers, bounds);
    inputCurrent[row] = drawn;
    const feeding = parent[row]!;
    if (feeding === NO_PARENT) continue;
    const { low, high } = outputCurrent[feeding]!;
    outputCurrent[feeding] = { low: low + drawn.low, high: high + drawn.high };
  }
}

function inputCurrentOf(row: number, numbers: CompiledFeed["numbers"], bounds: Bounds): Interval {
  const { equation, demand, ratio } = bounds.range[row]!;
  const low = bounds.lowestInput[row]!;
  const high = bounds.highestInput[row]!;
  const fed = bounds.outputCurrent[row]!;
  const efficiency = numbers.efficiency[row]!;
  const loss = (current: number) => drawnLoss(row, current, numbers);
  switch (equation) {
    case EQUATION.supply:
    case EQUATION.line:
      return fed;
    case EQUATION.power:
      return { low: demand / high, high: demand / low };
    case EQUATION.current:
      return { low: demand, high: demand };
    case EQUATION.conductance:
      return { low: demand * low, high: demand * high };
    case EQUATION.ratio:
      return {
        low: (ratio.low * fed.low) / efficiency + loss(fed.low) / high,
        high: (ratio.high * fed.high) / efficiency + loss(fed.high) / low,
      };
    case EQUATION.regulated: {
      const { voltage, resistance } = bounds.range[row]!;
      const least = Math.max(0, voltage.low - resistance.high * fed.high);
      const most = bounds.highestOutput[row]!;
      return {
        low: ((least * fed.low) / efficiency + loss(fed.low)) / high,
        high: ((most * fed.high) / efficiency + loss(fed.high)) / low,
      };
    }
  }
}

/** From the root down: the voltages that those currents leave, against what was assumed. */
function enterLowest(
  order: Int32Array,
  { parent }: CompiledFeed,
  { range, lowestInput, lowestOutput, outputCurrent }: Bounds,
  supply: number,
): "none" | "some" | "to nothing" {
  let fallen: "none" | "some" = "none";
  for (const row of order) {
    const feeding = parent[row]!;
    const input = feeding === NO_PARENT ? supply : lowestOutput[feeding]!;
    if (input < lowestInput[row]!) {
      fallen = "some";
      lowestInput[row] = input * (1 - ROOM);
    }
    const { equation, resistance, voltage, ratio } = range[row]!;
    const drop = resistance.high * outputCurrent[row]!.high;
    switch (equation) {
      case EQUATION.supply:
        lowestOutput[row] = input - drop;
        break;
      case EQUATION.line:
        lowestOutput[row] = input - voltage.high - drop;
        break;
      case EQUATION.ratio:
        lowestOutput[row] = ratio.low * input - drop;
        break;
      case EQUATION.regulated:
        lowestOutput[row] = voltage.low - drop;
        break;
      case EQUATION.power:
      case EQUATION.current:
      case EQUATION.conductance:
        continue;
      default:
        equation satisfies never;
    }
    if (!(lowestOutput[row]! > 0)) return "to nothing";
  }
  return fallen;
}

/** What the bounds say of each row. */
function prove(
  order: Int32Array,
  feed: CompiledFeed,
  bounds: Bounds,
  { drawsMore, proven }: TreeProof,
): void {
  const { columns, parent } = feed;
  const slopes = slopesOf(order, feed, bounds);
  if (!slopes) return;
  const seen = seenResistances(order, feed, bounds, slopes.least);
  // Rows of which it is not certain which end draws more, in each row and all that it feeds.
  const uncertain = new Int32Array(columns.count);
  for (let index = order.length - 1; index >= 0; index--) {
    const row = order[index]!;
    if (isToleranced(columns, row)) {
      const certain = certainEnd(row, feed, bounds, slopes);
      if (certain === undefined) uncertain[row]! += 1;
      else drawsMore[row] = certain;
    }
    const feeding = parent[row]!;
    if (feeding !== NO_PARENT) uncertain[feeding]! += uncertain[row]!;
  }
  // A regulated stage parts what it feeds from what feeds it: each part stands for itself.
  const partRoot = new Int32Array(columns.count);
  const rises = new Uint8Array(columns.count);
  for (const row of order) {
    const feeding = parent[row]!;
    const { equation } = bounds.range[row]!;
    const begins = feeding === NO_PARENT || bounds.range[feeding]!.equation === EQUATION.regulated;
    partRoot[row] = begins ? (feeding === NO_PARENT ? row : feeding) : partRoot[feeding]!;
    const above = begins || rises[feeding]! === 1;
    const follows =
      equation !== EQUATION.ratio ||
      seen[row]! * bounds.inputCurrent[row]!.high < bounds.lowestInput[row]!;
    rises[row] = above && follows ? 1 : 0;
    const certain = uncertain[partRoot[row]!] === 0 && rises[row] === 1;
    proven[row] = certain && ownLossIsCertain(row, feed, bounds, slopes) ? 1 : 0;
  }
}

/** Elasticities: of what each row feeds, at its input, and the least at its input whatever its loads are. */
interface Slopes {
  readonly fed: readonly Interval[];
  readonly input: readonly Interval[];
  readonly least: Float64Array;
}

const NONE: Interval = { low: 0, high: 0 };

/** Undefined where a divisor 1 + ε·R·I/V may reach 0. */
function slopesOf(
  order: Int32Array,
  { parent, numbers, columns }: CompiledFeed,
  bounds: Bounds,
): Slopes | undefined {
  const { count } = columns;
  const fed = new Array<Interval>(count);
  const input = new Array<Interval>(count);
  const least = new Float64Array(count);
  const leastFed = new Float64Array(count);
  // Sums of ε·I, and the extremes of ε, over what each row feeds.
  const sum = Array.from({ length: count }, () => ({ low: 0, high: 0 }));
  const hull = Array.from({ length: count }, () => ({
    low: Infinity,
    high: -Infinity,
  }));
  for (let index = order.length - 1; index >= 0; index--) {
    const row = order[index]!;
    const range = bounds.range[row]!;
    const current = bounds.outputCurrent[row]!;
    const own = weighted(sum[row]!, hull[row]!, current);
    fed[row] = own;
    const open = openSlope(row, own, bounds);
    const openLeast = openSlope(
      row,
      { low: leastFed[row]!, high: Math.max(own.high, leastFed[row]!) },
      bounds,
      true,
    );
    if (!open || !openLeast) return undefined;
    switch (range.equation) {
      case EQUATION.supply:
      case EQUATION.line:
        input[row] = open;
        least[row] = openLeast.low;
        break;
      case EQUATION.ratio:
        input[row] = ratioSlope(row, open, numbers, bounds, false);
        least[row] = ratioSlope(row, openLeast, numbers, bounds, true).low;
        break;
      case EQUATION.regulated:
        // What it draws must grow with its output current: its droop takes less than half of its set point.
        if (!(2 * range.resistance.high * current.high <= range.voltage.low || current.high === 0))
          return undefined;
        input[row] = { low: -1, high: -1 };
        least[row] = -1;
        break;
      case EQUATION.power:
        input[row] = { low: -1, high: -1 };
        least[row] = -1;
        break;
      case EQUATION.current:
        input[row] = NONE;
        break;
      case EQUATION.conductance:
        input[row] = { low: 1, high: 1 };
        break;
      default:
        range.equation satisfies never;
    }
    const feeding = parent[row]!;
    if (feeding === NO_PARENT) continue;
    leastFed[feeding] = Math.min(leastFed[feeding]!, least[row]!);
    const drawn = bounds.inputCurrent[row]!;
    if (drawn.high === 0) continue;
    const slope = input[row]!;
    sum[feeding]!.low += times(slope.low, drawn, "low");
    sum[feeding]!.high += times(slope.high, drawn, "high");
    hull[feeding]!.low = Math.min(hull[feeding]!.low, slope.low);
    hull[feeding]!.high = Math.max(hull[feeding]!.high, slope.high);
  }
  return { fed, input, least };
}

/** The lower or upper end of a number times an interval above 0. */
function times(value: number, by: Interval, which: "low" | "high"): number {
  const takesHigh = which === "high" ? value > 0 : value < 0;
  return value * (takesHigh ? by.high : by.low);
}

/** Mean elasticity of several currents: their sum over the current, and never beyond the extremes. */
function weighted(sum: Interval, hull: Interval, current: Interval): Interval {
  if (current.high === 0 || hull.low > hull.high) return NONE;
  const over = (value: number, which: "low" | "high") => {
    const byHigh = which === "high" ? value < 0 : value > 0;
    const by = byHigh ? current.high : current.low;
    return by > 0 ? value / by : value < 0 ? -Infinity : Infinity;
  };
  return {
    low: Math.max(hull.low, over(sum.low, "low")),
    high: Math.min(hull.high, over(sum.high, "high")),
  };
}

/** NaN makes it NaN: no bound is known then. */
function widen(interval: { low: number; high: number }, value: number): void {
  interval.low = Math.min(interval.low, value);
  interval.high = Math.max(interval.high, value);
}

/** Elasticity seen in front of a row's own resistance and forward drop; `anyLoad` from no current on. */
function openSlope(
  row: number,
  fed: Interval,
  bounds: Bounds,
  anyLoad = false,
): Interval | undefined {
  const { equation, resistance, voltage } = bounds.range[row]!;
  const current = bounds.outputCurrent[row]!;
  if (current.high === 0) return fed;
  const lowest = bounds.lowestOutput[row]!;
  const highest = bounds.highestOutput[row]!;
  const drops: Interval = {
    low: anyLoad ? 0 : (resistance.low * current.low) / highest,
    high: (resistance.high * current.high) / lowest,
  };
  const forward: Interval =
    equation === EQUATION.line
      ? {
          low: anyLoad ? 0 : voltage.low / highest,
          high: voltage.high / lowest,
        }
      : NONE;
  if (!(1 + fed.low * drops.high > 0)) return undefined;
  const found = { low: Infinity, high: -Infinity };
  for (const slope of [fed.low, fed.high])
    for (const drop of [drops.low, drops.high])
      for (const ahead of [forward.low, forward.high])
        widen(found, (slope * (1 + drop + ahead)) / (1 + slope * drop));
  return found;
}

/** Elasticity at a ratio row's input: what it passes, its fixed loss, and its losses that grow with the current. */
function ratioSlope(
  row: number,
  open: Interval,
  numbers: CompiledFeed["numbers"],
  bounds: Bounds,
  anyLoad: boolean,
): Interval {
  const drawn = bounds.inputCurrent[row]!;
  if (drawn.high === 0) return open;
  const { ratio } = bounds.range[row]!;
  const current = bounds.outputCurrent[row]!;
  const low = bounds.lowestInput[row]!;
  const high = bounds.highestInput[row]!;
  const fixed = numbers.fixedLoss[row]!;
  const growing = numbers.linearLoss[row]! + numbers.quadraticLoss[row]! * current.high;
  const fixedPart: Interval = {
    low: anyLoad ? 0 : fixed / high / drawn.high,
    high: anyLoad ? (fixed > 0 ? 1 : 0) : drawn.low > 0 ? Math.min(1, fixed / low / drawn.low) : 1,
  };
  const growingPart = (growing * numbers.efficiency[row]!) / (low * ratio.low);
  const found = { low: Infinity, high: -Infinity };
  for (const slope of [open.low, open.high])
    for (const constant of [fixedPart.low, fixedPart.high])
      for (const grown of [0, growingPart])
        for (const power of [1, 2])
          widen(found, (1 - constant - grown) * slope - constant + grown * (power * slope - 1));
  return found;
}

/** Resistance that feeds each row, as seen from its input, at most: with what its neighbours draw, which may be constant power. */
function seenResistances(
  order: Int32Array,
  { parent, numbers, columns }: CompiledFeed,
  bounds: Bounds,
  least: Float64Array,
): Float64Array {
  const atInput = new Float64Array(columns.count);
  const atOutput = new Float64Array(columns.count);
  const slopeSum = new Float64Array(columns.count);
  const slopeOf = (row: number) =>
    (Math.min(0, least[row]!) * bounds.inputCurrent[row]!.high) / bounds.lowestInput[row]!;
  for (const row of order) {
    const feeding = parent[row]!;
    if (feeding !== NO_PARENT) slopeSum[feeding]! += slopeOf(row);
  }
  for (const row of order) {
    const feeding = parent[row]!;
    if (feeding !== NO_PARENT) {
      const source = atOutput[feeding]!;
      const others = slopeSum[feeding]! - slopeOf(row);
      const left = 1 + source * others;
      atInput[row] = left > 0 ? source / left : Infinity;
    }
    atOutput[row] = sourceResistance(row, atInput[row]!, numbers, bounds);
  }
  return atInput;
}

function sourceResistance(
  row: number,
  input: number,
  numbers: CompiledFeed["numbers"],
  bounds: Bounds,
): number {
  const { equation, resistance, ratio } = bounds.range[row]!;
  switch (equation) {
    case EQUATION.supply:
    case EQUATION.regulated:
      return resistance.high;
    case EQUATION.line:
      return resistance.high + input;
    case EQUATION.ratio: {
      const current = bounds.outputCurrent[row]!.high;
      const lowest = bounds.lowestInput[row]!;
      const gain =
        ratio.high / numbers.efficiency[row]! +
        (numbers.linearLoss[row]! + 2 * numbers.quadraticLoss[row]! * current) / lowest;
      const left = 1 - (input * drawnLoss(row, current, numbers)) / lowest ** 2;
      return left > 0 ? resistance.high + (ratio.high * input * gain) / left : Infinity;
    }
    case EQUATION.power:
    case EQUATION.current:
    case EQUATION.conductance:
      return 0;
  }
}

/** The end of a row's tolerance at which the feed draws more, where that is certain. */
function certainEnd(
  row: number,
  { numbers }: CompiledFeed,
  bounds: Bounds,
  { fed, input }: Slopes,
): Shift | undefined {
  const { equation } = bounds.range[row]!;
  const grows = numbers.linearLoss[row]! > 0 || numbers.quadraticLoss[row]! > 0;
  const about = (slope: Interval, zero: number): number | undefined => {
    if (slope.low >= zero - ROUNDING) return 1;
    return slope.high <= zero + ROUNDING ? -1 : undefined;
  };
  switch (equation) {
    case EQUATION.supply:
      return 0;
    case EQUATION.line: {
      const sign = about(fed[row]!, 0);
      return sign === undefined ? undefined : sign > 0 ? -1 : 1;
    }
    case EQUATION.ratio: {
      // Losses that grow with the current are convex in the voltage only while the current grows no faster than it.
      if (grows && fed[row]!.high > 1 + ROUNDING) return undefined;
      return about(input[row]!, -1) as Shift | undefined;
    }
    case EQUATION.regulated: {
      if (!grows) return about(fed[row]!, -1) as Shift | undefined;
      if (fed[row]!.low >= 0) return 1;
      return fed[row]!.high <= -1 + ROUNDING ? -1 : undefined;
    }
    case EQUATION.power:
    case EQUATION.current:
      return 1;
    case EQUATION.conductance:
      return -1;
  }
}

/** Whether a row's own loss is at its most where the search looks: at the ends of its tolerance and of its voltage. */
function ownLossIsCertain(
  row: number,
  { columns, numbers }: CompiledFeed,
  bounds: Bounds,
  { fed }: Slopes,
): boolean {
  const { equation, resistance, voltage } = bounds.range[row]!;
  const slope = fed[row]!;
  const current = bounds.outputCurrent[row]!.high;
  if (current === 0) return true;
  switch (equation) {
    case EQUATION.line: {
      if (!isToleranced(columns, row)) return true;
      const dropped = (resistance.high * current + voltage.high) / bounds.lowestOutput[row]!;
      return slope.high * dropped < 1;
    }
    case EQUATION.ratio:
    case EQUATION.regulated: {
      const grows = numbers.linearLoss[row]! > 0 || numbers.quadraticLoss[row]! > 0;
      if (equation === EQUATION.ratio && grows && slope.high > 1 + ROUNDING) return false;
      // By efficiency the loss goes with the output power, which falls with the voltage where ε is below −1.
      return (
        numbers.efficiency[row]! === 1 || slope.low >= -1 - ROUNDING || slope.high <= -1 + ROUNDING
      );
    }
    case EQUATION.supply:
    case EQUATION.power:
    case EQUATION.current:
    case EQUATION.conductance:
      return true;
  }
}
