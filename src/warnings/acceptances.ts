/**
 * Warnings that somebody accepted with a reason, as the budget's own sheet keeps them. A reason was given for what was
 * found then: when the warning says something else, or its number changes, the acceptance does not hold any more.
 */
import { figure } from "../quantities/figures.js";
import { areaRows, textOf } from "./area-table.js";
import type { FoundBudget, ReadArea, Warning } from "./warning.js";

export const ACCEPTANCE_COLUMNS = [
  "Warning",
  "Accepted",
  "Reason",
  "As it was found",
] as const;

export interface Acceptance {
  /** Of the warning. */
  readonly id: string;
  /** Who and when. */
  readonly accepted: string;
  readonly reason: string;
  readonly finding: string;
  /** Its row in the area, from 0 with the headings. */
  readonly row: number;
}

export interface JudgedWarning {
  readonly warning: Warning;
  /** Given for this warning as it is, or as it was. */
  readonly acceptance?: Acceptance;
  readonly holds: boolean;
}

/** The warnings of a budget, each with what was accepted of it. */
export function judgedWarnings(
  warnings: readonly Warning[],
  { areas }: FoundBudget,
): readonly JudgedWarning[] {
  const all = acceptances(areas["Accepted"]);
  return warnings.map((warning) => {
    const acceptance = all.find(({ id }) => id === warning.id);
    if (!acceptance) return { warning, holds: false };
    const holds = acceptance.finding === findingLine(warning);
    return { warning, acceptance, holds };
  });
}

export function acceptances(area: ReadArea | undefined): readonly Acceptance[] {
  if (!area) return [];
  return areaRows(area).flatMap((row) => {
    const [, accepted, reason, finding] = ACCEPTANCE_COLUMNS.map((heading) =>
      textOf(row.value(heading)),
    );
    if (!reason) return [];
    const at = area.values.findIndex(([id]) => textOf(id) === row.item);
    return [
      {
        id: row.item,
        accepted: accepted ?? "",
        reason,
        finding: finding ?? "",
        row: at,
      },
    ];
  });
}

/** What a warning says, with its number to four digits. */
export function findingLine({ text, value, unit, limit }: Warning): string {
  if (value === undefined) return text;
  const held = limit === undefined ? "" : ` against ${figure(limit)} ${unit}`;
  return `${text} Found ${figure(value)} ${unit}${held}`.trim();
}

/** The first row of the area that holds nothing, from 0 with the headings; undefined when it is full. */
export function freeRow(
  { values }: ReadArea,
  taken: readonly number[] = [],
): number | undefined {
  const row = values.findIndex(
    (cells, index) =>
      index > 0 &&
      !taken.includes(index) &&
      cells.every((cell) => textOf(cell) === ""),
  );
  return row < 0 ? undefined : row;
}
