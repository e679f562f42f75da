/** What a check is: where it applies, what it finds, and what is said of it. */
import type { GivenSources } from "../quantities/given-sources.js";
import type { Quantities, Steps } from "../quantities/steps.js";
import type { Cited } from "../quantities/steps.js";
import type { Asked, Weight } from "./check-row.js";
import type { Place } from "./place.js";
import type { FigureLabel, NoLimit } from "./requirements.js";

/** One calculation behind a finding, as a working shows it. */
export interface FindingWorking extends GivenSources {
  readonly title: string;
  readonly givens: Quantities;
  readonly steps: Steps;
  readonly values: Readonly<Record<string, unknown>>;
  /** Its given or step that is what was found; the last working that has one counts. */
  readonly shows?: string;
}

export interface Finding {
  readonly found: number | string;
  readonly limit: number | string;
  readonly unit: string;
  /** The case in words. */
  readonly worstIn: string;
  /** Of words: whether what is found is what is asked. */
  readonly holds?: boolean;
  /** Margin of words, where there is one. */
  readonly margin?: number;
  /** Item whose row is to be changed where it does not hold; undefined: the item itself. */
  readonly cause?: Place;
  /** Figure that is to be changed, by its name in the feed table. */
  readonly field?: string | undefined;
  /** The limit is the item's own because nothing is asked for: it may fail, and holds only where the label is `not asked`. */
  readonly unless?: { readonly label: FigureLabel; readonly why: NoLimit };
  /** One change that mends it, solved; undefined where none is found. */
  readonly mend?: (() => Change | undefined) | undefined;
  readonly working?: () => readonly FindingWorking[];
  /** What is asked for that is the limit as it stands. */
  readonly limitAsked?: FigureLabel;
}

/** One figure of one item, changed. */
export interface Change {
  /** `Set Size of Point cable to 16 mm²: drop 4 %`. */
  readonly text: string;
  readonly at: Place;
  /** By its name in the feed table. */
  readonly field: string;
}

export interface Check {
  readonly asked: Asked;
  readonly weight: Weight;
  /** Of a failed one: completes "…, 82 °C, where at most 70 °C is asked for:". */
  readonly means: string;
  readonly cite: Cited;
  /**
   * Undefined where the check does not apply.
   * @throws {MissingFigure | MissingRequirement} where it applies and cannot be told.
   */
  readonly find: (place: Place) => Finding | undefined;
}

/** A requirement on top of a limit that the item has of its own. */
export interface AskedPart {
  readonly part: number;
  readonly unless?: Finding["unless"];
}

/** @param own What counts where nothing is asked for. */
export function askedPart({ tree }: Place, label: FigureLabel, own: number): AskedPart {
  const value = tree.requirements.figure(label);
  return typeof value === "number" ? { part: value } : { part: own, unless: { label, why: value } };
}
