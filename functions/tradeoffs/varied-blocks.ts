/** A feed of which figures vary, from the schedules as they are typed: each choice is written into them and read as a sheet reads it. */
import { NO_KIND } from "../../src/network/feed-columns.js";
import { FEED_FIGURES } from "../../src/network/feed-columns.js";
import { KINDS } from "../../src/network/row-kinds.js";
import { InputError } from "../../src/quantities/errors.js";
import { headerParts } from "../../src/quantities/header-units.js";
import type { JudgedFeed } from "../../src/judgement/judged-feed.js";
import type { BlockName } from "../../src/schedules/columns.js";
import {
  choicesAt,
  type StandingRow,
  standingRow,
  type VariedFeed,
  type VariedPart,
} from "../../src/tradeoffs/varied-feed.js";
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
  const differing = rowsDiffering(present);
  const rowsAlone = alone.map((feeds) => feeds.map(differing));
  const changes = rowsAlone.map((rows) => rising(rows.flat()));
  return {
    present,
    variations: variations.map(({ name, choices }) => ({
      name,
      choices: choices.map((one) => one.name),
    })),
    asNow: rowsAlone.map((rows) => {
      const at = rows.findIndex(({ length }) => length === 0);
      return at < 0 ? undefined : at;
    }),
    alone,
    parts: partsOf(variations, changes).map((part): VariedPart => {
      const own = { variations: part.map((at) => variations[at]!) };
      const feedAt = (combination: number): JudgedFeed => {
        const [only] = part;
        if (part.length === 1) return alone[only!]![combination]!;
        const cells = choicesAt(own, combination).flatMap(
          (choice, place) => own.variations[place]!.choices[choice]!.cells,
        );
        return alike(present, judgedFeedOf(changedBlocks(blocks, cells)));
      };
      const read = new Map<number, readonly StandingRow[]>();
      return {
        variations: part,
        rows: rising(part.flatMap((at) => changes[at]!)),
        changed(combination) {
          let changed = read.get(combination);
          if (!changed) {
            const feed = feedAt(combination);
            changed = differing(feed).map((row) => standingRow(feed, row));
            read.set(combination, changed);
          }
          return changed;
        },
      };
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

function rising(rows: readonly number[]): readonly number[] {
  return [...new Set(rows)].sort((one, other) => one - other);
}

/** Rows that a feed has otherwise than the feed as it is. */
function rowsDiffering(present: JudgedFeed): (feed: JudgedFeed) => readonly number[] {
  const rows = Array.from({ length: present.columns.count }, (_, row) => row);
  const keys = rows.map((row) => detailsKey(present, row));
  const own = present.columns;
  return (feed) => {
    const its = feed.columns;
    return rows.filter(
      (row) =>
        own.kind[row] !== its.kind[row] ||
        own.isolation[row] !== its.isolation[row] ||
        own.refused.get(row)?.message !== its.refused.get(row)?.message ||
        JSON.stringify(own.zeros.get(row)) !== JSON.stringify(its.zeros.get(row)) ||
        FEED_FIGURES.some((name) => !Object.is(own.figures[name][row], its.figures[name][row])) ||
        keys[row] !== detailsKey(feed, row),
    );
  };
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

/**
 * Variations of which one may change what another one does: that share a row of the feed, type into one row of a block, or
 * of which one names the row that the other types into, as a choice of type names a type whose ratio varies.
 */
function partsOf(
  variations: readonly TypedVariation[],
  changes: readonly (readonly number[])[],
): readonly (readonly number[])[] {
  let parts: {
    readonly variations: readonly number[];
    readonly rows: ReadonlySet<number>;
    readonly typed: ReadonlySet<string>;
    readonly named: ReadonlySet<string>;
  }[] = [];
  const meet = <T>(one: ReadonlySet<T>, other: ReadonlySet<T>) =>
    [...one].some((each) => other.has(each));
  const both = <T>(sets: readonly ReadonlySet<T>[]) => new Set(sets.flatMap((set) => [...set]));
  variations.forEach(({ choices }, variation) => {
    const cells = choices.flatMap((choice) => choice.cells);
    const own = {
      variations: [variation],
      rows: new Set(changes[variation]),
      typed: new Set(cells.map(({ row }) => plainHeader(row))),
      named: new Set(
        cells.flatMap(({ value }) => (typeof value === "string" ? [plainHeader(value)] : [])),
      ),
    };
    const touched = parts.filter(
      (part) =>
        meet(part.rows, own.rows) ||
        meet(part.typed, own.typed) ||
        meet(part.typed, own.named) ||
        meet(part.named, own.typed),
    );
    const joined = [...touched, own];
    parts = [
      ...parts.filter((part) => !touched.includes(part)),
      {
        variations: joined.flatMap((part) => part.variations).sort((one, other) => one - other),
        rows: both(joined.map(({ rows }) => rows)),
        typed: both(joined.map(({ typed }) => typed)),
        named: both(joined.map(({ named }) => named)),
      },
    ];
  });
  return parts.map((part) => part.variations);
}
