/** The equations of each sort of row for its working; each residual is 0 at the operating point. */
import type { Step, Steps } from "../quantities/steps.js";

const outputVoltage = (residual: string, cite: Step["cite"]): Step => ({
  label: "Output voltage",
  symbol: "V₂",
  unit: "V",
  kind: "solved",
  residual,
  cite,
});

const inputCurrent = (residual: string, cite: Step["cite"]): Step => ({
  label: "Input current",
  symbol: "I₁",
  unit: "A",
  kind: "solved",
  residual,
  cite,
});

const outputCurrent: Extract<Step, { kind: "solved" }> = {
  label: "Output current, the sum of what the row feeds",
  symbol: "I₂",
  unit: "A",
  kind: "solved",
  residual: "outputCurrent - currentFed",
  cite: "definition",
};

const loss = (formula: string, cite: Step["cite"]): Step => ({
  label: "Loss",
  symbol: "P_v",
  unit: "W",
  kind: "formula",
  formula,
  cite,
});

const DRAWN = "fixedLoss + linearLoss * outputCurrent + quadraticLoss * outputCurrent^2";

/** The same of a current that flows back: what a stage loses does not depend on its sign. */
const DRAWN_BACK = "fixedLoss + linearLoss * abs(outputCurrent) + quadraticLoss * outputCurrent^2";

/** Equations of a row through which current flows back. */
export function backwardSteps(steps: Steps): Steps {
  const turned = (formula: string) => formula.replace(DRAWN, DRAWN_BACK);
  return Object.fromEntries(
    Object.entries(steps).map(([name, step]): [string, Step] => {
      if (step.kind === "formula") return [name, { ...step, formula: turned(step.formula) }];
      if (step.kind === "solved") return [name, { ...step, residual: turned(step.residual) }];
      return [name, step];
    }),
  );
}

export const supplySteps: Steps = {
  outputCurrent,
  outputVoltage: outputVoltage("voltage - resistance * outputCurrent - outputVoltage", "ohm-joule"),
  loss: loss("resistance * outputCurrent^2", "ohm-joule"),
};

export const lineSteps: Steps = {
  outputCurrent,
  outputVoltage: outputVoltage(
    "inputVoltage - voltage - resistance * outputCurrent - outputVoltage",
    "ohm-joule",
  ),
  inputCurrent: inputCurrent("inputCurrent - outputCurrent", "definition"),
  loss: loss("(voltage + resistance * outputCurrent) * outputCurrent", "ohm-joule"),
};

export const tieSteps: Steps = {
  outputVoltage: {
    label: "Voltage at the second item",
    symbol: "V₂",
    unit: "V",
    kind: "formula",
    formula: "heldVoltage",
    cite: "definition",
  },
  outputCurrent: {
    label: "Current from the first item to the second",
    symbol: "I₂",
    unit: "A",
    kind: "solved",
    residual: "inputVoltage - resistance * outputCurrent - outputVoltage",
    cite: "ohm-joule",
  },
  inputCurrent: inputCurrent("inputCurrent - outputCurrent", "definition"),
  loss: loss("resistance * outputCurrent^2", "ohm-joule"),
};

export const ratioSteps: Steps = {
  outputCurrent,
  outputVoltage: outputVoltage(
    "ratio * inputVoltage - resistance * outputCurrent - outputVoltage",
    "ratio-circuit",
  ),
  inputCurrent: inputCurrent(
    `ratio * outputCurrent / stageEfficiency + (${DRAWN}) / inputVoltage - inputCurrent`,
    "ratio-circuit",
  ),
  loss: loss(
    `resistance * outputCurrent^2 + ${DRAWN} + ratio * inputVoltage * outputCurrent * (1 / stageEfficiency - 1)`,
    "loss-quadratic",
  ),
};

export const regulatedSteps: Steps = {
  outputCurrent,
  outputVoltage: outputVoltage(
    "voltage - resistance * outputCurrent - outputVoltage",
    "definition",
  ),
  inputCurrent: inputCurrent(
    `(outputVoltage * outputCurrent / stageEfficiency + ${DRAWN}) / inputVoltage - inputCurrent`,
    "definition",
  ),
  loss: loss(
    `${DRAWN} + outputVoltage * outputCurrent * (1 / stageEfficiency - 1)`,
    "loss-quadratic",
  ),
};

/** Of a bus that is fed from several: what arrives is what leaves, and that gives its voltage. */
const nodeSteps: Steps = {
  outputVoltage: outputVoltage("currentArriving - currentFed", "kirchhoff"),
  outputCurrent: {
    label: outputCurrent.label,
    symbol: "I₂",
    unit: "A",
    kind: "formula",
    formula: "currentFed",
    cite: "kirchhoff",
  },
  inputCurrent: {
    label: "Input current",
    symbol: "I₁",
    unit: "A",
    kind: "formula",
    formula: "currentArriving",
    cite: "kirchhoff",
  },
  loss: loss("(inputVoltage - outputVoltage) * outputCurrent", "definition"),
};

const held: Step = {
  label: "Output voltage, the one of the bus",
  symbol: "V₂",
  unit: "V",
  kind: "formula",
  formula: "heldVoltage",
  cite: "definition",
};

/** The same of a row whose current has more than one way: its own equation gives its current, and the node its voltage. */
export function meshedSteps(
  steps: Steps,
  {
    blocked,
    shares,
    bus,
  }: { readonly blocked: boolean; readonly shares: unknown; readonly bus: unknown },
): Steps {
  if (shares) return nodeSteps;
  const own = steps["outputVoltage"];
  if (own?.kind !== "solved") return steps;
  if (blocked)
    return {
      ...steps,
      outputVoltage: bus ? held : { ...own, residual: "currentFed" },
      outputCurrent: nothing,
    };
  if (!bus) return steps;
  const { residual, cite } = own;
  return {
    ...steps,
    outputVoltage: held,
    outputCurrent: { ...outputCurrent, label: "Output current", residual, cite },
  };
}

const nothing: Step = {
  label: "Output current: none, its reverse flow is blocked",
  symbol: "I₂",
  unit: "A",
  kind: "formula",
  formula: "0",
  cite: "definition",
};

const loadSteps = (residual: string): Steps => ({
  inputCurrent: inputCurrent(residual, "definition"),
});

export const powerLoadSteps = loadSteps("demand / inputVoltage - inputCurrent");
export const currentLoadSteps = loadSteps("demand - inputCurrent");
export const resistanceLoadSteps = loadSteps("demand * inputVoltage - inputCurrent");
