/** How far a result of a feed spreads over what may vary in it, and which of the inputs make it spread. */
import { feedFunction, type FeedFunction } from "../../src/sensitivity/feed-function.js";
import { requireValue } from "../../src/sensitivity/feed-quantities.js";
import { inputUnit, type VariedInput } from "../../src/sensitivity/varied-inputs.js";
import { InputError } from "../../src/quantities/errors.js";
import { frozenIn } from "../../src/quantities/given-sources.js";
import type { Quantity } from "../../src/quantities/steps.js";
import { histogram } from "../../src/spread/histogram.js";
import { type Shares, shares } from "../../src/spread/shares.js";
import { sharesGivens, sharesSteps, sharesValues } from "../../src/spread/shares-steps.js";
import { type Spread, spread } from "../../src/spread/spread.js";
import { spreadGivens, spreadSteps, spreadValues } from "../../src/spread/spread-steps.js";
import type { UncertainInput } from "../../src/spread/uncertain-input.js";
import type { Cell, CellTable } from "../cells.js";
import { defineEntry, type Parameter, type ShownStep, type ValuesOf } from "../entry.js";
import { inputName } from "../reading/spread/spread-block.js";
import {
  callNote,
  caseParameters,
  type VariedCall,
  VARIED_EXAMPLE,
  variedCall,
  variedCaveats,
  variedParameters,
} from "../reading/spread/varied-call.js";
import { NONE } from "./chain.js";

/** Headers of the results, in an order that people count on. */
export const UNCERTAINTY_COLUMNS = [
  "Figure",
  "Value",
  "Unit",
  "Note",
  "From",
  "To",
  "Share of samples",
] as const;

export const SHARES_COLUMNS = ["Input", "Alone", "With others", "Note"] as const;

/** Powers of two fill every axis evenly. */
const SAMPLES = 1024;
const SHARE_SAMPLES = 512;
/** As a blank cell is read where it comes as 0. */
const SEED = 0;

const sampleParameters = {
  samples: {
    name: "samples",
    unit: "1",
    meaning: "how many, best a power of two",
    kind: "number",
    optional: true,
  },
  seed: {
    name: "seed",
    unit: "1",
    meaning: `a whole number, ${SEED} if left out: the same seed gives the same samples`,
    kind: "number",
    zero: "real",
    optional: true,
  },
} as const satisfies Readonly<Record<string, Parameter>>;

const spreadParameters = { ...variedParameters, ...sampleParameters, ...caseParameters };

interface SpreadCall extends VariedCall {
  readonly samples: number | undefined;
  readonly seed: number;
}

function spreadCall(values: ValuesOf<typeof spreadParameters>): SpreadCall {
  return { ...variedCall(values), samples: values.samples, seed: values.seed ?? SEED };
}

/** A feed as a function, the result as entered, and its inputs as those of a spread. */
interface Varied {
  readonly call: VariedCall;
  readonly f: FeedFunction;
  readonly entered: number;
  readonly inputs: readonly UncertainInput[];
  /** What people read about the result and its inputs. */
  readonly quantities: { readonly answer: Quantity; readonly inputs: readonly Quantity[] };
}

/** @throws {InputError} where nothing varies. */
function variedFeed(call: VariedCall): Varied {
  const { feed, asked, inputs } = call;
  if (inputs.length === 0)
    throw new InputError(
      "spread",
      null,
      "given where no row of the feed table has a Tolerance and no supply a window: nothing varies",
    );
  const f = feedFunction(feed, asked, inputs);
  const { name, unit } = f.quantity;
  const own = asked.row === undefined ? "" : ` of ${feed.columns.item[asked.row]!}`;
  return {
    call,
    f,
    entered: requireValue(f.quantity, f.feed),
    inputs: inputs.map((input) => uncertain(input, inputName(feed, input))),
    quantities: {
      answer: { label: `${capital(name)}${own}`, symbol: "y", unit },
      inputs: inputs.map((input, place) => ({
        label: inputName(feed, input),
        symbol: `x${place + 1}`,
        unit: inputUnit(feed.columns, input),
      })),
    },
  };
}

/** A window need not have the supply's voltage in its middle; what spreads lies evenly between its ends. */
function uncertain({ low, high, distribution, group }: VariedInput, name: string): UncertainInput {
  return { name, value: (low + high) / 2, halfWidth: (high - low) / 2, distribution, group };
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

const NOT_A_LIMIT = "not a limit: limits are judged by the extremes";

interface Uncertainty extends Varied {
  readonly found: Spread;
}

const chainUncertainty = defineEntry({
  id: "CHAIN_UNCERTAINTY",
  family: "chain",
  parameters: spreadParameters,
  result: {
    shape: "table",
    unit: "as in the column Unit",
  },
  example: {
    args: [VARIED_EXAMPLE, "loss"],
  },
  citations: [
    "jcgm-101",
    "gum-first-order",
    "gum-flat",
    "gum-triangular",
    "three-sigma",
    "extreme-values",
    "sobol-joe-kuo",
    "two-roots",
    "monotone-newton",
  ],
  copied: { verdicts: [] },
  read: spreadCall,
  calculate: (call): Uncertainty => {
    const varied = variedFeed(call);
    const { samples = SAMPLES, seed } = call;
    return { ...varied, found: spread(varied.f.valueAt, varied.inputs, { samples, seed }) };
  },
  cells: uncertaintyTable,
  cellOf: (_, row, column): ShownStep | undefined => {
    const step = column === 1 ? FIGURES[row - 1]?.step : undefined;
    return step === undefined ? undefined : { working: 0, step };
  },
  caveats: ({ call, found }) => [...variedCaveats(call, "uncertainty"), ...found.caveats],
  working: (_, { found, inputs, quantities }) => {
    const givens = spreadGivens(found, inputs, quantities);
    const { samples, seed } = found;
    const working = {
      title: quantities.answer.label,
      givens,
      steps: spreadSteps(found, inputs, quantities),
      values: spreadValues(found, inputs),
      frozen: frozenIn(Object.keys(givens), `${samples} samples by seed ${seed}, each solved`),
    };
    return [working];
  },
});

interface SpreadFigure {
  readonly name: string;
  readonly value: (uncertainty: Uncertainty) => number;
  readonly step?: string;
  readonly unit?: string;
  readonly note?: (uncertainty: Uncertainty) => string;
}

const FIGURES: readonly SpreadFigure[] = [
  { name: "As entered", value: ({ entered }) => entered, note: ({ call }) => callNote(call) },
  { name: "Middle of the tolerances", value: ({ found }) => found.nominal },
  { name: "Mean", value: ({ found }) => found.mean, step: "mean" },
  { name: "Standard uncertainty", value: ({ found }) => found.uncertainty, step: "uncertainty" },
  { name: "P05", value: ({ found }) => found.p05, step: "p05", note: () => NOT_A_LIMIT },
  { name: "P50", value: ({ found }) => found.p50, step: "p50" },
  { name: "P95", value: ({ found }) => found.p95, step: "p95", note: () => NOT_A_LIMIT },
  {
    name: "Lowest extreme",
    // NaN where there are no corners: then there is no extreme either.
    value: ({ found: { corners, inside } }) => Math.min(corners.lowest, inside.lowest),
    note: ({ found }) => extremeNote(found, found.inside.lowest < found.corners.lowest),
  },
  {
    name: "Highest extreme",
    value: ({ found: { corners, inside } }) => Math.max(corners.highest, inside.highest),
    note: ({ found }) => extremeNote(found, found.inside.highest > found.corners.highest),
  },
  {
    name: "Standard uncertainty, first order",
    value: ({ found }) => found.linear.uncertainty,
    step: "firstOrder",
  },
  {
    name: "Worst case, first order, ±",
    value: ({ found }) => found.linear.worstCase,
    step: "worstCase",
  },
  {
    name: "Root of the sum of squares, ±",
    value: ({ found }) => found.linear.rootSumSquare,
    step: "rootSumSquare",
    note: () => "inputs independent and centred; not a limit",
  },
  { name: "Samples", value: ({ found }) => found.samples, unit: "1" },
  {
    name: "Samples without an answer",
    value: ({ found }) => found.samples - found.answered,
    unit: "1",
  },
  { name: "Seed", value: ({ found }) => found.seed, unit: "1" },
];

function extremeNote({ corners }: Spread, isInside: boolean): string {
  const ofCorners =
    corners.found === "signs" ? "at the two corners of the sensitivities" : "at a corner";
  const where = isInside ? "of the samples, between the corners: more is possible" : ofCorners;
  return corners.unanswered === 0
    ? where
    : `${where}; ${corners.unanswered} corners without an operating point`;
}

/** One class beside each figure. */
function uncertaintyTable(uncertainty: Uncertainty): CellTable {
  const { found, quantities } = uncertainty;
  const { corners, lowestSample, highestSample, sorted } = found;
  // A normal input may lie beyond its tolerance, and there are no corners where none has an answer.
  const ends = [corners.lowest, corners.highest, lowestSample, highestSample].filter(
    (end) => !Number.isNaN(end),
  );
  const classes = histogram(sorted, [Math.min(...ends), Math.max(...ends)], FIGURES.length);
  return [
    [...UNCERTAINTY_COLUMNS],
    ...FIGURES.map(({ name, value, unit, note }, place): Cell[] => {
      const shown = value(uncertainty);
      const own = classes[place];
      return [
        name,
        Number.isNaN(shown) ? NONE : shown,
        unit ?? quantities.answer.unit,
        note?.(uncertainty) ?? "",
        ...(own ? [own.from, own.to, own.share] : ["", "", ""]),
      ];
    }),
  ];
}

interface SpreadShares extends Varied {
  readonly found: Shares;
  /** Places among the shares, the greatest with others first. */
  readonly order: readonly number[];
}

const chainShares = defineEntry({
  id: "CHAIN_SHARES",
  family: "chain",
  parameters: spreadParameters,
  result: { shape: "table", unit: "parts of the variance" },
  example: {
    args: [VARIED_EXAMPLE, "loss"],
  },
  citations: [
    "saltelli-2010",
    "jansen-1999",
    "jcgm-101",
    "sobol-joe-kuo",
    "two-roots",
    "monotone-newton",
  ],
  copied: { verdicts: [] },
  read: spreadCall,
  calculate: (call): SpreadShares => {
    const varied = variedFeed(call);
    const { samples = SHARE_SAMPLES, seed } = call;
    const found = shares(varied.f.valueAt, varied.inputs, { samples, seed });
    const order = found.shares
      .map((_, place) => place)
      .sort((one, other) => found.shares[other]!.total - found.shares[one]!.total);
    return { ...varied, found, order };
  },
  cells: sharesTable,
  cellOf: ({ order, found }, row, column): ShownStep | undefined => {
    const field = column === 1 ? "first" : column === 2 ? "total" : undefined;
    if (field === undefined) return undefined;
    const place = order[row - 1];
    if (place !== undefined) return { working: 0, step: `${field}${place + 1}` };
    return row - 1 === found.shares.length && column === 1
      ? { working: 0, step: "residual" }
      : undefined;
  },
  caveats: ({ call, found }) => [...variedCaveats(call, "variance"), ...found.caveats],
  working: (_, { found, quantities: { answer } }) => {
    const givens = sharesGivens(found, answer);
    const { samples, seed } = found;
    const working = {
      title: `Shares in the variance of ${answer.label}`,
      givens,
      steps: sharesSteps(found, answer),
      values: sharesValues(found),
      frozen: frozenIn(
        Object.keys(givens),
        `${samples} rows of samples by seed ${seed}, each solved`,
      ),
    };
    return [working];
  },
});

function sharesTable({ call, found, order, inputs }: SpreadShares): CellTable {
  const left = "what inputs do together only, and the error of the estimate";
  return [
    [...SHARES_COLUMNS],
    ...order.map((place): Cell[] => {
      const { source, first, total } = found.shares[place]!;
      const together = source.inputs.map((input) => inputs[input]!.name);
      const note = together.length === 1 ? "" : `together: ${together.join(", ")}`;
      return [source.name, first, total, note];
    }),
    ["Left of 1", found.residual, NONE, callNote(call, left)],
  ];
}

export const chainSpreadEntries = [chainUncertainty, chainShares];
