/**
 * The operating point of one tree: the voltages and currents at which every row's equations hold.
 *
 *   supply     Vout = V − R·I
 *   run,series Vout = Vin − V − R·I                 Iin = I
 *   ratio      Vout = r·Vin − R·I                   Iin = r·I/η + (a + b·I + c·I²)/Vin
 *   regulated  Vout = V − R·I                       Iin = (Vout·I/η + a + b·I + c·I²)/Vin
 *   loads      I = P/Vin, I, G·Vin
 *
 * Newton's method on the tree. From the leaves up, each row's input current becomes a straight line in its input
 * voltage, Iin = α + β·Vin; from the root down, voltages follow. Work and memory grow with the number of rows.
 *
 * Constant-power rows give two roots, and only the upper one is a service point. The search starts at the no-load
 * voltages, which no solution exceeds. What a tree draws is convex in its voltage, so Newton's steps fall towards the
 * highest solution without passing it, and a row's divisor 1 + β·R stays above 0 on the way. Where a divisor or a
 * voltage reaches 0 no solution exists: the feed has collapsed there. At the answer, divisors above 0 in every row are
 * the proof that no higher solution exists. [two-roots, monotone-newton]
 */
import { type FeedNumbers, type FeedState, NO_PARENT, rowArrays } from "./feed-state.js";
import { drawnLoss, EQUATION, type Equation } from "./row-kinds.js";

/** Who feeds each row, the coefficients of a case, and room for its solution. */
export interface SolvableFeed {
  readonly parent: Int32Array;
  readonly numbers: FeedNumbers;
  readonly state: FeedState;
}

export type TreeSolution =
  | {
      readonly outcome: "solved";
      readonly iterations: number;
      /** Largest mismatch of a voltage as part of it. */
      readonly residual: number;
      /** Smallest of 1 + β·R over the rows, of meshed ones pivot ÷ pivot without load: above 0, or the root would not be the upper one. */
      readonly leastDivisor: number;
      /** Of rows that are meshed. */
      readonly mesh?: MeshProof;
    }
  | {
      readonly outcome: "collapsed";
      readonly row: number;
      readonly iterations: number;
    }
  | Overfed;

/** More power is given back than is taken where it arrives, and nothing lets it on. */
export interface Overfed {
  readonly outcome: "overfed";
  /** Load that gives most of it. */
  readonly row: number;
  /** First row on its way to a supply in which reverse flow is blocked. */
  readonly blocking: number;
  /** What nothing takes, W. */
  readonly power: number;
  readonly iterations: number;
}

/** What is known of a solved mesh beside its voltages. */
export interface MeshProof {
  /** Least pivot of the matrix at the answer, S, and the row at whose output it stands. */
  readonly leastPivot: number;
  readonly row: number;
  /** Stages of the meshed part whose losses grow with their current: with them nothing is proven. */
  readonly unproven: readonly number[];
  /**
   * What is proven: that no operating point has a higher voltage anywhere; where loads give power back, that no other one
   * has every voltage at or above `floor`.
   */
  readonly claim: "upper" | "only one at or above" | "not proven";
  /** By row: voltage at its output if nothing were given back to its part of the mesh, up to the next regulated stages. */
  readonly floor: ReadonlyMap<number, number>;
  /** Rows in which reverse flow is blocked and would flow. */
  readonly blocked: readonly number[];
}

export function emptyState(count: number): FeedState {
  const array = rowArrays(count, 9);
  return {
    noLoadVoltage: array(),
    inputVoltage: array(),
    outputVoltage: array(),
    inputCurrent: array(),
    outputCurrent: array(),
    alpha: array(),
    beta: array(),
    alphaFed: array(),
    betaFed: array(),
    carries: new Uint8Array(count),
    blocked: new Uint8Array(count),
    shares: new Map(),
  };
}

/** Near collapse each step halves the distance, so that the last bit takes some fifty; the rest is reserve. */
const MOST_ITERATIONS = 200;

/** Part of the no-load voltage below which a step counts as none: a voltage is no more exact than what it is left of. */
const SETTLED = 4e-15;

/** A step that is foreseen is held to less, because it is not taken any more. */
const FORESEEN = SETTLED / 16;

/** Largest mismatch that a result may leave. */
const CLOSED = 1e-11;

export function solveTree(order: Int32Array, feed: SolvableFeed): TreeSolution {
  markCarrying(order, feed);
  startAtNoLoad(order, feed);
  let previousStep = Infinity;
  for (let iterations = 1; iterations <= MOST_ITERATIONS; iterations++) {
    const failed = drawLines(order, feed);
    if (failed !== NO_PARENT) return { outcome: "collapsed", row: failed, iterations };
    const step = followLines(order, feed);
    if (step.failedRow !== NO_PARENT)
      return { outcome: "collapsed", row: step.failedRow, iterations };
    const settled =
      step.largest <= SETTLED ||
      nextStep(step.largest, previousStep) <= FORESEEN ||
      (step.largest <= CLOSED && step.largest >= previousStep);
    if (settled) return settledSolution(order, feed, iterations);
    previousStep = step.largest;
  }
  // Steps that still fall after so many have no solution above them: the voltages creep down past a near miss.
  return {
    outcome: "collapsed",
    row: leastDivisor(order, feed).row,
    iterations: MOST_ITERATIONS,
  };
}

/**
 * Each of Newton's steps is C times the square of the one before it, so that two steps foresee the third. Near collapse
 * they only halve, and no end is foreseen before it is there.
 */
function nextStep(step: number, previous: number): number {
  if (previous === Infinity) return Infinity;
  const fall = step / previous;
  return step * fall * fall;
}

function settledSolution(order: Int32Array, feed: SolvableFeed, iterations: number): TreeSolution {
  const failed = drawLines(order, feed);
  const least = leastDivisor(order, feed);
  if (failed !== NO_PARENT || !(least.divisor > 0))
    return { outcome: "collapsed", row: least.row, iterations };
  const residual = settleCurrents(order, feed);
  return {
    outcome: "solved",
    iterations,
    residual,
    leastDivisor: least.divisor,
  };
}

/** A row carries current when it or anything below it draws some. */
function markCarrying(order: Int32Array, feed: SolvableFeed): void {
  const { parent, numbers, state } = feed;
  for (const row of order) state.carries[row] = draws(numbers, row) ? 1 : 0;
  for (let index = order.length - 1; index >= 0; index--) {
    const row = order[index]!;
    const feeding = parent[row]!;
    if (feeding !== NO_PARENT && state.carries[row]) state.carries[feeding] = 1;
  }
}

/** Loads come last in `EQUATION`; they feed nothing. */
function isLoadEquation({ equation }: FeedNumbers, row: number): boolean {
  return equation[row]! >= EQUATION.power;
}

function draws(numbers: FeedNumbers, row: number): boolean {
  return numbers.demand[row]! > 0 || numbers.fixedLoss[row]! > 0;
}

/** Forward drop of a row: none where no current flows. */
function forwardDrop(numbers: FeedNumbers, state: FeedState, row: number): number {
  return state.carries[row] ? numbers.voltage[row]! : 0;
}

export function startAtNoLoad(order: Int32Array, feed: SolvableFeed): void {
  const { parent, numbers, state } = feed;
  for (const row of order) {
    const feeding = parent[row]!;
    const input = feeding === NO_PARENT ? numbers.voltage[row]! : state.outputVoltage[feeding]!;
    state.noLoadVoltage[row] = input;
    state.inputVoltage[row] = input;
    state.inputCurrent[row] = 0;
    state.outputCurrent[row] = 0;
    state.outputVoltage[row] = openVoltage(row, input, numbers, state) || 0;
  }
}

/**
 * From the leaves up: the line of every row at the present voltages.
 * @returns the row at which a divisor or a voltage reached 0, NO_PARENT where none did.
 */
export function drawLines(order: Int32Array, feed: SolvableFeed): number {
  const { parent, numbers, state } = feed;
  const { alpha, beta, alphaFed, betaFed, inputVoltage } = state;
  for (const row of order) alphaFed[row] = betaFed[row] = 0;
  for (let index = order.length - 1; index >= 0; index--) {
    const row = order[index]!;
    if (!(inputVoltage[row]! > 0)) return row;
    if (!drawLine(row, numbers, state)) return row;
    const feeding = parent[row]!;
    if (feeding === NO_PARENT) continue;
    alphaFed[feeding]! += alpha[row]!;
    betaFed[feeding]! += beta[row]!;
  }
  return NO_PARENT;
}

function drawLine(row: number, numbers: FeedNumbers, state: FeedState): boolean {
  const { alpha, beta, alphaFed, betaFed } = state;
  const voltage = state.inputVoltage[row]!;
  const demand = numbers.demand[row]!;
  const equation = numbers.equation[row] as Equation;
  switch (equation) {
    case EQUATION.power:
      alpha[row] = (2 * demand) / voltage;
      beta[row] = -demand / voltage ** 2;
      return true;
    case EQUATION.current:
      alpha[row] = demand;
      beta[row] = 0;
      return true;
    case EQUATION.conductance:
      alpha[row] = 0;
      beta[row] = demand;
      return true;
    case EQUATION.supply:
    case EQUATION.line:
    case EQUATION.ratio:
    case EQUATION.regulated:
  }
  const divisor = 1 + betaFed[row]! * numbers.resistance[row]!;
  if (!(divisor > 0)) return false;
  switch (equation) {
    case EQUATION.supply:
      alpha[row] = (alphaFed[row]! + betaFed[row]! * numbers.voltage[row]!) / divisor;
      beta[row] = 0;
      return true;
    case EQUATION.line:
      alpha[row] = (alphaFed[row]! - betaFed[row]! * forwardDrop(numbers, state, row)) / divisor;
      beta[row] = betaFed[row]! / divisor;
      return true;
    case EQUATION.ratio:
      drawRatioLine(row, divisor, numbers, state);
      return true;
    case EQUATION.regulated:
      drawRegulatedLine(row, divisor, numbers, state);
      return true;
  }
}

function drawRatioLine(row: number, divisor: number, numbers: FeedNumbers, state: FeedState): void {
  const voltage = state.inputVoltage[row]!;
  const current = state.outputCurrent[row]!;
  const ratio = numbers.ratio[row]!;
  // Output current as a line in the input voltage.
  const constant = state.alphaFed[row]! / divisor;
  const slope = (state.betaFed[row]! * ratio) / divisor;
  const lossCurrent = drawnLoss(row, current, numbers) / voltage;
  const lossSlope =
    (numbers.linearLoss[row]! + 2 * numbers.quadraticLoss[row]! * current) / voltage;
  const gain = ratio / numbers.efficiency[row]! + lossSlope;
  state.alpha[row] = gain * constant + 2 * lossCurrent - lossSlope * current;
  state.beta[row] = gain * slope - lossCurrent / voltage;
}

function drawRegulatedLine(
  row: number,
  divisor: number,
  numbers: FeedNumbers,
  state: FeedState,
): void {
  const voltage = state.inputVoltage[row]!;
  const current = state.outputCurrent[row]!;
  const setPoint = numbers.voltage[row]!;
  const droop = numbers.resistance[row]!;
  const efficiency = numbers.efficiency[row]!;
  const nextCurrent = (state.alphaFed[row]! + state.betaFed[row]! * setPoint) / divisor;
  const power =
    ((setPoint - droop * current) * current) / efficiency + drawnLoss(row, current, numbers);
  const powerSlope =
    (setPoint - 2 * droop * current) / efficiency +
    numbers.linearLoss[row]! +
    2 * numbers.quadraticLoss[row]! * current;
  state.alpha[row] = (2 * power + powerSlope * (nextCurrent - current)) / voltage;
  state.beta[row] = -power / voltage ** 2;
}

/** From the root down: the voltages and currents at which all lines meet. */
export function followLines(order: Int32Array, feed: SolvableFeed) {
  const { parent, numbers, state } = feed;
  const { alphaFed, betaFed, noLoadVoltage } = state;
  const { inputVoltage, outputVoltage, outputCurrent } = state;
  let largest = 0;
  for (const row of order) {
    const feeding = parent[row]!;
    const input = feeding === NO_PARENT ? numbers.voltage[row]! : outputVoltage[feeding]!;
    if (!(input > 0)) return { largest, failedRow: feeding === NO_PARENT ? row : feeding };
    const step = Math.abs(input - inputVoltage[row]!) / noLoadVoltage[row]!;
    largest = Math.max(largest, step);
    inputVoltage[row] = input;
    const open = openVoltage(row, input, numbers, state);
    if (Number.isNaN(open)) continue;
    const resistance = numbers.resistance[row]!;
    const divisor = 1 + betaFed[row]! * resistance;
    const current = (alphaFed[row]! + betaFed[row]! * open) / divisor;
    const drop = resistance * current;
    outputCurrent[row] = current;
    // Of a voltage that nearly all drops, what is left is not told from a difference.
    outputVoltage[row] =
      drop > open / 2 ? (open - resistance * alphaFed[row]!) / divisor : open - drop;
  }
  return { largest, failedRow: NO_PARENT };
}

/** Output voltage of a row before its own resistance drops any of it; NaN for a load: never anything but a number, which stays in a register. */
function openVoltage(row: number, input: number, numbers: FeedNumbers, state: FeedState): number {
  const equation = numbers.equation[row] as Equation;
  switch (equation) {
    case EQUATION.supply:
    case EQUATION.regulated:
      return numbers.voltage[row]!;
    case EQUATION.line:
      return input - forwardDrop(numbers, state, row);
    case EQUATION.ratio:
      return numbers.ratio[row]! * input;
    case EQUATION.power:
    case EQUATION.current:
    case EQUATION.conductance:
      return Number.NaN;
    default:
      return equation satisfies never;
  }
}

/**
 * Last of all, currents from the equations themselves instead of their lines, summed from the leaves up.
 * @returns the largest mismatch of an output voltage with its row's equation, as a part of that voltage.
 */
export function settleCurrents(order: Int32Array, feed: SolvableFeed): number {
  const { parent, numbers, state } = feed;
  const { inputVoltage, outputVoltage, inputCurrent, outputCurrent } = state;
  for (const row of order) outputCurrent[row] = 0;
  for (let index = order.length - 1; index >= 0; index--) {
    const row = order[index]!;
    settleInputCurrent(row, numbers, state);
    const feeding = parent[row]!;
    if (feeding !== NO_PARENT) outputCurrent[feeding]! += inputCurrent[row]!;
  }
  let residual = 0;
  for (const row of order) {
    const open = openVoltage(row, inputVoltage[row]!, numbers, state);
    if (Number.isNaN(open)) continue;
    const mismatch = open - numbers.resistance[row]! * outputCurrent[row]! - outputVoltage[row]!;
    residual = Math.max(residual, Math.abs(mismatch) / outputVoltage[row]!);
  }
  return residual;
}

/** Written where it belongs: a number that a call gives back has a box made for it, at every row. */
function settleInputCurrent(row: number, numbers: FeedNumbers, state: FeedState): void {
  const { inputCurrent } = state;
  const voltage = state.inputVoltage[row]!;
  const current = state.outputCurrent[row]!;
  const demand = numbers.demand[row]!;
  switch (numbers.equation[row] as Equation) {
    case EQUATION.power:
      inputCurrent[row] = demand / voltage;
      return;
    case EQUATION.current:
      inputCurrent[row] = demand;
      return;
    case EQUATION.conductance:
      inputCurrent[row] = demand * voltage;
      return;
    case EQUATION.ratio:
      inputCurrent[row] =
        (numbers.ratio[row]! * current) / numbers.efficiency[row]! +
        drawnLoss(row, current, numbers) / voltage;
      return;
    case EQUATION.regulated:
      inputCurrent[row] =
        ((state.outputVoltage[row]! * current) / numbers.efficiency[row]! +
          drawnLoss(row, current, numbers)) /
        voltage;
      return;
    case EQUATION.supply:
    case EQUATION.line:
      inputCurrent[row] = current;
  }
}

export function leastDivisor(order: Int32Array, { numbers, state }: SolvableFeed) {
  let divisor = Infinity;
  let row = order[0]!;
  for (const candidate of order) {
    if (isLoadEquation(numbers, candidate)) continue;
    const found = 1 + state.betaFed[candidate]! * numbers.resistance[candidate]!;
    if (found < divisor) {
      divisor = found;
      row = candidate;
    }
  }
  return { divisor, row };
}
