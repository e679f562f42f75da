/** The working of a load's step that holds its power: what was followed in time is given, and has to balance in energy. */
import type { Quantities, Step, Steps, StepsWith } from "../quantities/steps.js";
import type { HeldPowerSag } from "./held-power-step.js";
import { steppedLoadGivens } from "./load-step-sag-steps.js";

/** Counted from the step to the deepest place. */
const FOLLOWED_GIVENS: Quantities = {
  deepestTime: {
    label: "Time of the deepest place, followed step by step",
    symbol: "t",
    unit: "s",
  },
  lineCurrent: {
    label: "Current of the line there",
    symbol: "i",
    unit: "A",
  },
  charge: {
    label: "Charge through the line until then",
    symbol: "∫i",
    unit: "C",
  },
  lineSquares: {
    label: "Squared current of the line, added up until then",
    symbol: "∫i²",
    unit: "A²s",
  },
  capacitorSquares: {
    label: "Squared current of the capacitor, added up until then",
    symbol: "∫ic²",
    unit: "A²s",
  },
};

export function heldPowerGivens({ deepest }: HeldPowerSag): Quantities {
  return {
    ...steppedLoadGivens,
    busVoltage: {
      label: "Voltage before the step",
      symbol: "V₀",
      unit: "V",
    },
    ...(deepest === "ringing" ? FOLLOWED_GIVENS : {}),
  };
}

function step(
  label: string,
  symbol: string,
  unit: string,
  formula: string,
  cite: Step["cite"],
): Step {
  return { label, symbol, unit, kind: "formula", formula, cite };
}

const ENDS: Steps = {
  power: step("Power that the load holds", "P", "W", "currentStep * busVoltage", "definition"),
  restPart: step(
    "Power as a part of the most that arrives",
    "x",
    "1",
    "4 * resistance * power / busVoltage^2",
    "maximum-power",
  ),
  restVoltage: step(
    "Voltage at which it comes to rest, upper root",
    "V₁",
    "V",
    "busVoltage * (1 + sqrt(1 - restPart)) / 2",
    "two-roots",
  ),
  stepPart: step(
    "Power as a part of the most that the capacitor gives",
    "y",
    "1",
    "4 * capacitorResistance * power / busVoltage^2",
    "maximum-power",
  ),
  stepVoltage: step(
    "Voltage at the step itself, upper root",
    "V₂",
    "V",
    "busVoltage * (1 + sqrt(1 - stepPart)) / 2",
    "two-roots",
  ),
};

const FOLLOWED_STEPS: Steps = {
  capacitorVoltage: {
    label: "Voltage inside the capacitor there, by the balance of energy",
    symbol: "w",
    unit: "V",
    kind: "solved",
    residual:
      "(busVoltage * charge - resistance * lineSquares - capacitorResistance * capacitorSquares - power * deepestTime - 0.5 * inductance * lineCurrent^2 - 0.5 * capacitance * (capacitorVoltage^2 - busVoltage^2)) / (capacitance * busVoltage)",
    cite: "definition",
  },
};

const LOWEST: Readonly<Record<HeldPowerSag["deepest"], readonly [label: string, formula: string]>> =
  {
    ringing: [
      "Voltage at the deepest place, by ringing",
      "(capacitorVoltage + capacitorResistance * lineCurrent + sqrt((capacitorVoltage + capacitorResistance * lineCurrent)^2 - 4 * capacitorResistance * power)) / 2",
    ],
    "at rest": [
      "Voltage at the deepest place, where it comes to rest",
      "min(restVoltage, stepVoltage)",
    ],
    "at the step": [
      "Voltage at the deepest place, at the step itself",
      "min(restVoltage, stepVoltage)",
    ],
  };

export function heldPowerSteps({ deepest }: HeldPowerSag): StepsWith<"sag"> {
  const [label, formula] = LOWEST[deepest];
  return {
    ...ENDS,
    ...(deepest === "ringing" ? FOLLOWED_STEPS : {}),
    lowestVoltage: step(label, "V", "V", formula, "two-roots"),
    sag: step("Deepest sag", "ΔU", "V", "busVoltage - lowestVoltage", "definition"),
  };
}
