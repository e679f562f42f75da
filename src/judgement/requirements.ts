/** What is asked of a feed, label by label: a value, `not asked`, or nothing yet. */
import { CONDITIONS, FRAMEWORKS, type FrameworkName } from "../safety/touch-bands.js";

/** Values that a label may have; `from` and `to` bound a figure, in SI (°C of a temperature). */
export type RequirementContent =
  | { readonly holds: "word"; readonly words: readonly string[] }
  | { readonly holds: "text" }
  | {
      readonly holds: "figure";
      readonly unit: string;
      /** In words: `above 0`. */
      readonly bound: string;
      readonly allows: (value: number) => boolean;
      /** A 0 is a value of it, where the host tells blank cells. */
      readonly zero?: true;
      /** Words that may stand for a figure. */
      readonly words?: readonly string[];
    };

export interface Requirement {
  readonly content: RequirementContent;
  /** For a note beside the label; no requirement of anybody. */
  readonly usual: string;
}

function figure(
  unit: string,
  bound: string,
  allows: (value: number) => boolean,
  usual: string,
  more: { readonly zero?: true; readonly words?: readonly string[] } = {},
): Requirement {
  return { content: { holds: "figure", unit, bound, allows, ...more }, usual };
}

const aboveZero = (value: number) => value > 0;
const part = (value: number) => value > 0 && value <= 1;
const share = (value: number) => value >= 0 && value < 1;

/** A part of one, above 0. */
function partOfOne(usual: string): Requirement {
  return figure("", "above 0 and at most 1 (0.05 for 5 %)", part, usual);
}

function above(unit: string, usual: string): Requirement {
  return figure(unit, "above 0", aboveZero, usual);
}

/** Where the times of IEC 60364-4-41, Table 41.1 and 411.3.2, are asked for instead of seconds, and of which system. */
export const TABLES_OF_TIMES = { "table 41.1": "TN", "table 41.1 TT": "TT" } as const;

/** By label, in the order of the sheet. Usual values are from memory, common practice, no requirement. */
export const REQUIREMENTS = {
  Framework: { content: { holds: "word", words: FRAMEWORKS }, usual: "" },
  Place: {
    content: { holds: "word", words: [...CONDITIONS, "immersed"] },
    usual: "empty counts as wet, immersed is judged as wet",
  },
  "Load margin": figure("", "0 or more and below 1 (0.2 for 20 %)", share, "10 to 25 %", {
    zero: true,
  }),
  "Largest drop of a cable": partOfOne("3 % of its level's nominal voltage"),
  "Largest drop of a voltage level": partOfOne(
    "5 % of its nominal voltage; on ships 6, of batteries 10",
  ),
  "Largest loading of a stage": partOfOne("80 %"),
  "Largest loading of a supply": partOfOne("80 %"),
  "Largest loading of a cable": partOfOne("100 %"),
  "Largest loading of a contact": partOfOne("80 %"),
  "Spare capacity of the supply": figure(
    "",
    "0 or more (0.2 for 20 %)",
    (value) => value >= 0,
    "20 %: rated over used, less 1",
    { zero: true },
  ),
  "Margin to each window": figure("", "0 or more and below 1 (0.03 for 3 %)", share, "3 to 5 %", {
    zero: true,
  }),
  "Efficiency, supply to load": partOfOne("85 to 92 % at nominal loads"),
  "Largest loss at one location": above("W", "what the cabinet can cool"),
  "Headroom to collapse": above("", "2 times the loads"),
  "Stability margin": above("", "2 times the load"),
  "Ripple of a bus": partOfOne("2 % rms of its nominal voltage"),
  "Units lost": figure(
    "",
    "0 or 1",
    (value) => value === 0 || value === 1,
    "empty: one, where fewer units are needed than there are",
    { zero: true },
  ),
  "Load current of a fuse, at most": partOfOne("80 % of its rating"),
  "Far-end fault cleared within": figure(
    "s",
    'above 0, or "table 41.1", or "table 41.1 TT"',
    aboveZero,
    'by the code: "table 41.1" takes the times of IEC 60364-4-41 for TN, "table 41.1 TT" those for TT, from memory',
    { words: Object.keys(TABLES_OF_TIMES) },
  ),
  "Contacts at end of life, times new": figure(
    "",
    "1 or more",
    (value) => value >= 1,
    "1.5; empty: 1",
  ),
  "Conductor at the end of a fault": figure("°C", "above 0", aboveZero, "PVC 160, XLPE 250"),
  "Discharge to": above("V", "60"),
  "Discharge within": above("s", "5"),
  "Stored energy": above("J", "20"),
  "Altitude, clearances hold up to": above("m", "2000"),
  "Largest mass": above("kg", ""),
  "Largest price": above("", ""),
  Currency: { content: { holds: "text" }, usual: "of all prices" },
} as const satisfies Readonly<Record<string, Requirement>>;

export type Label = keyof typeof REQUIREMENTS;

export const LABELS = Object.keys(REQUIREMENTS) as Label[];

/** Labels whose value is a figure. */
export type FigureLabel = Exclude<Label, "Framework" | "Place" | "Currency">;

export const NOT_ASKED = "not asked";

/** By label; a label that is not in it has no value yet. */
export type RequirementValues = ReadonlyMap<Label, number | string>;

/** Why a check has no limit. */
export type NoLimit = typeof NOT_ASKED | "not given";

export class Requirements {
  constructor(private readonly values: RequirementValues) {}

  /** Tells every two sets of requirements apart. */
  get key(): string {
    return JSON.stringify([...this.values]);
  }

  get(label: Label): number | string | undefined {
    return this.values.get(label);
  }

  /** The figure, or why there is none. */
  figure(label: FigureLabel): number | NoLimit {
    const value = this.values.get(label);
    if (value === undefined) return "not given";
    return typeof value === "number" ? value : NOT_ASKED;
  }

  get framework(): FrameworkName | NoLimit {
    const value = this.values.get("Framework");
    if (value === undefined) return "not given";
    return value === NOT_ASKED ? value : (value as FrameworkName);
  }
}
