/** One change that mends a failed check: each is solved in the check's own case before it is told. */
import type { ConductorChoice } from "../conductors/conductor-build.js";
import { conductor } from "../conductors/conductor.js";
import { conductorSection, type ConductorSize } from "../conductors/conductor-section.js";
import { SERIES_SIZES } from "../conductors/conductor-size-choice.js";
import type { FeedColumns, FeedFigure } from "../network/feed-columns.js";
import type { SolvedRow } from "../network/feed-row.js";
import { cornerRows } from "../network/feed-worst.js";
import { NoAnswerError } from "../quantities/errors.js";
import { figure } from "../quantities/figures.js";
import { tableHeader } from "../schedules/columns.js";
import type { Change } from "./check.js";
import type { Place } from "./place.js";
import type { FoundExtreme } from "./tree-context.js";

/** A part in words: 12.7 %. */
export function percent(part: number): string {
  return `${figure(part * 100)} %`;
}

/** The columns with one figure of one row changed. */
export function withFigure(
  columns: FeedColumns,
  row: number,
  name: FeedFigure,
  value: number,
): FeedColumns {
  const values = columns.figures[name].slice();
  values[row] = value;
  return { ...columns, figures: { ...columns.figures, [name]: values } };
}

/** The next larger standard sizes of a conductor that its build is made in, with their resistance as a part of its own. */
export function largerSizes(
  choice: ConductorChoice,
): readonly { readonly size: ConductorSize; readonly part: number }[] {
  const { sizing } = choice.size;
  const series = sizing === "AWG" || sizing === "kcmil" ? "AWG" : "metric";
  const { area } = conductorSection(choice.size);
  const own = conductor(choice).resistancePerMetre;
  return SERIES_SIZES[series].flatMap((size) => {
    const other: ConductorSize =
      sizing === "bare metal" && size.sizing === "metric name"
        ? { sizing, areaMm2: size.nominalMm2 }
        : size;
    if (!(conductorSection(other).area > area)) return [];
    try {
      const { resistancePerMetre } = conductor({ ...choice, size: other });
      return [{ size: other, part: resistancePerMetre / own }];
    } catch (error) {
      // A size that the build is not made in.
      if (error instanceof NoAnswerError) return [];
      throw error;
    }
  });
}

export function sizeText(size: ConductorSize): string {
  return size.sizing === "bare metal" ? `${size.areaMm2} mm²` : size.written;
}

/** Cables side by side beyond those there are, that are tried where no size is known. */
const MORE_CABLES = 3;

/**
 * The first larger size of a cable, or where it has none the first greater count of cables, with which `met` says what it
 * comes to. The case keeps its supply, loads and tolerances.
 */
export function thickerCable(
  cable: Place,
  columns: FeedColumns,
  met: (changed: FeedColumns) => string | undefined,
): Change | undefined {
  const { row, inParallel } = cable;
  const ohms = columns.figures.resistance[row]!;
  const { size } = cable.details;
  if (size === undefined || cable.figure("corePerMetre") !== undefined)
    for (let more = 1; more <= MORE_CABLES; more++) {
      const count = inParallel + more;
      const text = met(withFigure(columns, row, "inParallel", count));
      if (text !== undefined)
        return changeOf(cable, "inParallel", `${count}`, text + moreOf(cable, count));
    }
  else
    for (const { size: larger, part } of largerSizes(cable.conductor)) {
      const text = met(withFigure(columns, row, "resistance", ohms * part));
      if (text !== undefined)
        return changeOf(cable, "size", sizeText(larger), text + insteadOf(cable, larger));
    }
  return undefined;
}

/** One and two units more of a row, until `met` says what it comes to. */
export function moreInParallel(
  place: Place,
  columns: FeedColumns,
  met: (changed: FeedColumns) => string | undefined,
): Change | undefined {
  const { row, inParallel } = place;
  for (const count of [inParallel + 1, inParallel + 2]) {
    const text = met(withFigure(columns, row, "inParallel", count));
    if (text !== undefined)
      return changeOf(place, "inParallel", `${count}`, text + moreOf(place, count));
  }
  return undefined;
}

/** Figures of a whole row that a change may be told by. */
const TOLD = ["price", "mass"] as const;

/** What more units of the same cost and weigh, as far as that is given. */
function moreOf(place: Place, count: number): string {
  return added(place, (field) => {
    const all = place.figure(field);
    return all && all * (count / place.inParallel - 1);
  });
}

/** What a cable of another size costs and weighs more, where the feed has one like it of that size. */
function insteadOf(cable: Place, size: ConductorSize): string {
  const length = cable.figure("length");
  const wanted = sizeText(size);
  const words = ["material", "build", "insulation"] as const;
  const isLike = (one: Place) =>
    one.kindName === "run" &&
    one.details.size !== undefined &&
    sizeText(one.details.size) === wanted &&
    one.figure("cores") === cable.figure("cores") &&
    words.every((word) => one.word(word) === cable.word(word));
  const { count } = cable.tree.feed.columns;
  const like = Array.from({ length: count }, (_, row) => cable.at(row)).filter(isLike);
  const perMetre = (of: Place, field: (typeof TOLD)[number]) => {
    const [all, metres] = [of.figure(field), of.figure("length")];
    return all === undefined || metres === undefined ? undefined : all / (metres * of.inParallel);
  };
  return added(cable, (field) => {
    const [other] = like.flatMap((one) => perMetre(one, field) ?? []);
    const own = perMetre(cable, field);
    return other === undefined || own === undefined || length === undefined
      ? undefined
      : (other - own) * length * cable.inParallel;
  });
}

/** `, + 38 EUR, + 4.2 kg` */
function added(
  { tree }: Place,
  more: (field: (typeof TOLD)[number]) => number | undefined,
): string {
  const currency = tree.requirements.get("Currency");
  const shownUnits = { price: typeof currency === "string" ? currency : "in price", mass: "kg" };
  return TOLD.flatMap((field) => {
    const value = more(field);
    if (value === undefined || value === 0) return [];
    return [`, ${value < 0 ? "−" : "+"} ${figure(Math.abs(value))} ${shownUnits[field]}`];
  }).join("");
}

/** @param comesTo What it mends, where the value alone does not say it. */
export function changeOf(at: Place, field: string, to: string, comesTo?: string): Change {
  const then = comesTo === undefined ? "" : `: ${comesTo}`;
  const text = `Set ${at.said(field)} of ${at.name} to ${to}${then}`;
  return { text, at, field };
}

/** A row in the case of an extreme, with the feed changed; undefined where the feed does not carry it then. */
export function rowInCase(
  { at }: FoundExtreme,
  changed: FeedColumns,
  row: number,
): SolvedRow | undefined {
  return cornerRows(changed, at)?.[row];
}

/** The figure that sets the level's voltage, lowered until the row is within its limit, tried in the case itself. */
export function lowerVoltage(
  place: Place,
  extreme: FoundExtreme,
  limit: number,
): Change | undefined {
  const { source } = place;
  const { inFault } = source.kind;
  const field =
    inFault === "source" ? "highestVoltage" : inFault === "follows" ? "ratio" : "voltage";
  const given = source.figure(field);
  if (given === undefined || source.row === place.row) return undefined;
  const { at, columns } = extreme;
  const wanted = given * (limit / extreme.value);
  // Schedules have the inverse of a ratio.
  const isInverse = field === "ratio" && source.header(field) !== tableHeader(field);
  const shown = Number(isInverse ? ceiling(1 / wanted) : floor(wanted));
  const lowered = withFigure(columns, source.row, field, isInverse ? 1 / shown : shown);
  const volts = cornerRows(lowered, at)?.[place.row]?.inputVoltage;
  if (volts === undefined || volts > limit) return undefined;
  const unit = field === "ratio" ? "" : " V";
  const to = `${shown}${unit} or ${isInverse ? "more" : "less"}`;
  return changeOf(source, field, to, `${figure(volts)} V at ${place.name}`);
}

/** Never rounded down: what is told has to be enough. */
export function ceiling(value: number): string {
  const step = 10 ** (Math.floor(Math.log10(value)) - 2);
  return figure(Math.ceil(value / step - 1e-9) * step);
}

/** Never rounded up. */
export function floor(value: number): string {
  const step = 10 ** (Math.floor(Math.log10(value)) - 2);
  return figure(Math.floor(value / step + 1e-9) * step);
}

/** The cable with the largest drop in the case, of those on the way to the row in its own level. */
export function mostDropping(place: Place, { at, columns }: FoundExtreme): Place | undefined {
  const rows = cornerRows(columns, at);
  const drop = (row: number) => {
    const { inputVoltage, output } = rows![row]!;
    return inputVoltage - output!.voltage;
  };
  if (!rows) return undefined;
  const cables = place.tree.wayTo(place.row).filter((row) => place.at(row).kindName === "run");
  const [most] = cables.sort((one, other) => drop(other) - drop(one));
  return most === undefined ? undefined : place.at(most);
}
