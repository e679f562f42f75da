/** The working of a spread. Its steps are numbered by input and by source, `halfWidth1` on, so they are built for each answer. */
import { numbered, placesOf } from "../quantities/numbered.js";
import type { Quantities, Quantity, Step, Steps } from "../quantities/steps.js";
import { DISTRIBUTIONS } from "./distributions.js";
import { type Spread, neighbours } from "./spread.js";
import type { UncertainInput } from "./uncertain-input.js";

/** What people read about the answer and, in their order, about its inputs. */
export interface SpreadQuantities {
  readonly answer: Quantity;
  readonly inputs: readonly Quantity[];
}

const PERCENTILES = [
  { field: "05", part: 0.05, label: "5 %", formula: "0.05" },
  { field: "50", part: 0.5, label: "50 %", formula: "0.5" },
  { field: "95", part: 0.95, label: "95 %", formula: "0.95" },
] as const;

/** Sums over the samples, the answers beside each percentile, the extremes, and of each uncertain input its sensitivity and T. */
export function spreadGivens(
  { corners, linear }: Spread,
  inputs: readonly UncertainInput[],
  { answer, inputs: ofInputs }: SpreadQuantities,
): Quantities {
  const { unit } = answer;
  const answered = (label: string, symbol: string): Quantity => ({ ...answer, label, symbol });
  const squared = `(${unit})²`;
  return {
    nominal: answered("At the middle of the tolerances", "y₀"),
    answered: { label: "Samples with an answer", symbol: "N", unit: "1" },
    differences: answered("Sum of the answers less that one", "Σ(y − y₀)"),
    squares: { label: "Sum of squares about the mean", symbol: "Σ(y − ȳ)²", unit: squared },
    ...Object.fromEntries(
      PERCENTILES.flatMap(({ field, label }): [string, Quantity][] => [
        [
          `before${field}`,
          { label: `Samples before the two beside ${label}`, symbol: `k${field}`, unit: "1" },
        ],
        [`below${field}`, answered(`Sample below ${label}`, `ya${field}`)],
        [`above${field}`, answered(`Sample above ${label}`, `yb${field}`)],
      ]),
    ),
    lowestSample: answered("Lowest sample", "ymin"),
    highestSample: answered("Highest sample", "ymax"),
    ...(Number.isNaN(corners.lowest)
      ? {}
      : {
          lowestCorner: answered("Lowest at the corners", "yL"),
          highestCorner: answered("Highest at the corners", "yH"),
        }),
    ...(Number.isNaN(linear.uncertainty)
      ? {}
      : Object.fromEntries(
          uncertainPlaces(inputs).flatMap((place): [string, Quantity][] => {
            const { label, symbol, unit: inputUnit } = ofInputs[place - 1]!;
            return [
              [
                `sensitivity${place}`,
                {
                  label: `Change of the answer with ${label}`,
                  symbol: `S ${symbol}`,
                  unit: inputUnit === "1" ? unit : `${unit}/${inputUnit}`,
                },
              ],
              [
                `halfWidth${place}`,
                { label: `Tolerance of ${label}`, symbol: `T ${symbol}`, unit: inputUnit },
              ],
            ];
          }),
        )),
  };
}

/** Steps in first order are there where the answer has its sensitivities. */
export function spreadSteps(
  spread: Spread,
  inputs: readonly UncertainInput[],
  quantities: SpreadQuantities,
): Steps {
  const { answer } = quantities;
  return {
    mean: {
      ...answer,
      label: "Mean of the samples",
      symbol: "ȳ",
      kind: "formula",
      formula: "nominal + differences / answered",
      cite: "jcgm-101",
    },
    uncertainty: {
      ...answer,
      label: "Standard uncertainty, of the samples",
      symbol: "u",
      kind: "formula",
      formula: "sqrt(squares / (answered - 1))",
      cite: "jcgm-101",
    },
    ...Object.fromEntries(
      PERCENTILES.map(({ field, label, formula }): [string, Step] => [
        `p${field}`,
        {
          ...answer,
          label: `${label} of the samples lie below`,
          symbol: `P${field}`,
          kind: "formula",
          formula: `below${field} + (${formula} * answered - 0.5 - before${field}) * (above${field} - below${field})`,
          cite: "jcgm-101",
        },
      ]),
    ),
    ...(Number.isNaN(spread.linear.uncertainty) ? {} : firstOrderSteps(spread, inputs, quantities)),
  };
}

function firstOrderSteps(
  { linear: { parts } }: Spread,
  inputs: readonly UncertainInput[],
  { answer, inputs: ofInputs }: SpreadQuantities,
): Steps {
  const sources = placesOf(parts);
  const sumOver = (source: number, width: string): string =>
    parts[source - 1]!.source.inputs.map(
      (index) => `sensitivity${index + 1} * ${width}${index + 1}`,
    ).join(" + ");
  const rootOf = (term: string): string =>
    `sqrt(${sources.map((source) => `${term}${source}^2`).join(" + ")})`;
  return {
    ...Object.fromEntries(
      uncertainPlaces(inputs).map((place): [string, Step] => {
        const { squareOfDivisor, cite } = DISTRIBUTIONS[inputs[place - 1]!.distribution];
        const { label, symbol, unit } = ofInputs[place - 1]!;
        return [
          `standard${place}`,
          {
            label: `Standard uncertainty of ${label}`,
            symbol: `u ${symbol}`,
            unit,
            kind: "formula",
            formula: `halfWidth${place} / sqrt(${squareOfDivisor})`,
            cite,
          },
        ];
      }),
    ),
    ...Object.fromEntries(
      sources.flatMap((source): [string, Step][] => {
        const { name } = parts[source - 1]!.source;
        return [
          [
            `part${source}`,
            {
              ...answer,
              label: `Uncertainty by ${name}`,
              symbol: `u${source}`,
              kind: "formula",
              formula: sumOver(source, "standard"),
              cite: "gum-first-order",
            },
          ],
          [
            `swing${source}`,
            {
              ...answer,
              label: `Change by the whole tolerance of ${name}`,
              symbol: `ΔT${source}`,
              kind: "formula",
              formula: sumOver(source, "halfWidth"),
              cite: "extreme-values",
            },
          ],
        ];
      }),
    ),
    firstOrder: {
      ...answer,
      label: "Standard uncertainty in first order",
      symbol: "uc",
      kind: "formula",
      formula: rootOf("part"),
      cite: "gum-first-order",
    },
    worstCase: {
      ...answer,
      label: "Worst case in first order, to either side",
      symbol: "EVA",
      kind: "formula",
      formula: sources.map((source) => `abs(swing${source})`).join(" + "),
      cite: "extreme-values",
    },
    rootSumSquare: {
      ...answer,
      label: "Root of the sum of squares, to either side",
      symbol: "RSS",
      kind: "formula",
      formula: rootOf("swing"),
      cite: "extreme-values",
    },
  };
}

/** Every given and every result by the names that givens and steps use. */
export function spreadValues(
  spread: Spread,
  inputs: readonly UncertainInput[],
): Readonly<Record<string, number>> {
  const { nominal, answered, differences, squares, mean, uncertainty, sorted, corners, linear } =
    spread;
  const common = {
    nominal,
    answered,
    differences,
    squares,
    mean,
    uncertainty,
    p05: spread.p05,
    p50: spread.p50,
    p95: spread.p95,
    lowestSample: spread.lowestSample,
    highestSample: spread.highestSample,
    ...Object.fromEntries(
      PERCENTILES.flatMap(({ field, part }): [string, number][] => {
        const { before, below, above } = neighbours(sorted, part);
        return [
          [`before${field}`, before],
          [`below${field}`, below],
          [`above${field}`, above],
        ];
      }),
    ),
    ...(Number.isNaN(corners.lowest)
      ? {}
      : { lowestCorner: corners.lowest, highestCorner: corners.highest }),
  };
  if (Number.isNaN(linear.uncertainty)) return common;
  const ofUncertain = (valueOf: (input: UncertainInput, index: number) => number) =>
    inputs.map((input, index) => (input.halfWidth > 0 ? valueOf(input, index) : undefined));
  return {
    ...common,
    ...numbered(
      "sensitivity",
      ofUncertain((_, index) => linear.sensitivities[index]!),
    ),
    ...numbered(
      "halfWidth",
      ofUncertain(({ halfWidth }) => halfWidth),
    ),
    ...numbered(
      "standard",
      ofUncertain(
        ({ halfWidth, distribution }) =>
          halfWidth / Math.sqrt(DISTRIBUTIONS[distribution].squareOfDivisor),
      ),
    ),
    ...numbered(
      "part",
      linear.parts.map((part) => part.uncertainty),
    ),
    ...numbered(
      "swing",
      linear.parts.map(({ swing }) => swing),
    ),
    firstOrder: linear.uncertainty,
    worstCase: linear.worstCase,
    rootSumSquare: linear.rootSumSquare,
  };
}

/** Numbers, from 1 on, of the inputs that have a tolerance. */
function uncertainPlaces(inputs: readonly UncertainInput[]): number[] {
  return placesOf(inputs).filter((place) => inputs[place - 1]!.halfWidth > 0);
}
