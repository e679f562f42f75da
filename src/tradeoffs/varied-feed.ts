/**
 * A feed of which some rows vary. Variations that change one row between them are a part of the feed, which is read once
 * for each of their combinations that a candidate has; a candidate takes the rows of every part as they stand at its own
 * combination, so that nothing is read again however many candidates there are.
 */
import type { InputError } from "../quantities/errors.js";
import { FEED_FIGURES, type FeedColumns, type FeedFigure } from "../network/feed-columns.js";
import type { Isolation } from "../network/feed-item.js";
import type { ItemDetails, JudgedFeed } from "../judgement/judged-feed.js";

/** What is varied, in words, and each of its choices as it is typed. */
export interface Variation {
  readonly name: string;
  readonly choices: readonly string[];
}

/** A row as it stands in a feed. */
export interface StandingRow {
  readonly row: number;
  readonly kind: number;
  /** In the order of `FEED_FIGURES`. */
  readonly figures: Float64Array;
  readonly isolation: Isolation | undefined;
  readonly refused: InputError | undefined;
  readonly zeros: readonly FeedFigure[] | undefined;
  readonly details: ItemDetails;
}

/** Variations that change the same rows. */
export interface VariedPart {
  /** Places among the variations, rising. */
  readonly variations: readonly number[];
  /** Rows of the feed that one of its choices alone changes. */
  readonly rows: readonly number[];
  /** By combination, of which the last variation's choice changes first: the rows that stand otherwise than in the feed as it is. */
  readonly changed: (combination: number) => readonly StandingRow[];
}

export interface VariedFeed {
  /** The feed as it is. */
  readonly present: JudgedFeed;
  readonly variations: readonly Variation[];
  /** By variation: its first choice that alone changes nothing. */
  readonly asNow: readonly (number | undefined)[];
  /** Each variation stands in one of them, and each row in one at most. */
  readonly parts: readonly VariedPart[];
  /** By variation and choice: the feed as it is, but for this. */
  readonly alone: readonly (readonly JudgedFeed[])[];
}

/** Place of the choice of each variation. */
export type Choices = readonly number[];

/** Variations as far as they are counted, whatever their choices are. */
export interface Counted {
  readonly variations: readonly { readonly choices: readonly unknown[] }[];
}

/** All combinations of the choices. */
export function candidateCount({ variations }: Counted): number {
  return variations.reduce((count, { choices }) => count * choices.length, 1);
}

/** @param index From 0 to below the count; the last variation's choice changes first. */
export function choicesAt({ variations }: Counted, index: number): Choices {
  const places: number[] = [];
  let rest = index;
  for (const { choices } of [...variations].reverse()) {
    places.unshift(rest % choices.length);
    rest = Math.floor(rest / choices.length);
  }
  return places;
}

/** The candidate's number. */
export function indexOf({ variations }: Counted, at: Choices): number {
  return variations.reduce((index, { choices }, place) => index * choices.length + at[place]!, 0);
}

/** Place of a part's own combination among its feeds. */
function combination({ variations }: VariedFeed, part: VariedPart, at: Choices): number {
  return indexOf(
    { variations: part.variations.map((place) => variations[place]!) },
    part.variations.map((place) => at[place]!),
  );
}

export function standingRow({ columns, details }: JudgedFeed, row: number): StandingRow {
  return {
    row,
    kind: columns.kind[row]!,
    figures: Float64Array.from(FEED_FIGURES, (name) => columns.figures[name][row]!),
    isolation: columns.isolation[row],
    refused: columns.refused.get(row),
    zeros: columns.zeros.get(row),
    details: details[row]!,
  };
}

interface OwnColumns extends FeedColumns {
  readonly figures: Record<FeedFigure, Float64Array>;
  readonly isolation: (Isolation | undefined)[];
  readonly refused: Map<number, InputError>;
  readonly zeros: Map<number, readonly FeedFigure[]>;
}

/** One feed that stands at one candidate after the other: what was taken of it before changes with it. */
export class StandingFeed implements JudgedFeed {
  readonly columns: OwnColumns;
  readonly details: ItemDetails[];
  /** Of each part, the combination at which its rows stand, and those; undefined as it is. */
  private readonly standing: (
    { readonly at: number; readonly rows: readonly StandingRow[] } | undefined
  )[];

  constructor(private readonly varied: VariedFeed) {
    const { columns, details } = varied.present;
    const figures = Object.fromEntries(
      FEED_FIGURES.map((name) => [name, columns.figures[name].slice()]),
    ) as Record<FeedFigure, Float64Array>;
    this.columns = {
      ...columns,
      kind: columns.kind.slice(),
      figures,
      isolation: [...columns.isolation],
      refused: new Map(columns.refused),
      zeros: new Map(columns.zeros),
    };
    this.details = [...details];
    this.standing = varied.parts.map(() => undefined);
  }

  /** @returns itself. */
  at(choices: Choices): this {
    this.varied.parts.forEach((part, place) => {
      const at = combination(this.varied, part, choices);
      const before = this.standing[place];
      if (before?.at === at) return;
      const rows = part.changed(at);
      for (const { row } of before?.rows ?? [])
        if (!rows.some((one) => one.row === row)) this.take(standingRow(this.varied.present, row));
      for (const row of rows) this.take(row);
      this.standing[place] = { at, rows };
    });
    return this;
  }

  private take({ row, kind, figures, isolation, refused, zeros, details }: StandingRow): void {
    const own = this.columns;
    FEED_FIGURES.forEach((name, at) => {
      own.figures[name][row] = figures[at]!;
    });
    own.kind[row] = kind;
    own.isolation[row] = isolation;
    replace(own.refused, row, refused);
    replace(own.zeros, row, zeros);
    this.details[row] = details;
  }
}

function replace<T>(own: Map<number, T>, row: number, value: T | undefined): void {
  if (value === undefined) own.delete(row);
  else own.set(row, value);
}
