/** How the numbers of a voltage against its limit come about, by the rule that was used. */
import type { CitationId } from "../quantities/citations.js";
import type { QuantitiesOf, Step, Steps, StepsOf } from "../quantities/steps.js";
import type { Volts } from "../quantities/units.js";
import type {
  LimitCheck,
  PeakCheck,
  PlainCheck,
  RippleFreeCheck,
  SumCheck,
} from "./limit-check.js";

export const checkGivens: QuantitiesOf<{
  voltage: Volts;
  rippleRms: Volts;
  ripplePeak: Volts;
}> = {
  voltage: { label: "Voltage", symbol: "U", unit: "V" },
  rippleRms: { label: "Ripple, rms", symbol: "u", unit: "V" },
  ripplePeak: { label: "Ripple, peak", symbol: "û", unit: "V" },
};

/**
 * @param peakGiven Whether the peak of the ripple was given or is taken as √3 × rms.
 * @param peakCite Where the limit of the peaks of ripple-free dc comes from.
 */
export function checkSteps(
  check: LimitCheck,
  cite: CitationId,
  peakGiven: boolean,
  peakCite: CitationId = "iec-61558-ripple-free",
): Steps {
  switch (check.rule) {
    case "plain":
      return plainSteps(cite);
    case "sum":
      return sumSteps(cite, peakGiven);
    case "ripple-free":
      return rippleFreeSteps(check, cite, peakGiven, peakCite);
    case "peak":
      return peakSteps(cite, peakGiven);
  }
}

function looked(label: string, symbol: string, cite: CitationId): Step {
  return {
    label,
    symbol,
    unit: "V",
    kind: "lookup",
    table: "touch-voltage bands",
    key: "framework",
    cite,
  };
}

function margin(cite: CitationId): Step {
  return {
    label: "Margin",
    symbol: "m",
    unit: "V",
    kind: "formula",
    formula: "limit - voltage",
    cite,
  };
}

function peakStep(peakGiven: boolean): Step {
  return {
    label: peakGiven ? "Ripple, peak" : "Ripple, peak, as that of a triangular wave",
    symbol: "ûr",
    unit: "V",
    kind: "formula",
    formula: peakGiven ? "ripplePeak" : "sqrt(3) * rippleRms",
    cite: peakGiven ? "definition" : "common-practice",
  };
}

function highestStep(): Step {
  return {
    label: "Highest value of dc and ripple",
    symbol: "Umax",
    unit: "V",
    kind: "formula",
    formula: "voltage + peak",
    cite: "definition",
  };
}

function plainSteps(cite: CitationId): StepsOf<PlainCheck> {
  return { limit: looked("Limit", "Ulim", cite), margin: margin(cite) };
}

function sumSteps(cite: CitationId, peakGiven: boolean): StepsOf<SumCheck> {
  const sumOf = (label: string, symbol: string, formula: string): Step => ({
    label,
    symbol,
    unit: "1",
    kind: "formula",
    formula,
    cite,
  });
  return {
    dcLimit: looked("Limit of dc alone", "Udc", cite),
    rmsLimit: looked("Limit of ac alone, rms", "Uac", cite),
    peakLimit: looked("Limit of ac alone, peak", "Ûac", cite),
    peak: peakStep(peakGiven),
    rmsSum: sumOf("Sum by rms", "Σrms", "voltage / dcLimit + rippleRms / rmsLimit"),
    peakSum: sumOf("Sum by peak", "Σpk", "voltage / dcLimit + peak / peakLimit"),
    sum: sumOf("The worse of the two, 1 at most", "Σ", "max(rmsSum, peakSum)"),
    limit: {
      label: "Dc allowed beside this ripple",
      symbol: "Ulim",
      unit: "V",
      kind: "formula",
      formula: "dcLimit * (1 - sum) + voltage",
      cite,
    },
    margin: margin(cite),
  };
}

function rippleFreeSteps(
  check: RippleFreeCheck,
  cite: CitationId,
  peakGiven: boolean,
  peakCite: CitationId,
): Steps {
  const held = check.highestLimit !== undefined;
  const steps: StepsOf<RippleFreeCheck> = {
    rippleFraction: {
      label: "Ripple, part of the dc, 0.1 at most",
      symbol: "w",
      unit: "1",
      kind: "formula",
      formula: "rippleRms / voltage",
      cite: "iec-61558-ripple-free",
    },
    dcLimit: looked("Limit of ripple-free dc", "Udc", cite),
    peak: peakStep(peakGiven),
    highest: highestStep(),
    limit: {
      label: "Dc allowed beside this ripple",
      symbol: "Ulim",
      unit: "V",
      kind: "formula",
      formula: held ? "min(dcLimit, highestLimit - peak)" : "dcLimit",
      cite,
    },
    margin: margin(cite),
  };
  if (!held) return steps;
  const { rippleFraction, ...others } = steps;
  const highestLimit = looked("Limit of dc and ripple together", "Ûlim", peakCite);
  return { rippleFraction, highestLimit, ...others };
}

function peakSteps(cite: CitationId, peakGiven: boolean): StepsOf<PeakCheck> {
  return {
    dcLimit: looked("Limit", "Udc", cite),
    peak: peakStep(peakGiven),
    highest: highestStep(),
    limit: {
      label: "Dc allowed beside this ripple",
      symbol: "Ulim",
      unit: "V",
      kind: "formula",
      formula: "dcLimit - peak",
      cite,
    },
    margin: margin(cite),
  };
}
