/** The calls of one function in a budget's formulas that give a value. */
import type { Argument, Outcome } from "../../functions/downfeed.js";
import { answersOf } from "../../functions/working/lines/call-answer.js";
import {
  type FormulaTree,
  referencesOf,
  type SheetRange,
} from "../../functions/working/lines/call-tree.js";

export interface CallReading {
  readonly at: SheetRange;
  readonly args: readonly Argument[];
  readonly outcome: Extract<Outcome, { ok: true }>;
  /** What its arguments refer to, in their order. */
  readonly references: readonly SheetRange[];
}

/** In the order of the formulas, each once: the same call in several cells is one. */
export function callReadings(trees: Iterable<FormulaTree>, id: string): readonly CallReading[] {
  const found = new Map<string, CallReading>();
  for (const tree of trees)
    for (const { call, args, outcome } of answersOf(tree).values()) {
      const key = JSON.stringify(args);
      if (call.id !== id || !outcome.ok || found.has(key)) continue;
      const references = referencesOf(call).flatMap(({ range }) => range ?? []);
      found.set(key, { at: tree.at, args, outcome, references });
    }
  return [...found.values()];
}
