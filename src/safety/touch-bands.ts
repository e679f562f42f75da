/**
 * Touch-voltage bands as four frameworks publish them. A band is a range of voltage, never a promise: what a
 * framework asks for besides the voltage is said in `provided`.
 */
import type { CitationId } from "../quantities/citations.js";
import type { Volts } from "../quantities/units.js";

export const FRAMEWORKS = ["IEC 62368-1", "IEC 60364-4-41", "ISO 6469-3", "US workplace"] as const;
export type FrameworkName = (typeof FRAMEWORKS)[number];

export const CONDITIONS = ["dry", "wet"] as const;
/** Condition of the skin and of the place. */
export type TouchCondition = (typeof CONDITIONS)[number];

export const VOLTAGE_KINDS = ["dc", "ac rms"] as const;
/** Alternating voltage is a sine of at most 1 kHz. */
export type VoltageKind = (typeof VOLTAGE_KINDS)[number];

/** A limit for wet is undefined where the framework publishes none. */
interface ByCondition {
  readonly dry: Volts;
  readonly wet: Volts | undefined;
}

/** The highest voltage of a band. */
export interface BandLimits {
  readonly dc: ByCondition;
  readonly "ac rms": ByCondition;
  /** Limit of the alternating part alone, where the framework adds dc and ac. */
  readonly acPeak?: Volts;
  /** Limit of dc and its ripple together, where the framework speaks of ripple-free dc. */
  readonly ripplePeak?: ByCondition;
  /** Where that figure comes from, if it is not the framework's own for that condition. */
  readonly ripplePeakCite?: Readonly<Partial<Record<TouchCondition, CitationId>>>;
}

export interface TouchBand {
  readonly name: string;
  /** Undefined: everything above the band before. */
  readonly limits: BandLimits | undefined;
  readonly clause: string;
  readonly cite: CitationId;
  /** What the band rests on besides the voltage, or what lies beyond it. */
  readonly provided: string;
}

/** Names of the bands that a circuit which people can touch is held against. */
export interface BandsAsked {
  /** May be touched. */
  readonly touchable: string;
  /** May not be touched but needs no protection in a fault beyond an enclosure; the same band where there is none. */
  readonly above: string;
}

export interface TouchFramework {
  readonly name: FrameworkName;
  /** Whether a voltage that equals a limit still belongs to the band. */
  readonly boundary: "inclusive" | "exclusive";
  /**
   * How dc with ripple is judged: `sum` of the dc and ac parts of their limits, `ripple-free` up to 10 % rms,
   * `peak` against the dc limit, or by no rule that this project holds.
   */
  readonly ripple: "sum" | "ripple-free" | "peak" | "no rule";
  readonly bandsAsked: BandsAsked;
  /** From the lowest voltage up; the last one has no limit. */
  readonly bands: readonly TouchBand[];
}

const WITHIN = "if within the limit in service and after a fault";

export const touchFrameworks: Readonly<Record<FrameworkName, TouchFramework>> = {
  "IEC 62368-1": {
    name: "IEC 62368-1",
    boundary: "inclusive",
    ripple: "sum",
    bandsAsked: { touchable: "ES1", above: "ES2" },
    bands: [
      {
        name: "ES1",
        limits: {
          dc: { dry: 60, wet: undefined },
          "ac rms": { dry: 30, wet: undefined },
          acPeak: 42.4,
        },
        clause: "5.2.2.2 Table 4",
        cite: "iec-62368-1",
        provided: WITHIN,
      },
      {
        name: "ES2",
        limits: {
          dc: { dry: 120, wet: undefined },
          "ac rms": { dry: 50, wet: undefined },
          acPeak: 70.7,
        },
        clause: "5.2.2.2 Table 4",
        cite: "iec-62368-1",
        provided: WITHIN,
      },
      {
        name: "ES3",
        limits: undefined,
        clause: "5.2.2.2 Table 4",
        cite: "iec-62368-1",
        provided: "above every limit of IEC 62368-1",
      },
    ],
  },
  "IEC 60364-4-41": {
    name: "IEC 60364-4-41",
    boundary: "inclusive",
    ripple: "ripple-free",
    bandsAsked: { touchable: "bare", above: "extra-low" },
    bands: [
      {
        name: "bare",
        limits: {
          dc: { dry: 60, wet: 30 },
          "ac rms": { dry: 25, wet: 12 },
          // 70 V is published for 60 V; 35 V keeps its proportion.
          ripplePeak: { dry: 70, wet: 35 },
          ripplePeakCite: { wet: "ripple-peak-proportion" },
        },
        clause: "414.4.5",
        cite: "iec-60364-4-41",
        provided:
          "live parts may be bare, if fed as SELV or PELV and within the limit in service and after a fault",
      },
      {
        name: "extra-low",
        limits: {
          dc: { dry: 120, wet: 120 },
          "ac rms": { dry: 50, wet: 50 },
          ripplePeak: { dry: 140, wet: 140 },
        },
        clause: "414.1",
        cite: "iec-60364-4-41",
        provided: `live parts enclosed or insulated, ${WITHIN}`,
      },
      {
        name: "low",
        limits: {
          dc: { dry: 1500, wet: 1500 },
          "ac rms": { dry: 1000, wet: 1000 },
        },
        clause: "IEC 60038",
        cite: "iec-low-voltage",
        provided: `full protection against shock, ${WITHIN}`,
      },
      {
        name: "high",
        limits: undefined,
        clause: "IEC 60038",
        cite: "iec-low-voltage",
        provided: "above every limit of IEC 60364-4-41",
      },
    ],
  },
  "ISO 6469-3": {
    name: "ISO 6469-3",
    boundary: "inclusive",
    ripple: "no rule",
    bandsAsked: { touchable: "A", above: "A" },
    bands: [
      {
        name: "A",
        limits: {
          dc: { dry: 60, wet: undefined },
          "ac rms": { dry: 30, wet: undefined },
        },
        clause: "clause 4 Table 1",
        cite: "iso-6469-3",
        provided: WITHIN,
      },
      {
        name: "B",
        limits: {
          dc: { dry: 1500, wet: undefined },
          "ac rms": { dry: 1000, wet: undefined },
        },
        clause: "clause 4 Table 1",
        cite: "iso-6469-3",
        provided: WITHIN,
      },
      {
        name: "above B",
        limits: undefined,
        clause: "clause 4 Table 1",
        cite: "iso-6469-3",
        provided: "above every class of ISO 6469-3",
      },
    ],
  },
  "US workplace": {
    name: "US workplace",
    boundary: "exclusive",
    ripple: "peak",
    bandsAsked: { touchable: "below 50 V", above: "below 50 V" },
    bands: [
      {
        name: "below 50 V",
        limits: {
          dc: { dry: 50, wet: undefined },
          "ac rms": { dry: 50, wet: undefined },
        },
        clause: "29 CFR 1910.303(g)(2)(i)",
        cite: "osha-50-v",
        provided: WITHIN,
      },
      {
        name: "50 V or more",
        limits: undefined,
        clause: "29 CFR 1910.303(g)(2)(i)",
        cite: "osha-50-v",
        provided: "live parts are to be guarded",
      },
    ],
  },
};

/** Undefined where the band has no limit, or its framework none for that condition. */
export function bandLimit(
  band: TouchBand,
  kind: VoltageKind,
  condition: TouchCondition,
): Volts | undefined {
  return band.limits?.[kind][condition];
}

export function hasLimitsFor(framework: TouchFramework, condition: TouchCondition): boolean {
  return framework.bands.some((band) => bandLimit(band, "dc", condition) !== undefined);
}

export const bandNames: readonly string[] = FRAMEWORKS.flatMap((name) =>
  touchFrameworks[name].bands.map((band) => band.name),
);
