/** The type of a stage, as its row names it. */
import type { FeedKind } from "../network/feed-item.js";
import { plainName } from "../network/feed-topology.js";
import { InputError } from "../quantities/errors.js";
import { type StageTypeKind } from "./columns.js";
import { missing, namesInWords, refused, type ScheduleRow, wordOf } from "./schedule-row.js";

/**
 * The Stage type that a stage's row names.
 * @throws {InputError} where the row names no type that is listed and in order.
 */
export function typeOf(row: ScheduleRow, types: ReadonlyMap<string, ScheduleRow>): ScheduleRow {
  const name = wordOf(row, "type");
  if (name === undefined) throw missing(row, "type", ", a name of Stage type");
  const found = types.get(plainName(name));
  if (!found)
    throw refused(
      row,
      "type",
      `a name of Stage type, ${namesInWords([...types.values()].map((type) => type.name))}`,
    );
  return found;
}

/** Kind of the stages of a type: ratio or regulated. @throws {InputError} of the type's row. */
export function stageKind(type: ScheduleRow): FeedKind {
  const kind = wordOf(type, "kind") as StageTypeKind | undefined;
  if (kind !== undefined) return kind;
  throw missing(type, "kind", ", ratio or regulated");
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
