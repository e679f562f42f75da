/**
 * How a result of a solved feed changes with every coefficient of every row, by one solution of the adjoint equations.
 *
 * The rows' equations, linear about the operating point, for small changes of what flows:
 *
 *   ΔVin = ΔVout of the row that feeds it       ΔVout = a·ΔVin − R·ΔI
 *   ΔI = Σ ΔIin of the rows that it feeds       ΔIin = g·ΔVin + h·ΔI + k·ΔVout
 *
 * The adjoint of each is what the result changes by where a small source is put into that equation; theirs are the same
 * equations transposed, so that the factors 1 + β·R that the solver divided by serve again: one pass up the tree, one
 * down. A coefficient's slope is then the adjoint of its equation times the equation's own change with it.
 * [adjoint-network]
 */
import type { CompiledFeed } from "../network/compiled-feed.js";
import type { FlowPartials, QuantityFlows } from "./quantity-flows.js";
import { type FeedNumbers, type FeedState, NO_PARENT } from "../network/feed-state.js";
import { notOfMeshes } from "../network/meshes/mesh-refusal.js";
import { drawnLoss, EQUATION, type Equation } from "../network/row-kinds.js";

export type Coefficient = Exclude<keyof FeedNumbers, "equation" | "oneWay">;

/** By row; the adjoints of the four equations have the names of what these give. */
export interface FeedAdjoint extends FlowPartials {
  /** Change of the quantity with each coefficient of the whole row, everything else as entered. */
  readonly slopes: Readonly<Record<Coefficient, Float64Array>>;
}

/** For a feed in which every tree is solved and no number was changed since. */
export function feedAdjoint(feed: CompiledFeed, quantity: QuantityFlows): FeedAdjoint {
  const meshed = feed.trees.find(({ mesh }) => mesh)?.order[0];
  if (meshed !== undefined) throw notOfMeshes(feed.columns.item[meshed]!);
  const { count } = feed.columns;
  const partials = emptyPartials(count);
  quantity.addPartials(feed, partials);
  const adjoint = emptyPartials(count);
  const constant = new Float64Array(count);
  const constantFed = new Float64Array(count);
  const room = { partials, adjoint, constant, constantFed };
  for (const { order } of feed.trees) {
    // Up: the adjoint of each input voltage as a line, constant + β times the adjoint of the current that feeds it.
    for (let index = order.length - 1; index >= 0; index--) {
      const row = order[index]!;
      solveRow(row, 0, feed, room);
      constant[row] = adjoint.inputVoltage[row]!;
      const feeding = feed.parent[row]!;
      if (feeding !== NO_PARENT) constantFed[feeding]! += constant[row]!;
    }
    // Down: the current that feeds a row is known, and the line gives the rest.
    for (const row of order) {
      const feeding = feed.parent[row]!;
      solveRow(row, feeding === NO_PARENT ? 0 : adjoint.outputCurrent[feeding]!, feed, room);
    }
  }
  return { ...adjoint, slopes: slopesOf(feed, adjoint) };
}

function emptyPartials(count: number): FlowPartials {
  return {
    inputVoltage: new Float64Array(count),
    outputVoltage: new Float64Array(count),
    inputCurrent: new Float64Array(count),
    outputCurrent: new Float64Array(count),
  };
}

interface Room {
  readonly partials: FlowPartials;
  readonly adjoint: FlowPartials;
  readonly constantFed: Float64Array;
}

/** @param fed Adjoint of the output current of the row that feeds this one. */
function solveRow(
  row: number,
  fed: number,
  { numbers, state }: CompiledFeed,
  { partials, adjoint, constantFed }: Room,
): void {
  const { passed, conductance, gain, outputGain } = rowSlopes(row, numbers, state);
  const resistance = numbers.resistance[row]!;
  const slopeFed = state.betaFed[row]!;
  const inputCurrent = partials.inputCurrent[row]! + fed;
  const voltageConstant =
    partials.outputVoltage[row]! + constantFed[row]! + outputGain * inputCurrent;
  const outputCurrent =
    (partials.outputCurrent[row]! + gain * inputCurrent - resistance * voltageConstant) /
    (1 + slopeFed * resistance);
  const outputVoltage = voltageConstant + slopeFed * outputCurrent;
  adjoint.inputCurrent[row] = inputCurrent;
  adjoint.outputCurrent[row] = outputCurrent;
  adjoint.outputVoltage[row] = outputVoltage;
  adjoint.inputVoltage[row] =
    partials.inputVoltage[row]! + conductance * inputCurrent + passed * outputVoltage;
}

/** a, g, h and k of a row. */
interface RowSlopes {
  /** Slope of the output voltage with the input voltage. */
  readonly passed: number;
  /** Slopes of the input current with the input voltage, the output current and the output voltage. */
  readonly conductance: number;
  readonly gain: number;
  readonly outputGain: number;
}

function rowSlopes(row: number, numbers: FeedNumbers, state: FeedState): RowSlopes {
  const input = state.inputVoltage[row]!;
  const current = state.outputCurrent[row]!;
  const efficiency = numbers.efficiency[row]!;
  const lossGain = (numbers.linearLoss[row]! + 2 * numbers.quadraticLoss[row]! * current) / input;
  switch (numbers.equation[row] as Equation) {
    case EQUATION.supply:
      return { passed: 0, conductance: 0, gain: 1, outputGain: 0 };
    case EQUATION.line:
      return { passed: 1, conductance: 0, gain: 1, outputGain: 0 };
    case EQUATION.ratio:
      return {
        passed: numbers.ratio[row]!,
        conductance: -drawnLoss(row, current, numbers) / input ** 2,
        gain: numbers.ratio[row]! / efficiency + lossGain,
        outputGain: 0,
      };
    case EQUATION.regulated:
      return {
        passed: 0,
        conductance: -state.inputCurrent[row]! / input,
        gain: state.outputVoltage[row]! / (efficiency * input) + lossGain,
        outputGain: current / (efficiency * input),
      };
    case EQUATION.power:
    case EQUATION.current:
    case EQUATION.conductance:
      // A load's line is its own slope.
      return { passed: 0, conductance: state.beta[row]!, gain: 0, outputGain: 0 };
  }
}

function slopesOf(feed: CompiledFeed, adjoint: FlowPartials): FeedAdjoint["slopes"] {
  const { count } = feed.columns;
  const slopes: Record<Coefficient, Float64Array> = {
    voltage: new Float64Array(count),
    resistance: new Float64Array(count),
    ratio: new Float64Array(count),
    fixedLoss: new Float64Array(count),
    linearLoss: new Float64Array(count),
    quadraticLoss: new Float64Array(count),
    efficiency: new Float64Array(count),
    demand: new Float64Array(count),
  };
  for (const { order } of feed.trees)
    for (const row of order) enterSlopes(row, feed, adjoint, slopes);
  return slopes;
}

function enterSlopes(
  row: number,
  { numbers, state }: CompiledFeed,
  adjoint: FlowPartials,
  slopes: Record<Coefficient, Float64Array>,
): void {
  const input = state.inputVoltage[row]!;
  const output = state.outputVoltage[row]!;
  const current = state.outputCurrent[row]!;
  const efficiency = numbers.efficiency[row]!;
  const ofOutput = adjoint.outputVoltage[row]!;
  const ofInput = adjoint.inputCurrent[row]!;
  const enterLosses = () => {
    slopes.fixedLoss[row] = ofInput / input;
    slopes.linearLoss[row] = (ofInput * current) / input;
    slopes.quadraticLoss[row] = (ofInput * current ** 2) / input;
  };
  const equation = numbers.equation[row] as Equation;
  switch (equation) {
    case EQUATION.power:
      slopes.demand[row] = ofInput / input;
      return;
    case EQUATION.current:
      slopes.demand[row] = ofInput;
      return;
    case EQUATION.conductance:
      slopes.demand[row] = ofInput * input;
      return;
    case EQUATION.supply:
      slopes.voltage[row] = adjoint.inputVoltage[row]! + ofOutput;
      break;
    case EQUATION.line:
      slopes.voltage[row] = state.carries[row] ? -ofOutput : 0;
      break;
    case EQUATION.ratio:
      slopes.ratio[row] = ofOutput * input + (ofInput * current) / efficiency;
      slopes.efficiency[row] = (-ofInput * numbers.ratio[row]! * current) / efficiency ** 2;
      enterLosses();
      break;
    case EQUATION.regulated:
      slopes.voltage[row] = ofOutput;
      slopes.efficiency[row] = (-ofInput * output * current) / (efficiency ** 2 * input);
      enterLosses();
      break;
    default:
      equation satisfies never;
  }
  slopes.resistance[row] = -ofOutput * current;
}
