/** Where an item is: of several places the worse figure of each counts. */
import { plainName } from "../network/feed-topology.js";
import type { Quantity, Step } from "../quantities/steps.js";
import { ACCESSES, EVERYWHERE, PLACES, type TableField } from "./columns.js";
import {
  figureOf,
  namesInWords,
  namesOf,
  refused,
  rowsByName,
  type ScheduleRow,
  wordOf,
} from "./schedule-row.js";
import { Givens, type RowMaker } from "./table-row.js";

export class Locations {
  private readonly byName: ReadonlyMap<string, ScheduleRow>;

  constructor(private readonly rows: readonly ScheduleRow[]) {
    this.byName = rowsByName(rows);
  }

  /**
   * The places of a row: those it names, else the one of all. None in a feed without locations.
   * @throws {InputError} for a name that is not listed, and for a place that is refused itself.
   */
  of(row: ScheduleRow): readonly ScheduleRow[] {
    const names = namesOf(row, "locations");
    if (this.rows.length === 0) return [];
    if (names.length === 0) {
      const everywhere = this.byName.get(plainName(EVERYWHERE));
      if (everywhere) return [everywhere];
      return this.rows.length === 1 ? this.rows : [];
    }
    return names.map((name) => {
      const found = this.byName.get(plainName(name));
      if (!found)
        throw refused(
          row,
          "locations",
          `a name of Location, ${namesInWords(this.rows.map((one) => one.name))}`,
        );
      if (found.refusal) throw found.refusal;
      return found;
    });
  }
}

/** Where several places differ the lesser or the greater counts; a place without the figure leaves it open. */
const WORSE = [
  { field: "coldestC", worse: "min", label: "Coldest air", unit: "°C" },
  { field: "hottestC", worse: "max", label: "Hottest air", unit: "°C" },
  { field: "altitude", worse: "max", label: "Altitude", unit: "m" },
  { field: "sun", worse: "max", label: "Sun", unit: "W/m²", blank: 0 },
] as const satisfies readonly {
  readonly field: TableField;
  readonly worse: "min" | "max";
  readonly label: string;
  readonly unit: string;
  /** What an empty cell means where another place has a figure. */
  readonly blank?: number;
}[];

/** The worse of several words is the earlier in its list; one place without the word leaves all but the worst open. */
const WORSE_WORDS = [
  { field: "place", worst: [...PLACES].reverse() },
  { field: "access", worst: ACCESSES },
] as const;

/** Location and its figures of a row, from its places. */
export function placeCells(made: RowMaker, places: readonly ScheduleRow[]): void {
  const names = namesOf(made.source, "locations");
  if (names.length > 0) made.say("locations", names.join("; "));
  else if (places.length > 0) made.say("locations", places[0]!.name);
  else made.say("locations", EVERYWHERE);
  const [only] = places;
  if (only && places.length === 1) {
    made.passAll(["coldestC", "hottestC", "altitude", "sun", "place", "access"], only);
    return;
  }
  if (places.length === 0) return;
  for (const one of WORSE) {
    const found = worseOf(places, one.field, one.worse);
    if (found === undefined) continue;
    const working = made.work(() =>
      worseGivens(places, one.field, quantity(one.label, one.unit)).working(
        `${made.source.name}: ${one.label.toLowerCase()} of its locations`,
        { [one.field]: worseStep(places, one) },
        { [one.field]: found },
      ),
    );
    made.derive(one.field, found, working, one.field);
  }
  for (const { field, worst } of WORSE_WORDS) {
    const given = places.map((place) => wordOf(place, field));
    const found = worst.find((word) => given.includes(word));
    const isWorst = found === worst[0] || found === "wet";
    if (found !== undefined && (isWorst || !given.includes(undefined))) made.say(field, found);
  }
}

/** Undefined where a place lacks the figure; no sun is none. */
export function worseOf(
  places: readonly ScheduleRow[],
  field: (typeof WORSE)[number]["field"],
  worse: "min" | "max",
): number | undefined {
  const given = places.map((place) => figureOf(place, field));
  const known = given.filter((value) => value !== undefined);
  if (known.length === 0) return undefined;
  if (known.length < given.length && field !== "sun") return undefined;
  return Math[worse](...known);
}

function quantity(label: string, unit: string): Quantity {
  return { label, symbol: "x", unit };
}

function worseGivens(
  places: readonly ScheduleRow[],
  field: string,
  { label, unit }: Quantity,
  givens = new Givens(),
): Givens {
  places.forEach((place, index) => {
    const at = index + 1;
    const symbol = `x${at}`;
    givens.add(`${field}${at}`, { label: `${label}, ${place.name}`, symbol, unit }, place, field);
  });
  return givens;
}

function worseStep(
  places: readonly ScheduleRow[],
  { field, worse, label, unit }: (typeof WORSE)[number],
): Step {
  const fields = places.flatMap((place, index) =>
    figureOf(place, field) === undefined ? [] : [`${field}${index + 1}`],
  );
  return {
    ...quantity(`${label} of its locations`, unit),
    kind: "formula",
    formula: `${worse}(${fields.join(", ")})`,
    cite: "definition",
  };
}

/**
 * The worse figure of several places under another calculation's name for it: its givens are added, and where the places
 * are more than one its step comes back. Of one place it is a given by that name.
 */
export function worseOfPlaces(
  givens: Givens,
  places: readonly ScheduleRow[],
  field: (typeof WORSE)[number]["field"],
  name: string,
  described: Quantity,
): Readonly<Record<string, Step>> {
  const [only] = places;
  if (!only) return {};
  if (places.length === 1) {
    givens.link(name, only, field);
    return {};
  }
  if (places.every((place) => figureOf(place, field) === undefined)) return {};
  const one = WORSE.find((worse) => worse.field === field)!;
  worseGivens(places, field, quantity(one.label, one.unit), givens);
  delete givens.quantities[name];
  return { [name]: { ...worseStep(places, one), ...described } };
}
