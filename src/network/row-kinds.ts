/**
 * Everything that any room asks of a kind of row. To add a kind, name it in `FEED_KINDS` and write its record here: the
 * compiler then names what else is missing. What differs from kind to kind is asked of this record, never of the
 * kind's name.
 */
import { type FeedNumbers, type FeedState } from "./feed-state.js";
import {
  InputError,
  requireAbove,
  requireAtLeast,
  requireFinite,
  requireFraction,
} from "../quantities/errors.js";
import type { Steps } from "../quantities/steps.js";
import type { Watts } from "../quantities/units.js";
import { type FeedColumns, type FeedFigure, figureAt } from "./feed-columns.js";
import { FEED_KINDS, type FeedKind } from "./feed-item.js";
import {
  currentLoadSteps,
  lineSteps,
  powerLoadSteps,
  ratioSteps,
  regulatedSteps,
  resistanceLoadSteps,
  supplySteps,
  tieSteps,
} from "./row-steps.js";

/** Equations of the solver by number, so that its inner loop compares integers; loads come last. */
export const EQUATION = {
  supply: 0,
  line: 1,
  ratio: 2,
  regulated: 3,
  power: 4,
  current: 5,
  conductance: 6,
} as const;

export type Equation = (typeof EQUATION)[keyof typeof EQUATION];

/** What a figure of a row may be. @throws {InputError} naming the figure. */
type Bound = (figure: FeedFigure, value: number) => void;

interface ReadFigure {
  readonly bound: Bound;
  /** Where it is missing, the row is refused. */
  readonly needed?: true;
}

/** A figure that a tolerance moves; `load` stands for light, nominal and peak load. */
export type Toleranced = "voltage" | "resistance" | "ratio" | "load";

/** Figures that a budget adds up over its rows. */
export type SummedField = "mass" | "price";

export interface RowKind {
  /** What the row does with the power that reaches it. */
  readonly role: "supply" | "line" | "stage" | "load";
  readonly equation: Equation;
  /** Columns that the kind reads beside those of every row, in the order in which they are checked. */
  readonly figures: Readonly<Partial<Record<FeedFigure, ReadFigure>>>;
  /** What must hold between figures that are each in order. @throws {InputError} naming one of them. */
  readonly between?: (feed: FeedColumns, row: number) => void;
  /** Figures that the row's Tolerance moves; none for a supply, whose Tolerance widens its window. */
  readonly toleranced: readonly Toleranced[];
  /** Draws the same power at any voltage, so that a lower voltage means more current. */
  readonly holdsPower: boolean;
  /** Stops working below its window. */
  readonly switchesOff: boolean;
  /** How its highest voltage stands to that of what feeds it, in service and where a fault has lifted that. */
  readonly inFault: InFault;
  /**
   * What carries the current: conductors of some length, whose drop, heat and faults are a cable's; contacts, which have
   * most resistance when worn, and may be a fuse's; or neither.
   */
  readonly builtOf: "conductors" | "contacts" | "neither";
  /** Those that one is expected to have. */
  readonly summed: readonly SummedField[];
  /** Lets no current flow back unless told otherwise; a forward drop does not either. */
  readonly blocksReverse: boolean;
  /** How many items may feed it: one, several whose outputs are one point there, or the two that it joins. */
  readonly fedBy: "one" | "several" | "two ends";
  /** Several in parallel share one current by their resistances. */
  readonly shares: boolean;
  /** Figures of which one at least is expected, and the result that is ideal without them. */
  readonly ideal: readonly Ideal[];
  /** From what dissipates, not from what goes in less what comes out, so that the closing error has something to find. */
  readonly loss: (row: number, numbers: FeedNumbers, state: FeedState) => Watts;
  readonly steps: Steps;
  /** In a single-line diagram; of what is in line it depends on what that is. */
  readonly symbol: "source" | "cable" | "in line" | "bus" | "converter" | "load" | "resistor";
  /** List of a proposal in which its rows stand; not there for what is in none. */
  readonly list?: "Cable" | "Stage";
}

/**
 * `source`: a voltage of its own; `passes`: one circuit with what feeds it; `follows`: a fixed part or multiple of it;
 * `holds`: its set point, whatever feeds it.
 */
export type InFault = "source" | "passes" | "follows" | "holds";

export interface Ideal {
  readonly without: readonly FeedFigure[];
  readonly result: "outputVoltage" | "loss";
  readonly text: string;
}

const aboveZero: Bound = (figure, value) => {
  requireAbove(figure, value, 0);
};
const notNegative: Bound = (figure, value) => {
  requireAtLeast(figure, value, 0);
};
const needed = (bound: Bound): ReadFigure => ({ bound, needed: true });
const optional = (bound: Bound): ReadFigure => ({ bound });

const STAGE_LOSSES = {
  fixedLoss: optional(notNegative),
  linearLoss: optional(notNegative),
  quadraticLoss: optional(notNegative),
  efficiency: optional(requireFraction),
};

const NO_LOSSES: Ideal = {
  without: ["fixedLoss", "linearLoss", "quadraticLoss", "efficiency"],
  result: "loss",
  text: "ideal: no losses given",
};

const NO_RESISTANCE: Ideal = {
  without: ["resistance", "efficiency"],
  result: "outputVoltage",
  text: "ideal: no resistance given",
};

const loadsWithin = (bound: Bound) => ({
  load: optional(bound),
  lightLoad: optional(bound),
  peakLoad: optional(bound),
});

const LOAD: Pick<
  RowKind,
  | "role"
  | "figures"
  | "toleranced"
  | "inFault"
  | "builtOf"
  | "summed"
  | "shares"
  | "blocksReverse"
  | "fedBy"
  | "ideal"
  | "loss"
  | "symbol"
> = {
  role: "load",
  figures: loadsWithin(requireDrawing),
  toleranced: ["load"],
  inFault: "passes",
  builtOf: "neither",
  // Of a load nobody asks it.
  summed: [],
  shares: false,
  blocksReverse: false,
  fedBy: "one",
  ideal: [],
  loss: () => 0,
  symbol: "load",
};

const LINE: Pick<
  RowKind,
  | "role"
  | "equation"
  | "holdsPower"
  | "switchesOff"
  | "inFault"
  | "summed"
  | "shares"
  | "blocksReverse"
  | "fedBy"
  | "loss"
  | "steps"
> = {
  role: "line",
  equation: EQUATION.line,
  holdsPower: false,
  switchesOff: false,
  inFault: "passes",
  summed: ["mass", "price"],
  shares: true,
  blocksReverse: false,
  fedBy: "one",
  loss(row, { voltage, resistance }, { outputCurrent }) {
    const current = outputCurrent[row]!;
    return (voltage[row]! + resistance[row]! * current) * current;
  },
  steps: lineSteps,
};

export const ROW_KINDS: Readonly<Record<FeedKind, RowKind>> = {
  /** A voltage behind a resistance; feeds the tree below it. */
  supply: {
    role: "supply",
    equation: EQUATION.supply,
    figures: {
      voltage: needed(aboveZero),
      resistance: optional(notNegative),
    },
    between: requireSupplyWindow,
    toleranced: [],
    holdsPower: false,
    switchesOff: false,
    inFault: "source",
    builtOf: "neither",
    summed: ["price"],
    shares: true,
    blocksReverse: false,
    fedBy: "one",
    ideal: [NO_RESISTANCE],
    loss: (row, { resistance }, { outputCurrent }) => resistance[row]! * outputCurrent[row]! ** 2,
    steps: supplySteps,
    symbol: "source",
  },
  /** Conductors as laid, both poles. */
  run: {
    ...LINE,
    symbol: "cable",
    builtOf: "conductors",
    figures: { resistance: needed(aboveZero) },
    toleranced: ["resistance"],
    ideal: [],
    list: "Cable",
  },
  /** Anything in line that only drops: contacts, fuse, contactor, filter, slip ring, shunt, diode. */
  series: {
    ...LINE,
    symbol: "in line",
    builtOf: "contacts",
    figures: {
      voltage: optional(notNegative),
      resistance: optional(notNegative),
    },
    toleranced: ["voltage", "resistance"],
    ideal: [
      {
        without: ["voltage", "resistance"],
        result: "outputVoltage",
        text: "ideal: no voltage or resistance given",
      },
    ],
  },
  /** One point, which may be fed from several items. */
  bus: {
    ...LINE,
    symbol: "bus",
    builtOf: "neither",
    figures: {},
    between: requireBare,
    toleranced: [],
    summed: [],
    shares: false,
    fedBy: "several",
    ideal: [],
  },
  /** A run or contact between the outputs of two items; its current counts from the first to the second. */
  tie: {
    ...LINE,
    symbol: "cable",
    builtOf: "neither",
    figures: { resistance: needed(aboveZero) },
    toleranced: ["resistance"],
    fedBy: "two ends",
    ideal: [],
    steps: tieSteps,
  },
  /** A fixed-ratio stage. */
  ratio: {
    role: "stage",
    equation: EQUATION.ratio,
    figures: {
      ratio: needed(aboveZero),
      resistance: optional(notNegative),
      ...STAGE_LOSSES,
    },
    between: requireRatioLosses,
    toleranced: ["ratio"],
    holdsPower: false,
    switchesOff: true,
    inFault: "follows",
    builtOf: "neither",
    summed: ["mass", "price"],
    shares: true,
    blocksReverse: true,
    fedBy: "one",
    ideal: [NO_RESISTANCE, NO_LOSSES],
    loss(row, numbers, state) {
      const current = state.outputCurrent[row]!;
      return (
        numbers.resistance[row]! * current ** 2 +
        drawnLoss(row, current, numbers) +
        numbers.ratio[row]! *
          state.inputVoltage[row]! *
          current *
          (1 / numbers.efficiency[row]! - 1)
      );
    },
    steps: ratioSteps,
    symbol: "converter",
    list: "Stage",
  },
  /** A stage that holds its output voltage. */
  regulated: {
    role: "stage",
    equation: EQUATION.regulated,
    figures: {
      voltage: needed(aboveZero),
      lowestVoltage: needed(aboveZero),
      highestVoltage: needed(aboveZero),
      resistance: optional(notNegative),
      ...STAGE_LOSSES,
    },
    between: requireOneLossForm,
    toleranced: ["voltage"],
    holdsPower: true,
    switchesOff: true,
    inFault: "holds",
    builtOf: "neither",
    summed: ["mass", "price"],
    shares: true,
    blocksReverse: true,
    fedBy: "one",
    ideal: [NO_LOSSES],
    // The droop of a regulated stage is a slope of its set point and dissipates nothing.
    loss(row, numbers, state) {
      const current = state.outputCurrent[row]!;
      return (
        drawnLoss(row, current, numbers) +
        state.outputVoltage[row]! * current * (1 / numbers.efficiency[row]! - 1)
      );
    },
    steps: regulatedSteps,
    symbol: "converter",
    list: "Stage",
  },
  /** Below 0 it gives power back: a drive that brakes, a hoist that lowers. */
  "power load": {
    ...LOAD,
    figures: loadsWithin(requireFinite),
    equation: EQUATION.power,
    holdsPower: true,
    switchesOff: true,
    steps: powerLoadSteps,
  },
  "current load": {
    ...LOAD,
    equation: EQUATION.current,
    holdsPower: false,
    switchesOff: false,
    steps: currentLoadSteps,
  },
  "resistance load": {
    ...LOAD,
    symbol: "resistor",
    equation: EQUATION.conductance,
    holdsPower: false,
    switchesOff: false,
    steps: resistanceLoadSteps,
  },
};

/**
 * By their place in `FEED_KINDS`, as a feed's columns hold them. Every record has every field, in one order: a large table
 * asks its rows' kinds a dozen times each, and objects of many shapes are slow to ask.
 */
export const KINDS: readonly RowKind[] = FEED_KINDS.map((kind) => ofOneShape(ROW_KINDS[kind]));

function ofOneShape(kind: RowKind): RowKind {
  const fields = new Set(Object.values(ROW_KINDS).flatMap((one) => Object.keys(one)));
  return Object.fromEntries(
    [...fields].map((field) => [field, kind[field as keyof RowKind]]),
  ) as unknown as RowKind;
}

/** What a kind is, by its word as it stands in a cell; undefined for a word that is no kind's name. */
export function kindOf(word: string): RowKind | undefined {
  const name = word.trim().toLowerCase();
  return FEED_KINDS.some((kind) => kind === name) ? ROW_KINDS[name as FeedKind] : undefined;
}

/** a + b·I + c·I², drawn at the input; of a current that flows back its magnitude counts. */
export function drawnLoss(
  row: number,
  current: number,
  { fixedLoss, linearLoss, quadraticLoss }: FeedNumbers,
): Watts {
  const magnitude = Math.abs(current);
  return fixedLoss[row]! + (linearLoss[row]! + quadraticLoss[row]! * magnitude) * magnitude;
}

function requireDrawing(figure: FeedFigure, value: number): void {
  if (value < 0)
    throw new InputError(
      figure,
      value,
      '0 or more (a load of kind "power load" may give power back)',
    );
  requireAtLeast(figure, value, 0);
}

function requireSupplyWindow(feed: FeedColumns, row: number): void {
  const voltage = feed.figures.voltage[row]!;
  const lowest = feed.figures.lowestVoltage[row]!;
  const highest = feed.figures.highestVoltage[row]!;
  if (lowest > voltage)
    throw new InputError("lowestVoltage", lowest, "at most the supply's voltage");
  if (highest < voltage)
    throw new InputError("highestVoltage", highest, "at least the supply's voltage");
}

/** A bus is one point: what it drops is that of the items before it. */
function requireBare(feed: FeedColumns, row: number): void {
  for (const name of ["voltage", "resistance"] as const) {
    const value = figureAt(feed, row, name);
    if (value !== undefined && value !== 0) throw new InputError(name, value, "blank of a bus");
  }
}

function requireOneLossForm(feed: FeedColumns, row: number): void {
  const efficiency = figureAt(feed, row, "efficiency");
  if (efficiency === undefined) return;
  for (const loss of ["fixedLoss", "linearLoss", "quadraticLoss"] as const)
    if (figureAt(feed, row, loss) !== undefined)
      throw new InputError("efficiency", efficiency, "blank where losses are given");
}

function requireRatioLosses(feed: FeedColumns, row: number): void {
  requireOneLossForm(feed, row);
  const efficiency = figureAt(feed, row, "efficiency");
  const resistance = figureAt(feed, row, "resistance");
  if (efficiency !== undefined && resistance !== undefined)
    throw new InputError("efficiency", efficiency, "blank on a ratio row that has a resistance");
  const quadratic = figureAt(feed, row, "quadraticLoss");
  const droop = resistance ?? 0;
  if (quadratic !== undefined && quadratic < droop)
    throw new InputError(
      "quadraticLoss",
      quadratic,
      `at least the row's resistance ${droop}, which is part of it`,
    );
}
