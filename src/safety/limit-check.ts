/** One voltage against one limit of a band: four rules, each with every number that it computes. */
import type { Fraction, Volts } from "../quantities/units.js";

interface Checked {
  readonly within: boolean;
  /** What the dc, or the rms of an alternating voltage, may reach, its ripple as it is. */
  readonly limit: Volts;
  /** Below 0 beyond the limit. */
  readonly margin: Volts;
}

export interface PlainCheck extends Checked {
  readonly rule: "plain";
}

/** The dc and ac parts of their own limits add up to 1 at most, by rms and by peak: the worse rules. */
export interface SumCheck extends Checked {
  readonly rule: "sum";
  readonly dcLimit: Volts;
  readonly rmsLimit: Volts;
  readonly peakLimit: Volts;
  readonly peak: Volts;
  readonly rmsSum: number;
  readonly peakSum: number;
  readonly sum: number;
}

/** Dc whose ripple is small enough to take the limit of ripple-free dc. */
export interface RippleFreeCheck extends Checked {
  readonly rule: "ripple-free";
  readonly rippleFraction: Fraction;
  readonly dcLimit: Volts;
  readonly peak: Volts;
  readonly highest: Volts;
  /** Limit of dc and ripple together; undefined where none is published, and the highest value is then not checked. */
  readonly highestLimit: Volts | undefined;
}

/** The highest instantaneous value takes the dc limit. */
export interface PeakCheck extends Checked {
  readonly rule: "peak";
  readonly dcLimit: Volts;
  readonly peak: Volts;
  readonly highest: Volts;
}

export type LimitCheck = PlainCheck | SumCheck | RippleFreeCheck | PeakCheck;

export interface Ripple {
  readonly rms: Volts;
  readonly peak: Volts;
}

export type Boundary = "inclusive" | "exclusive";

/** Ripple of dc that still counts as ripple-free, rms of the dc part. [iec-61558-ripple-free] */
export const RIPPLE_FREE_FRACTION = 0.1;

/** Products such as 600 · 0.1 miss their exact value by some 1e-16; a limit is not crossed by that. */
const ARITHMETIC_NOISE = 1e-12;

export function isWithin(value: number, limit: number, boundary: Boundary = "inclusive"): boolean {
  return boundary === "inclusive"
    ? value <= limit * (1 + ARITHMETIC_NOISE)
    : value < limit * (1 - ARITHMETIC_NOISE);
}

export function plainCheck(voltage: Volts, limit: Volts, boundary: Boundary): PlainCheck {
  const within = isWithin(voltage, limit, boundary);
  return { rule: "plain", within, limit, margin: limit - voltage };
}

export function sumCheck(
  voltage: Volts,
  ripple: Ripple,
  limits: { readonly dc: Volts; readonly rms: Volts; readonly peak: Volts },
): SumCheck {
  const { dc: dcLimit, rms: rmsLimit, peak: peakLimit } = limits;
  const rmsSum = voltage / dcLimit + ripple.rms / rmsLimit;
  const peakSum = voltage / dcLimit + ripple.peak / peakLimit;
  const sum = Math.max(rmsSum, peakSum);
  const limit = dcLimit * (1 - sum) + voltage;
  return {
    rule: "sum",
    within: isWithin(sum, 1),
    dcLimit,
    rmsLimit,
    peakLimit,
    peak: ripple.peak,
    rmsSum,
    peakSum,
    sum,
    limit,
    margin: limit - voltage,
  };
}

export function rippleFreeCheck(
  voltage: Volts,
  ripple: Ripple,
  dcLimit: Volts,
  highestLimit: Volts | undefined,
): RippleFreeCheck {
  const highest = voltage + ripple.peak;
  const limit =
    highestLimit === undefined ? dcLimit : Math.min(dcLimit, highestLimit - ripple.peak);
  return {
    rule: "ripple-free",
    within: isWithin(voltage, limit),
    rippleFraction: ripple.rms / voltage,
    dcLimit,
    peak: ripple.peak,
    highest,
    highestLimit,
    limit,
    margin: limit - voltage,
  };
}

export function peakCheck(
  voltage: Volts,
  ripple: Ripple,
  dcLimit: Volts,
  boundary: Boundary,
): PeakCheck {
  const highest = voltage + ripple.peak;
  const limit = dcLimit - ripple.peak;
  return {
    rule: "peak",
    within: isWithin(highest, dcLimit, boundary),
    dcLimit,
    peak: ripple.peak,
    highest,
    limit,
    margin: limit - voltage,
  };
}
