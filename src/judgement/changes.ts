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
  const { row, units } = cable;
  const ohms = columns.figures.resistance[row]!;
  const { size } = cable.details;
  if (size === undefined || cable.figure("corePerMetre") !== undefined)
    for (let more = 1; more <= MORE_CABLES; more++) {
      const count = units + more;
      const text = met(withFigure(columns, row, "inParallel", count));
      if (text !== undefined) return changeOf(cable, "inParallel", `${count}`, text);
    }
  else
    for (const { size: larger, part } of largerSizes(cable.conductor)) {
      const text = met(withFigure(columns, row, "resistance", ohms * part));
      if (text !== undefined) return changeOf(cable, "size", sizeText(larger), text);
    }
  return undefined;
}

/** One and two units more of a row, until `met` says what it comes to. */
export function moreUnits(
  place: Place,
  columns: FeedColumns,
  met: (changed: FeedColumns) => string | undefined,
): Change | undefined {
  const { row, units } = place;
  for (const count of [units + 1, units + 2]) {
    const text = met(withFigure(columns, row, "inParallel", count));
    if (text !== undefined) return changeOf(place, "inParallel", `${count}`, text);
  }
  return undefined;
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

/** Of the cables on the way to a row, in its own level, the one that drops most in the case. */
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
