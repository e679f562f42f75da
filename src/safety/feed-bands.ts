/**
 * Every item of a feed held against the band that people may touch, in service and after one fault. Bands are a
 * screening aid: they compare voltages with published limits and approve nothing.
 */
import type { TouchVoltage } from "./touch-voltage.js";
import type { FeedColumns } from "../network/feed-columns.js";
import type { InputError } from "../quantities/errors.js";
import type { Caveat } from "../quantities/steps.js";
import type { Fraction, Volts } from "../quantities/units.js";
import { bandCheck, bandJudgement, type DeterminedBand } from "./band-judgement.js";
import { circuitRipples, type FoundRipple, greatestRipple } from "./circuit-ripple.js";
import { type Circuit, feedCircuits, type HighestVoltage } from "./circuits.js";
import { faultPath, type NodeVoltages } from "./fault-path.js";
import { NO_RIPPLE_COUNTED } from "./judgement-caveats.js";
import type { LimitCheck } from "./limit-check.js";
import {
  bandLimit,
  type FrameworkName,
  type TouchBand,
  type TouchCondition,
  touchFrameworks,
} from "./touch-bands.js";

export interface BandsQuestion {
  /** Without one there are voltages, and no bands. */
  readonly framework: FrameworkName | NoFramework;
  /** Unknown counts as wet. */
  readonly condition: TouchCondition | undefined;
}

export interface NoFramework {
  /** What to enter, or that none is asked. */
  readonly reason: string;
}

export interface ItemBand {
  readonly outcome: "determined";
  readonly touch: TouchVoltage;
  readonly judgement: DeterminedBand;
  /** Check against the band that may be touched. */
  readonly check: LimitCheck;
  /** Distance to the limit as a part of the limit as printed; below 0 beyond it. */
  readonly margin: Fraction;
}

export interface NoBand {
  readonly outcome: "not determined";
  readonly why:
    | { readonly blamed: string; readonly error: InputError }
    /** A sentence about the framework. */
    | { readonly reason: string };
}

export interface ItemBands extends NodeVoltages {
  /** Undefined where the item's tree has none. */
  readonly circuit: Circuit | undefined;
  readonly inService: ItemBand | NoBand;
  readonly inFault: ItemBand | NoBand;
}

export interface FeedBands {
  readonly question: BandsQuestion;
  /** Limit of the band that may be touched; undefined where the framework prints none for the place. */
  readonly limit: Volts | undefined;
  /** One for each row, in the table's order. */
  readonly items: readonly ItemBands[];
}

export function feedBands(columns: FeedColumns, question: BandsQuestion): FeedBands {
  const feed = feedCircuits(columns);
  const ripples = circuitRipples(feed.circuits);
  const stages = new Map(feed.circuits.map((one) => [one.item.item, one]));
  const items = faultPath(columns, feed).map((node, row): ItemBands => {
    const found = feed.ofRow[row]!;
    const circuit = "outcome" in found ? undefined : found;
    const { normal, afterFault } = node;
    const failed =
      afterFault.outcome === "determined" && afterFault.fault
        ? stages.get(afterFault.fault.item)
        : undefined;
    const ripple = () => rippleOf([circuit], ripples);
    const risen = () => rippleOf([circuit, failed, failed?.input], ripples);
    const isOwn = circuit?.row === row;
    // A judgement asks for few of all, and of one circuit at a time.
    const inService = onceAsked(() => bandOf(normal, ripple(), question));
    const inFault = onceAsked(() => bandOf(afterFault, risen(), question));
    const caveats = onceAsked(() => [
      ...node.caveats,
      ...rippleCaveats(ripple(), isOwn),
      ...bandCaveats(inService()),
    ]);
    return {
      ...node,
      circuit,
      get inService() {
        return inService();
      },
      get inFault() {
        return inFault();
      },
      get caveats() {
        return caveats();
      },
    };
  });
  const { framework, condition = "wet" } = question;
  const limit =
    typeof framework === "string"
      ? bandLimit(touchableBand(framework), "dc", condition)
      : undefined;
  return { question, limit, items };
}

function onceAsked<T>(find: () => T): () => T {
  let found: { readonly is: T } | undefined;
  return () => (found ??= { is: find() }).is;
}

/** What people may touch. */
export function touchableBand(framework: FrameworkName): TouchBand {
  const { bands, bandsAsked } = touchFrameworks[framework];
  const found = bands.find(({ name }) => name === bandsAsked.touchable);
  if (!found) throw new Error(`${framework} has no ${bandsAsked.touchable}`);
  return found;
}

function rippleOf(
  circuits: readonly (Circuit | undefined)[],
  ripples: ReadonlyMap<Circuit, FoundRipple>,
): FoundRipple {
  return greatestRipple(circuits.map((one) => one && ripples.get(one)));
}

function bandOf(
  highest: HighestVoltage,
  ripple: FoundRipple,
  { framework, condition }: BandsQuestion,
): ItemBand | NoBand {
  if (highest.outcome !== "determined") return noBand(highest);
  if (typeof framework !== "string") return noBand(framework);
  if (ripple && "outcome" in ripple) return noBand(ripple);
  const touch: TouchVoltage = {
    voltage: highest.voltage,
    framework,
    condition,
    kind: "dc",
    rippleRms: ripple?.rms,
    ripplePeak: ripple?.peak,
  };
  const judgement = bandJudgement(touch);
  const touchable = touchableBand(framework);
  const check = bandCheck(touch, touchable);
  if (judgement.outcome !== "determined") return noBand({ reason: judgement.reason });
  if (!check) return noBand({ reason: `${touchable.name} has no limit` });
  const printed = check.rule === "plain" ? check.limit : check.dcLimit;
  return {
    outcome: "determined",
    touch,
    judgement,
    check,
    margin: check.margin / printed,
  };
}

function noBand(why: NoBand["why"]): NoBand {
  return { outcome: "not determined", why };
}

function rippleCaveats(ripple: FoundRipple, isOwn: boolean): Caveat[] {
  if (ripple && "outcome" in ripple) return [];
  const caveat = (code: string, text: string, cite: Caveat["cite"]): Caveat => ({
    code,
    field: "inService",
    text,
    cite,
  });
  if (!ripple) return [caveat("no-ripple", NO_RIPPLE_COUNTED, "definition")];
  return [
    ...(ripple.passedOn && isOwn
      ? [
          caveat(
            "ripple-passed-on",
            "ripple of what feeds it counted, none of its own",
            "ratio-circuit",
          ),
        ]
      : []),
    ...(ripple.peakAssumed && isOwn
      ? [caveat("ripple-peak-assumed", "ripple peak taken as √3 × rms", "common-practice")]
      : []),
  ];
}

/** Caveats on the band itself; those on the ripple are given above. */
function bandCaveats(found: ItemBand | NoBand): Caveat[] {
  if (found.outcome !== "determined") return [];
  const { band, caveats } = found.judgement;
  return [
    ...caveats.filter(({ code }) => BAND_NOTES.has(code)),
    {
      code: "provided",
      field: "inService",
      text: `${band.name}: ${band.provided}`,
      cite: band.cite,
    },
  ];
}

const BAND_NOTES: ReadonlySet<string> = new Set([
  "condition-unknown",
  "ripple-peak-own",
  "sum-beyond-first-band",
]);
