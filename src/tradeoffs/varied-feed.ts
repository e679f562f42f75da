/**
 * A feed of which some rows vary. Variations that change one row between them are a part of the feed, and for each of
 * their combinations it was read once; a candidate takes the rows of every part as they stand at its own combination, so
 * that nothing is read again however many candidates there are.
 */
import type { InputError } from "../quantities/errors.js";
import { FEED_FIGURES, type FeedColumns, type FeedFigure } from "../network/feed-columns.js";
import type { Isolation, ReverseFlow } from "../network/feed-item.js";
import type { ItemDetails, JudgedFeed } from "../judgement/judged-feed.js";

/** What is varied, in words, and each of its choices as it is typed. */
export interface Variation {
  readonly name: string;
  readonly choices: readonly string[];
}

/** Rows that some variations change, and the whole feed at each combination of these. */
export interface VariedPart {
  /** Places among the variations, rising. */
  readonly variations: readonly number[];
  /** Rows of the feed that differ between the combinations, or from the feed as it is. */
  readonly rows: readonly number[];
  /** The last variation's choice changes first. */
  readonly feeds: readonly JudgedFeed[];
}

export interface VariedFeed {
  /** The feed as it is. */
  readonly present: JudgedFeed;
  readonly variations: readonly Variation[];
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

interface OwnColumns extends FeedColumns {
  readonly figures: Record<FeedFigure, Float64Array>;
  readonly isolation: (Isolation | undefined)[];
  readonly reverseFlow: (ReverseFlow | undefined)[];
  readonly refused: Map<number, InputError>;
  readonly zeros: Map<number, readonly FeedFigure[]>;
}

/** One feed that stands at one candidate after the other: what was taken of it before changes with it. */
export class StandingFeed implements JudgedFeed {
  readonly columns: OwnColumns;
  readonly details: ItemDetails[];
  /** Of each part, the combination at which its rows stand; -1 as it is. */
  private readonly standing: number[];

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
      reverseFlow: [...columns.reverseFlow],
      refused: new Map(columns.refused),
      zeros: new Map(columns.zeros),
    };
    this.details = [...details];
    this.standing = varied.parts.map(() => -1);
  }

  /** @returns itself. */
  at(choices: Choices): this {
    this.varied.parts.forEach((part, place) => {
      const wanted = combination(this.varied, part, choices);
      if (this.standing[place] === wanted) return;
      this.standing[place] = wanted;
      for (const row of part.rows) this.take(part.feeds[wanted]!, row);
    });
    return this;
  }

  private take({ columns, details }: JudgedFeed, row: number): void {
    const own = this.columns;
    for (const name of FEED_FIGURES) own.figures[name][row] = columns.figures[name][row]!;
    own.kind[row] = columns.kind[row]!;
    own.isolation[row] = columns.isolation[row];
    own.reverseFlow[row] = columns.reverseFlow[row];
    replace(own.refused, columns.refused, row);
    replace(own.zeros, columns.zeros, row);
    this.details[row] = details[row]!;
  }
}

function replace<T>(own: Map<number, T>, other: ReadonlyMap<number, T>, row: number): void {
  const value = other.get(row);
  if (value === undefined) own.delete(row);
  else own.set(row, value);
}
