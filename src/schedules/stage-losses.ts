/** Losses of a stage from its type: as typed, fitted to its points of load and efficiency, or by one efficiency. */
import { type MeasuredStage, stageFit, type StageFit } from "../converters/stage-fit.js";
import { stageFitGivens, stageFitSteps, stageFitValues } from "../converters/stage-fit-steps.js";
import { figure } from "../quantities/figures.js";
import { EFFICIENCY_POINTS } from "./columns.js";
import {
  figureOf,
  inWordsOfRow,
  isGiven,
  missing,
  neededFigure,
  refused,
  type ScheduleRow,
} from "./schedule-row.js";
import { stageKind } from "./stage-type.js";
import { Givens, type RowMaker } from "./table-row.js";

const LOSSES = ["fixedLoss", "linearLoss", "quadraticLoss"] as const;

/** Losses win over points, points over Efficiency. */
export function lossCells(made: RowMaker, type: ScheduleRow): void {
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
    throw missing(
      type,
      "efficiency",
      ", or Fixed loss, Linear loss and Quadratic loss, or points of load and efficiency",
    );
  if (isGiven(type, "efficiency"))
    made.note(`Efficiency of its type passed over: ${hasLosses ? "losses" : "points"} are given`);
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
function measuredOf(row: ScheduleRow, type: ScheduleRow): MeasuredStage | undefined {
  const places = Array.from({ length: EFFICIENCY_POINTS }, (_, at) => at + 1);
  const points = places.flatMap((at) => {
    const load = figureOf(type, `load${at}`);
    const efficiency = figureOf(type, `efficiency${at}`);
    if (load === undefined && efficiency === undefined) return [];
    if (load === undefined) throw missing(type, `load${at}`);
    if (efficiency === undefined) throw missing(type, `efficiency${at}`);
    return [{ load, efficiency }];
  });
  if (points.length === 0) return undefined;
  const outputVoltage =
    stageKind(type) === "ratio"
      ? neededFigure(type, "voltage", ", the rated output at which the points hold")
      : (figureOf(type, "voltage") ?? neededFigure(row, "voltage"));
  return {
    outputVoltage,
    loads: points.map(({ load }) => load),
    efficiencies: points.map(({ efficiency }) => efficiency),
  };
}

function fittedCells(made: RowMaker, type: ScheduleRow, measured: MeasuredStage): void {
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
      givens.link(`load${index + 1}`, type, load).link(`efficiency${index + 1}`, type, efficiency);
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
  made.noteAll(fit.caveats.filter(({ code }) => code !== "fitted-range"));
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
  const [fixed, linear, quadratic] = LOSSES.map((field) => figureOf(type, field) ?? 0);
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
