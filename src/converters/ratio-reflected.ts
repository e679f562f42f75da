/** A quantity of a fixed-ratio stage's input side as it is seen from the output. */
import { requireAbove } from "../quantities/errors.js";
import type { QuantitiesOf, StepsOf } from "../quantities/steps.js";

export type ReflectedQuantity = "resistance" | "inductance" | "capacitance" | "voltage" | "current";

export const REFLECTED_QUANTITIES = [
  "resistance",
  "inductance",
  "capacitance",
  "voltage",
  "current",
] as const satisfies readonly ReflectedQuantity[];

export interface Reflection {
  /** In the quantity's own unit. */
  readonly value: number;
  readonly ratio: number;
  readonly quantity: ReflectedQuantity;
}

export interface Reflected {
  readonly reflected: number;
}

/** A quantity of the input side as it is seen from the output. @throws {InputError} */
export function ratioReflected({ value, ratio, quantity }: Reflection): Reflected {
  requireAbove("value", value, 0);
  requireAbove("ratio", ratio, 0);
  switch (quantity) {
    case "resistance":
    case "inductance":
      return { reflected: value * ratio ** 2 };
    case "capacitance":
      return { reflected: value / ratio ** 2 };
    case "voltage":
      return { reflected: value * ratio };
    case "current":
      return { reflected: value / ratio };
  }
}

export const reflectionGivens: QuantitiesOf<Reflection> = {
  value: { label: "At the input", symbol: "x₁", unit: "as given" },
  ratio: { label: "Ratio, output ÷ input", symbol: "r", unit: "1" },
};

const FORMULAS: Readonly<Record<ReflectedQuantity, string>> = {
  resistance: "value * ratio^2",
  inductance: "value * ratio^2",
  capacitance: "value / ratio^2",
  voltage: "value * ratio",
  current: "value / ratio",
};

export function reflectedSteps({ quantity }: Reflection): StepsOf<Reflected> {
  return {
    reflected: {
      label: `The ${quantity} seen from the output`,
      symbol: "x₂",
      unit: "as given",
      kind: "formula",
      formula: FORMULAS[quantity],
      cite: "ratio-circuit",
    },
  };
}
