/** One call with everything that its steps, its layout and its copy are written from. */
import { type CallAnswer } from "./call-answer.js";
import { lineGroups } from "./call-lines.js";
import { type ResultLines, resultLines, tableOf } from "./result-lines.js";
import type { LineGroup, StepLine } from "./working-lines.js";

/**
 * `closed form`: every number of the result comes out of formulas and printed tables. `solved`: some of them satisfy
 * equations. `fixed`: text, a refusal, or numbers that no step gives.
 */
export type CallKind = "closed form" | "solved" | "fixed";

export interface CallWorking {
  readonly answer: CallAnswer;
  readonly kind: CallKind;
  readonly groups: readonly LineGroup[];
  readonly results: ResultLines;
}

export function callWorking(answer: CallAnswer): CallWorking {
  const groups = lineGroups(answer);
  const results = resultLines(answer);
  return { answer, groups, results, kind: kindOf(answer, groups, results) };
}

export function stepLines(groups: readonly LineGroup[]): StepLine[] {
  return groups.flatMap(({ lines }) =>
    lines.filter((line): line is StepLine => line.kind === "step"),
  );
}

function kindOf(
  { outcome }: CallAnswer,
  groups: readonly LineGroup[],
  results: ResultLines,
): CallKind {
  if (!outcome.ok) return "fixed";
  if (stepLines(groups).some(({ step }) => step.kind === "solved"))
    return "solved";
  const cells = tableOf(outcome.value);
  const numbers = cells.flatMap((row, rowIndex) =>
    row.flatMap((cell, column) =>
      typeof cell === "number" ? [results[rowIndex]?.[column]] : [],
    ),
  );
  const all = numbers.every((line) => line !== undefined);
  return numbers.length > 0 && all ? "closed form" : "fixed";
}
