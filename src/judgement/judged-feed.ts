/** A feed with all that its table says of it: the engine's columns, and the figures and words that only checks read. */
import type { ConductorSize } from "../conductors/conductor-section.js";
import { FEED_FIGURES, type FeedColumns, type FeedFigure } from "../network/feed-columns.js";
import { rowArrays } from "../network/feed-state.js";
import type { InputError } from "../quantities/errors.js";
import type { TableField } from "../schedules/columns.js";

/** Figures that only checks read, of one item, in SI (°C of a temperature). */
export const DETAIL_FIGURES = [
  "ratedPower",
  "currentLimit",
  "shutsDownAt",
  "within",
  "capacitance",
  "price",
  "length",
  "cores",
  "corePerMetre",
  "conductorC",
  "outerDiameter",
  "grouping",
  "ratedVoltage",
  "inductance",
  "mass",
  "clearsAt",
  "clearsNearEnd",
  "breaksAt",
  "unitsNeeded",
  "setPointSpread",
  "resistanceSpread",
  "bleed",
  "coldestC",
  "hottestC",
  "altitude",
  "sun",
  "lowestC",
  "fullUpToC",
  "derating",
  "highestC",
  "inputCapacitance",
  "inputSeriesResistance",
  "leastResistance",
  "quantity",
  "margin",
  "volume",
] as const satisfies readonly TableField[];

export type DetailFigure = (typeof DETAIL_FIGURES)[number];

/** Words that only checks read, as the lists of `columns.ts` spell them. */
export const DETAIL_WORDS = [
  "material",
  "build",
  "insulation",
  "surroundings",
  "inLineKind",
  "place",
  "access",
  "locations",
  "type",
  "block",
  "note",
  "ratedBy",
] as const satisfies readonly TableField[];

export type DetailWord = (typeof DETAIL_WORDS)[number];

export interface ItemDetails {
  readonly figures: Readonly<Partial<Record<DetailFigure, number>>>;
  readonly words: Readonly<Partial<Record<DetailWord, string>>>;
  readonly size: ConductorSize | undefined;
  /** Cells that could not be read, by field: as good as not given, and the row says why. */
  readonly unread: ReadonlyMap<string, InputError>;
}

export const NO_DETAILS: ItemDetails = {
  figures: {},
  words: {},
  size: undefined,
  unread: new Map(),
};

export interface JudgedFeed {
  readonly columns: FeedColumns;
  /** One for each row of `columns`. */
  readonly details: readonly ItemDetails[];
}

/** Some rows of a feed, in the table's order. */
export function rowsOf({ columns, details }: JudgedFeed, rows: readonly number[]): JudgedFeed {
  const pick = <T>(of: readonly T[]) => rows.map((row) => of[row]!);
  const byRow = <T>(of: ReadonlyMap<number, T>) =>
    new Map(rows.flatMap((row, place) => (of.has(row) ? [[place, of.get(row)!] as const] : [])));
  return {
    columns: {
      count: rows.length,
      item: pick(columns.item),
      fedFrom: pick(columns.fedFrom),
      kind: Uint8Array.from(rows, (row) => columns.kind[row]!),
      figures: figuresOf(columns, rows),
      isolation: pick(columns.isolation),
      reverseFlow: pick(columns.reverseFlow),
      refused: byRow(columns.refused),
      zeros: byRow(columns.zeros),
    },
    details: pick(details),
  };
}

function figuresOf({ figures }: FeedColumns, rows: readonly number[]): FeedColumns["figures"] {
  const own: Partial<Record<FeedFigure, Float64Array>> = {};
  const array = rowArrays(rows.length, FEED_FIGURES.length);
  for (const name of FEED_FIGURES) {
    const values = array();
    // A loop: `from` with a function takes ten times as long, and a search makes this for every candidate.
    for (let place = 0; place < values.length; place++)
      values[place] = figures[name][rows[place]!]!;
    own[name] = values;
  }
  return own as FeedColumns["figures"];
}
