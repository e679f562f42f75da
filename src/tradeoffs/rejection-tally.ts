/** How many candidates each option has, and which limit the refused ones broke: where no candidate is left, and why. */
import { TRADE_VERDICTS, type TradeVerdict } from "./trade-evaluation.js";
import { type TradePlace, tradePlace, type TradeSpace } from "./trade-space.js";

export const TRADE_AXES = ["supply", "cable", "arrangement", "inParallel"] as const;
export type TradeAxis = (typeof TRADE_AXES)[number];

/** Candidates by verdict. */
export type VerdictCounts = Readonly<Record<TradeVerdict, number>>;

export interface RejectionTally {
  readonly add: (index: number, verdict: TradeVerdict) => void;
  readonly all: () => VerdictCounts;
  /** By axis, then by the option's place on it. */
  readonly byOption: () => Readonly<Record<TradeAxis, readonly VerdictCounts[]>>;
}

const VERDICT_COUNT = TRADE_VERDICTS.length;
const numberOf = new Map(TRADE_VERDICTS.map((verdict, number) => [verdict, number]));

export function rejectionTally(space: TradeSpace): RejectionTally {
  const lengths: Readonly<Record<TradeAxis, number>> = {
    supply: space.supplies.length,
    cable: space.cables.length,
    arrangement: space.arrangements.length,
    inParallel: space.mostInParallel,
  };
  const counts = Object.fromEntries(
    TRADE_AXES.map((axis) => [axis, new Float64Array(lengths[axis] * VERDICT_COUNT)]),
  ) as Record<TradeAxis, Float64Array>;
  return {
    add(index, verdict) {
      const place: TradePlace = tradePlace(space, index);
      const number = numberOf.get(verdict)!;
      for (const axis of TRADE_AXES) counts[axis][place[axis] * VERDICT_COUNT + number]! += 1;
    },
    all: () => {
      const options = countsOf(counts.supply, lengths.supply);
      return Object.fromEntries(
        TRADE_VERDICTS.map((verdict) => [
          verdict,
          options.reduce((sum, option) => sum + option[verdict], 0),
        ]),
      ) as VerdictCounts;
    },
    byOption: () =>
      Object.fromEntries(
        TRADE_AXES.map((axis) => [axis, countsOf(counts[axis], lengths[axis])]),
      ) as Record<TradeAxis, VerdictCounts[]>,
  };
}

function countsOf(counts: Float64Array, options: number): VerdictCounts[] {
  return Array.from(
    { length: options },
    (_, option) =>
      Object.fromEntries(
        TRADE_VERDICTS.map((verdict, number) => [
          verdict,
          counts[option * VERDICT_COUNT + number]!,
        ]),
      ) as VerdictCounts,
  );
}

/** An option of which no candidate is left, and the limit that most of them broke. */
export interface RejectedOption {
  readonly axis: TradeAxis;
  readonly option: number;
  readonly limit: TradeVerdict;
  /** Part of its candidates that broke this limit first. */
  readonly share: number;
  /** The limit, in the order in which they are tried, that those broke which came furthest. */
  readonly furthest: TradeVerdict;
}

/** Options without a candidate left; an option that was not reached yet is none of them. */
export function rejectedOptions(tally: RejectionTally): RejectedOption[] {
  const byOption = tally.byOption();
  return TRADE_AXES.flatMap((axis) =>
    byOption[axis].flatMap((counts, option) => {
      const tried = TRADE_VERDICTS.reduce((sum, one) => sum + counts[one], 0);
      if (tried === 0 || counts.kept > 0) return [];
      const limit = TRADE_VERDICTS.reduce((most, one) => (counts[one] > counts[most] ? one : most));
      const furthest = [...TRADE_VERDICTS].reverse().find((one) => counts[one] > 0) ?? limit;
      const share = counts[limit] / tried;
      return [{ axis, option, limit, share, furthest }];
    }),
  );
}
