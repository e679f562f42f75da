/**
 * How far the voltage at a load sags when its current steps up: resistance and inductance up to it, a capacitor beside it.
 *
 * Counted from where the voltage comes to rest, y decays as y″ + 2αy′ + ω₀²y = 0, with α = (R + r)/2L, ω₀² = 1/LC and,
 * at the step, y = ΔI(R − r) and y′ = ΔI(r²/L − 1/C). The deepest sag is where y′ is 0 first with y below 0: the time
 * follows from the natural response, and y from y′² + 2αyy′ + ω₀²y², which decays as exp(−2αt) whatever the damping.
 * Where it does not ring there is no such place: an overshoot would ask for R < r(3 − r²)/(1 + r²) with R ≥ 2 − r, both
 * in units of √(L/C), which is 2(r − 1)² < 0. Then the sag is deepest at the step itself, ΔI·r, or at rest, ΔI·R.
 */
import { requireAbove, requireAtLeast } from "../quantities/errors.js";
import type { Note, Quantities, Steps } from "../quantities/steps.js";
import type {
  Amperes,
  Farads,
  Henries,
  Ohms,
  Seconds,
  Volts,
} from "../quantities/units.js";

export interface SteppedLoad {
  readonly currentStep: Amperes;
  /** Up to the load. */
  readonly resistance: Ohms;
  readonly inductance: Henries;
  readonly capacitance: Farads;
  readonly capacitorResistance: Ohms;
}

/** How the deepest place is found: by which root of y′, if by any. */
export type SagCase =
  "first quarter" | "a quarter" | "second quarter" | "half later" | "none";

export interface LoadStepSag {
  readonly found: SagCase;
  /** α and ω₀². */
  readonly damping: number;
  readonly naturalSquare: number;
  /** α² − ω₀²: below 0 it rings. */
  readonly discriminant: number;
  readonly startLevel: Volts;
  readonly startRate: number;
  /** Undefined where no overshoot is met. */
  readonly deepestTime: Seconds | undefined;
  /** Below where the voltage comes to rest. */
  readonly overshoot: Volts;
  readonly staticSag: Volts;
  readonly stepSag: Volts;
  readonly sag: Volts;
  readonly notes: readonly Note[];
}

/** @throws {InputError} */
export function loadStepSag(load: SteppedLoad): LoadStepSag {
  const { currentStep, resistance, inductance, capacitance } = load;
  const { capacitorResistance } = load;
  requireAbove("currentStep", currentStep, 0);
  requireAbove("resistance", resistance, 0);
  requireAbove("inductance", inductance, 0);
  requireAbove("capacitance", capacitance, 0);
  requireAtLeast("capacitorResistance", capacitorResistance, 0);
  const damping = (resistance + capacitorResistance) / (2 * inductance);
  const naturalSquare = 1 / (inductance * capacitance);
  const discriminant = damping ** 2 - naturalSquare;
  const startLevel = currentStep * (resistance - capacitorResistance);
  const startRate =
    currentStep * (capacitorResistance ** 2 / inductance - 1 / capacitance);
  const motion = {
    damping,
    naturalSquare,
    discriminant,
    startLevel,
    startRate,
  };
  const { found, time } = deepest(motion);
  const overshoot = time === undefined ? 0 : overshootAt(time, motion);
  const staticSag = currentStep * resistance;
  const stepSag = currentStep * capacitorResistance;
  const sag = Math.max(staticSag + overshoot, stepSag);
  return {
    found,
    ...motion,
    deepestTime: time,
    overshoot,
    staticSag,
    stepSag,
    sag,
    notes: [LINEAR_NOTE],
  };
}

interface Motion {
  readonly damping: number;
  readonly naturalSquare: number;
  readonly discriminant: number;
  readonly startLevel: number;
  readonly startRate: number;
}

/** The first time at which y′ is 0 and y below 0. */
function deepest(motion: Motion): {
  readonly found: SagCase;
  readonly time: Seconds | undefined;
} {
  const { damping, naturalSquare, discriminant } = motion;
  const { startLevel, startRate } = motion;
  const pull = damping * startRate + naturalSquare * startLevel;
  const rate = Math.sqrt(Math.abs(discriminant));
  if (!(discriminant < 0)) return { found: "none", time: undefined };
  // Rising at first, it passes a highest place and is lowest half a period later.
  if (startRate >= 0) {
    const highest = Math.atan2(rate * startRate, pull) / rate;
    return { found: "half later", time: highest + Math.PI / rate };
  }
  const angle = Math.atan2(-rate * startRate, -pull);
  const found =
    pull < 0 ? "first quarter" : pull > 0 ? "second quarter" : "a quarter";
  return { found, time: angle / rate };
}

function overshootAt(time: Seconds, motion: Motion): Volts {
  const { damping, naturalSquare, startLevel, startRate } = motion;
  const square =
    startRate ** 2 +
    2 * damping * startLevel * startRate +
    naturalSquare * startLevel ** 2;
  return (
    Math.sqrt(Math.max(0, square) / naturalSquare) * Math.exp(-damping * time)
  );
}

const LINEAR_NOTE: Note = {
  code: "linear",
  field: "sag",
  text: "a step of current: a load that holds its power draws more as it sags, and sags a little more",
  cite: "constant-power-stability",
};

export const steppedLoadGivens: Quantities = {
  currentStep: { label: "Step of current", symbol: "ΔI", unit: "A" },
  resistance: { label: "Resistance up to the load", symbol: "R", unit: "Ω" },
  inductance: { label: "Inductance up to the load", symbol: "L", unit: "H" },
  capacitance: { label: "Capacitance at the load", symbol: "C", unit: "F" },
  capacitorResistance: {
    label: "Series resistance of the capacitor",
    symbol: "r",
    unit: "Ω",
  },
};

const RATE = "sqrt(abs(discriminant))";
const PULL = "(damping * startRate + naturalSquare * startLevel)";

const TIMES: Readonly<Record<Exclude<SagCase, "none">, string>> = {
  "first quarter": `atan(${RATE} * startRate / ${PULL}) / ${RATE}`,
  "a quarter": `pi / 2 / ${RATE}`,
  "second quarter": `(pi + atan(${RATE} * startRate / ${PULL})) / ${RATE}`,
  "half later": `(pi + 2 * atan(${RATE} * startRate / (sqrt(abs(discriminant) * startRate^2 + ${PULL}^2) + ${PULL}))) / ${RATE}`,
};

export function loadStepSagSteps({ found }: LoadStepSag): Steps {
  const step = (
    label: string,
    symbol: string,
    unit: string,
    formula: string,
  ): Steps[string] => ({
    label,
    symbol,
    unit,
    kind: "formula",
    formula,
    cite: "series-rlc",
  });
  return {
    damping: step(
      "Damping",
      "α",
      "1/s",
      "(resistance + capacitorResistance) / (2 * inductance)",
    ),
    naturalSquare: step(
      "Square of the natural frequency",
      "ω₀²",
      "1/s²",
      "1 / (inductance * capacitance)",
    ),
    discriminant: step(
      "Damping squared less natural frequency squared; below 0 it rings",
      "δ",
      "1/s²",
      "damping^2 - naturalSquare",
    ),
    startLevel: step(
      "Voltage above where it comes to rest, at the step",
      "y₀",
      "V",
      "currentStep * (resistance - capacitorResistance)",
    ),
    startRate: step(
      "Its rate of change there",
      "y′₀",
      "V/s",
      "currentStep * (capacitorResistance^2 / inductance - 1 / capacitance)",
    ),
    ...(found === "none"
      ? {}
      : {
          deepestTime: step("Time of the deepest sag", "t", "s", TIMES[found]),
          overshoot: step(
            "Sag below where it comes to rest",
            "y",
            "V",
            "sqrt(max(0, startRate^2 + 2 * damping * startLevel * startRate + naturalSquare * startLevel^2) / naturalSquare) * exp(0 - damping * deepestTime)",
          ),
        }),
    staticSag: step("Sag at rest", "ΔI·R", "V", "currentStep * resistance"),
    stepSag: step(
      "Sag at the step itself",
      "ΔI·r",
      "V",
      "currentStep * capacitorResistance",
    ),
    sag: step(
      found === "none" ? "Deepest sag: no overshoot" : "Deepest sag",
      "ΔU",
      "V",
      found === "none"
        ? "max(staticSag, stepSag)"
        : "max(staticSag + overshoot, stepSag)",
    ),
  };
}
