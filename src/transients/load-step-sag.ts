/**
 * How far the voltage at a load sags when its current steps up: resistance and inductance up to it, a capacitor beside it.
 *
 * In units of the wave resistance Z = √(L/C), a = R/Z and b = r/Z, the voltage counted from where it comes to rest follows
 * y″ + 2ζω₀y′ + ω₀²y = 0 with 2ζ = a + b, and at the step y = ΔI·Z·(a − b), y′ = −ΔI·Z·ω₀·(1 − b²). It is deepest where y′
 * is 0 first, after an angle θ of the ringing with tan(θ/2) = (1 − b)/(1 + b)·√((1 + ζ)/(1 − ζ)). There y follows from
 * y′² + 2ζω₀yy′ + ω₀²y², which decays as exp(−2ζω₀t) and at the step is (ΔI·Z·ω₀·(1 − ab))².
 *
 * Only a circuit that rings, ζ < 1, with b < 1 is ever deeper than both the step itself, ΔI·r, and the rest, ΔI·R:
 * - without ringing an overshoot would ask for a(1 + b²) < b(3 − b²) with a ≥ 2 − b, which is 2(1 − b)² < 0;
 * - with b ≥ 1 the voltage rises from the step on, and what decays was (1 − ab)² = (a − b)² + (1 − a²)(1 − b²), which is
 *   no more than (a − b)² where it rings, a ≤ 1.
 */
import { requireAbove, requireAtLeast } from "../quantities/errors.js";
import type { Caveat } from "../quantities/steps.js";
import type { Amperes, Farads, Henries, Ohms, Seconds, Volts } from "../quantities/units.js";

export interface SteppedLoad {
  readonly currentStep: Amperes;
  /** Resistance of the supply and the loop up to the load. */
  readonly resistance: Ohms;
  readonly inductance: Henries;
  readonly capacitance: Farads;
  readonly capacitorResistance: Ohms;
}

interface Circuit {
  /** √(L/C). */
  readonly waveResistance: Ohms;
  /** Capacitor's series resistance in wave resistances. */
  readonly capacitorShare: number;
  /** Below 1 it rings. */
  readonly dampingRatio: number;
}

interface Ringing {
  /** In natural frequencies: √(1 − ζ²). */
  readonly ringing: number;
  /** From the step to the deepest place, in radians of the ringing. */
  readonly deepestAngle: number;
  readonly deepestTime: Seconds;
  /** Depth below the voltage at rest. */
  readonly overshoot: Volts;
}

export type LoadStepSag = Circuit & {
  readonly staticSag: Volts;
  readonly stepSag: Volts;
  readonly sag: Volts;
  readonly caveats: readonly Caveat[];
} & (({ readonly deepest: "ringing" } & Ringing) | { readonly deepest: "at rest" | "at the step" });

/** @throws {InputError} */
export function loadStepSag(load: SteppedLoad): LoadStepSag {
  const { currentStep, resistance, capacitorResistance } = load;
  requireAbove("currentStep", currentStep, 0);
  requireAbove("resistance", resistance, 0);
  requireAbove("inductance", load.inductance, 0);
  requireAbove("capacitance", load.capacitance, 0);
  requireAtLeast("capacitorResistance", capacitorResistance, 0);
  const circuit = circuitOf(load);
  const staticSag = currentStep * resistance;
  const stepSag = currentStep * capacitorResistance;
  const caveats = notesOn(load);
  if (isEverDeeper(circuit)) {
    const rung = ringingOf(load, circuit);
    const sag = Math.max(staticSag + rung.overshoot, stepSag);
    const deepest = "ringing";
    return { deepest, ...circuit, ...rung, staticSag, stepSag, sag, caveats };
  }
  const deepest = stepSag > staticSag ? "at the step" : "at rest";
  const sag = Math.max(staticSag, stepSag);
  return { deepest, ...circuit, staticSag, stepSag, sag, caveats };
}

function circuitOf(load: SteppedLoad): Circuit {
  const { resistance, inductance, capacitance, capacitorResistance } = load;
  const waveResistance = Math.sqrt(inductance / capacitance);
  return {
    waveResistance,
    capacitorShare: capacitorResistance / waveResistance,
    dampingRatio: (resistance + capacitorResistance) / (2 * waveResistance),
  };
}

/**
 * Nearer than this to critical damping, or to a capacitor of the wave resistance, ringing adds less than the last digit,
 * and some spreadsheets take the difference for 0.
 */
const NEAR = 1e-14;

function isEverDeeper({ dampingRatio, capacitorShare }: Circuit): boolean {
  return 1 - dampingRatio > NEAR && 1 - capacitorShare > NEAR;
}

function ringingOf(
  { currentStep, resistance, inductance, capacitorResistance }: SteppedLoad,
  { waveResistance, capacitorShare, dampingRatio }: Circuit,
): Ringing {
  const ringing = Math.sqrt((1 - dampingRatio) * (1 + dampingRatio));
  const deepestAngle =
    2 *
    Math.atan(
      ((1 - capacitorShare) / (1 + capacitorShare)) *
        Math.sqrt((1 + dampingRatio) / (1 - dampingRatio)),
    );
  const overshoot =
    currentStep *
    (waveResistance - (resistance * capacitorResistance) / waveResistance) *
    Math.exp((-dampingRatio * deepestAngle) / ringing);
  return {
    ringing,
    deepestAngle,
    deepestTime: (deepestAngle * inductance) / (waveResistance * ringing),
    overshoot,
  };
}

const LINEAR_NOTE: Caveat = {
  code: "linear",
  field: "sag",
  text: "a step of current: a load that holds its power draws more as it sags, sags further, and can collapse the bus where STABILITY_MARGIN is below about 1.5; give bus V to have such a load followed",
  cite: "constant-power-stability",
};

export const IDEAL_NOTE: Caveat = {
  code: "ideal-capacitor",
  field: "sag",
  text: "ideal: no series resistance of the capacitor given, so no sag at the step itself",
  cite: "definition",
};

function notesOn({ capacitorResistance }: SteppedLoad): Caveat[] {
  return capacitorResistance === 0 ? [LINEAR_NOTE, IDEAL_NOTE] : [LINEAR_NOTE];
}
