/** One row of a feed at its operating point. */
import type { InputError, NoAnswerError } from "../quantities/errors.js";
import type { Note } from "../quantities/steps.js";
import type {
  Amperes,
  Fraction,
  Ohms,
  Volts,
  Watts,
} from "../quantities/units.js";
import type { FeedItem, FeedKind } from "./feed-item.js";
import { rowNotes } from "./feed-notes.js";
import { KIND, type FeedNumbers } from "./feed-numbers.js";
import type { FeedState } from "./feed-solver.js";
import { NO_PARENT } from "./feed-topology.js";

export interface SolvedRow {
  readonly outcome: "solved";
  readonly item: FeedItem;
  /** Of a supply, the open-circuit voltage. */
  readonly inputVoltage: Volts;
  readonly inputCurrent: Amperes;
  readonly inputPower: Watts;
  /** Not there for a load. */
  readonly output: RowOutput | undefined;
  readonly loss: Watts;
  /** Not there for a load, nor where no power flows. */
  readonly efficiency: Fraction | undefined;
  /** Current as a part of the rated one; not there where none is given. */
  readonly loading: number | undefined;
  /** Resistance of all that feeds the row, seen from its input. */
  readonly feedResistance: Ohms;
  readonly coefficients: RowCoefficients;
  readonly notes: readonly Note[];
}

export interface RowOutput {
  readonly voltage: Volts;
  readonly current: Amperes;
  readonly power: Watts;
}

/** What the row's equations read, of the whole row. */
export interface RowCoefficients {
  /** Open-circuit voltage, set point or forward drop; a forward drop is 0 where no current flows. */
  readonly voltage: Volts;
  readonly resistance: Ohms;
  readonly ratio: number;
  readonly fixedLoss: Watts;
  readonly linearLoss: Volts;
  /** Of a ratio row, beyond what its resistance dissipates. */
  readonly quadraticLoss: Ohms;
  readonly stageEfficiency: Fraction;
  /** W, A or S of a load. */
  readonly demand: number;
}

export interface RefusedRow {
  readonly outcome: "refused";
  readonly item: string;
  /** The row to blame: this one or another of its tree. */
  readonly blamed: string;
  readonly error: InputError | NoAnswerError;
}

export type FeedRow = SolvedRow | RefusedRow;

export function solvedRow(
  item: FeedItem,
  row: number,
  numbers: FeedNumbers,
  state: FeedState,
  feedResistance: Ohms,
): SolvedRow {
  const inputVoltage = state.inputVoltage[row]!;
  const inputCurrent = state.inputCurrent[row]!;
  const inputPower = inputVoltage * inputCurrent;
  const coefficients = coefficientsOf(row, numbers, state);
  const output = item.kind.endsWith("load") ? undefined : outputOf(row, state);
  const loss = rowLoss(row, item.kind, numbers, state);
  const efficiency =
    output && inputPower > 0 ? output.power / inputPower : undefined;
  const loading = loadingOf(item, output?.current ?? inputCurrent);
  const notes = rowNotes(item, {
    inputVoltage,
    inputCurrent,
    loading,
    feedResistance,
  });
  return {
    outcome: "solved",
    item,
    inputVoltage,
    inputCurrent,
    inputPower,
    output,
    loss,
    efficiency,
    loading,
    feedResistance,
    coefficients,
    notes,
  };
}

function outputOf(row: number, state: FeedState): RowOutput {
  const voltage = state.outputVoltage[row]!;
  const current = state.outputCurrent[row]!;
  return { voltage, current, power: voltage * current };
}

function loadingOf(
  { ratedCurrent, inParallel }: FeedItem,
  current: Amperes,
): number | undefined {
  return ratedCurrent === undefined
    ? undefined
    : current / (ratedCurrent * inParallel);
}

function coefficientsOf(
  row: number,
  numbers: FeedNumbers,
  state: FeedState,
): RowCoefficients {
  const dropsNothing = numbers.kind[row] === KIND.line && !state.carries[row];
  return {
    voltage: dropsNothing ? 0 : numbers.voltage[row]!,
    resistance: numbers.resistance[row]!,
    ratio: numbers.ratio[row]!,
    fixedLoss: numbers.fixedLoss[row]!,
    linearLoss: numbers.linearLoss[row]!,
    quadraticLoss: numbers.quadraticLoss[row]!,
    stageEfficiency: numbers.efficiency[row]!,
    demand: numbers.demand[row]!,
  };
}

/** From what dissipates, not from what goes in less what comes out, so that the closing check has something to find. */
export function rowLoss(
  row: number,
  kind: FeedKind,
  numbers: FeedNumbers,
  state: FeedState,
): Watts {
  if (kind.endsWith("load")) return 0;
  const current = state.outputCurrent[row]!;
  const resistance = numbers.resistance[row]!;
  const drawn =
    numbers.fixedLoss[row]! +
    numbers.linearLoss[row]! * current +
    numbers.quadraticLoss[row]! * current ** 2;
  const unused = 1 / numbers.efficiency[row]! - 1;
  switch (kind) {
    case "ratio":
      return (
        resistance * current ** 2 +
        drawn +
        numbers.ratio[row]! * state.inputVoltage[row]! * current * unused
      );
    case "regulated":
      // The droop of a regulated stage is a slope of its set point and dissipates nothing.
      return drawn + state.outputVoltage[row]! * current * unused;
    case "supply":
      return resistance * current ** 2;
    default:
      return (numbers.voltage[row]! + resistance * current) * current;
  }
}

/** By the resistances on the way, as if every other current stayed as it is; a regulated stage begins anew. */
export function feedResistances(
  order: Int32Array,
  parent: Int32Array,
  numbers: FeedNumbers,
): Float64Array {
  const atInput = new Float64Array(parent.length);
  const atOutput = new Float64Array(parent.length);
  for (const row of order) {
    const feeding = parent[row]!;
    if (feeding !== NO_PARENT) atInput[row] = atOutput[feeding]!;
    const passed =
      numbers.kind[row] === KIND.regulated
        ? 0
        : atInput[row]! * numbers.ratio[row]! ** 2;
    atOutput[row] = passed + numbers.resistance[row]!;
  }
  return atInput;
}
