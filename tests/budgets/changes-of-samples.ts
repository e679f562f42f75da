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
    reason: "typed in schedules: the feed table that they make has the same figures",
    figures: /^Inputs › |^Answers › Losses of the sonar.* › Entered › /,
    gone: true,
  },
  {
    reason: "limits stand on Inputs and beside what is held against them on Checks",
    figures:
      /^Budget › Power balance › (Largest drop of a run|Largest loading|Limit of the band|Closing error allowed|Closing check|Altitude|Clearances as printed)/,
    gone: true,
  },
  {
    reason: "Checks counts what fails and what is not determined, in every case",
    figures: /^Budget › Power balance › Rows with a warning/,
    gone: true,
  },
  {
    reason: "a drop is judged by Checks, as a part of the nominal voltage of its level",
    figures: /› Drop share$/,
    gone: true,
  },
  {
    reason: "every item has its check by hand, under its own name, in volts and watts",
    figures: /^Budget › Check by hand › /,
    gone: true,
  },
  {
    reason: "the supply's voltages are those of Feed",
    figures: /^Cases › All nine operating points › .* › Supply voltage \(V\)$/,
    gone: true,
  },
  {
    reason: "the worst of the cases are rows of Checks, each with its case",
    figures: /^Cases › (The worst of the nine|Worst of all, by item) › /,
    gone: true,
  },
  {
    reason:
      "Bands is one CHAIN_BANDS: its margins are parts of the limit, its circuits are told by isolation",
    figures: /^Bands › .+ › (Margin in service \(V\)|Margin after fault \(V\)|Fed by row)$/,
    gone: true,
  },
  {
    reason:
      "heat of the day by item would be a formula for each item and period; each period's own losses stand in its solved rows",
    budgets: ["river-ferry-hotel-loads"],
    figures:
      /^Day › Where the heat is given off › .* › (Mean of the day \(W\)|Highest \(W\)|Heat in the day \(Wh\))$|^Day › Where the heat is given off › (Total|Energy lost)/,
    gone: true,
  },
  {
    reason: "Rated A of a fuse is its rating: the slip ring behind it, 8 A, is said in its Basis",
    budgets: ["harbour-survey-crawler"],
    figures: /› Deck fuse and slip ring( · series)? › (Loading|Rated A)$/,
  },
  {
    reason:
      "a fuse carries its load where the highest load current is within the asked part of its rating: 80 % is the 1.25 of 0.2",
    figures: /· Fuse carries the load › (Found|Limit)$/,
  },
  {
    reason: "headroom is a row of the supply, on Cases with the same number",
    figures: /^Checks › .* · Headroom to collapse › (Found|Limit)$/,
    gone: true,
  },
  {
    reason:
      "one unit lost is judged as a loading, of the feed solved without that unit: its no-load loss is gone too",
    budgets: ["harbour-survey-crawler"],
    figures: /· One unit lost › (Found|Limit)$/,
  },
  {
    reason:
      "the worst unit's share is of the highest output current itself; 0.2 took input current over the ratio, no-load current counted as load",
    budgets: ["harbour-survey-crawler"],
    figures: /· Share of the worst unit › Found$/,
  },
];
