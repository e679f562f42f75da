/** A part of a mesh whose voltages are found together, and what is known of it before they are. */
import type { Factor } from "./sparse-factor.js";

export interface Island {
  /** Ends at which lines meet: outputs of rows, by their places among all. */
  readonly terminals: Int32Array;
  readonly edges: readonly Edge[];
  /** Rows that hang on the terminals as trees, each behind the one that feeds it. */
  readonly radial: Int32Array;
  /** Stages whose input is a terminal here and which draw there besides what they pass on, and loads that may give back. */
  readonly drawing: readonly Drawing[];
  /** Made once for what conducts and what has no resistance. */
  readonly plans: Map<string, IslandPlan>;
}

/** What stands for the other pole of a source. */
export const GROUND = -1;

/** A row's way from one terminal, or from `GROUND`, to another; terminals by their places in the island. */
export interface Edge {
  readonly row: number;
  readonly from: number;
  readonly to: number;
  /** `joint`: a bus and one of the items that feed it are one point. */
  readonly sort: "source" | "line" | "ratio" | "joint" | "tie";
}

export interface Drawing {
  readonly row: number;
  readonly terminal: number;
  /** A regulated stage draws all that it gives; a ratio stage its losses alone. */
  readonly sort: "regulated" | "ratio" | "load";
}

/** What of an island conducts, as unknown voltages and a tree of all ends. */
export interface IslandPlan {
  /** Places of the edges that conduct through a resistance. */
  readonly branches: Int32Array;
  /** Unknown voltage that stands for each terminal; NO_UNKNOWN where a source without resistance holds it. */
  readonly unknownOf: Int32Array;
  /** Joints outward from the terminal that stands for each set of joined ones: offsets follow them. */
  readonly joints: readonly Step[];
  /**
   * Every terminal is reached over the least resistances, from ground or from the first one of a part that is adrift:
   * currents follow these inward, voltages outward.
   */
  readonly tree: readonly Step[];
  /** Parts that no supply reaches, by their terminals. */
  readonly adrift: readonly (readonly number[])[];
  /** Conducting edges outside the tree, whose currents only voltages tell. */
  readonly chords: Int32Array;
  readonly factor: Factor;
  /** Entry of each branch between two unknowns; -1 where there is none. */
  readonly entryOf: Int32Array;
}

/** An edge on the way to a terminal: forwards where it ends there. */
export interface Step {
  readonly edge: number;
  readonly terminal: number;
  readonly from: number;
  readonly forwards: boolean;
}

/** Stands for no unknown. */
export const NO_UNKNOWN = -1;
