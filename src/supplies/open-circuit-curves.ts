/** Open-circuit voltage of cells over their state of charge. */
import type { CitationId } from "../quantities/citations.js";
import type { Fraction, Volts } from "../quantities/units.js";

export interface OpenCircuitCurve {
  readonly label: string;
  /** Rising states of charge from 0 to 1. */
  readonly points: readonly (readonly [charge: Fraction, voltage: Volts])[];
  /** Below this a cell is usually switched off. */
  readonly lowestVoltage: Volts;
  /** Below this charge the curve bends so much that a straight line between its points reads low, at most by so much. */
  readonly steepBelow: Fraction;
  readonly readsLowBy: Volts;
  readonly cite: CitationId;
}

export type Chemistry = "NMC";
export const CHEMISTRIES = ["NMC"] as const satisfies readonly Chemistry[];

export const openCircuitCurves: Readonly<Record<Chemistry, OpenCircuitCurve>> = {
  /** Nickel manganese cobalt oxide (811) against graphite with silicon. */
  NMC: {
    label: "NMC 811 with graphite and silicon, at rest and 25 °C",
    points: [
      [0, 2.5],
      [0.05, 3.1094],
      [0.1, 3.2959],
      [0.15, 3.4339],
      [0.2, 3.4852],
      [0.25, 3.5286],
      [0.3, 3.5814],
      [0.35, 3.629],
      [0.4, 3.667],
      [0.45, 3.7054],
      [0.5, 3.7509],
      [0.55, 3.7983],
      [0.6, 3.8406],
      [0.65, 3.8896],
      [0.7, 3.9479],
      [0.75, 3.9943],
      [0.8, 4.0421],
      [0.85, 4.0809],
      [0.9, 4.0967],
      [0.95, 4.1236],
      [1, 4.2],
    ],
    lowestVoltage: 2.5,
    steepBelow: 0.05,
    readsLowBy: 0.12,
    cite: "chen-2020",
  },
};

/** The two points that a state of charge lies between, the upper one where it is a point itself. */
export function pointsAround(
  { points }: OpenCircuitCurve,
  stateOfCharge: Fraction,
): {
  readonly below: readonly [Fraction, Volts];
  readonly above: readonly [Fraction, Volts];
} {
  const at = points.findIndex(([charge]) => charge >= stateOfCharge);
  const upper = Math.max(1, at);
  return { below: points[upper - 1]!, above: points[upper]! };
}
