/** Numbers that are meant to differ from those of 0.2, by the words of the changelog. */

export interface Change {
  /** What changed, as the changelog tells it. */
  readonly reason: string;
  /** Ids of the budgets; all where none is named. */
  readonly budgets?: readonly string[];
  /** Held against `Sheet › Section › Row › Column`. */
  readonly figures: RegExp;
  /**
   * Where it shows: in today's budgets, in a workbook of 0.2 that is opened now, or in both. A function that answers
   * otherwise shows in both, a sheet that asks otherwise only in today's.
   */
  readonly shows: "today" | "in both";
}

export const changesSince02: readonly Change[] = [
  {
    reason:
      "Bands is one CHAIN_BANDS: a margin is a part of the limit, no longer volts, and the column Fed by row is gone",
    figures:
      /^Bands › .+ › (Margin in service \(V\)|Margin after fault \(V\)|Fed by row)$/,
    shows: "today",
  },
];
