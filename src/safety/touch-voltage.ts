/** A voltage that people might touch, and the band that it is found in. */
import type { Volts } from "../quantities/units.js";
import type { LimitCheck } from "./limit-check.js";
import type { FrameworkName, TouchBand, TouchCondition, VoltageKind } from "./touch-bands.js";

export interface TouchVoltage {
  /** The larger of pole to pole and pole to earth. */
  readonly voltage: Volts;
  readonly framework: FrameworkName;
  /** Unknown counts as wet. */
  readonly condition: TouchCondition | undefined;
  readonly kind: VoltageKind;
  /** Rms value of the alternating part of dc; where undefined none is counted, and the answer says so. */
  readonly rippleRms: Volts | undefined;
  /** Undefined is √3 × rms, as of a triangular wave. */
  readonly ripplePeak: Volts | undefined;
}

export interface FoundBand {
  readonly band: TouchBand;
  readonly rank: number;
  readonly check: LimitCheck;
  readonly relation: string;
}
