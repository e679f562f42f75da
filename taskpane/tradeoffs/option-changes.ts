/** What a combination changes of a budget's schedules as they stand. */
import type { Cell } from "../../functions/cells.js";
import type { CellChange, TypedVariation } from "../../functions/tradeoffs/varied-blocks.js";
import { headerParts } from "../../src/quantities/header-units.js";
import { choicesAt, indexOf } from "../../src/tradeoffs/varied-feed.js";
import { BLOCK_AREAS } from "../budgets/names.js";
import type { FoundBudget } from "../budgets/reading/found-budget.js";
import { sameItem, textOf } from "../budgets/reading/range-table.js";

export interface OptionChange extends CellChange {
  /** What stands there now; null for nothing. */
  readonly now: Cell;
  readonly isFormula: boolean;
}

export function cellsAt(
  variations: readonly TypedVariation[],
  index: number,
): readonly CellChange[] {
  return choicesAt({ variations }, index).flatMap(
    (choice, at) => variations[at]!.choices[choice]!.cells,
  );
}

/** Cells that hold something else now. */
export function optionChanges(
  budget: FoundBudget,
  cells: readonly CellChange[],
): readonly OptionChange[] {
  return cells.flatMap((cell) => {
    const { now, isFormula } = standing(budget, cell);
    return isSame(now, cell.value) ? [] : [{ ...cell, now, isFormula }];
  });
}

/** The combination that changes nothing; undefined where it is not among the choices. */
export function presentIndex(
  budget: FoundBudget,
  variations: readonly TypedVariation[],
): number | undefined {
  const at = variations.map(({ choices }) =>
    choices.findIndex(({ cells }) => optionChanges(budget, cells).length === 0),
  );
  return at.includes(-1) ? undefined : indexOf({ variations }, at);
}

function standing({ ranges }: FoundBudget, { block, row, header }: CellChange) {
  const { values = [], formulas } = ranges[BLOCK_AREAS[block]] ?? {};
  const column = (values[0] ?? []).findIndex((one) =>
    sameItem(headerParts(textOf(one)).name, header),
  );
  const line = values.findIndex(([name], at) => at > 0 && sameItem(textOf(name), row));
  const value = values[line]?.[column] ?? "";
  const isFormula = (formulas?.[line]?.[column] ?? "") !== "";
  return { now: value === "" ? (UNDERSTOOD[header] ?? null) : (value as Cell), isFormula };
}

/** What an empty cell of the schedules stands for. */
const UNDERSTOOD: Readonly<Record<string, Cell>> = { "In parallel": 1 };

/** A 4 that is typed as text is another size than the number. */
function isSame(one: Cell, other: Cell): boolean {
  return typeof one === "string" && typeof other === "string"
    ? sameItem(one, other)
    : one === other;
}
