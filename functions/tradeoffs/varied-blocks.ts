/** A feed of which figures vary, from the schedules as they are typed: each choice is written into them and read as a sheet reads it. */
import { NO_KIND } from "../../src/network/feed-columns.js";
import { FEED_FIGURES } from "../../src/network/feed-columns.js";
import { KINDS } from "../../src/network/row-kinds.js";
import { InputError } from "../../src/quantities/errors.js";
import { headerParts } from "../../src/quantities/header-units.js";
import type { JudgedFeed } from "../../src/judgement/judged-feed.js";
import type { BlockName } from "../../src/schedules/columns.js";
import { choicesAt, type VariedFeed, type VariedPart } from "../../src/tradeoffs/varied-feed.js";
import { type Cell, type CellTable, isBlank } from "../cells.js";
import { feedTableOf } from "../families/chain-table.js";
import { feedTable } from "../reading/feed-table.js";
import { plainHeader } from "../reading/feed-columns.js";
import { judgedTable } from "../reading/judged-table.js";

/** One cell of the schedules, by its row's name and its header without unit, and what is typed there. */
export interface CellChange {
  readonly block: BlockName;
  readonly row: string;
  readonly header: string;
  /** In the unit of the header as it stands. */
  readonly value: Cell;
}

/** What one choice types. */
export interface TypedChoice {
  /** As people call it: `4 mm²`. */
  readonly name: string;
  readonly cells: readonly CellChange[];
}

export interface TypedVariation {
  /** `Size of Trackside cable` */
  readonly name: string;
  readonly choices: readonly TypedChoice[];
}

/**
 * @throws {InputError} naming `block` for blocks that cannot be read, `variations` for a cell that is not there or one
 *   that two variations change, and for a choice that changes who feeds whom.
 */
export function variedFeed(
  blocks: readonly CellTable[],
  variations: readonly TypedVariation[],
): VariedFeed {
  const present = judgedFeedOf(blocks);
  const alone = variations.map(({ choices }) =>
    choices.map(({ cells }) => alike(present, judgedFeedOf(changedBlocks(blocks, cells)))),
  );
  requireOwnCells(variations);
  const changes = alone.map((feeds) => rowsChanged(present, feeds));
  const told = variations.map(({ name, choices }) => ({
    name,
    choices: choices.map((one) => one.name),
  }));
  return {
    present,
    variations: told,
    alone,
    parts: partsOf(changes).map((part): VariedPart => {
      const [only] = part;
      if (part.length === 1)
        return { variations: part, rows: changes[only!]!, feeds: alone[only!]! };
      const own = part.map((at) => told[at]!);
      const count = own.reduce((product, { choices }) => product * choices.length, 1);
      const feeds = Array.from({ length: count }, (_, index) => {
        const at = choicesAt({ variations: own }, index);
        const cells = part.flatMap((one, place) => variations[one]!.choices[at[place]!]!.cells);
        return alike(present, judgedFeedOf(changedBlocks(blocks, cells)));
      });
      return { variations: part, rows: rowsChanged(present, feeds), feeds };
    }),
  };
}

/** The schedules with some cells typed anew. @throws {InputError} naming `variations` for a cell that is not there. */
export function changedBlocks(
  blocks: readonly CellTable[],
  cells: readonly CellChange[],
): readonly CellTable[] {
  return cells.reduce<readonly CellTable[]>((all, { block, row, header, value }) => {
    const at = all.findIndex(([headers]) => isText(headers?.[0], block));
    const [headers = []] = all[at] ?? [];
    const column = headers.findIndex(
      (one, place) => place > 0 && typeof one === "string" && isText(headerParts(one).name, header),
    );
    const line = all[at]?.findIndex(([name], place) => place > 0 && isText(name, row)) ?? -1;
    if (column < 0 || line < 0)
      throw new InputError("variations", `${header} of ${row}`, `a cell of the block ${block}`);
    const changed = all[at]!.map((own, place) =>
      place === line
        ? headers.map((_, each) => (each === column ? value : (own[each] ?? null)))
        : own,
    );
    return all.map((one, place) => (place === at ? changed : one));
  }, blocks);
}

function isText(cell: Cell | undefined, text: string): boolean {
  return !isBlank(cell) && plainHeader(String(cell)) === plainHeader(text);
}

/** As the sheet reads it: the feed table of the blocks, and that table as the checks read it. */
function judgedFeedOf(blocks: readonly CellTable[]): JudgedFeed {
  const cells = feedTableOf(blocks);
  return judgedTable(cells, feedTable(cells));
}

/** Rows keep their places and feeders: who feeds whom is set up once. */
function alike(present: JudgedFeed, feed: JudgedFeed): JudgedFeed {
  const role = (kind: number) => (kind === NO_KIND ? undefined : KINDS[kind]!.role);
  const { columns } = present;
  const isAlike =
    columns.count === feed.columns.count &&
    columns.item.every(
      (item, row) =>
        item === feed.columns.item[row] &&
        columns.fedFrom[row] === feed.columns.fedFrom[row] &&
        role(columns.kind[row]!) === role(feed.columns.kind[row]!),
    );
  if (!isAlike)
    throw new InputError("variations", null, "figures that leave every item fed as it is");
  return feed;
}

function requireOwnCells(variations: readonly TypedVariation[]): void {
  const owner = new Map<string, TypedVariation>();
  for (const variation of variations)
    for (const { cells } of variation.choices)
      for (const { block, row, header } of cells) {
        const key = [block, row, header].map(plainHeader).join("|");
        const other = owner.get(key);
        if (other && other !== variation)
          throw new InputError(
            "variations",
            `${header} of ${row}`,
            `in one variation only, and it is in "${other.name}" and "${variation.name}"`,
          );
        owner.set(key, variation);
      }
}

/** Rows that any of the feeds has otherwise than the feed as it is. */
function rowsChanged(present: JudgedFeed, feeds: readonly JudgedFeed[]): readonly number[] {
  return Array.from({ length: present.columns.count }, (_, row) => row).filter((row) =>
    feeds.some((feed) => differs(present, feed, row)),
  );
}

function differs(one: JudgedFeed, other: JudgedFeed, row: number): boolean {
  const [own, its] = [one.columns, other.columns];
  return (
    own.kind[row] !== its.kind[row] ||
    own.isolation[row] !== its.isolation[row] ||
    own.reverseFlow[row] !== its.reverseFlow[row] ||
    own.refused.get(row)?.message !== its.refused.get(row)?.message ||
    JSON.stringify(own.zeros.get(row)) !== JSON.stringify(its.zeros.get(row)) ||
    FEED_FIGURES.some((name) => !Object.is(own.figures[name][row], its.figures[name][row])) ||
    detailsKey(one, row) !== detailsKey(other, row)
  );
}

function detailsKey({ details }: JudgedFeed, row: number): string {
  const { figures, words, size, unread } = details[row]!;
  return JSON.stringify([
    figures,
    words,
    size,
    [...unread].map(([field, error]) => [field, error.message]),
  ]);
}

/** Variations that share a row stand together, however many others lie between. */
function partsOf(changes: readonly (readonly number[])[]): readonly (readonly number[])[] {
  let parts: { readonly variations: readonly number[]; readonly rows: ReadonlySet<number> }[] = [];
  changes.forEach((rows, variation) => {
    const touched = parts.filter((part) => rows.some((row) => part.rows.has(row)));
    const joined = {
      variations: [...touched.flatMap((part) => part.variations), variation].sort(
        (one, other) => one - other,
      ),
      rows: new Set([...touched.flatMap((part) => [...part.rows]), ...rows]),
    };
    parts = [...parts.filter((part) => !touched.includes(part)), joined];
  });
  return parts.map(({ variations }) => variations);
}
