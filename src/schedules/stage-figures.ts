/** What a row of stages takes from its type: ratio, set point, window, losses, and what several units weigh and cost. */
import {
  type MeasuredStage,
  stageFit,
  type StageFit,
} from "../converters/stage-fit.js";
import {
  stageFitGivens,
  stageFitSteps,
  stageFitValues,
} from "../converters/stage-fit-steps.js";
import type { FeedKind } from "../network/feed-item.js";
import { plainName } from "../network/feed-topology.js";
import { InputError } from "../quantities/errors.js";
import { figure } from "../quantities/figures.js";
import type { Quantity } from "../quantities/steps.js";
import { EFFICIENCY_POINTS, type StageTypeKind } from "./columns.js";
import {
  figureOf,
  inWordsOfRow,
  isGiven,
  namesInWords,
  neededFigure,
  refused,
  type ScheduleRow,
  wordOf,
} from "./schedule-row.js";
import { Givens, type RowMaker } from "./table-row.js";

/** @throws {InputError} where the row names no type that is listed and in order. */
export function typeOf(
  row: ScheduleRow,
  types: ReadonlyMap<string, ScheduleRow>,
): ScheduleRow {
  const name = wordOf(row, "type");
  const found = name === undefined ? undefined : types.get(plainName(name));
  if (!found)
    throw refused(
      row,
      "type",
      `a name of Stage type, ${namesInWords([...types.values()].map((type) => type.name))}`,
    );
  return found;
}

/** @throws {InputError} of the type's row. */
export function stageKind(type: ScheduleRow): FeedKind {
  const kind = wordOf(type, "kind") as StageTypeKind | undefined;
  if (kind !== undefined) return kind;
  throw refused(type, "kind", '"ratio" or "regulated"');
}

/** @throws {InputError} in words of the stage's row or its type's. */
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
  isolationCell(made, type);
  if (stageKind(type) === "ratio") ratioCells(made, type);
  else regulatedCells(made, type);
  lossCells(made, type);
  for (const field of ["mass", "price"] as const) ofAllUnits(made, type, field);
}

function requireUnits(row: ScheduleRow): void {
  const units = figureOf(row, "inParallel") ?? 1;
  const needed = figureOf(row, "unitsNeeded");
  if (needed !== undefined && needed > units)
    throw refused(row, "unitsNeeded", `at most the ${units} In parallel`);
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
    throw refused(
      row,
      "voltage",
      "left empty: a ratio stage gives a part of its input",
    );
  const stepsDownBy = neededFigure(
    type,
    "stepsDownBy",
    "given for a ratio stage (16 for 16 to 1; 0.5 steps up)",
  );
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
  else
    throw refused(row, "voltage", `given here or for its type, ${type.name}`);
  if (own !== undefined && ofType !== undefined && own !== ofType)
    made.note(`Voltage as on the stage, not ${figure(ofType)} V of its type`);
  for (const field of ["lowestVoltage", "highestVoltage"])
    neededFigure(type, field, "given for a regulated stage");
  if (isGiven(type, "stepsDownBy"))
    throw refused(type, "stepsDownBy", "left empty for a regulated stage");
}

const LOSSES = ["fixedLoss", "linearLoss", "quadraticLoss"] as const;

/** Losses win over points, points over Efficiency. */
function lossCells(made: RowMaker, type: ScheduleRow): void {
  const hasLosses = LOSSES.some((field) => isGiven(type, field));
  const measured = measuredOf(made.source, type);
  if (hasLosses) {
    made.passAll(LOSSES, type);
    if (measured) made.note(misfitOfLosses(type, measured));
  } else if (measured) fittedCells(made, type, measured);
  else if (isGiven(type, "efficiency")) {
    requireNoResistance(type);
    made.pass("efficiency", "efficiency", type);
    made.note("one Efficiency at any load: no loss at no load is counted");
    return;
  } else if (stageKind(type) === "ratio" && isGiven(type, "resistance")) {
    made.note("no loss but that of its Resistance");
  } else
    throw refused(
      type,
      "efficiency",
      "given, or Fixed loss, Linear loss and Quadratic loss, or points of load and efficiency",
    );
  if (isGiven(type, "efficiency"))
    made.note(
      `Efficiency of its type passed over: ${hasLosses ? "losses" : "points"} are given`,
    );
}

function requireNoResistance(type: ScheduleRow): void {
  if (stageKind(type) === "ratio" && isGiven(type, "resistance"))
    throw refused(
      type,
      "efficiency",
      "left empty on a ratio type with a Resistance; give its losses",
    );
}

/** Points as far as there are any. @throws {InputError} for half a point, or points without the voltage of their loads. */
function measuredOf(
  row: ScheduleRow,
  type: ScheduleRow,
): MeasuredStage | undefined {
  const places = Array.from({ length: EFFICIENCY_POINTS }, (_, at) => at + 1);
  const points = places.flatMap((at) => {
    const load = figureOf(type, `load${at}`);
    const efficiency = figureOf(type, `efficiency${at}`);
    if (load === undefined && efficiency === undefined) return [];
    if (load === undefined) throw refused(type, `load${at}`, "given");
    if (efficiency === undefined)
      throw refused(type, `efficiency${at}`, "given");
    return [{ load, efficiency }];
  });
  if (points.length === 0) return undefined;
  const outputVoltage =
    stageKind(type) === "ratio"
      ? neededFigure(
          type,
          "voltage",
          "given, the rated output at which the points hold",
        )
      : (figureOf(type, "voltage") ?? neededFigure(row, "voltage"));
  return {
    outputVoltage,
    loads: points.map(({ load }) => load),
    efficiencies: points.map(({ efficiency }) => efficiency),
  };
}

function fittedCells(
  made: RowMaker,
  type: ScheduleRow,
  measured: MeasuredStage,
): void {
  const fields = { loads: "load1", efficiencies: "efficiency1" };
  const fit = inWordsOfRow(type, fields, () => stageFit(measured));
  requireDroopWithin(type, fit);
  const working = made.work(() => {
    const givens = new Givens().link(
      "outputVoltage",
      isGiven(type, "voltage") ? type : made.source,
      "voltage",
    );
    pointFields(type).forEach(({ load, efficiency }, index) => {
      givens
        .link(`load${index + 1}`, type, load)
        .link(`efficiency${index + 1}`, type, efficiency);
    });
    Object.assign(givens.quantities, stageFitGivens(measured));
    return givens.working(
      `${made.source.name}: loss fitted to the points of its type`,
      stageFitSteps(measured, fit),
      stageFitValues(measured, fit),
    );
  });
  for (const field of LOSSES) made.derive(field, fit[field], working, field);
  made.note(
    `loss fitted to ${measured.loads.length} points, at most ${percent(fit.worstMisfit)} of efficiency off`,
  );
  made.noteAll(fit.notes.filter(({ code }) => code !== "fitted-range"));
}

function pointFields(type: ScheduleRow) {
  return Array.from({ length: EFFICIENCY_POINTS }, (_, at) => ({
    load: `load${at + 1}`,
    efficiency: `efficiency${at + 1}`,
  })).filter(({ load }) => isGiven(type, load));
}

/** What a ratio stage loses in its resistance is a part of its quadratic loss. */
function requireDroopWithin(type: ScheduleRow, fit: StageFit): void {
  const droop = figureOf(type, "resistance") ?? 0;
  if (stageKind(type) === "ratio" && droop > fit.quadraticLoss)
    throw refused(
      type,
      "resistance",
      `at most ${figure(fit.quadraticLoss)} Ω, all quadratic loss that its points have`,
      droop,
    );
}

/** How far losses that were typed lie off the points beside them. */
function misfitOfLosses(
  type: ScheduleRow,
  { outputVoltage, loads, efficiencies }: MeasuredStage,
): string {
  const [fixed, linear, quadratic] = LOSSES.map(
    (field) => figureOf(type, field) ?? 0,
  );
  const misfits = loads.map((load, at) => {
    const current = load / outputVoltage;
    const loss = fixed! + linear! * current + quadratic! * current ** 2;
    return Math.abs(load / (load + loss) - efficiencies[at]!);
  });
  return `losses as typed; the points of its type lie at most ${percent(Math.max(...misfits))} of efficiency off them`;
}

function percent(part: number): string {
  return `${figure(Number((100 * part).toPrecision(2)))} %`;
}

const OF_ONE: Readonly<Record<"mass" | "price", Quantity>> = {
  mass: { label: "Mass of one unit", symbol: "m₁", unit: "kg" },
  price: { label: "Price of one unit", symbol: "p₁", unit: "1" },
};

function ofAllUnits(
  made: RowMaker,
  type: ScheduleRow,
  field: "mass" | "price",
): void {
  const one = figureOf(type, field);
  if (one === undefined) return;
  const { source: row } = made;
  const units = figureOf(row, "inParallel") ?? 1;
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
        { [field]: one * units },
      ),
  );
  made.derive(field, one * units, working, field);
}

/** Kind of a row whose type is missing or refused; undefined: the row has none. */
export function kindOrNone(
  row: ScheduleRow,
  types: ReadonlyMap<string, ScheduleRow>,
): FeedKind | undefined {
  try {
    return stageKind(typeOf(row, types));
  } catch (error) {
    if (error instanceof InputError) return undefined;
    throw error;
  }
}
