/** A plan's look on a sheet into which rows were inserted, or from which some were taken. */
import { rangePlace, cellAddress, cellPlace } from "../../src/plans/addresses.js";
import type { SheetPlan, StyleName } from "../../src/plans/sheet-plan.js";
import type { ReadValue } from "./copy/copied-sheet.js";

type Values = readonly (readonly ReadValue[])[];

/** A title may be another: it names what the figures are about. */
const CHANGED: ReadonlySet<StyleName> = new Set(["input", "inputText", "title"]);

/** Texts of the plan that nobody changes, by row. */
function fixedTexts(plan: SheetPlan): ReadonlyMap<number, readonly (readonly [number, string])[]> {
  const texts = new Map<number, (readonly [number, string])[]>();
  for (const { at, value, style } of plan.cells) {
    if (typeof value !== "string" || CHANGED.has(style)) continue;
    const { row, column } = cellPlace(at);
    texts.set(row, [...(texts.get(row) ?? []), [column, value]]);
  }
  return texts;
}

/**
 * Row of the plan that each row of the sheet is like. Between two rows of fixed texts the last one closes a table: rows
 * that were inserted are like the one above it.
 * @returns Undefined where the texts do not stand in their order any more.
 */
function likeRows(plan: SheetPlan, values: Values): readonly (number | undefined)[] | undefined {
  const like: (number | undefined)[] = [];
  let above = -1;
  for (const [row, texts] of [...fixedTexts(plan)].sort(([one], [other]) => one - other)) {
    const from = like.length;
    const found = values.findIndex(
      (cells, at) => at >= from && texts.every(([column, text]) => cells[column] === text),
    );
    if (found < 0) return undefined;
    const between = row - above - 1;
    for (let at = from; at < found; at += 1) {
      const place = at === found - 1 ? between - 1 : Math.min(at - from, between - 2);
      like.push(between === 0 ? undefined : above + 1 + Math.max(0, place));
    }
    like.push(row);
    above = row;
  }
  while (like.length < values.length) like.push((above += 1));
  return like;
}

/** The plan as the sheet stands now; undefined where the sheet is not like it any more. */
export function movedLook(plan: SheetPlan, values: Values): SheetPlan | undefined {
  const like = likeRows(plan, values);
  if (!like) return undefined;
  if (like.every((row, at) => row === at)) return plan;
  const ofRow = new Map<number, SheetPlan["cells"]>();
  for (const cell of plan.cells) {
    const { row } = cellPlace(cell.at);
    ofRow.set(row, [...(ofRow.get(row) ?? []), cell]);
  }
  return {
    ...plan,
    cells: like.flatMap((row, at) =>
      (ofRow.get(row ?? -1) ?? []).map((cell) => ({
        ...cell,
        at: cellAddress({ row: at, column: cellPlace(cell.at).column }),
      })),
    ),
    merges: plan.merges.flatMap((range) => movedRange(range, like)?.range ?? []),
    validations: plan.validations.flatMap((one) => {
      const moved = movedRange(one.range, like);
      return moved ? [{ ...one, range: moved.range }] : [];
    }),
    conditionalFormats: plan.conditionalFormats.flatMap((one): SheetPlan["conditionalFormats"] => {
      const moved = movedRange(one.range, like);
      if (!moved) return [];
      const { range } = moved;
      if (one.kind !== "formula") return [{ ...one, range }];
      return [{ ...one, range, formula: movedFormula(one.formula, moved.by) }];
    }),
  };
}

function movedRange(range: string, like: readonly (number | undefined)[]) {
  const { top, left, bottom, right } = rangePlace(range);
  const [first, last] = [like.indexOf(top), like.lastIndexOf(bottom)];
  if (first < 0 || last < first) return undefined;
  const corner = (row: number, column: number) => cellAddress({ row, column });
  const start = corner(first, left);
  return {
    range: range.includes(":") ? `${start}:${corner(last, right)}` : start,
    by: first - top,
  };
}

/** Relative rows go along. */
function movedFormula(formula: string, by: number): string {
  return formula.replace(
    /"(?:[^"]|"")*"|(\$?\b[A-Z]{1,3})(\d+)\b/g,
    (found, column: string | undefined, row: string) =>
      column === undefined ? found : `${column}${Number(row) + by}`,
  );
}
