/**
 * The highest voltage at every item of a feed, in service and after one fault of one stage on its path.
 *
 * In service: no load, no drop, the supply at its highest, ratios and set points at the top of their tolerance. One
 * fault: a stage fails and its output rises to its highest input; everything below takes that voltage up to the next
 * reinforced stage, and the stages between fail with it, so two basic stages do not make a reinforced one. A regulated
 * stage that loses its regulation is such a fault too, whatever its isolation: its output rises to where it is
 * stopped. Behind a reinforced stage a fixed ratio still follows its input, a regulated output does not.
 *
 * Left out: faults of the supply itself (its highest voltage is to include them), and pole to earth, which the caller
 * judges beside pole to pole.
 *
 * Each item needs only what its feeding item has, so one pass from the supplies down is the same as failing every
 * stage of every path alone; a test compares the two.
 */
import type { FeedItem } from "../network/feed-item.js";
import type { Note } from "../quantities/steps.js";
import type { Volts } from "../quantities/units.js";
import { voltageAfterFault } from "./after-fault.js";
import { faultNotes } from "./fault-notes.js";
import { type PlacedItem, topDown } from "./top-down.js";
import { worstVoltage } from "./worst-voltage.js";

export interface DeterminedVoltage {
  readonly outcome: "determined";
  readonly voltage: Volts;
  /** The stage whose fault brings it about; undefined in service, and where no fault raises it. */
  readonly failed: string | undefined;
}

export interface UndeterminedVoltage {
  readonly outcome: "not determined";
  /** A sentence that names the item and what it lacks. */
  readonly reason: string;
}

export type HighestVoltage = DeterminedVoltage | UndeterminedVoltage;

/** Of an item's output; of a load, its input. */
export interface NodeVoltages {
  readonly item: string;
  readonly normal: HighestVoltage;
  readonly afterFault: HighestVoltage;
  readonly notes: readonly Note[];
}

/** One answer per item, in the table's order. An item that cannot be placed or read is not determined, with all that hangs on it. */
export function faultPath(items: readonly FeedItem[]): NodeVoltages[] {
  const nodes: NodeVoltages[] = new Array<NodeVoltages>(items.length);
  for (const placed of topDown(items)) {
    const feeding =
      placed.parent === undefined ? undefined : nodes[placed.parent];
    nodes[placed.index] = nodeVoltages(placed, feeding);
  }
  return nodes;
}

function nodeVoltages(
  { item, fault }: PlacedItem,
  feeding: NodeVoltages | undefined,
): NodeVoltages {
  if (fault !== undefined || (!feeding && item.kind !== "supply")) {
    const unknown = undetermined(fault ?? `"${item.item}" is fed from nothing`);
    return {
      item: item.item,
      normal: unknown,
      afterFault: unknown,
      notes: [],
    };
  }
  const normal = normalVoltage(item, feeding?.normal);
  const afterFault = afterFaultVoltage(item, normal, feeding);
  return {
    item: item.item,
    normal,
    afterFault,
    notes: faultNotes(item, normal, feeding),
  };
}

function normalVoltage(
  item: FeedItem,
  input: HighestVoltage | undefined,
): HighestVoltage {
  switch (item.kind) {
    case "supply":
      return supplyVoltage(item);
    case "ratio":
      return ratioOutput(item, input);
    case "regulated":
      return setPoint(item);
    default:
      return input ?? undetermined(`"${item.item}" is fed from nothing`);
  }
}

function supplyVoltage(item: FeedItem): HighestVoltage {
  const refused = whyUnusable(item, "Highest V", item.highestVoltage);
  if (refused !== undefined) return undetermined(refused);
  return determined(Math.max(item.highestVoltage ?? 0, item.voltage ?? 0));
}

/** Of a fixed ratio at the top of its tolerance, from whatever its input is. */
function ratioOutput(
  item: FeedItem,
  input: HighestVoltage | undefined,
): HighestVoltage {
  if (input?.outcome !== "determined")
    return input ?? undetermined(`"${item.item}" is fed from nothing`);
  const refused =
    whyUnusable(item, "Ratio", item.ratio) ?? whyNoTolerance(item);
  if (refused !== undefined) return undetermined(refused);
  const { voltage } = worstVoltage({
    supplyHighest: input.voltage,
    ratio: item.ratio ?? Number.NaN,
    tolerance: item.tolerance ?? Number.NaN,
  });
  return determined(voltage, input.failed);
}

function setPoint(item: FeedItem): HighestVoltage {
  const refused =
    whyUnusable(item, "Voltage", item.voltage) ?? whyNoTolerance(item);
  if (refused !== undefined) return undetermined(refused);
  return determined((item.voltage ?? 0) * (1 + (item.tolerance ?? 0)));
}

function afterFaultVoltage(
  item: FeedItem,
  normal: HighestVoltage,
  feeding: NodeVoltages | undefined,
): HighestVoltage {
  if (item.kind === "supply" || !feeding) return normal;
  if (item.kind === "ratio") {
    const follows = ratioOutput(item, feeding.afterFault);
    return throughStage(item, follows, feeding);
  }
  if (item.kind !== "regulated") return feeding.afterFault;
  const through = throughStage(item, normal, feeding);
  return higher(through, regulationLost(item, normal));
}

/** What reaches the output when this stage fails, or fails with one above it. */
function throughStage(
  item: FeedItem,
  output: HighestVoltage,
  { normal: input, afterFault: risen }: NodeVoltages,
): HighestVoltage {
  if (item.isolation === "reinforced" || output.outcome !== "determined")
    return output;
  if (risen.outcome !== "determined") return risen;
  const voltage = voltageAfterFault(
    risen.voltage,
    output.voltage,
    item.isolation,
  );
  if (voltage === output.voltage) return output;
  const byItself =
    input.outcome === "determined" && input.voltage === risen.voltage;
  return determined(voltage, byItself ? item.item : risen.failed);
}

function regulationLost(
  item: FeedItem,
  normal: HighestVoltage,
): HighestVoltage {
  const refused = whyUnusable(item, "Trip V", item.tripVoltage);
  if (refused !== undefined) return undetermined(refused);
  return higher(normal, determined(item.tripVoltage ?? 0, item.item));
}

/** Not determined beats any number. */
function higher(one: HighestVoltage, other: HighestVoltage): HighestVoltage {
  if (one.outcome !== "determined") return one;
  if (other.outcome !== "determined") return other;
  return other.voltage > one.voltage ? other : one;
}

function whyUnusable(
  { item }: FeedItem,
  column: string,
  value: number | undefined,
): string | undefined {
  if (value === undefined) return `"${item}" has no ${column}`;
  if (value > 0 && Number.isFinite(value)) return undefined;
  return `${column} of "${item}" must be above 0, got ${value}`;
}

function whyNoTolerance({ item, tolerance }: FeedItem): string | undefined {
  if (tolerance === undefined) return `"${item}" has no Tolerance`;
  if (tolerance >= 0 && tolerance < 1) return undefined;
  return `Tolerance of "${item}" must be a fraction below 1, got ${tolerance}`;
}

function determined(voltage: Volts, failed?: string): DeterminedVoltage {
  return { outcome: "determined", voltage, failed };
}

function undetermined(reason: string): UndeterminedVoltage {
  return { outcome: "not determined", reason };
}
