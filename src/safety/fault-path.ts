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
import type { FeedColumns } from "../network/feed-columns.js";
import type { FeedItem } from "../network/feed-item.js";
import { ROW_KINDS } from "../network/row-kinds.js";
import type { Caveat } from "../quantities/steps.js";
import { voltageAfterFault } from "./after-fault.js";
import {
  type Circuit,
  determined,
  feedCircuits,
  type FeedCircuits,
  highest,
  type HighestVoltage,
  stageOutput,
  whyUnusable,
} from "./circuits.js";
import { faultCaveats, type SideVoltages } from "./fault-caveats.js";
import type { StageFault } from "./stage-fault.js";

/** Voltages at an item's output; for a load, at its input. */
export interface NodeVoltages extends SideVoltages {
  readonly item: string;
  readonly caveats: readonly Caveat[];
}

/** One answer per row, in the table's order. */
export function faultPath(
  columns: FeedColumns,
  feed: FeedCircuits = feedCircuits(columns),
): NodeVoltages[] {
  const faults = new Map<Circuit, CircuitFaults>();
  for (const circuit of feed.circuits) faults.set(circuit, { fromAbove: circuit.normal });
  for (const circuit of feed.circuits.slice().reverse()) liftInput(circuit, faults);
  for (const circuit of feed.circuits) faults.get(circuit)!.fromAbove = fromAbove(circuit, faults);
  return columns.item.map((item, row) => {
    const circuit = feed.ofRow[row]!;
    if ("outcome" in circuit) return { item, normal: circuit, afterFault: circuit, caveats: [] };
    const { fromAbove: above, lift } = faults.get(circuit)!;
    const voltages = {
      normal: circuit.normal,
      afterFault: highest(above, lift?.voltage),
    };
    const own = circuit.row === row;
    return {
      item,
      ...voltages,
      caveats: own ? faultCaveats(circuit.item, inputVoltages(circuit, faults), voltages) : [],
    };
  });
}

/** What faults put on one circuit. */
interface CircuitFaults {
  /** What comes down from its own supply or stage, in service or after a fault. */
  fromAbove: HighestVoltage;
  /** The most that a fault in or below one of the stages fed from here puts here. */
  lift?: { readonly from: Circuit; readonly voltage: HighestVoltage };
  /** The most of all the other ones. */
  otherLift?: HighestVoltage | undefined;
}

type Faults = ReadonlyMap<Circuit, CircuitFaults>;

function inputVoltages(circuit: Circuit, faults: Faults): SideVoltages | undefined {
  const { input } = circuit;
  return (
    input && {
      normal: input.normal,
      afterFault: withoutLiftFrom(circuit, input, faults),
    }
  );
}

/** What a failed stage puts on the circuit that feeds it, or passes on to it from one below. */
function liftInput(circuit: Circuit, faults: Faults): void {
  const { item, input } = circuit;
  if (!input || item.isolation === "reinforced") return;
  const voltage = highest(putOnInput(circuit, input), faults.get(circuit)!.lift?.voltage);
  const above = faults.get(input)!;
  if (above.lift && highest(above.lift.voltage, voltage) !== voltage) {
    above.otherLift = highest(voltage, above.otherLift);
  } else {
    above.otherLift = above.lift?.voltage;
    above.lift = { from: circuit, voltage };
  }
}

/** Its output in service, or where that is stopped when it is no longer held. */
function putOnInput(circuit: Circuit, input: Circuit): HighestVoltage {
  const { item, normal } = circuit;
  const trips =
    ROW_KINDS[item.kind].inFault === "holds" &&
    (item.tripVoltage !== undefined || canStepUp(circuit, input));
  const lost = trips ? stoppedAt(item) : undefined;
  const most = highest(normal, lost);
  if (most.outcome !== "determined") return most;
  const fault = joined(item, input.normal, normal);
  const { tripVoltage } = item;
  return determined(
    most.voltage,
    trips && tripVoltage !== undefined ? { ...fault, tripVoltage } : fault,
  );
}

/** Whether the output can be above the input, at some input that the stage may have. */
function canStepUp({ item, normal }: Circuit, input: Circuit): boolean {
  const { lowestVoltage } = item;
  if (normal.outcome !== "determined" || input.normal.outcome !== "determined") return true;
  return normal.voltage >= Math.min(input.normal.voltage, lowestVoltage ?? Infinity);
}

function fromAbove(circuit: Circuit, faults: Faults): HighestVoltage {
  const { item, input, normal } = circuit;
  if (!input) return normal;
  const risen = withoutLiftFrom(circuit, input, faults);
  const passedOn = (output: HighestVoltage) => throughStage(circuit, input, output, risen);
  const working = passedOn(stageOutput(item, risen));
  return ROW_KINDS[item.kind].inFault === "holds"
    ? highest(working, highest(normal, stoppedAt(item)))
    : working;
}

/** A stage that feeds its own fault back is not fed by it. */
function withoutLiftFrom(circuit: Circuit, input: Circuit, faults: Faults): HighestVoltage {
  const { fromAbove: above, lift, otherLift } = faults.get(input)!;
  return highest(above, lift?.from === circuit ? otherLift : lift?.voltage);
}

/** What reaches the output when this stage fails, or fails with another one. */
function throughStage(
  { item, normal }: Circuit,
  input: Circuit,
  output: HighestVoltage,
  risen: HighestVoltage,
): HighestVoltage {
  if (item.isolation === "reinforced" || output.outcome !== "determined") return output;
  if (risen.outcome !== "determined") return risen;
  const voltage = voltageAfterFault(risen.voltage, output.voltage, item.isolation);
  if (voltage === output.voltage) return output;
  return determined(voltage, risen.fault ?? joined(item, input.normal, normal));
}

function joined({ item }: FeedItem, input: HighestVoltage, output: HighestVoltage): StageFault {
  return {
    item,
    kind: "sides joined",
    gain: 1,
    ...(input.outcome === "determined" && { inputVoltage: input.voltage }),
    ...(output.outcome === "determined" && { outputVoltage: output.voltage }),
  };
}

/** Voltage at which the output is stopped when its regulation is lost. */
function stoppedAt(item: FeedItem): HighestVoltage {
  const { item: name, tripVoltage } = item;
  const refused = whyUnusable(item, "tripVoltage");
  if (refused || tripVoltage === undefined) return refused!;
  return determined(tripVoltage, {
    item: name,
    kind: "regulation lost",
    tripVoltage,
    gain: 1,
  });
}
