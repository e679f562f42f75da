/** What stands behind a finding: the row's own equations in its case, or the steps of one calculation. */
import { feedRowGivens, feedRowValues, stepsOfRow } from "../network/feed-steps.js";
import { cornerRows } from "../network/feed-worst.js";
import { fieldsOf } from "../quantities/formulas.js";
import { frozenIn, type GivenSources } from "../quantities/given-sources.js";
import type { Quantities, Steps } from "../quantities/steps.js";
import { figure } from "../quantities/figures.js";
import type { FindingWorking } from "./check.js";
import type { CheckRow } from "./check-row.js";
import type { Place } from "./place.js";
import type { FoundExtreme } from "./tree-context.js";

/** How what is found comes of the row's figures in the case: one of them, or a formula over them and more givens. */
export type FoundBy =
  | string
  | {
      readonly formula: string;
      readonly givens: Quantities;
      readonly values: Readonly<Record<string, number>>;
      readonly inTable?: GivenSources["inTable"];
      readonly found: number;
    };

/** The row's equations in the case. */
export function caseWorking(
  place: Place,
  { at, columns, text }: FoundExtreme,
  by?: FoundBy,
): () => readonly FindingWorking[] {
  return () => {
    const rows = cornerRows(columns, at) ?? [];
    const values = feedRowValues(rows)[place.row];
    if (!values) return [];
    const steps = stepsOfRow(rows[place.row]!);
    const working = {
      title: `${place.name}, ${text}`,
      givens: feedRowGivens,
      steps,
      values,
      frozen: frozenIn(fieldsRead(steps), CASE),
    };
    if (by === undefined) return [working];
    if (typeof by === "string")
      return [{ ...working, frozen: { ...working.frozen, [by]: CASE }, shows: by }];
    return [
      {
        ...working,
        givens: { ...feedRowGivens, ...by.givens },
        steps: {
          ...steps,
          found: { ...FOUND, kind: "formula", formula: eitherWay(by.formula, values) },
        },
        values: { ...values, ...by.values, found: by.found },
        ...(by.inTable && { inTable: by.inTable }),
        shows: "found",
      },
    ];
  };
}

/** Of a ring's lines either way counts: where current flows back, its size and the drop that it makes. */
function eitherWay(formula: string, values: Readonly<Record<string, number>>): string {
  if (!(values["outputCurrent"]! < 0)) return formula;
  return formula
    .replace("inputVoltage - outputVoltage", "outputVoltage - inputVoltage")
    .replace("outputCurrent", "abs(outputCurrent)");
}

function fieldsRead(steps: Steps): string[] {
  return Object.values(steps).flatMap((step) => {
    if (step.kind === "lookup") return [];
    return fieldsOf(step.kind === "formula" ? step.formula : step.residual);
  });
}

const CASE = "as it is in this case";

const FOUND = { label: "Found", symbol: "x", unit: "1", cite: "definition" } as const;

/** The steps of one calculation, one of which is what was found. */
export function showing(
  working: () => readonly FindingWorking[],
  shows: string,
): () => readonly FindingWorking[] {
  return () =>
    working().map((one, index, { length }) => (index < length - 1 ? one : { ...one, shows }));
}

/** The steps of one calculation, with its givens and results by name. */
export function stepsWorking(
  title: string,
  givens: Quantities,
  steps: Steps,
  ...values: readonly object[]
): () => readonly FindingWorking[] {
  return () => [
    {
      title,
      givens,
      steps,
      values: Object.assign({}, ...values) as Record<string, unknown>,
    },
  ];
}

export function allWorkings(
  ...workings: readonly (() => readonly FindingWorking[])[]
): () => readonly FindingWorking[] {
  return () => workings.flatMap((working) => working());
}

const STANDING_GIVENS: Quantities = {
  found: { label: "Found", symbol: "x", unit: "" },
  limit: { label: "Limit", symbol: "x₀", unit: "" },
};

const MARGIN: Readonly<Record<"at most" | "at least", string>> = {
  "at most": "(limit - found) / limit",
  "at least": "(found - limit) / limit",
};

/** Degrees below 0 are limits too. */
function marginFormula(asked: "at most" | "at least", limit: number): string {
  return limit > 0 ? MARGIN[asked] : MARGIN[asked].replace("/ limit", "/ abs(limit)");
}

type Standing = Pick<
  CheckRow,
  "item" | "check" | "asked" | "found" | "limit" | "unit" | "margin"
> & { readonly limitAsked?: string };

/** Whether figures stand against each other; not where either is words. */
export function stands({ asked, found, limit, margin }: Standing): boolean {
  if (typeof found !== "number" || typeof limit !== "number") return false;
  return asked !== "is" && margin !== undefined && limit !== 0;
}

/**
 * How what is found stands to its limit; nothing where either is words.
 * @param before The workings behind what is found, of which one may show it.
 */
export function standing(
  row: Standing,
  before: readonly FindingWorking[],
): readonly FindingWorking[] {
  const { item, check, asked, found, limit, unit, margin, limitAsked } = row;
  if (!stands(row) || asked === "is") return [];
  const title = `${item}, ${check}: ${asked} ${figure(Number(limit))} ${unit}`.trim();
  const steps: Steps = {
    margin: {
      label: "Margin, below 0 where it fails",
      symbol: "m",
      unit: "1",
      kind: "formula",
      formula: marginFormula(asked, Number(limit)),
      cite: "definition",
    },
  };
  const values = { found, limit, margin };
  const shown = before.map((working) => isFound(working, found)).lastIndexOf(true);
  const step = before[shown]?.shows;
  return [
    {
      title,
      givens: STANDING_GIVENS,
      steps,
      values,
      ...(step !== undefined && { found: { found: { working: shown, step } } }),
      ...(limitAsked !== undefined && { inAsked: { limit: limitAsked } }),
      frozen: { found: "solved", limit: "as it counts" },
    },
  ];
}

function isFound({ shows, values }: FindingWorking, found: unknown): boolean {
  const value = shows === undefined ? undefined : values[shows];
  if (typeof value !== "number" || typeof found !== "number") return false;
  return Math.abs(value - found) <= 1e-12 * Math.abs(found);
}
