/** What a reader of a stage's voltages should know besides them. */
import type { FeedItem } from "../network/feed-item.js";
import { ROW_KINDS } from "../network/row-kinds.js";
import type { Caveat } from "../quantities/steps.js";
import { voltsText } from "./band-words.js";
import type { HighestVoltage } from "./circuits.js";

export interface SideVoltages {
  readonly normal: HighestVoltage;
  readonly afterFault: HighestVoltage;
}

/** @param input Of what feeds the stage, without what a fault of the stage itself puts there; a supply has none. */
export function faultCaveats(
  item: FeedItem,
  input: SideVoltages | undefined,
  output: SideVoltages,
): Caveat[] {
  if (!input) return [];
  return [
    ...isolationCaveats(item),
    ...insulationCaveats(item, input, output),
    ...tripCaveats(item, output.normal),
  ];
}

function isolationCaveats({ isolation }: FeedItem): Caveat[] {
  if (isolation !== undefined) return [];
  return [
    {
      code: "isolation-unknown",
      field: "afterFault",
      text: "isolation not given: counted as none",
      cite: "definition",
    },
  ];
}

/** A reinforced stage has to hold what other stages may let through, on either side. */
function insulationCaveats(
  { isolation }: FeedItem,
  input: SideVoltages,
  output: SideVoltages,
): Caveat[] {
  if (isolation !== "reinforced") return [];
  const { afterFault } = input;
  if (afterFault.outcome === "not determined")
    return [
      insulationCaveat(
        `reinforced insulation is needed for the voltage of its input after a fault, which is not determined for want of a figure of "${afterFault.blamed}"`,
      ),
    ];
  const made = Math.max(voltsOf(input.normal), voltsOf(output.normal));
  const [worst, side] =
    voltsOf(output.afterFault) > afterFault.voltage
      ? [output.afterFault, "output"]
      : [afterFault, "input"];
  if (worst.outcome !== "determined" || !worst.fault) return [];
  const { voltage, fault } = worst;
  if (voltage <= made) return [];
  return [
    insulationCaveat(
      `its insulation is to be reinforced for ${voltsText(voltage)}, not ${voltsText(made)}: a fault of "${fault.item}" puts that on its ${side}`,
    ),
  ];
}

function voltsOf(voltage: HighestVoltage): number {
  return voltage.outcome === "determined" ? voltage.voltage : 0;
}

function insulationCaveat(text: string): Caveat {
  return {
    code: "insulation-for-upstream",
    field: "afterFault",
    text,
    cite: "touch-voltage-faults",
  };
}

function tripCaveats({ kind, tripVoltage }: FeedItem, normal: HighestVoltage): Caveat[] {
  if (ROW_KINDS[kind].inFault !== "holds" || tripVoltage === undefined) return [];
  if (normal.outcome !== "determined" || tripVoltage >= normal.voltage) return [];
  return [
    {
      code: "trips-in-service",
      field: "afterFault",
      text: `Trip V ${voltsText(tripVoltage)} is below the highest set point ${voltsText(normal.voltage)}`,
      cite: "definition",
    },
  ];
}
