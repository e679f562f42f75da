/** Stage types whose datasheet was typed as points: the fitted losses, or those that were typed and win, beside the points. */
import { readBlocks } from "../../functions/reading/blocks.js";
import type { Cell } from "../../functions/cells.js";
import { stageFit } from "../../src/converters/stage-fit.js";
import { InputError } from "../../src/quantities/errors.js";
import { EFFICIENCY_POINTS } from "../../src/schedules/columns.js";
import { figureOf, type ScheduleRow } from "../../src/schedules/schedule-row.js";
import type { ReadRange } from "../budgets/reading/found-budget.js";
import type { PictureVariant } from "./parts/picture.js";
import {
  efficiencyAt,
  efficiencyPicture,
  type EfficiencyPoint,
  type FittedStage,
} from "./stage-efficiency.js";

/** @param range Of the schedule; a type that is not in order has no picture, and its stages say why in Table. */
export function typePictures(range: ReadRange | undefined): readonly PictureVariant[] {
  if (!range) return [];
  const types = orNothing(() => readBlocks([range.values as readonly (readonly Cell[])[]]));
  return (types?.rows["Stage type"] ?? []).flatMap((type) => {
    const stage = type.refusal ? undefined : orNothing(() => typedStage(type));
    return stage ? [{ name: type.name, picture: efficiencyPicture(stage) }] : [];
  });
}

/** Undefined for a type without the points that a curve needs, or the voltage at which they hold. */
function typedStage(type: ScheduleRow): FittedStage | undefined {
  const outputVoltage = figureOf(type, "voltage");
  const points = pointsOf(type);
  if (outputVoltage === undefined || points.length === 0) return undefined;
  const [fixed, linear, quadratic] = (["fixedLoss", "linearLoss", "quadraticLoss"] as const).map(
    (field) => figureOf(type, field),
  );
  const isTyped = [fixed, linear, quadratic].some((loss) => loss !== undefined);
  const { fixedLoss, linearLoss, quadraticLoss } = isTyped
    ? { fixedLoss: fixed ?? 0, linearLoss: linear ?? 0, quadraticLoss: quadratic ?? 0 }
    : stageFit({
        outputVoltage,
        loads: points.map(({ load }) => load),
        efficiencies: points.map(({ efficiency }) => efficiency),
      });
  const curve = { outputVoltage, fixedLoss, linearLoss, quadraticLoss, points, worstMisfit: 0 };
  const misfits = points.map(({ load, efficiency }) =>
    Math.abs(efficiencyAt(curve, load) - efficiency),
  );
  return { ...curve, worstMisfit: Math.max(...misfits) };
}

function pointsOf(type: ScheduleRow): readonly EfficiencyPoint[] {
  return Array.from({ length: EFFICIENCY_POINTS }, (_, at) => at + 1)
    .flatMap((at) => {
      const [load, efficiency] = [figureOf(type, `load${at}`), figureOf(type, `efficiency${at}`)];
      return load === undefined || efficiency === undefined ? [] : [{ load, efficiency }];
    })
    .sort((one, other) => one.load - other.load);
}

/** What the schedule's own reading refuses is told where it is read. */
function orNothing<T>(read: () => T): T | undefined {
  try {
    return read();
  } catch (error) {
    if (error instanceof InputError) return undefined;
    throw error;
  }
}
