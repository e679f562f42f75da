/** What a row of stages takes from its type: ratio, set point, window, losses, and what several units weigh and cost. */
import { figure } from "../quantities/figures.js";
import type { Quantity } from "../quantities/steps.js";
import {
  figureOf,
  isGiven,
  missing,
  neededFigure,
  refused,
  requireLeastResistance,
  type ScheduleRow,
  wordOf,
} from "./schedule-row.js";
import { lossCells } from "./stage-losses.js";
import { stageKind } from "./stage-type.js";
import { Givens, type RowMaker } from "./table-row.js";

/**
 * Fills the feed table's cells of a stage from its row and its type.
 * @throws {InputError} in words of the stage's row or its type's.
 */
export function stageCells(made: RowMaker, type: ScheduleRow): void {
  if (type.refusal) throw type.refusal;
  const { source: row } = made;
  made.passAll([
    "type",
    "inParallel",
    "unitsNeeded",
    "tolerance",
    "tripVoltage",
    "setPointSpread",
    "resistanceSpread",
    "bleed",
  ]);
  made.passAll(
    [
      "lowestVoltage",
      "highestVoltage",
      "ratedCurrent",
      "ratedPower",
      "currentLimit",
      "resistance",
      "leastResistance",
      "lowestC",
      "fullUpToC",
      "derating",
      "highestC",
      "rippleRms",
      "ripplePeak",
      "inputCapacitance",
      "inputSeriesResistance",
      "volume",
    ],
    type,
  );
  requireUnits(row);
  requireLeastResistance(type);
  isolationCell(made, type);
  if (stageKind(type) === "ratio") ratioCells(made, type);
  else regulatedCells(made, type);
  lossCells(made, type);
  for (const field of ["mass", "price"] as const) ofAllUnits(made, type, field);
}

function requireUnits(row: ScheduleRow): void {
  const inParallel = figureOf(row, "inParallel") ?? 1;
  const needed = figureOf(row, "unitsNeeded");
  if (needed !== undefined && needed > inParallel)
    throw refused(row, "unitsNeeded", `at most the ${inParallel} In parallel`);
}

function isolationCell(made: RowMaker, type: ScheduleRow): void {
  const own = wordOf(made.source, "isolation");
  const ofType = wordOf(type, "isolation");
  if (own === undefined) made.pass("isolation", "isolation", type);
  else made.pass("isolation");
  if (own !== undefined && ofType !== undefined && own !== ofType)
    made.note(`Isolation as on the stage, not ${ofType} of its type`);
}

function ratioCells(made: RowMaker, type: ScheduleRow): void {
  const { source: row } = made;
  if (isGiven(row, "voltage"))
    throw refused(row, "voltage", "left empty: a ratio stage gives a part of its input");
  const stepsDownBy = neededFigure(type, "stepsDownBy", " (16 for 16 to 1; 0.5 steps up)");
  const ratio = 1 / stepsDownBy;
  const working = made.work(() =>
    new Givens()
      .add(
        "stepsDownBy",
        { label: "Input ÷ output voltage", symbol: "N", unit: "1" },
        type,
        "stepsDownBy",
      )
      .working(
        `${row.name}: ratio`,
        {
          ratio: {
            label: "Output ÷ input voltage",
            symbol: "r",
            unit: "1",
            kind: "formula",
            formula: "1 / stepsDownBy",
            cite: "definition",
          },
        },
        { ratio },
      ),
  );
  made.derive("ratio", ratio, working, "ratio");
}

function regulatedCells(made: RowMaker, type: ScheduleRow): void {
  const { source: row } = made;
  const own = figureOf(row, "voltage");
  const ofType = figureOf(type, "voltage");
  if (own !== undefined) made.pass("voltage");
  else if (ofType !== undefined) made.pass("voltage", "voltage", type);
  else throw missing(row, "voltage", `, or of its type, ${type.name}`);
  if (own !== undefined && ofType !== undefined && own !== ofType)
    made.note(`Voltage as on the stage, not ${figure(ofType)} V of its type`);
  for (const field of ["lowestVoltage", "highestVoltage"]) neededFigure(type, field);
  if (isGiven(type, "stepsDownBy"))
    throw refused(type, "stepsDownBy", "left empty for a regulated stage");
}

const OF_ONE: Readonly<Record<"mass" | "price", Quantity>> = {
  mass: { label: "Mass of one unit", symbol: "m₁", unit: "kg" },
  price: { label: "Price of one unit", symbol: "p₁", unit: "1" },
};

function ofAllUnits(made: RowMaker, type: ScheduleRow, field: "mass" | "price"): void {
  const one = figureOf(type, field);
  if (one === undefined) return;
  const { source: row } = made;
  const inParallel = figureOf(row, "inParallel") ?? 1;
  const working = made.work(() =>
    new Givens()
      .add("one", OF_ONE[field], type, field)
      .add(
        "inParallel",
        { label: "Units in parallel", symbol: "n", unit: "1" },
        row,
        "inParallel",
        1,
      )
      .working(
        `${row.name}: ${field}`,
        {
          [field]: {
            label: field === "mass" ? "Mass of the row" : "Price of the row",
            symbol: field === "mass" ? "M" : "p",
            unit: OF_ONE[field].unit,
            kind: "formula",
            formula: "one * inParallel",
            cite: "definition",
          },
        },
        { [field]: one * inParallel },
      ),
  );
  made.derive(field, one * inParallel, working, field);
}
