/** The working of a load step's sag: which steps there are depends on where it is deepest. */
import type { QuantitiesOf, Step, Steps, StepsWith } from "../quantities/steps.js";
import type { LoadStepSag, SteppedLoad } from "./load-step-sag.js";

export const steppedLoadGivens: QuantitiesOf<SteppedLoad> = {
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

function step(label: string, symbol: string, unit: string, formula: string): Step {
  return { label, symbol, unit, kind: "formula", formula, cite: "series-rlc" };
}

const CIRCUIT_STEPS: Steps = {
  waveResistance: step("Wave resistance", "Z", "Ω", "sqrt(inductance / capacitance)"),
  capacitorShare: step(
    "Capacitor's resistance in wave resistances; from 1 up the step itself is deepest",
    "b",
    "1",
    "capacitorResistance / waveResistance",
  ),
  dampingRatio: step(
    "Damping ratio; below 1 it rings",
    "ζ",
    "1",
    "(resistance + capacitorResistance) / (2 * waveResistance)",
  ),
};

const RINGING_STEPS: Steps = {
  ringing: step(
    "Frequency of the ringing in natural frequencies",
    "s",
    "1",
    "sqrt((1 - dampingRatio) * (1 + dampingRatio))",
  ),
  deepestAngle: step(
    "Angle of the ringing at the deepest place, in radians",
    "θ",
    "1",
    "2 * atan((1 - capacitorShare) / (1 + capacitorShare) * sqrt((1 + dampingRatio) / (1 - dampingRatio)))",
  ),
  deepestTime: step(
    "Time of the deepest place",
    "t",
    "s",
    "deepestAngle * inductance / (waveResistance * ringing)",
  ),
  overshoot: step(
    "Sag below where it comes to rest",
    "y",
    "V",
    "currentStep * (waveResistance - resistance * capacitorResistance / waveResistance) * exp(-dampingRatio * deepestAngle / ringing)",
  ),
};

const SAGS: Readonly<Record<LoadStepSag["deepest"], readonly [label: string, formula: string]>> = {
  ringing: ["Deepest sag, by ringing", "max(staticSag + overshoot, stepSag)"],
  "at rest": ["Deepest sag, where it comes to rest", "max(staticSag, stepSag)"],
  "at the step": ["Deepest sag, at the step itself", "max(staticSag, stepSag)"],
};

export function loadStepSagSteps({ deepest }: LoadStepSag): StepsWith<"sag"> {
  return {
    ...CIRCUIT_STEPS,
    ...(deepest === "ringing" ? RINGING_STEPS : {}),
    staticSag: step("Sag at rest", "ΔI·R", "V", "currentStep * resistance"),
    stepSag: step("Sag at the step itself", "ΔI·r", "V", "currentStep * capacitorResistance"),
    sag: step(SAGS[deepest][0], "ΔU", "V", SAGS[deepest][1]),
  };
}
