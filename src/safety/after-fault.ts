/**
 * What one fault in one stage leaves on its output. Without isolation a shorted switch puts the input there;
 * functional isolation is not counted on; basic isolation is one barrier, and the fault is that it fails; double or
 * reinforced isolation holds. A regulated stage that loses its regulation rises to where its trip stops it; a step-down
 * without a trip counts as rising to its input, a step-up without one is not determined.
 *
 * Left out: limiters or earthed screens that clear a fault, which need evidence of their own.
 */
import type { Isolation } from "../network/feed-item.js";
import { requireAbove } from "../quantities/errors.js";
import type { Caveat, Quantities, QuantitiesOf, StepsOf } from "../quantities/steps.js";
import type { Volts } from "../quantities/units.js";
import { type BandJudgement, bandJudgement, NOT_DETERMINED } from "./band-judgement.js";
import { voltsText } from "./band-words.js";
import { NO_RIPPLE_COUNTED } from "./judgement-caveats.js";
import type { FrameworkName, TouchCondition } from "./touch-bands.js";

export interface StageInFault {
  /** Highest in service. */
  readonly inputVoltage: Volts;
  /** Highest in service. */
  readonly outputVoltage: Volts;
  /** Unknown counts as none. */
  readonly isolation: Isolation | undefined;
  readonly framework: FrameworkName;
  /** Unknown counts as wet. */
  readonly condition: TouchCondition | undefined;
  /** Voltage at which the output is stopped when its regulation is lost. */
  readonly tripVoltage: Volts | undefined;
}

export interface StageAfterFault {
  /** The least it can be, where that is not determined. */
  readonly voltage: Volts;
  /** Why nothing can be said of what the fault leads to. */
  readonly notDetermined: string | undefined;
  readonly judgement: BandJudgement;
  /** The band that the output may still be counted to where its framework lets the fault rise above it. */
  readonly mayStay: string | undefined;
  readonly text: string;
  readonly caveats: readonly Caveat[];
}

/** The one place that says what an isolation is worth. */
export function voltageAfterFault(
  inputVoltage: Volts,
  outputVoltage: Volts,
  isolation: Isolation | undefined,
): Volts {
  return isolation === "reinforced" ? outputVoltage : Math.max(inputVoltage, outputVoltage);
}

/** Band of a stage's output after one fault in that stage. @throws {InputError} */
export function stageAfterFault(stage: StageInFault): StageAfterFault {
  const { inputVoltage, outputVoltage, isolation, tripVoltage } = stage;
  requireAbove("inputVoltage", inputVoltage, 0);
  requireAbove("outputVoltage", outputVoltage, 0);
  if (tripVoltage !== undefined) requireAbove("tripVoltage", tripVoltage, 0);
  const voltage = Math.max(
    voltageAfterFault(inputVoltage, outputVoltage, isolation),
    tripVoltage ?? 0,
  );
  const judgement = judged(stage, voltage);
  const notDetermined = whyNotDetermined(stage);
  const mayStay = notDetermined === undefined ? bandThatMayStay(stage, judgement) : undefined;
  return {
    voltage,
    notDetermined,
    judgement,
    mayStay,
    text: afterFaultText(stage, judgement, notDetermined, mayStay),
    caveats: [...stageCaveats(stage), ...judgement.caveats],
  };
}

/** Nothing but a trip bounds a step-up that has lost its regulation. */
function whyNotDetermined(stage: StageInFault): string | undefined {
  return stepsUp(stage) && stage.tripVoltage === undefined
    ? "what a step-up reaches with its regulation lost is not known: give trip V (of a fixed ratio its output V)"
    : undefined;
}

function stepsUp({ inputVoltage, outputVoltage }: StageInFault): boolean {
  return outputVoltage > inputVoltage;
}

function judged(stage: StageInFault, voltage: Volts): BandJudgement {
  const { framework, condition } = stage;
  return bandJudgement({
    voltage,
    framework,
    condition,
    kind: "dc",
    rippleRms: undefined,
    ripplePeak: undefined,
  });
}

/** ES1 may rise to ES2, no further, when a basic safeguard fails. [iec-62368-1-faults] */
function bandThatMayStay(stage: StageInFault, afterFault: BandJudgement): string | undefined {
  if (stage.framework !== "IEC 62368-1" || stage.isolation !== "basic") return;
  const inService = judged(stage, stage.outputVoltage);
  const rises =
    inService.outcome === "determined" &&
    inService.rank === 0 &&
    afterFault.outcome === "determined" &&
    afterFault.rank === 1;
  return rises ? inService.band.name : undefined;
}

function afterFaultText(
  stage: StageInFault,
  judgement: BandJudgement,
  notDetermined: string | undefined,
  mayStay: string | undefined,
): string {
  const cause = causeText(stage);
  const { relation } = judgement;
  const unknown =
    notDetermined ?? (judgement.outcome === NOT_DETERMINED ? judgement.reason : undefined);
  const band = judgement.outcome === NOT_DETERMINED ? judgement.atLeast : judgement.band;
  if (unknown !== undefined) {
    const least = `at least ${band.name}: ${relation} after one fault`;
    return [NOT_DETERMINED, unknown, least, ...cause].join(" · ");
  }
  const provisos = band.limits ? [NO_RIPPLE_COUNTED, ...provisoTexts(stage)] : [];
  const stays =
    mayStay === undefined
      ? []
      : [
          `the output may stay ${mayStay}, which this fault may raise to ${band.name}, if within the limit of ${mayStay} in service and after any other fault`,
        ];
  const found = [band.name, `${relation} after one fault`];
  return [...found, ...cause, ...provisos, ...stays].join(" · ");
}

/** What the fault is, where there is one that counts. */
function causeText({ isolation }: StageInFault): string[] {
  switch (isolation) {
    case "reinforced":
      return [];
    case "basic":
      return ["basic insulation is one barrier and counts as failed"];
    case "functional":
      return ["functional insulation counts as none"];
    default:
      return ["without isolation the output can take the input"];
  }
}

function provisoTexts(stage: StageInFault): string[] {
  const { inputVoltage, isolation, tripVoltage } = stage;
  const input = voltsText(inputVoltage);
  const trip =
    tripVoltage === undefined
      ? undefined
      : `lost regulation is stopped at ${voltsText(tripVoltage)}`;
  if (isolation === "reinforced")
    return [
      `if the insulation is double or reinforced for ${input} and ${trip ?? "lost regulation is counted in the output"}`,
    ];
  return [
    trip ?? "lost regulation counts as the input at the output",
    `if the input stays within ${input} in service and after a fault`,
  ];
}

function stageCaveats(stage: StageInFault): Caveat[] {
  const { outputVoltage, isolation, tripVoltage } = stage;
  const caveats: Caveat[] = [];
  if (isolation === undefined)
    caveats.push({
      code: "isolation-unknown",
      field: "voltage",
      text: "isolation not given: counted as none",
      cite: "definition",
    });
  if (tripVoltage === undefined && !stepsUp(stage) && isIsolated(isolation))
    caveats.push({
      code: "lost-regulation",
      field: "voltage",
      text: "behind a transformer lost regulation can go above the input: give trip V",
      cite: "definition",
    });
  if (tripVoltage !== undefined && tripVoltage < outputVoltage)
    caveats.push({
      code: "trips-in-service",
      field: "tripVoltage",
      text: `trip V ${voltsText(tripVoltage)} is below the output in service ${voltsText(outputVoltage)}`,
      cite: "definition",
    });
  if (stepsUp(stage) && isolation !== "reinforced")
    caveats.push({
      code: "step-up",
      field: "voltage",
      text: `the same fault puts ${voltsText(Math.max(outputVoltage, tripVoltage ?? 0))}${tripVoltage === undefined ? " or more" : ""} on the input and on all that shares it`,
      cite: "touch-voltage-faults",
    });
  return caveats;
}

/** A transformer stands between input and output. */
function isIsolated(isolation: Isolation | undefined): boolean {
  return isolation === "functional" || isolation === "basic";
}

export const stageVoltageGivens: QuantitiesOf<StageInFault> = {
  inputVoltage: { label: "Input, highest", symbol: "Uin", unit: "V" },
  outputVoltage: { label: "Output, highest", symbol: "Uout", unit: "V" },
};

export const tripGiven = {
  tripVoltage: {
    label: "Output stopped at, regulation lost",
    symbol: "Utr",
    unit: "V",
  },
} satisfies Quantities;

export function stageInFaultGivens({ tripVoltage }: Pick<StageInFault, "tripVoltage">): Quantities {
  return tripVoltage === undefined ? stageVoltageGivens : { ...stageVoltageGivens, ...tripGiven };
}

export function afterFaultSteps({
  isolation,
  tripVoltage,
}: Pick<StageInFault, "isolation" | "tripVoltage">): StepsOf<StageAfterFault> {
  const reinforced = isolation === "reinforced";
  const sides = reinforced ? ["outputVoltage"] : ["inputVoltage", "outputVoltage"];
  const trips = tripVoltage === undefined ? [] : ["tripVoltage"];
  const reached = [...sides, ...trips];
  return {
    voltage: {
      label: "Output after one fault",
      symbol: "Uf",
      unit: "V",
      kind: "formula",
      formula: reached.length === 1 ? "outputVoltage" : `max(${reached.join(", ")})`,
      cite: isolation === "basic" || reinforced ? "touch-voltage-faults" : "iec-60364-4-41-common",
    },
  };
}
