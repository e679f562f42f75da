/** One call with everything that its steps, its layout and its copy are written from. */
import { type CallAnswer } from "./call-answer.js";
import { lineGroups } from "./call-lines.js";
import { type ResultLines, resultLines, tableOf } from "./result-lines.js";
import type { GivenLine, LineGroup, StepLine } from "./working-lines.js";

/**
 * `closed form`: every number of the result comes out of formulas and printed tables. `solved`: some of them satisfy
 * equations. `fixed`: text, a refusal, or numbers that no step gives.
 */
export type CallKind = "closed form" | "solved" | "fixed";

/** A given that no cell of the sheet leads to would stay as it is when the sheet changes. */
export function untraced(groups: readonly LineGroup[]): GivenLine[] {
  return groups
    .flatMap(({ lines }) => lines)
    .filter((line): line is GivenLine => line.kind === "given")
    .filter(({ link }) => {
      if (link.kind !== "linked") return link.kind === "taken" || link.kind === "frozen";
      const { origin } = link;
      return origin.kind === "within" && origin.part.kind !== "call";
    });
}

export interface CallWorking {
  readonly answer: CallAnswer;
  readonly kind: CallKind;
  readonly groups: readonly LineGroup[];
  readonly results: ResultLines;
}

/** Whether it rests on operating points that were solved, and so does not follow its inputs. */
export function isSolved({ kind, answer: { entry } }: CallWorking): boolean {
  return kind === "solved" || entry?.copied !== undefined;
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
  { outcome, entry }: CallAnswer,
  groups: readonly LineGroup[],
  results: ResultLines,
): CallKind {
  if (!outcome.ok) return "fixed";
  if (stepLines(groups).some(({ step }) => step.kind === "solved")) return "solved";
  // What no formula gives there was typed, or chosen by what was left empty.
  if (entry?.form === "depends on words") return groups.length > 0 ? "closed form" : "fixed";
  const cells = tableOf(outcome.value);
  const numbers = cells.flatMap((row, rowIndex) =>
    row.flatMap((cell, column) => (typeof cell === "number" ? [results[rowIndex]?.[column]] : [])),
  );
  const all = numbers.every((line) => line !== undefined);
  const follows = all && untraced(groups).length === 0;
  return numbers.length > 0 && follows ? "closed form" : "fixed";
}
