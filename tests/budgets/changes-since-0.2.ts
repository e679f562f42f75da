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

const WORKED = [
  "ridge-top-observatory",
  "harbour-survey-crawler",
  "river-ferry-hotel-loads",
] as const;

export const changesSince02: readonly Change[] = [
  {
    reason: "headroom counts from the nominal or the peak loads, whichever collapse the feed first",
    figures:
      /Times the loads at (collapse|the first limit)|At the first limit|· Headroom to collapse ›/,
    shows: "in both",
  },
  {
    reason: "the highest voltage of an item takes no drop, as with every load and stage off",
    budgets: WORKED,
    figures: /^Cases › .*(Highest input V|[Ll]east margin)/,
    shows: "in both",
  },
  {
    reason:
      "a cable withstands the greatest fault current: highest supply voltage, the supply's least resistance, no current limit",
    budgets: WORKED,
    figures: /^Checks › .* · Cable withstands a fault › Found$/,
    shows: "today",
  },
  {
    reason:
      "the time in which a fuse clears a fault at its terminals is that at the greatest current, no longer at the supply's limit",
    budgets: ["harbour-survey-crawler"],
    figures:
      /Time in which it clears a fault at its own terminals › Value$|· Cable withstands a fault › Limit$/,
    shows: "today",
  },
  {
    reason:
      "a point of the fuse's curve is entered with its time, which is held against the disconnection time",
    budgets: WORKED,
    figures: /› Current that blows it within 5 s › Value$/,
    shows: "today",
  },
  {
    reason: "stored energy is held against what is a shock hazard at the supply's voltage",
    budgets: WORKED,
    figures: /Stored energy that counts as hazardous › Value$|· Stored energy › Limit$/,
    shows: "today",
  },
  {
    reason: "units in parallel share with their cold resistance, which is less",
    budgets: ["harbour-survey-crawler"],
    figures:
      /· Share of the worst unit › Found$|^Answers › One of the units lost.* › Worst unit \(A\)$/,
    shows: "today",
  },
  {
    reason:
      "Bands is one CHAIN_BANDS: a margin is a part of the limit, no longer volts, and the column Fed by row is gone",
    figures: /^Bands › .+ › (Margin in service \(V\)|Margin after fault \(V\)|Fed by row)$/,
    shows: "today",
  },
];
