/**
 * Warnings that somebody accepted with a reason, as the budget's own sheet keeps them: a whole warning or one item of it.
 * A reason was given for what was found then: when its figure or its case changes, the acceptance does not hold any more.
 */
import { figure } from "../../../src/quantities/figures.js";
import { rangeRows, textOf } from "../reading/range-table.js";
import type { FoundBudget, ReadRange } from "../reading/found-budget.js";
import { counts, type Finding, type Warning } from "./warning.js";

export const ACCEPTANCE_COLUMNS = ["Warning", "Accepted", "Reason", "As it was found"] as const;

export interface Acceptance {
  /** Id of the warning or of its item. */
  readonly id: string;
  /** Who and when. */
  readonly accepted: string;
  readonly reason: string;
  readonly finding: string;
  /** Its row in the range, from 0 with the headings. */
  readonly row: number;
}

/** What was accepted of something, and whether it is still as it was found. */
export interface Accepted {
  readonly acceptance: Acceptance | undefined;
  readonly holds: boolean;
}

export interface JudgedFinding extends Accepted {
  readonly finding: Finding;
}

export interface JudgedWarning extends Accepted {
  readonly warning: Warning;
  readonly findings: readonly JudgedFinding[];
  /** Accepted as a whole, or item by item. */
  readonly isAccepted: boolean;
}

export function judgedWarnings(
  warnings: readonly Warning[],
  { ranges }: FoundBudget,
): readonly JudgedWarning[] {
  const all = acceptances(ranges["Accepted"]);
  const acceptedOf = (id: string, line: string): Accepted => {
    const acceptance = all.find((one) => one.id === id);
    return { acceptance, holds: acceptance?.finding === line };
  };
  return warnings.map((warning) => {
    const whole = acceptedOf(warning.id, warningLine(warning));
    const findings = warning.findings.map((finding) => ({
      finding,
      ...acceptedOf(finding.id, findingLine(finding)),
    }));
    return {
      warning,
      findings,
      ...whole,
      isAccepted: whole.holds || findings.every(({ holds }) => holds),
    };
  });
}

/** Warnings that count and that nobody has accepted. */
export function openCount(judged: readonly JudgedWarning[]): number {
  return judged.filter(({ warning, isAccepted }) => counts(warning) && !isAccepted).length;
}

export function acceptances(range: ReadRange | undefined): readonly Acceptance[] {
  if (!range) return [];
  return rangeRows(range).flatMap((row) => {
    const [, accepted, reason, finding] = ACCEPTANCE_COLUMNS.map((heading) =>
      textOf(row.value(heading)),
    );
    if (!reason) return [];
    const at = range.values.findIndex(([id]) => textOf(id) === row.item);
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

/** What an item shows, to four digits: `Bus: 0.93 against 0.8, in loads peak, supply lowest`. */
export function findingLine({ item, found, limit, unit, worstIn, remedy }: Finding): string {
  if (found === "" && limit === "") return remedy;
  const measure = (value: number | string) =>
    typeof value === "number" ? `${figure(value)} ${unit}`.trim() : value;
  const name = item === "" ? "" : `${item}: `;
  const where = worstIn === "" ? "" : `, in ${worstIn}`;
  return `${name}${measure(found)} against ${measure(limit)}${where}`;
}

/** What a warning shows of all its items. */
export function warningLine({ findings }: Warning): string {
  return findings.map(findingLine).join("; ");
}

/** The first row of the range that holds nothing, from 0 with the headings; undefined when it is full. */
export function freeRow({ values }: ReadRange): number | undefined {
  const row = values.findIndex(
    (cells, index) => index > 0 && cells.every((cell) => textOf(cell) === ""),
  );
  return row < 0 ? undefined : row;
}
