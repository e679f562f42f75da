/** Numbers of 0.2's samples that are not there any more, or are others, and why. */
export interface SampleChange {
  readonly reason: string;
  /** Ids; all samples where none is named. */
  readonly budgets?: readonly string[];
  /** Held against `Sheet › Section › Row › Column`. */
  readonly figures: RegExp;
  /** There is no such figure any more; otherwise it is another one. */
  readonly gone?: true;
}

export const changesOfSamples: readonly SampleChange[] = [
  {
    reason:
      "typed in schedules: the feed table that they make has the same figures",
    figures: /^Inputs › /,
    gone: true,
  },
];
