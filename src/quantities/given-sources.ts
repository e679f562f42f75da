/** Where the givens of one calculation come from, by field, as far as it is more than an argument of the same name. */
export interface GivenSources {
  /** A step of another calculation behind the same answer, by its place among them. */
  readonly found?: Readonly<Record<string, FoundStep>>;
  /** A figure of an item in the feed table. */
  readonly inTable?: Readonly<Record<string, TableFigure>>;
  /** A label of what is asked for. */
  readonly inAsked?: Readonly<Record<string, string>>;
  /** The case that was solved for it, in words: it does not follow its inputs. */
  readonly frozen?: Readonly<Record<string, string>>;
  /** Of what is frozen: the item in a feed table that it was solved for. */
  readonly solvedFor?: Readonly<Record<string, SolvedItem>>;
}

export interface SolvedItem {
  /** The argument that is the feed table. */
  readonly table: string;
  /** What no row is called is of the whole table. */
  readonly item: string;
}

export interface FoundStep {
  readonly working: number;
  readonly step: string;
}

export interface TableFigure {
  readonly item: string;
  /** By its name in a feed item. */
  readonly figure: string;
}

/** Every one of the fields in the same case. */
export function frozenIn(
  fields: readonly string[],
  text: string,
): Readonly<Record<string, string>> {
  return Object.fromEntries(fields.map((field) => [field, text]));
}
