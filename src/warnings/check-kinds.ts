/** What a budget's sheet of checks looks at, by the words in its column Check, and what a failed one means. */
import type { Cited } from "../quantities/steps.js";
import type { Warning } from "./warning.js";

export interface CheckKind {
  /** Of the found number: it may not be above, or not below, its limit. */
  readonly asked: "at most" | "at least";
  readonly severity: Warning["severity"];
  /** Completes "…, 82 °C, where at most 70 °C is asked for:". */
  readonly means: string;
  readonly remedy: string;
  readonly cite: Cited;
}

export const CHECK_KINDS = {
  "Conductor temperature": {
    asked: "at most",
    severity: "warning",
    means: "its resistance is entered for a cooler conductor",
    remedy:
      "a thicker conductor, a cooler route, or a higher conductor temperature on Inputs",
    cite: "hottest-of-several",
  },
  "Insulation temperature": {
    asked: "at most",
    severity: "danger",
    means: "its insulation does not last",
    remedy:
      "a thicker conductor, a cooler route, or insulation for a higher temperature",
    cite: "insulation-limits",
  },
  "Fuse carries the load": {
    asked: "at least",
    severity: "warning",
    means: "it may blow in service",
    remedy: "a higher fuse rating that still protects the cable",
    cite: "common-practice",
  },
  "Fuse breaks the voltage": {
    asked: "at least",
    severity: "danger",
    means: "it may not put out a dc arc",
    remedy: "a fuse rated for dc at the supply's highest voltage",
    cite: "common-practice",
  },
  "Fuse protects the cable": {
    asked: "at most",
    severity: "danger",
    means: "the cable overheats before it blows",
    remedy: "a lower fuse rating or a thicker cable",
    cite: "common-practice",
  },
  "Far-end fault blows the fuse": {
    asked: "at least",
    severity: "danger",
    means: "a fault at the far end may go on",
    remedy:
      "a thicker or shorter cable, a lower fuse rating, or a supply that gives more current",
    cite: "ohm-joule",
  },
  "Fuse clears in time": {
    asked: "at most",
    severity: "danger",
    means: "a fault may last longer than protection against shock allows",
    remedy:
      "a fuse that blows faster at that current, a thicker or shorter cable, or other protection against shock; on Inputs, the current and time of its curve and the kind of circuit",
    cite: "iec-60364-4-41-table-41-1",
  },
  "Fuse breaks the fault": {
    asked: "at least",
    severity: "danger",
    means: "it may burst or not put out the arc",
    remedy: "a fuse of a greater dc breaking capacity",
    cite: "common-practice",
  },
  "Cable withstands a fault": {
    asked: "at least",
    severity: "danger",
    means: "its conductors overheat before the fuse has cleared",
    remedy: "a thicker cable or a faster fuse",
    cite: "iec-60364-5-54",
  },
  "Cable withstands a slow fault": {
    asked: "at least",
    severity: "danger",
    means:
      "its conductors overheat while a fault is too small to blow the fuse fast",
    remedy: "a thicker cable, a lower fuse rating or a faster fuse",
    cite: "iec-60364-5-54",
  },
  "Share of the worst unit": {
    asked: "at most",
    severity: "warning",
    means: "one unit carries more than its rating",
    remedy: "better matched units, more droop, or one unit more",
    cite: "parallel-generators",
  },
  "One unit lost": {
    asked: "at most",
    severity: "warning",
    means: "those that are left carry more than their rating",
    remedy: "one unit more, larger units, or loads that are shed",
    cite: "parallel-generators",
  },
  "Headroom to collapse": {
    asked: "at least",
    severity: "warning",
    means: "the feed is near to collapse",
    remedy: "a higher distribution voltage, a thicker cable or smaller loads",
    cite: "maximum-power",
  },
  "Stability margin": {
    asked: "at least",
    severity: "warning",
    means: "disturbances may swell instead of dying out",
    remedy: "more capacitance with some resistance at the stage's input",
    cite: "constant-power-stability",
  },
  "Discharge time": {
    asked: "at most",
    severity: "danger",
    means: "it stays hazardous too long after it is cut off",
    remedy: "a smaller discharge resistor, or less capacitance",
    cite: "iec-60204-1-discharge",
  },
  "Stored energy": {
    asked: "at most",
    severity: "warning",
    means: "its charge alone is a shock hazard",
    remedy:
      "less capacitance, a guard, and a sign: discharge, verify by measurement",
    cite: "nfpa-70e-360",
  },
} as const satisfies Readonly<Record<string, CheckKind>>;

export type CheckName = keyof typeof CHECK_KINDS;

/** Found where there is nothing to hold against the limit: nothing is entered yet, or nothing that grows meets it. */
export const NONE = "–";

export const CHECK_COLUMNS = {
  item: "Item",
  check: "Check",
  found: "Found",
  asked: "Asked",
  limit: "Limit",
  unit: "Unit",
  verdict: "Verdict",
  how: "How it is found",
} as const;
