/** What stands behind a finding: the row's own equations in its case, or the steps of one calculation. */
import { feedRowGivens, feedRowValues } from "../network/feed-steps.js";
import { cornerRows } from "../network/feed-worst.js";
import { ROW_KINDS } from "../network/row-kinds.js";
import type { Quantities, Steps } from "../quantities/steps.js";
import { figure } from "../quantities/figures.js";
import type { FindingWorking } from "./check.js";
import type { CheckRow } from "./check-row.js";
import type { Place } from "./place.js";
import type { FoundExtreme } from "./tree-context.js";

/** The row's equations in the case. */
export function caseWorking(
  place: Place,
  { at, columns, text }: FoundExtreme,
): () => readonly FindingWorking[] {
  return () => {
    const rows = cornerRows(columns, at) ?? [];
    const values = feedRowValues(rows)[place.row];
    if (!values) return [];
    const { steps } = ROW_KINDS[place.kindName];
    const title = `${place.name}, ${text}`;
    return [{ title, givens: feedRowGivens, steps, values }];
  };
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

/** How what is found stands to its limit; nothing where either is words. */
export function standing({
  item,
  check,
  asked,
  found,
  limit,
  unit,
  margin,
}: Pick<
  CheckRow,
  "item" | "check" | "asked" | "found" | "limit" | "unit" | "margin"
>): readonly FindingWorking[] {
  if (typeof found !== "number" || typeof limit !== "number") return [];
  if (asked === "is" || margin === undefined || !(limit > 0)) return [];
  const title = `${item}, ${check}: ${asked} ${figure(limit)} ${unit}`.trim();
  const steps: Steps = {
    margin: {
      label: "Margin, below 0 where it fails",
      symbol: "m",
      unit: "1",
      kind: "formula",
      formula: MARGIN[asked],
      cite: "definition",
    },
  };
  const values = { found, limit, margin };
  return [{ title, givens: STANDING_GIVENS, steps, values }];
}
