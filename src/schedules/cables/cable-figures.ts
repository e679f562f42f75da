/** What a row of cables implies: resistance hot and cold, rating by heat, inductance, mass and price. */
import { isGiven, type ScheduleRow, wordOf } from "../schedule-row.js";
import { type CableSetting, settingOf, sizeInWords, LIMIT, INSULATION } from "./cable-setting.js";
import { resistanceCells } from "./cable-resistance.js";
import { ratingCell } from "./cable-rating.js";
import { inductanceCell } from "./cable-inductance.js";
import { massCell, priceCell } from "./cable-mass.js";
import { Givens, type RowMaker } from "../table-row.js";

/**
 * Fills the feed table's cells of a cable from its row and its locations.
 * @throws {InputError} in words of the row.
 */
export function cableCells(made: RowMaker, places: readonly ScheduleRow[]): void {
  const cable = settingOf(made.source, places);
  if (isGiven(made.source, "cables") && cable.cables === cable.loops)
    made.pass("inParallel", "cables");
  else made.say("inParallel", cable.loops);
  made.passAll([
    "length",
    "build",
    "corePerMetre",
    "outerDiameter",
    "insulation",
    "surroundings",
    "grouping",
    "ratedCurrent",
    "ratedVoltage",
    "tolerance",
  ]);
  if (isGiven(made.source, "cores")) made.pass("cores");
  else made.say("cores", cable.cores);
  if (cable.size) made.say("size", sizeInWords(cable.size));
  for (const text of made.source.readAs ?? []) made.note(text);
  if (cable.size || isGiven(made.source, "corePerMetre")) made.say("material", cable.material.name);
  limitCell(made, cable);
  resistanceCells(made, cable);
  ratingCell(made, cable);
  inductanceCell(made, cable);
  massCell(made, cable);
  priceCell(made, cable);
}

function limitCell(made: RowMaker, { row, hotC }: CableSetting): void {
  if (isGiven(row, "conductorC")) {
    made.pass("conductorC");
    return;
  }
  if (hotC === undefined) return;
  const working = made.work(() =>
    new Givens()
      .add("insulation", INSULATION, row, "insulation")
      .working(`${row.name}: hottest conductor`, { temperatureC: LIMIT }, { temperatureC: hotC }),
  );
  made.derive("conductorC", hotC, working, "temperatureC");
  made.note(`at ${hotC} °C, the usual limit of ${String(wordOf(row, "insulation"))}`);
}
