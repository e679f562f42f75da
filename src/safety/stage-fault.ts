/** One fault of one stage, and what it leads to where it happens. */
import type { Volts } from "../quantities/units.js";

/** Its two sides become one circuit, or its output is no longer held. */
export interface StageFault {
  readonly item: string;
  readonly kind: "sides joined" | "regulation lost";
  /** What the fault puts there is the greatest of these. */
  readonly inputVoltage?: Volts;
  readonly outputVoltage?: Volts;
  readonly tripVoltage?: Volts;
  /** Product of the ratios, at the top of their tolerance, of the working stages from the fault to the place. */
  readonly gain: number;
}

export function stageFaultText({ item, kind }: StageFault): string {
  return kind === "sides joined" ? `${item}: input and output joined` : `${item}: regulation lost`;
}
