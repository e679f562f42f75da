import type { Amperes, Fraction, Ohms, Volts, Watts } from "../quantities/units.js";

/** What an item of a feed does to the power that passes it; `ROW_KINDS` says what each one means. */
export const FEED_KINDS = [
  "supply",
  "run",
  "series",
  "bus",
  "tie",
  "ratio",
  "regulated",
  "power load",
  "current load",
  "resistance load",
] as const;

export type FeedKind = (typeof FEED_KINDS)[number];

/** What stands between a stage's input and output. */
export type Isolation = "none" | "functional" | "basic" | "reinforced";

export const ISOLATIONS = [
  "none",
  "functional",
  "basic",
  "reinforced",
] as const satisfies readonly Isolation[];

/** Whether current may flow from what a row feeds to what feeds it. */
export type ReverseFlow = "allowed" | "blocked";

export const REVERSE_FLOWS = ["allowed", "blocked"] as const satisfies readonly ReverseFlow[];

/**
 * One row of a feed: one item, or `inParallel` identical ones side by side. Figures are of **one** item. A figure that
 * was not given is undefined, never a stand-in.
 */
export interface FeedItem {
  readonly item: string;
  /** Name of the item that feeds this one, of a bus and a tie several parted by ";"; a supply has none. */
  readonly fedFrom: string | undefined;
  readonly kind: FeedKind;
  /** Open-circuit voltage of a supply, set point of a regulated stage, forward drop of a series item. */
  readonly voltage: Volts | undefined;
  /** Internal of a supply, loop of a run, output resistance of a stage when hot, both poles of a series item. */
  readonly resistance: Ohms | undefined;
  /** Output ÷ input voltage of a ratio stage. */
  readonly ratio: number | undefined;
  /** Loss of a stage is fixed + linear·I + quadratic·I² with I its output current. */
  readonly fixedLoss: Watts | undefined;
  readonly linearLoss: Volts | undefined;
  readonly quadraticLoss: Ohms | undefined;
  /** Instead of the three losses. */
  readonly efficiency: Fraction | undefined;
  /** W, A or Ω by the kind of load; 0 is no load. */
  readonly load: number | undefined;
  readonly lightLoad: number | undefined;
  readonly peakLoad: number | undefined;
  readonly inParallel: number;
  /** A supply's window, or the input that a stage or load allows. */
  readonly lowestVoltage: Volts | undefined;
  readonly highestVoltage: Volts | undefined;
  /** Continuous current of one: output of a supply, run, series item or stage, input of a load. */
  readonly ratedCurrent: Amperes | undefined;
  /** ± part of a ratio, set point, resistance or load; 0 is exact, undefined is not determined. */
  readonly tolerance: Fraction | undefined;
  readonly isolation: Isolation | undefined;
  /** By its kind where it is not given; asked only where currents have more than one way. */
  readonly reverseFlow: ReverseFlow | undefined;
  /** Voltage at which a regulated stage that lost its regulation is stopped. */
  readonly tripVoltage: Volts | undefined;
  /** Alternating part of the dc that a supply or a stage gives, at full load. */
  readonly rippleRms: Volts | undefined;
  readonly ripplePeak: Volts | undefined;
}
