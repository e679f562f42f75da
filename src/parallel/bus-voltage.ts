/**
 * Where units behind their resistances and one load meet on a bus: exactly, by closed forms.
 *
 * The units that carry current act as one voltage V₀ behind one resistance R. With reverse flow allowed all of them do.
 * With it blocked those carry whose set voltage is above the bus, so the bus lies between the set voltages of the last
 * unit that carries and the first that does not: each such interval is tried from the top down, and has its own V₀ and R.
 *
 * A load of constant power P meets the units where V·ΣI(V) = P, in general at several voltages. Service is at the
 * highest. Each interval's V·ΣI(V) is a parabola that opens downwards, ΣI(V) is continuous, and V·ΣI(V) is 0 at the
 * highest set voltage: going down from there, the first place where P is met is on the falling side of a parabola, which
 * is the upper root of its quadratic, at or above V₀/2. Intervals are passed over only where they hold no such root.
 */
import { NoAnswerError } from "../quantities/errors.js";
import { figure } from "../quantities/figures.js";
import type { Amperes, Ohms, Volts, Watts } from "../quantities/units.js";

export type LoadKind = "current" | "power" | "resistance";

export interface BusLoad {
  readonly kind: LoadKind;
  /** A, W or Ω. */
  readonly size: number;
}

export interface BusUnit {
  readonly setVoltage: Volts;
  readonly resistance: Ohms;
}

/** The units that carry current between two bus voltages, as one. */
interface Interval {
  /** V₀ of the units as one. */
  readonly openVoltage: Volts;
  readonly resistance: Ohms;
  readonly lowest: Volts;
  readonly highest: Volts;
}

/** @throws {NoAnswerError} where there is no operating point above 0 V, saying by how much. */
export function busVoltage(
  units: readonly BusUnit[],
  load: BusLoad,
  reverseFlow: "blocked" | "allowed",
): Volts {
  const intervals = intervalsOf(units, reverseFlow);
  for (const interval of intervals) {
    const voltage = meetingVoltage(interval, load);
    if (voltage !== undefined && voltage >= interval.lowest && voltage > 0)
      return voltage;
  }
  throw noOperatingPoint(intervals, load);
}

/** From the highest down. Summed from the highest set voltage, so that equal ones leave no rounding behind. */
function intervalsOf(
  units: readonly BusUnit[],
  reverseFlow: "blocked" | "allowed",
): Interval[] {
  const falling = [...units].sort((a, b) => b.setVoltage - a.setVoltage);
  const top = falling[0]?.setVoltage ?? 0;
  let conductance = 0;
  let shortfall = 0;
  const blocked = falling.map(({ setVoltage, resistance }, index): Interval => {
    conductance += 1 / resistance;
    shortfall += (top - setVoltage) / resistance;
    return {
      openVoltage: top - shortfall / conductance,
      resistance: 1 / conductance,
      lowest: falling[index + 1]?.setVoltage ?? 0,
      highest: setVoltage,
    };
  });
  return reverseFlow === "blocked"
    ? blocked
    : blocked.slice(-1).map((all) => ({ ...all, highest: all.openVoltage }));
}

/** Where the load meets the interval's units as one, which may be below the interval. */
function meetingVoltage(
  { openVoltage, resistance, highest }: Interval,
  { kind, size }: BusLoad,
): Volts | undefined {
  switch (kind) {
    case "current":
      return openVoltage - size * resistance;
    case "resistance":
      return (openVoltage * size) / (size + resistance);
    case "power": {
      const root = 1 - size / mostPower(openVoltage, resistance);
      // Wholly on the rising side of its parabola, an interval holds no upper root.
      if (root < 0 || highest < openVoltage / 2) return undefined;
      return (openVoltage / 2) * (1 + Math.sqrt(root));
    }
  }
}

function mostPower(openVoltage: Volts, resistance: Ohms): Watts {
  return openVoltage ** 2 / (4 * resistance);
}

function noOperatingPoint(
  intervals: readonly Interval[],
  { kind, size }: BusLoad,
): NoAnswerError {
  if (kind !== "power") {
    const most = shortCircuitCurrent(intervals);
    return new NoAnswerError(
      "load",
      `no operating point: a load of ${size} A is ${figure(size - most)} A more than the units drive into a short circuit, ` +
        `${figure(most)} A at 0 V`,
    );
  }
  const { power, voltage } = peakOf(intervals);
  return new NoAnswerError(
    "load",
    `no operating point, the bus collapses: a load of ${size} W is ${figure(size - power)} W more than the units can deliver, ` +
      `${figure(power)} W at ${figure(voltage)} V`,
  );
}

function shortCircuitCurrent(intervals: readonly Interval[]): Amperes {
  const last = intervals.at(-1);
  return last ? last.openVoltage / last.resistance : 0;
}

/** Of each interval the greatest power lies at V₀/2, or at the end nearest to it. */
function peakOf(intervals: readonly Interval[]): {
  readonly power: Watts;
  readonly voltage: Volts;
} {
  let peak = { power: 0, voltage: 0 };
  for (const { openVoltage, resistance, lowest, highest } of intervals) {
    const voltage = Math.min(highest, Math.max(lowest, openVoltage / 2));
    const power = (voltage * (openVoltage - voltage)) / resistance;
    if (power > peak.power) peak = { power, voltage };
  }
  return peak;
}
