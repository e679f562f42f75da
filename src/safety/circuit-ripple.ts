/**
 * Ripple on the conductors behind a supply or a stage. A figure of the item itself is what stands there. A fixed ratio
 * without one passes on what is at its input, in its ratio, as it does with the dc: its own switching ripple is then
 * not in it. A regulated stage without one holds back what is at its input, and none is counted.
 */
import { InputError } from "../quantities/errors.js";
import { ROW_KINDS } from "../network/row-kinds.js";
import type { Volts } from "../quantities/units.js";
import type { Circuit, UndeterminedVoltage } from "./circuits.js";

export interface CircuitRipple {
  readonly rms: Volts;
  readonly peak: Volts;
  /** Taken as √3 × rms, as of a triangular wave. */
  readonly peakAssumed: boolean;
  /** It is the ripple of what feeds the item; the item's own is not known. */
  readonly passedOn: boolean;
}

/** Undefined where nothing is known of it, and none is counted. */
export type FoundRipple = CircuitRipple | UndeterminedVoltage | undefined;

/** @param circuits Each behind the one that feeds it. */
export function circuitRipples(circuits: readonly Circuit[]): ReadonlyMap<Circuit, FoundRipple> {
  const found = new Map<Circuit, FoundRipple>();
  for (const circuit of circuits)
    found.set(circuit, ownRipple(circuit) ?? passedOn(circuit, found));
  return found;
}

function ownRipple({ item }: Circuit): FoundRipple {
  const { rippleRms: rms, ripplePeak: peak } = item;
  const refused = (field: string, value: number | null, must: string) => ({
    outcome: "not determined" as const,
    blamed: item.item,
    error: new InputError(field, value, must),
  });
  if (rms === undefined)
    return peak === undefined ? undefined : refused("rippleRms", null, "given where the peak is");
  if (!(rms > 0 && Number.isFinite(rms))) return refused("rippleRms", rms, "above 0");
  if (peak === undefined)
    return {
      rms,
      peak: Math.sqrt(3) * rms,
      peakAssumed: true,
      passedOn: false,
    };
  if (!(peak >= rms && Number.isFinite(peak)))
    return refused("ripplePeak", peak, `${rms} (rms) or more`);
  return { rms, peak, peakAssumed: false, passedOn: false };
}

function passedOn({ item, input }: Circuit, found: ReadonlyMap<Circuit, FoundRipple>): FoundRipple {
  const ripple = input && found.get(input);
  if (!ripple || ROW_KINDS[item.kind].inFault !== "follows") return undefined;
  if ("outcome" in ripple) return ripple;
  const { ratio, tolerance } = item;
  // Then its voltage is not determined either.
  if (ratio === undefined || tolerance === undefined) return undefined;
  const most = ratio * (1 + tolerance);
  const { rms, peak, peakAssumed } = ripple;
  return { rms: rms * most, peak: peak * most, peakAssumed, passedOn: true };
}

/** The greater of several, by rms and by peak: after a fault what stood on either side of the failed stage may come along. */
export function greatestRipple(ripples: readonly FoundRipple[]): FoundRipple {
  let greatest: CircuitRipple | undefined;
  for (const one of ripples) {
    if (!one) continue;
    if ("outcome" in one) return one;
    greatest = greatest
      ? {
          rms: Math.max(greatest.rms, one.rms),
          peak: Math.max(greatest.peak, one.peak),
          peakAssumed: greatest.peakAssumed || one.peakAssumed,
          passedOn: greatest.passedOn || one.passedOn,
        }
      : one;
  }
  return greatest;
}
