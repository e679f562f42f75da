/**
 * The highest voltage at every item of a feed, in service and after one fault of one stage anywhere in its tree.
 *
 * In service: no load, no drop, the supply at its highest, ratios and set points at the top of their tolerance.
 *
 * One fault: one stage fails. If it has no reinforced isolation its input and its output become one circuit, and both
 * take the greatest of the input, the output and, of a regulated stage, the voltage at which it is stopped when its
 * regulation is lost. A reinforced stage can only lose its regulation, which lifts its output alone. What is lifted is
 * lifted for everything that hangs on the same conductors, and from there
 * - up through a stage without reinforced isolation to what feeds it, and so on up to the next reinforced one: such an
 *   isolation is not made for the lifted voltage and fails with it, so two basic stages do not make a reinforced one;
 * - down through every stage, whichever gives more: it works on (a ratio follows its lifted input, a regulated output
 *   holds its set point), or, if it is not reinforced, it fails with it and passes the lifted voltage on.
 *
 * A regulated stage without Trip V leaves its output not determined, and its input too where it can step up: a
 * step-down that loses its regulation puts no more on its input than stands there.
 *
 * Left out: faults of the supply itself (its highest voltage is to include them), power sent backwards by a stage that
 * works, and pole to earth, which the caller judges beside pole to pole.
 *
 * A voltage lifted from one child never comes back to it, so one pass up and one down is the same as failing every
 * stage alone; a test compares the two.
 */
import { type FeedEntry, itemAt } from "../network/compiled-feed.js";
import type { FeedItem, FeedKind } from "../network/feed-item.js";
import { type FeedTree, feedTopology } from "../network/feed-topology.js";
import { InputError } from "../quantities/errors.js";
import type { Note } from "../quantities/steps.js";
import type { Volts } from "../quantities/units.js";
import { voltageAfterFault } from "./after-fault.js";
import { faultNotes } from "./fault-notes.js";
import { worstVoltage } from "./worst-voltage.js";

/** How an item's output stands to its input; what passes a voltage on is one circuit with what feeds it. */
const IN_FAULT: Readonly<
  Record<FeedKind, "source" | "follows" | "holds" | "passes">
> = {
  supply: "source",
  run: "passes",
  series: "passes",
  ratio: "follows",
  regulated: "holds",
  "power load": "passes",
  "current load": "passes",
  "resistance load": "passes",
};

/** The stage that fails, and how: its two sides become one circuit, or its output is no longer held. */
export interface StageFault {
  readonly item: string;
  readonly kind: "sides joined" | "regulation lost";
}

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

/** Of an item's output; of a load, its input. */
export interface NodeVoltages {
  readonly item: string;
  readonly normal: HighestVoltage;
  readonly afterFault: HighestVoltage;
  readonly notes: readonly Note[];
}

/** One answer per row, in the table's order. A row that cannot be placed or read leaves its whole tree not determined, as it leaves it unsolved. */
export function faultPath(entries: readonly FeedEntry[]): NodeVoltages[] {
  const { parent, trees } = feedTopology(entries);
  const nodes: NodeVoltages[] = new Array<NodeVoltages>(entries.length);
  for (const tree of trees) {
    const refused = whyRefused(entries, tree);
    if (!refused) enterTree(nodes, entries, tree.order, parent);
    else
      for (const row of tree.order)
        nodes[row] = {
          item: entries[row]!.item,
          normal: refused,
          afterFault: refused,
          notes: [],
        };
  }
  return nodes;
}

/** What a row holds is told before how rows hang together: an unread row is often why they do not. */
function whyRefused(
  entries: readonly FeedEntry[],
  { order, fault }: FeedTree,
): UndeterminedVoltage | undefined {
  for (const row of order.slice().sort()) {
    const entry = entries[row]!;
    if ("error" in entry) return undetermined(entry, entry.error);
  }
  return fault && undetermined(entries[fault.row]!, fault.error);
}

/** The conductors behind one supply or one stage, with the runs, series items and loads on them. */
interface Circuit {
  readonly item: FeedItem;
  /** What feeds the stage; a supply has none. */
  readonly input: Circuit | undefined;
  readonly normal: HighestVoltage;
  /** What comes down from its own supply or stage, in service or after a fault. */
  fromAbove: HighestVoltage;
  /** The most that a fault in or below one of the stages fed from here puts here. */
  lift: Lift | undefined;
  /** The most of all the other ones. */
  otherLift: HighestVoltage | undefined;
}

interface Lift {
  readonly from: Circuit;
  readonly voltage: HighestVoltage;
}

function enterTree(
  nodes: NodeVoltages[],
  entries: readonly FeedEntry[],
  order: Int32Array,
  parent: Int32Array,
): void {
  const circuits: Circuit[] = [];
  const circuitOf = new Map<number, Circuit>();
  for (const row of order) {
    const item = itemAt(entries, row);
    const feeding = circuitOf.get(parent[row]!);
    if (feeding && IN_FAULT[item.kind] === "passes") {
      circuitOf.set(row, feeding);
      continue;
    }
    const circuit = circuitBehind(item, feeding);
    circuits.push(circuit);
    circuitOf.set(row, circuit);
  }
  for (const circuit of circuits.slice().reverse()) liftInput(circuit);
  for (const circuit of circuits) circuit.fromAbove = fromAbove(circuit);
  for (const row of order) {
    const item = itemAt(entries, row);
    const circuit = circuitOf.get(row)!;
    const voltages = {
      normal: circuit.normal,
      afterFault: highest(circuit.fromAbove, circuit.lift?.voltage),
    };
    const notes =
      circuit.item === item
        ? faultNotes(item, inputVoltages(circuit), voltages)
        : [];
    nodes[row] = { item: item.item, ...voltages, notes };
  }
}

function inputVoltages(circuit: Circuit) {
  const { input } = circuit;
  return (
    input && {
      normal: input.normal,
      afterFault: withoutLiftFrom(circuit, input),
    }
  );
}

function circuitBehind(item: FeedItem, input: Circuit | undefined): Circuit {
  const normal = normalVoltage(item, input?.normal);
  return {
    item,
    input,
    normal,
    fromAbove: normal,
    lift: undefined,
    otherLift: undefined,
  };
}

function normalVoltage(
  item: FeedItem,
  input: HighestVoltage | undefined,
): HighestVoltage {
  switch (IN_FAULT[item.kind]) {
    case "source":
      return supplyVoltage(item);
    case "holds":
      return setPoint(item);
    case "follows":
      return ratioOutput(item, input!);
    case "passes":
      return input!;
  }
}

/** What a failed stage puts on the circuit that feeds it, or passes on to it from one below. */
function liftInput(circuit: Circuit): void {
  const { item, input, normal } = circuit;
  if (!input || item.isolation === "reinforced") return;
  const fault: StageFault = { item: item.item, kind: "sides joined" };
  const own = highest(normal, stoppedBelow(circuit, input));
  const voltage = highest(
    own.outcome === "determined" ? { ...own, fault } : own,
    circuit.lift?.voltage,
  );
  if (input.lift && highest(input.lift.voltage, voltage) !== voltage) {
    input.otherLift = highest(voltage, input.otherLift);
  } else {
    input.otherLift = input.lift?.voltage;
    input.lift = { from: circuit, voltage };
  }
}

/** What a regulated output that is no longer held can put on its input. */
function stoppedBelow(
  { item, normal }: Circuit,
  input: Circuit,
): HighestVoltage | undefined {
  if (IN_FAULT[item.kind] !== "holds") return undefined;
  if (item.tripVoltage !== undefined || canStepUp(item, normal, input.normal))
    return stoppedAt(item);
  return undefined;
}

/** At some input that it may have. */
function canStepUp(
  { lowestVoltage }: FeedItem,
  output: HighestVoltage,
  input: HighestVoltage,
): boolean {
  if (output.outcome !== "determined" || input.outcome !== "determined")
    return true;
  return output.voltage >= Math.min(input.voltage, lowestVoltage ?? Infinity);
}

function fromAbove(circuit: Circuit): HighestVoltage {
  const { item, input, normal } = circuit;
  if (!input) return normal;
  const risen = withoutLiftFrom(circuit, input);
  if (IN_FAULT[item.kind] === "follows")
    return throughStage(item, ratioOutput(item, risen), risen);
  return highest(
    throughStage(item, normal, risen),
    regulationLost(item, normal),
  );
}

/** A stage that feeds its own fault back is not fed by it. */
function withoutLiftFrom(circuit: Circuit, input: Circuit): HighestVoltage {
  const { lift, otherLift } = input;
  return highest(
    input.fromAbove,
    lift?.from === circuit ? otherLift : lift?.voltage,
  );
}

/** What reaches the output when this stage fails, or fails with another one. */
function throughStage(
  item: FeedItem,
  output: HighestVoltage,
  risen: HighestVoltage,
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
  return determined(
    voltage,
    risen.fault ?? { item: item.item, kind: "sides joined" },
  );
}

function regulationLost(
  item: FeedItem,
  normal: HighestVoltage,
): HighestVoltage {
  return highest(normal, stoppedAt(item));
}

function stoppedAt(item: FeedItem): HighestVoltage {
  const refused = whyUnusable(item, "tripVoltage");
  if (refused) return refused;
  return determined(item.tripVoltage!, {
    item: item.item,
    kind: "regulation lost",
  });
}

function supplyVoltage(item: FeedItem): HighestVoltage {
  return (
    whyUnusable(item, "highestVoltage") ??
    determined(Math.max(item.highestVoltage!, item.voltage ?? 0))
  );
}

/** Of a fixed ratio at the top of its tolerance, from whatever its input is. */
function ratioOutput(item: FeedItem, input: HighestVoltage): HighestVoltage {
  if (input.outcome !== "determined") return input;
  const refused = whyUnusable(item, "ratio") ?? whyNoTolerance(item);
  if (refused) return refused;
  const { voltage } = worstVoltage({
    supplyHighest: input.voltage,
    ratio: item.ratio!,
    tolerance: item.tolerance!,
  });
  return determined(voltage, input.fault);
}

function setPoint(item: FeedItem): HighestVoltage {
  return (
    whyUnusable(item, "voltage") ??
    whyNoTolerance(item) ??
    determined(item.voltage! * (1 + item.tolerance!))
  );
}

/** Not determined beats any number; of two that are alike the first one. */
function highest(
  one: HighestVoltage,
  other: HighestVoltage | undefined,
): HighestVoltage {
  if (!other || one.outcome !== "determined") return one;
  if (other.outcome !== "determined") return other;
  return other.voltage > one.voltage ? other : one;
}

function whyUnusable(
  item: FeedItem,
  field: "highestVoltage" | "ratio" | "tripVoltage" | "voltage",
): UndeterminedVoltage | undefined {
  const value = item[field];
  if (value === undefined)
    return undetermined(item, new InputError(field, null, "given"));
  return value > 0 && Number.isFinite(value)
    ? undefined
    : undetermined(item, new InputError(field, value, "above 0"));
}

function whyNoTolerance(item: FeedItem): UndeterminedVoltage | undefined {
  const { tolerance } = item;
  const must = 'a fraction below 1 (0.02 for 2 %) or "exact"';
  if (tolerance !== undefined && tolerance >= 0 && tolerance < 1)
    return undefined;
  const error = new InputError("tolerance", tolerance ?? null, must);
  return undetermined(item, error);
}

function determined(voltage: Volts, fault?: StageFault): DeterminedVoltage {
  return { outcome: "determined", voltage, fault };
}

function undetermined(
  { item }: Pick<FeedItem, "item">,
  error: InputError,
): UndeterminedVoltage {
  return { outcome: "not determined", blamed: item, error };
}
