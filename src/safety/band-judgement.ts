/**
 * The touch-voltage band of one voltage. It compares numbers with published limits; whether a circuit may be called
 * by a band's name also rests on its insulation, its faults and its place, which every answer says.
 */
import type { FoundBand, TouchVoltage } from "./touch-voltage.js";
import { InputError, requireAbove } from "../quantities/errors.js";
import type { Caveat } from "../quantities/steps.js";
import type { Volts } from "../quantities/units.js";
import { relationText, voltsText } from "./band-words.js";
import { judgementCaveats, NO_RIPPLE_COUNTED, noRippleCounted } from "./judgement-caveats.js";
import {
  isWithin,
  type LimitCheck,
  peakCheck,
  plainCheck,
  type Ripple,
  RIPPLE_FREE_FRACTION,
  rippleFreeCheck,
  sumCheck,
} from "./limit-check.js";
import {
  type BandLimits,
  type FrameworkName,
  hasLimitsFor,
  type TouchBand,
  type TouchCondition,
  type TouchFramework,
  touchFrameworks,
} from "./touch-bands.js";

interface Judged {
  readonly framework: FrameworkName;
  readonly condition: TouchCondition;
  /** Check against the limit of the band, or against the one crossed last where the band has none. */
  readonly check: LimitCheck;
  /** How the voltage stands to its limits, in words. */
  readonly relation: string;
  /** The whole answer: the band, ` · `, the rest. */
  readonly text: string;
  readonly caveats: readonly Caveat[];
}

export interface DeterminedBand extends Judged {
  readonly outcome: "determined";
  readonly band: TouchBand;
  /** 0 for the lowest band of the framework. */
  readonly rank: number;
}

/** The framework publishes no limit for what was asked. */
export interface UndeterminedBand extends Judged {
  readonly outcome: "not determined";
  readonly reason: string;
  /** The band that the voltage reaches at the least. */
  readonly atLeast: TouchBand;
}

export type BandJudgement = DeterminedBand | UndeterminedBand;

export const NOT_DETERMINED = "not determined";

/** @throws {InputError} for a voltage that is not above 0, and for ripple that cannot be. */
export function bandJudgement(touch: TouchVoltage): BandJudgement {
  requireVoltageAndRipple(touch);
  const framework = touchFrameworks[touch.framework];
  const condition = touch.condition ?? "wet";
  const reason = whyNotDetermined(touch, framework, condition);
  const judged = judge(touch, framework, condition, reason !== undefined);
  const { band, rank, check, relation } = judged;
  const common = {
    framework: touch.framework,
    condition,
    check,
    relation,
    caveats: judgementCaveats(touch, band, judged),
  };
  if (reason === undefined) {
    const ripple = noRippleCounted(touch, band) ? [NO_RIPPLE_COUNTED] : [];
    const text = [band.name, relation, ...ripple, band.provided].join(" · ");
    return { ...common, outcome: "determined", band, rank, text };
  }
  const atLeast = `at least ${band.name}: ${relation}`;
  const text = [NOT_DETERMINED, reason, atLeast].join(" · ");
  return { ...common, outcome: NOT_DETERMINED, reason, atLeast: band, text };
}

function requireVoltageAndRipple(touch: TouchVoltage): void {
  const { voltage, kind, rippleRms, ripplePeak } = touch;
  requireAbove("voltage", voltage, 0);
  if (rippleRms !== undefined) {
    if (kind !== "dc") throw new InputError("rippleRms", rippleRms, `blank for ${kind}`);
    requireAbove("rippleRms", rippleRms, 0);
  }
  if (ripplePeak === undefined) return;
  if (rippleRms === undefined)
    throw new InputError("ripplePeak", ripplePeak, "left out where no ripple rms is given");
  if (!(ripplePeak >= rippleRms && Number.isFinite(ripplePeak)))
    throw new InputError("ripplePeak", ripplePeak, `${rippleRms} (rms) or more`);
}

export function rippleOf(touch: TouchVoltage): Ripple | undefined {
  const { rippleRms, ripplePeak } = touch;
  if (rippleRms === undefined) return undefined;
  return { rms: rippleRms, peak: ripplePeak ?? Math.sqrt(3) * rippleRms };
}

function whyNotDetermined(
  touch: TouchVoltage,
  framework: TouchFramework,
  condition: TouchCondition,
): string | undefined {
  if (!hasLimitsFor(framework, condition))
    return `${framework.name} gives no limit for ${condition}`;
  const { voltage, rippleRms } = touch;
  if (rippleRms === undefined) return undefined;
  if (framework.ripple === "no rule") return `no rule for ripple of ${framework.name} is held here`;
  const free = isWithin(rippleRms / voltage, RIPPLE_FREE_FRACTION);
  if (framework.ripple === "ripple-free" && !free)
    return `ripple of ${voltsText(rippleRms)} rms is above 10 % of the dc, which is then not ripple-free`;
  return undefined;
}

/** @param atLeast By the dc alone and the limits for dry, which are the highest there are. */
function judge(
  touch: TouchVoltage,
  framework: TouchFramework,
  condition: TouchCondition,
  atLeast: boolean,
): FoundBand {
  const asked = atLeast && !hasLimitsFor(framework, condition);
  const place = asked ? "dry" : condition;
  const ripple = atLeast ? undefined : rippleOf(touch);
  const checks: (LimitCheck & { readonly band: string })[] = [];
  for (const [rank, band] of framework.bands.entries()) {
    const check = checkAgainst(band, touch, framework, place, ripple);
    if (check) checks.push({ ...check, band: band.name });
    const last = checks.at(-1);
    if (last && (!check || check.within)) {
      const { voltage, kind } = touch;
      const relation = relationText(voltage, checks, framework, kind, place);
      return { band, rank, check: last, relation };
    }
  }
  throw new Error(`${framework.name} has no band without a limit`);
}

/** Check against one band, whatever the voltage reaches; undefined where it has no limit for the condition. */
export function bandCheck(touch: TouchVoltage, band: TouchBand): LimitCheck | undefined {
  const framework = touchFrameworks[touch.framework];
  const condition = touch.condition ?? "wet";
  return checkAgainst(band, touch, framework, condition, rippleOf(touch));
}

/** Undefined for a band without a limit. */
function checkAgainst(
  band: TouchBand,
  { voltage, kind }: TouchVoltage,
  framework: TouchFramework,
  condition: TouchCondition,
  ripple: Ripple | undefined,
): LimitCheck | undefined {
  const limit = band.limits?.[kind][condition];
  if (band.limits === undefined || limit === undefined) return undefined;
  if (!ripple) return plainCheck(voltage, limit, framework.boundary);
  if (framework.ripple === "sum")
    return sumCheck(voltage, ripple, sumLimits(band.limits, limit, condition));
  if (framework.ripple === "ripple-free") {
    const highest = band.limits.ripplePeak?.[condition];
    return rippleFreeCheck(voltage, ripple, limit, highest);
  }
  return peakCheck(voltage, ripple, limit, framework.boundary);
}

function sumLimits(limits: BandLimits, dc: Volts, condition: TouchCondition) {
  const rms = limits["ac rms"][condition];
  const peak = limits.acPeak;
  if (rms === undefined || peak === undefined)
    throw new Error("a band judged by the sum has an ac and a peak limit");
  return { dc, rms, peak };
}
