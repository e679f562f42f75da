/**
 * The circuits of a feed: the conductors behind each supply and each stage, with all that hangs on them, and the highest
 * voltage of each in service: no load, no drop, the supply at its highest, ratios and set points at the top of their
 * tolerance.
 */
import { type FeedColumns, itemAt } from "../network/feed-columns.js";
import { supplyWindow } from "../network/feed-conditions.js";
import { type FeedItem, type Isolation, ISOLATIONS } from "../network/feed-item.js";
import { type FeedTree, feedTopology } from "../network/feed-topology.js";
import { KINDS, ROW_KINDS } from "../network/row-kinds.js";
import { InputError } from "../quantities/errors.js";
import type { Volts } from "../quantities/units.js";
import type { StageFault } from "./stage-fault.js";
import { worstVoltage } from "./worst-voltage.js";

export interface DeterminedVoltage {
  readonly outcome: "determined";
  readonly voltage: Volts;
  /** The fault that brings it about; undefined in service, and where no fault raises it. */
  readonly fault: StageFault | undefined;
}

export interface UndeterminedVoltage {
  readonly outcome: "not determined";
  /** The item that lacks something. */
  readonly blamed: string;
  /** Names the field of the item and what it must be. */
  readonly error: InputError;
}

export type HighestVoltage = DeterminedVoltage | UndeterminedVoltage;

/** The conductors behind one supply or one stage, with the runs, series items and loads on them. */
export interface Circuit {
  /** Row of the supply or stage. */
  readonly row: number;
  readonly item: FeedItem;
  /** What feeds the stage; a supply has none. */
  readonly input: Circuit | undefined;
  readonly normal: HighestVoltage;
  /** The strongest of the stages between here and the supply; undefined on the supply's own circuit. */
  readonly isolation: Isolation | undefined;
}

export interface FeedCircuits {
  /** For each row the circuit of its output, or why its tree has none. */
  readonly ofRow: readonly (Circuit | UndeterminedVoltage)[];
  /** Each behind the one that feeds it. */
  readonly circuits: readonly Circuit[];
}

/** A row that cannot be placed or read leaves its whole tree without circuits, as it leaves it unsolved. */
export function feedCircuits(feed: FeedColumns): FeedCircuits {
  const { parent, trees } = feedTopology(feed);
  const ofRow = new Array<Circuit | UndeterminedVoltage>(feed.count);
  const circuits: Circuit[] = [];
  for (const tree of trees) {
    const refused = whyRefused(feed, tree);
    for (const row of tree.order) {
      if (refused) {
        ofRow[row] = refused;
        continue;
      }
      const input = ofRow[parent[row]!] as Circuit | undefined;
      if (input && KINDS[feed.kind[row]!]!.inFault === "passes") {
        ofRow[row] = input;
        continue;
      }
      const circuit = circuitBehind(feed, row, input);
      ofRow[row] = circuit;
      circuits.push(circuit);
    }
  }
  return { ofRow, circuits };
}

/** Which of several circuits a fault lifts is not searched. */
const ONE_WAY =
  "one item: bands are not judged where currents have more than one way (a bus fed from several items, a tie)";

/** What is given back lifts voltages above those without load. */
const NONE_BACK =
  "0 or more: bands are not judged where a load gives power back, which lifts voltages above those without load";

/** What a row holds is told before how rows hang together: an unread row is often why they do not. */
function whyRefused(
  feed: FeedColumns,
  { order, fault, mesh }: FeedTree,
): UndeterminedVoltage | undefined {
  if (feed.refused.size > 0)
    for (const row of order) {
      const error = feed.refused.get(row);
      if (error) return undetermined(feed.item[row]!, error);
    }
  if (fault) return undetermined(feed.item[fault.row]!, fault.error);
  const [several] = mesh?.feeders.keys() ?? [];
  if (several !== undefined)
    return undetermined(
      feed.item[several]!,
      new InputError("fedFrom", feed.fedFrom[several]!, ONE_WAY),
    );
  const [giving] = mesh?.giving ?? [];
  if (giving === undefined) return undefined;
  const [figure, load] = (["load", "lightLoad", "peakLoad"] as const)
    .map((name) => [name, feed.figures[name][giving]!] as const)
    .find(([, value]) => value < 0)!;
  return undetermined(feed.item[giving]!, new InputError(figure, load, NONE_BACK));
}

function circuitBehind(feed: FeedColumns, row: number, input: Circuit | undefined): Circuit {
  const item = itemAt(feed, row);
  return {
    row,
    item,
    input,
    normal: input
      ? stageOutput(item, input.normal)
      : supplyVoltage(item, supplyWindow(feed, row).highest),
    isolation: input && stronger(item.isolation ?? "none", input.isolation),
  };
}

/** Two basic ones do not make a reinforced one. */
function stronger(one: Isolation, other: Isolation = "none"): Isolation {
  return ISOLATIONS.indexOf(other) > ISOLATIONS.indexOf(one) ? other : one;
}

/** Highest output voltage of a working stage, at the top of its tolerance. */
export function stageOutput(item: FeedItem, input: HighestVoltage): HighestVoltage {
  return ROW_KINDS[item.kind].inFault === "follows" ? ratioOutput(item, input) : setPoint(item);
}

function supplyVoltage(item: FeedItem, highest: number): HighestVoltage {
  if (Number.isNaN(highest))
    return undetermined(item.item, new InputError("highestVoltage", null, "given"));
  return determined(Math.max(highest, item.voltage ?? 0));
}

/** Highest output voltage of a fixed ratio, at the top of its tolerance, from whatever its input is. */
function ratioOutput(item: FeedItem, input: HighestVoltage): HighestVoltage {
  if (input.outcome !== "determined") return input;
  const refused = whyUnusable(item, "ratio") ?? whyNoTolerance(item);
  if (refused) return refused;
  const { voltage } = worstVoltage({
    supplyHighest: input.voltage,
    ratio: item.ratio!,
    tolerance: item.tolerance!,
  });
  const { fault } = input;
  if (!fault) return determined(voltage);
  const gain = fault.gain * item.ratio! * (1 + item.tolerance!);
  return determined(voltage, { ...fault, gain });
}

function setPoint(item: FeedItem): HighestVoltage {
  return (
    whyUnusable(item, "voltage") ??
    whyNoTolerance(item) ??
    determined(item.voltage! * (1 + item.tolerance!))
  );
}

/** Not determined beats any number; of two that are alike the first one. */
export function highest(one: HighestVoltage, other: HighestVoltage | undefined): HighestVoltage {
  if (!other || one.outcome !== "determined") return one;
  if (other.outcome !== "determined") return other;
  return other.voltage > one.voltage ? other : one;
}

export function whyUnusable(
  item: FeedItem,
  field: "ratio" | "tripVoltage" | "voltage",
): UndeterminedVoltage | undefined {
  const value = item[field];
  if (value === undefined) return undetermined(item.item, new InputError(field, null, "given"));
  return value > 0 && Number.isFinite(value)
    ? undefined
    : undetermined(item.item, new InputError(field, value, "above 0"));
}

function whyNoTolerance(item: FeedItem): UndeterminedVoltage | undefined {
  const { tolerance } = item;
  const must = 'a fraction below 1 (0.02 for 2 %) or "exact"';
  if (tolerance !== undefined && tolerance >= 0 && tolerance < 1) return undefined;
  const error = new InputError("tolerance", tolerance ?? null, must);
  return undetermined(item.item, error);
}

export function determined(voltage: Volts, fault?: StageFault): DeterminedVoltage {
  return { outcome: "determined", voltage, fault };
}

function undetermined(blamed: string, error: InputError): UndeterminedVoltage {
  return { outcome: "not determined", blamed, error };
}
