/** The working of a ratio's choice. A chosen ratio is known by its name, so the steps are built for each. */
import type { Quantities, StepsOf } from "../quantities/steps.js";
import type { RatioChoice } from "./ratio-choices.js";

export const ratioWindowsGivens = {
  inputLowest: { label: "Lowest input", symbol: "U₁", unit: "V" },
  inputHighest: { label: "Highest input", symbol: "U₂", unit: "V" },
  loadLowest: { label: "Lowest voltage of the load", symbol: "L₁", unit: "V" },
  loadHighest: {
    label: "Highest voltage of the load",
    symbol: "L₂",
    unit: "V",
  },
  tolerance: { label: "Tolerance of the ratio", symbol: "t", unit: "1" },
  outputCurrent: { label: "Output current", symbol: "I", unit: "A" },
  outputResistance: { label: "Output resistance", symbol: "R", unit: "Ω" },
} satisfies Quantities;

export function ratioChoiceSteps({ name }: RatioChoice): StepsOf<RatioChoice> {
  const [up, down] = name.split("/");
  const through = up === "1" ? `/ ${down}` : `* ${up}`;
  return {
    ratio: {
      label: "Ratio, output ÷ input",
      symbol: "r",
      unit: "1",
      kind: "formula",
      formula: name,
      cite: "definition",
    },
    lowestOutput: {
      label: "Lowest output, at full load",
      symbol: "V₁",
      unit: "V",
      kind: "formula",
      formula: `inputLowest ${through} * (1 - tolerance) - outputCurrent * outputResistance`,
      cite: "ratio-circuit",
    },
    highestOutput: {
      label: "Highest output, at no load",
      symbol: "V₂",
      unit: "V",
      kind: "formula",
      formula: `inputHighest ${through} * (1 + tolerance)`,
      cite: "ratio-circuit",
    },
    ...MARGIN_STEPS,
  };
}

const MARGIN_STEPS: Pick<StepsOf<RatioChoice>, "lowerMargin" | "upperMargin"> = {
  lowerMargin: {
    label: "Margin above the load's lowest",
    symbol: "m₁",
    unit: "1",
    kind: "formula",
    formula: "(lowestOutput - loadLowest) / loadLowest",
    cite: "definition",
  },
  upperMargin: {
    label: "Margin below the load's highest",
    symbol: "m₂",
    unit: "1",
    kind: "formula",
    formula: "(loadHighest - highestOutput) / loadHighest",
    cite: "definition",
  },
};
