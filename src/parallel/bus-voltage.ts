/**
 * Where units behind their resistances and one load meet on a bus: exactly, by closed forms.
 *
 * Units that all carry act as one voltage V₀ behind one resistance R. With reverse flow allowed all of them do. With it
 * blocked those carry whose set voltage is above the bus: the highest one, or the highest two, and so on. Of these groups
 * the right one is the one that gives the highest bus voltage: at any bus voltage the blocked units together deliver
 * Σ max(0, (Vₖ − V)/Rₖ), which no group exceeds (a group leaves out what is positive, or counts what is fed backwards)
 * and which the group that carries reaches.
 *
 * A load of constant power P meets a group where V(V₀ − V)/R = P: twice, and service is at the upper root. The blocked
 * units can deliver P at a bus voltage if, and only if, some group can, and a group can between its two roots; so the
 * highest of the groups' upper roots is the highest voltage of all at which the power balances.
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

export interface BusConverter {
  readonly setVoltage: Volts;
  readonly resistance: Ohms;
}

/** Units that all carry, as one. */
interface Group {
  readonly openVoltage: Volts;
  readonly resistance: Ohms;
}

/** @throws {NoAnswerError} where there is no operating point above 0 V, saying by how much. */
export function busVoltage(
  converters: readonly BusConverter[],
  load: BusLoad,
  reverseFlow: "blocked" | "allowed",
): Volts {
  const nested = groupsFromHighest(converters);
  const groups = reverseFlow === "blocked" ? nested : nested.slice(-1);
  const voltage = groups.reduce(
    (highest, group) => Math.max(highest, meetingVoltage(group, load)),
    0,
  );
  if (voltage > 0) return voltage;
  throw noOperatingPoint(groups, load);
}

/** The highest unit, the two highest, and so on to all. V₀ is counted from the highest: equal units leave no rounding. */
function groupsFromHighest(converters: readonly BusConverter[]): Group[] {
  const falling = [...converters].sort((a, b) => b.setVoltage - a.setVoltage);
  const highest = falling[0]?.setVoltage ?? 0;
  let conductance = 0;
  let shortfall = 0;
  return falling.map(({ setVoltage, resistance }) => {
    conductance += 1 / resistance;
    shortfall += (highest - setVoltage) / resistance;
    return {
      openVoltage: highest - shortfall / conductance,
      resistance: 1 / conductance,
    };
  });
}

/** 0 or less where the group cannot carry the load. */
function meetingVoltage(group: Group, { kind, size }: BusLoad): Volts {
  const { openVoltage, resistance } = group;
  switch (kind) {
    case "current":
      return openVoltage - size * resistance;
    case "resistance":
      return (openVoltage * size) / (size + resistance);
    case "power": {
      const left = 1 - size / mostPower(group);
      return left < 0 ? 0 : (openVoltage / 2) * (1 + Math.sqrt(left));
    }
  }
}

/** At half the open-circuit voltage. */
function mostPower({ openVoltage, resistance }: Group): Watts {
  return openVoltage ** 2 / (4 * resistance);
}

function shortCircuitCurrent({ openVoltage, resistance }: Group): Amperes {
  return openVoltage / resistance;
}

function noOperatingPoint(groups: readonly Group[], { kind, size }: BusLoad): NoAnswerError {
  if (kind === "power") {
    const most = Math.max(...groups.map(mostPower));
    return new NoAnswerError(
      "load",
      `no operating point, the bus collapses: a load of ${size} W is ${figure(size - most)} W more than ` +
        `the ${figure(most)} W that the units can deliver`,
    );
  }
  const most = Math.max(...groups.map(shortCircuitCurrent));
  return new NoAnswerError(
    "load",
    `no operating point: a load of ${size} A is ${figure(size - most)} A more than ` +
      `the ${figure(most)} A that the units drive into a short circuit`,
  );
}
