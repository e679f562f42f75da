/**
 * What one fault in one stage leaves on its output. Without isolation a shorted switch puts the input there;
 * functional isolation is not counted on; basic isolation is one barrier, and the fault is that it fails; double or
 * reinforced isolation holds.
 *
 * Left out: a regulated stage that loses its regulation (its output is what the caller says it can reach), and limiters
 * or earthed screens that clear a fault, which need evidence of their own.
 */
import type { Isolation } from "../network/feed-item.js";
import { requireAbove } from "../quantities/errors.js";
import type { Note, QuantitiesOf, StepsOf } from "../quantities/steps.js";
import type { Volts } from "../quantities/units.js";
import { type BandJudgement, bandJudgement } from "./band-judgement.js";
import { voltsText } from "./band-words.js";
import type { FrameworkName, TouchCondition } from "./touch-bands.js";

export interface StageInFault {
  /** Highest in service. */
  readonly inputVoltage: Volts;
  /** Highest in service; of a regulated stage, with its regulation lost. */
  readonly outputVoltage: Volts;
  /** Unknown counts as none. */
  readonly isolation: Isolation | undefined;
  readonly framework: FrameworkName;
  /** Unknown counts as wet. */
  readonly condition: TouchCondition | undefined;
}

export interface StageAfterFault {
  readonly voltage: Volts;
  readonly judgement: BandJudgement;
  /** The band that the output may still be counted to where its framework lets the fault rise above it. */
  readonly mayStay: string | undefined;
  readonly text: string;
  readonly notes: readonly Note[];
}

/** The one place that says what an isolation is worth. */
export function voltageAfterFault(
  inputVoltage: Volts,
  outputVoltage: Volts,
  isolation: Isolation | undefined,
): Volts {
  return isolation === "reinforced"
    ? outputVoltage
    : Math.max(inputVoltage, outputVoltage);
}

/** @throws {InputError} */
export function stageAfterFault(stage: StageInFault): StageAfterFault {
  const { inputVoltage, outputVoltage, isolation } = stage;
  requireAbove("inputVoltage", inputVoltage, 0);
  requireAbove("outputVoltage", outputVoltage, 0);
  const voltage = voltageAfterFault(inputVoltage, outputVoltage, isolation);
  const judgement = judged(stage, voltage);
  const mayStay = bandThatMayStay(stage, judgement);
  return {
    voltage,
    judgement,
    mayStay,
    text: afterFaultText(stage, judgement, mayStay),
    notes: [...stageNotes(stage), ...judgement.notes],
  };
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
function bandThatMayStay(
  stage: StageInFault,
  afterFault: BandJudgement,
): string | undefined {
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
  mayStay: string | undefined,
): string {
  const cause = causeText(stage);
  if (judgement.outcome === "not determined") {
    const { outcome, reason, atLeast, relation } = judgement;
    const least = `at least ${atLeast.name}: ${relation} after one fault`;
    return [outcome, reason, least, ...cause].join(" · ");
  }
  const { band, relation } = judgement;
  const provisos = band.limits ? [provisoText(stage)] : [];
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

function provisoText({ inputVoltage, isolation }: StageInFault): string {
  const input = voltsText(inputVoltage);
  return isolation === "reinforced"
    ? `if the insulation is double or reinforced for ${input} and lost regulation is counted in the output`
    : `if the input stays within ${input} in service and after a fault`;
}

function stageNotes(stage: StageInFault): Note[] {
  const { inputVoltage, outputVoltage, isolation } = stage;
  const notes: Note[] = [];
  if (isolation === undefined)
    notes.push({
      code: "isolation-unknown",
      field: "voltage",
      text: "isolation not given: counted as none",
      cite: "definition",
    });
  if (outputVoltage > inputVoltage)
    notes.push({
      code: "step-up",
      field: "voltage",
      text: "the output is above the input: what it can reach when its control fails is to be found on its own",
      cite: "definition",
    });
  return notes;
}

export const stageInFaultGivens: QuantitiesOf<StageInFault> = {
  inputVoltage: { label: "Input, highest", symbol: "Uin", unit: "V" },
  outputVoltage: { label: "Output, highest", symbol: "Uout", unit: "V" },
};

export function afterFaultSteps(
  isolation: Isolation | undefined,
): StepsOf<StageAfterFault> {
  const reinforced = isolation === "reinforced";
  return {
    voltage: {
      label: "Output after one fault",
      symbol: "Uf",
      unit: "V",
      kind: "formula",
      formula: reinforced
        ? "outputVoltage"
        : "max(inputVoltage, outputVoltage)",
      cite:
        isolation === "basic" || reinforced
          ? "touch-voltage-faults"
          : "iec-60364-4-41-common",
    },
  };
}
