/** The choices of marks as they are typed, read into what the search varies. */
import type { Cell, CellTable } from "../../functions/cells.js";
import { sizeChoices } from "../../functions/tradeoffs/size-choices.js";
import type {
  CellChange,
  TypedChoice,
  TypedVariation,
} from "../../functions/tradeoffs/varied-blocks.js";
import { entryFor } from "../workbook/entries/entry-text.js";
import { tradeWords as said } from "../words/trade-words.js";
import type { Mark } from "./marks.js";

/** A choice that cannot be, by its mark and its row there. */
export class MarkError extends Error {
  override readonly name = "MarkError";

  constructor(
    readonly mark: Mark,
    readonly row: number,
    message: string,
  ) {
    super(message);
  }
}

export function markName({ kind, item }: Mark): string {
  return said.marks[kind](item);
}

/** Choices of a mark: the rows in which something is typed. */
export function choiceCount({ texts }: Mark): number {
  return texts.filter(isTyped).length;
}

/** All combinations of the marks' choices. */
export function combinations(marks: readonly Mark[]): number {
  return marks.reduce((product, mark) => product * choiceCount(mark), 1);
}

/** @throws {MarkError} for the first choice that cannot be. */
export function variationsOf(
  marks: readonly Mark[],
  blocks: readonly CellTable[],
): readonly TypedVariation[] {
  return marks.map((mark) => {
    const rows = mark.texts.flatMap((row, at) => (isTyped(row) ? [{ row, at }] : []));
    if (rows.length === 0) throw new MarkError(mark, 0, said.noChoice(markName(mark)));
    const choices = rows.map(({ row, at }) => typedChoice(mark, row, at));
    const name = markName(mark);
    if (mark.kind !== "size") return { name, choices };
    // What is not typed beside a size is looked up or left to be worked out.
    const sizes = choices.map(({ cells }) => ({
      size: cells[0]!.value as string | number,
      figures: Object.fromEntries(
        cells.flatMap(({ header, value }) =>
          value === null || header === "Size" ? [] : [[header, value]],
        ),
      ),
    }));
    return { name, choices: sizeChoices(blocks, mark.item, sizes).choices };
  });
}

function isTyped(row: readonly string[]): boolean {
  return row.some((text) => text.trim() !== "");
}

function typedChoice(mark: Mark, row: readonly string[], at: number): TypedChoice {
  const cells = mark.columns.map(({ block, row: item, column, isOptional }, place): CellChange => {
    const text = row[place] ?? "";
    const answer = entryFor(column, text);
    if ("refused" in answer) throw new MarkError(mark, at, `${column.header}: ${answer.refused}`);
    const isEmpty = answer.content === "";
    if (isEmpty && !isOptional) throw new MarkError(mark, at, said.needed(column.header));
    if (String(answer.content).startsWith("="))
      throw new MarkError(mark, at, said.noFormula(column.header));
    const value: Cell = isEmpty ? null : answer.content;
    return { block, row: item, header: column.header, value };
  });
  return { name: said.choices[mark.kind](row), cells: [...cells, ...restOf(mark, cells[0]!, at)] };
}

/** Behind a stage that is moved: what its first cable leaves of the length. */
function restOf(
  { rest, ...mark }: Mark,
  { value, ...first }: CellChange,
  at: number,
): CellChange[] {
  if (!rest) return [];
  const left = typeof value === "number" ? rest.length - value : Number.NaN;
  if (!(left > 0 && left < rest.length))
    throw new MarkError({ rest, ...mark }, at, said.notWithin(rest.length));
  return [{ ...first, row: rest.cable, value: left }];
}
