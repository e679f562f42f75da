/**
 * A feed as the solver reads it: one array per coefficient, of whole rows (n items in parallel as one), in SI.
 * A topology is set up once; for other loads, sizes or voltages only numbers change.
 */
import type { FeedColumns } from "./feed-columns.js";
import { type FeedNumbers, rowArrays } from "./feed-state.js";
import { EQUATION, KINDS, type Toleranced } from "./row-kinds.js";

export function emptyNumbers(count: number): FeedNumbers {
  const array = rowArrays(count, 8);
  return {
    equation: new Uint8Array(count),
    voltage: array(),
    resistance: array(),
    ratio: array(),
    fixedLoss: array(),
    linearLoss: array(),
    quadraticLoss: array(),
    efficiency: array(),
    demand: array(),
    oneWay: new Uint8Array(count),
  };
}

/**
 * Enters one checked row. `voltage` and `load` are those of the case that is solved, of one item; `factor` is where the
 * row stands in its tolerance, 1 as given; `units` of its items are in service.
 */
export function enterRow(
  numbers: FeedNumbers,
  feed: FeedColumns,
  row: number,
  voltage: number,
  load: number,
  factor = 1,
  inParallel = feed.figures.inParallel[row]!,
): void {
  const { figures } = feed;
  const place = feed.kind[row]!;
  const { equation } = KINDS[place]!;
  const moved = MOVED[place]!;
  const given = figures.resistance[row]!;
  const resistance = (Number.isNaN(given) ? 0 : given) * (moved.resistance ? factor : 1);
  const isRatio = equation === EQUATION.ratio;
  const quadratic = orElse(figures.quadraticLoss[row]!, isRatio ? resistance : 0);
  numbers.equation[row] = equation;
  numbers.voltage[row] = voltage * (moved.voltage ? factor : 1);
  numbers.resistance[row] = resistance / inParallel;
  numbers.ratio[row] = orElse(figures.ratio[row]!, 1) * (moved.ratio ? factor : 1);
  numbers.fixedLoss[row] = inParallel * orElse(figures.fixedLoss[row]!, 0);
  numbers.linearLoss[row] = orElse(figures.linearLoss[row]!, 0);
  numbers.quadraticLoss[row] = (isRatio ? quadratic - resistance : quadratic) / inParallel;
  numbers.efficiency[row] = orElse(figures.efficiency[row]!, 1);
  const demand = load * (moved.load ? factor : 1);
  if (equation !== EQUATION.conductance) numbers.demand[row] = demand * inParallel;
  else numbers.demand[row] = demand === 0 ? 0 : inParallel / demand;
}

/** Whether a row lets no current flow back. A forward drop is a diode's, unless told otherwise. */
export function blocksReverse({ figures, kind, reverseFlow }: FeedColumns, row: number): boolean {
  const told = reverseFlow[row];
  if (told !== undefined) return told === "blocked";
  const place = kind[row]!;
  const ofKind = KINDS[place];
  // Of a row that could not be read nothing is solved.
  if (!ofKind) return false;
  return ofKind.blocksReverse || (ofKind.role === "line" && figures.voltage[row]! > 0);
}

/** What a tolerance moves, by the place of the kind in `FEED_KINDS`. */
const MOVED = KINDS.map(({ toleranced }) => {
  const moves = (figure: Toleranced) => toleranced.includes(figure);
  return {
    voltage: moves("voltage"),
    resistance: moves("resistance"),
    ratio: moves("ratio"),
    load: moves("load"),
  };
});

function orElse(value: number, otherwise: number): number {
  return Number.isNaN(value) ? otherwise : value;
}
