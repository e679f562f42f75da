/** Cables and stages of a feed as a proposal lists them, each with the highest figures that it has in the nine cases. */
import type { FeedColumns } from "../network/feed-columns.js";
import type { FeedCase } from "../network/feed-cases.js";
import { KINDS, type RowKind } from "../network/row-kinds.js";
import { lossAt } from "../network/row-flow.js";

/** A figure, and the case in which it is the highest. */
export interface HighestFigure {
  readonly value: number;
  readonly at: FeedCase;
}

export interface ListedRow {
  readonly row: number;
  readonly list: NonNullable<RowKind["list"]>;
  /** Highest figures of the whole row over the solved cases; undefined where no case is solved. */
  readonly highest:
    Readonly<Record<"current" | "drop" | "loss" | "outputPower", HighestFigure>> | undefined;
}

/** Cables first, then stages, each in the table's order. Contacts, supplies and loads are in neither list. */
export function proposalLists(
  columns: FeedColumns,
  cases: readonly FeedCase[],
): readonly ListedRow[] {
  const solved = cases.filter(({ refused }) => !refused);
  const listed = (list: ListedRow["list"]) =>
    Array.from({ length: columns.count }, (_, row) => row)
      .filter((row) => KINDS[columns.kind[row]!]?.list === list)
      .map((row) => ({ row, list, highest: highestOf(row, solved) }));
  return [...listed("Cable"), ...listed("Stage")];
}

function highestOf(row: number, cases: readonly FeedCase[]): ListedRow["highest"] {
  const [first, ...more] = cases.map((at) => {
    const { inputVoltage, outputVoltage, outputCurrent, blocked } = at.point.feed.state;
    const figure = (value: number): HighestFigure => ({ value, at });
    return {
      current: figure(Math.abs(outputCurrent[row]!)),
      drop: figure(blocked[row] ? 0 : Math.abs(inputVoltage[row]! - outputVoltage[row]!)),
      loss: figure(lossAt(at.point.feed, row)),
      outputPower: figure(outputVoltage[row]! * outputCurrent[row]!),
    };
  });
  if (!first) return undefined;
  const higher = (a: HighestFigure, b: HighestFigure) => (b.value > a.value ? b : a);
  return more.reduce(
    (found, each) => ({
      current: higher(found.current, each.current),
      drop: higher(found.drop, each.drop),
      loss: higher(found.loss, each.loss),
      outputPower: higher(found.outputPower, each.outputPower),
    }),
    first,
  );
}
