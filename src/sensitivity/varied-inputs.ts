/**
 * What of a feed may turn out otherwise than it was entered: inputs that move one row's figures between two ends, by its
 * Tolerance or its window, or as somebody says of one figure.
 */
import type { Distribution } from "../spread/distributions.js";
import { type FeedColumns, figureAt } from "../network/feed-columns.js";
import { supplyWindow } from "../network/feed-conditions.js";
import { isEntered, type MovableFeed } from "./movable-feed.js";
import type { MovingFigure } from "./moving-figures.js";
import { EQUATION, type Equation, KINDS, type SummedField } from "../network/row-kinds.js";

/** One input. Its value is its figure's, in SI, or, where it moves several, the factor that they are all multiplied by. */
export interface VariedInput {
  readonly row: number;
  /** One or more, all of the row. */
  readonly figures: readonly MovingFigure[];
  readonly nominal: number;
  readonly low: number;
  readonly high: number;
  readonly distribution: Distribution;
  /** Inputs of one group are low and high together. */
  readonly group: string | undefined;
}

/** What somebody says of one figure. */
export interface FigureSpread {
  readonly row: number;
  readonly figure: MovingFigure;
  /** How far it may lie from what was entered, ± as a part of it; undefined: as far as the table says. */
  readonly tolerance: number | undefined;
  readonly distribution: Distribution;
  readonly group: string | undefined;
}

/**
 * Every figure that the Tolerance of its row or the window of its supply moves, and those of `spreads`, each of which
 * stands in place of what the table says of the figure. A figure of 0 has no part to move by.
 */
export function variedInputs(
  movable: MovableFeed,
  spreads: readonly FigureSpread[],
): readonly VariedInput[] {
  const { columns } = movable;
  const inputs: VariedInput[] = [];
  for (let row = 0; row < columns.count; row++) {
    const own = spreads.filter((spread) => spread.row === row);
    const isOwn = (figure: MovingFigure) => own.some((spread) => spread.figure === figure);
    const left = tolerancedFigures(movable, row).filter((figure) => !isOwn(figure));
    const ends = endsInTable(columns, row);
    if (left.length > 0 && ends) inputs.push(input(movable, row, left, ends));
    for (const { figure, tolerance, distribution, group } of own) {
      const moved = tolerance === undefined ? ends : endsOf(tolerance);
      if (moved) inputs.push({ ...input(movable, row, [figure], moved), distribution, group });
    }
  }
  return inputs.filter(({ low, high }) => low < high);
}

/**
 * Rows of which nothing says how far they may vary, so that they are taken as entered: no Tolerance, a window that lacks
 * an end, and no row of `spreads`. Of a sum of one figure nothing but `spreads` says it.
 */
export function rowsTakenAsExact(
  movable: MovableFeed,
  spreads: readonly FigureSpread[],
  summed: SummedField | undefined,
): readonly number[] {
  const { columns } = movable;
  const told = spreads.filter(({ figure }) => summed === undefined || figure === summed);
  const toldRows = new Set(told.map(({ row }) => row));
  const isUntold = (row: number) => {
    if (summed !== undefined) return isEntered(movable, row, summed);
    if (tolerancedFigures(movable, row).length === 0) return false;
    if (KINDS[columns.kind[row]!]!.role !== "supply")
      return figureAt(columns, row, "tolerance") === undefined;
    const { lowest, highest } = supplyWindow(columns, row);
    return Number.isNaN(lowest) || Number.isNaN(highest);
  };
  return columns.item.flatMap((_, row) => (!toldRows.has(row) && isUntold(row) ? [row] : []));
}

/** Whether the table says how far the figure may lie from what was entered. */
export function isVariedInTable(movable: MovableFeed, row: number, figure: MovingFigure): boolean {
  return (
    tolerancedFigures(movable, row).includes(figure) &&
    endsInTable(movable.columns, row) !== undefined
  );
}

function tolerancedFigures(movable: MovableFeed, row: number): readonly MovingFigure[] {
  const { role, toleranced } = KINDS[movable.columns.kind[row]!]!;
  const moved: readonly MovingFigure[] = role === "supply" ? ["voltage"] : toleranced;
  return moved.filter((figure) => isEntered(movable, row, figure));
}

/** Ends of a tolerance, as parts of what was entered. */
interface Ends {
  readonly low: number;
  readonly high: number;
}

function endsOf(tolerance: number): Ends {
  return { low: 1 - tolerance, high: 1 + tolerance };
}

/** Undefined where the table does not say. */
function endsInTable(columns: FeedColumns, row: number): Ends | undefined {
  if (KINDS[columns.kind[row]!]!.role !== "supply") {
    const tolerance = figureAt(columns, row, "tolerance");
    return tolerance === undefined ? undefined : endsOf(tolerance);
  }
  const voltage = columns.figures.voltage[row]!;
  const { lowest, highest } = supplyWindow(columns, row);
  if (Number.isNaN(lowest) && Number.isNaN(highest)) return undefined;
  // An end that is not given is what was entered.
  return { low: (lowest || voltage) / voltage, high: (highest || voltage) / voltage };
}

function input(
  { figures: entered }: MovableFeed,
  row: number,
  figures: readonly MovingFigure[],
  { low, high }: Ends,
): VariedInput {
  const [first] = figures;
  const nominal = figures.length === 1 ? entered[first!][row]! : 1;
  return {
    row,
    figures,
    nominal,
    low: low * nominal,
    high: high * nominal,
    distribution: "flat",
    group: undefined,
  };
}

/** A figure that stands as it was entered. */
export function exactInput(movable: MovableFeed, row: number, figure: MovingFigure): VariedInput {
  return input(movable, row, [figure], { low: 1, high: 1 });
}

const UNITS: Readonly<Record<Exclude<MovingFigure, "load">, string>> = {
  voltage: "V",
  resistance: "Ω",
  ratio: "1",
  fixedLoss: "W",
  linearLoss: "W/A",
  quadraticLoss: "W/A²",
  efficiency: "1",
  lowestVoltage: "V",
  highestVoltage: "V",
  ratedCurrent: "A",
  mass: "kg",
  price: "1",
  outerDiameter: "m",
  grouping: "1",
  hottestC: "°C",
  altitude: "m",
  sun: "W/m²",
};

const LOAD_UNITS: Partial<Readonly<Record<Equation, string>>> = {
  [EQUATION.power]: "W",
  [EQUATION.current]: "A",
  [EQUATION.conductance]: "Ω",
};

/** Unit of an input's value; "1" for a factor. */
export function inputUnit(
  { kind }: FeedColumns,
  { row, figures }: Pick<VariedInput, "row" | "figures">,
): string {
  const [figure, ...others] = figures;
  if (figure === undefined || others.length > 0) return "1";
  return figure === "load" ? LOAD_UNITS[KINDS[kind[row]!]!.equation]! : UNITS[figure];
}
