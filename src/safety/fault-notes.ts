/** What a reader of a stage's voltages should know besides them. */
import type { FeedItem } from "../network/feed-item.js";
import type { Note } from "../quantities/steps.js";
import { voltsText } from "./band-words.js";
import type { HighestVoltage, NodeVoltages } from "./fault-path.js";

export function faultNotes(
  item: FeedItem,
  normal: HighestVoltage,
  feeding: NodeVoltages | undefined,
): Note[] {
  if (item.kind !== "ratio" && item.kind !== "regulated") return [];
  return [
    ...isolationNotes(item),
    ...insulationNotes(item, feeding),
    ...tripNotes(item, normal),
  ];
}

function isolationNotes({ isolation }: FeedItem): Note[] {
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

/** A reinforced stage has to hold what a stage above it may let through. */
function insulationNotes(
  { isolation }: FeedItem,
  feeding: NodeVoltages | undefined,
): Note[] {
  if (isolation !== "reinforced" || !feeding) return [];
  const { normal, afterFault } = feeding;
  if (afterFault.outcome === "not determined")
    return [
      insulationNote(
        `its insulation is to be reinforced for the input after a fault, which is not determined: ${afterFault.reason}`,
      ),
    ];
  if (afterFault.failed === undefined || normal.outcome !== "determined")
    return [];
  const { voltage, failed } = afterFault;
  return [
    insulationNote(
      `its insulation is to be reinforced for ${voltsText(voltage)}, not ${voltsText(normal.voltage)}: a fault of "${failed}" puts that on its input`,
    ),
  ];
}

function insulationNote(text: string): Note {
  return {
    code: "insulation-for-upstream",
    field: "afterFault",
    text,
    cite: "touch-voltage-faults",
  };
}

function tripNotes(
  { kind, tripVoltage }: FeedItem,
  normal: HighestVoltage,
): Note[] {
  if (kind !== "regulated" || tripVoltage === undefined) return [];
  if (normal.outcome !== "determined" || tripVoltage >= normal.voltage)
    return [];
  return [
    {
      code: "trips-in-service",
      field: "afterFault",
      text: `Trip V ${voltsText(tripVoltage)} is below the highest set point ${voltsText(normal.voltage)}`,
      cite: "definition",
    },
  ];
}
