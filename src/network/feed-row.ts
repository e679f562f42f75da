/** One row of a feed at its operating point. */
import type { InputError, NoAnswerError } from "../quantities/errors.js";
import type { Caveat } from "../quantities/steps.js";
import type { Amperes, Fraction, Ohms, Volts, Watts } from "../quantities/units.js";
import type { CompiledFeed } from "./compiled-feed.js";
import { itemAt } from "./feed-columns.js";
import type { FeedItem } from "./feed-item.js";
import { rowCaveats } from "./feed-caveats.js";
import { EQUATION, KINDS } from "./row-kinds.js";
import { loadingAt, lossAt } from "./row-flow.js";

export interface SolvedRow {
  readonly outcome: "solved";
  readonly item: FeedItem;
  /** Input voltage; of a supply, its open-circuit voltage. */
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
  readonly coefficients: RowCoefficients;
  /** Of a row whose current has more than one way in or out; not there for any other. */
  readonly meshed: MeshedRow | undefined;
  readonly caveats: readonly Caveat[];
}

export interface MeshedRow {
  /** Its reverse flow is blocked and would flow. */
  readonly blocked: boolean;
  /** Current that it draws from each of the items that feed it, where there are several. */
  readonly shares: readonly number[] | undefined;
  /** The bus that it feeds with others, whose voltage is the one of its output. */
  readonly bus: string | undefined;
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
  /** Coefficient of I² in the loss; for a ratio row without what its resistance dissipates. */
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

export function solvedRow(feed: CompiledFeed, row: number): SolvedRow {
  const { columns, state } = feed;
  const inputVoltage = state.inputVoltage[row]!;
  const inputCurrent = state.inputCurrent[row]!;
  const output = outputAt(feed, row);
  const inputPower = inputVoltage * inputCurrent;
  return {
    outcome: "solved",
    item: itemAt(columns, row),
    inputVoltage,
    inputCurrent,
    inputPower,
    output,
    loss: lossAt(feed, row),
    efficiency: output && inputPower > 0 ? output.power / inputPower : undefined,
    loading: loadingAt(feed, row),
    coefficients: coefficientsAt(feed, row),
    meshed: feed.meshes.length === 0 ? undefined : meshedAt(feed, row),
    caveats: rowCaveats(feed, row),
  };
}

function outputAt({ columns, state }: CompiledFeed, row: number): RowOutput | undefined {
  if (KINDS[columns.kind[row]!]!.role === "load") return undefined;
  const voltage = state.outputVoltage[row]!;
  const current = state.outputCurrent[row]!;
  return { voltage, current, power: voltage * current };
}

function meshedAt({ columns, meshes, state }: CompiledFeed, row: number): MeshedRow | undefined {
  const blocked = state.blocked[row] === 1;
  const shares = state.shares.get(row);
  const bus = meshes.map(({ busBehind }) => busBehind.get(row)).find((one) => one !== undefined);
  if (!blocked && !shares && bus === undefined) return undefined;
  return { blocked, shares, bus: bus === undefined ? undefined : columns.item[bus] };
}

function coefficientsAt({ numbers, state }: CompiledFeed, row: number): RowCoefficients {
  const dropsNothing = numbers.equation[row] === EQUATION.line && !state.carries[row];
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
