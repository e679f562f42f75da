/** What a reader of a solved row should know beside its numbers. */
import { figure } from "../quantities/figures.js";
import type { Note } from "../quantities/steps.js";
import type { Amperes, Ohms, Volts } from "../quantities/units.js";
import type { FeedItem } from "./feed-item.js";

export interface RowAtPoint {
  readonly inputVoltage: Volts;
  readonly inputCurrent: Amperes;
  readonly loading: number | undefined;
  /** Resistance of all that feeds the row, seen from its input. */
  readonly feedResistance: Ohms;
}

export function rowNotes(item: FeedItem, at: RowAtPoint): readonly Note[] {
  return [
    ...windowNotes(item, at),
    ...latchNotes(item, at),
    ...loadingNotes(at),
    ...assumptionNotes(item),
  ];
}

/** Draws the same power at any voltage, so that a lower voltage means more current. */
function holdsPower({ kind }: FeedItem): boolean {
  return kind === "power load" || kind === "regulated";
}

function windowNotes(item: FeedItem, { inputVoltage }: RowAtPoint): Note[] {
  const below = (item.lowestVoltage ?? -Infinity) - inputVoltage;
  const above = inputVoltage - (item.highestVoltage ?? Infinity);
  const field = "inputVoltage";
  const switches =
    item.kind === "power load" ||
    item.kind === "ratio" ||
    item.kind === "regulated";
  const consequence = switches ? ": would switch off" : "";
  if (below > 0) {
    return [
      {
        code: "below-window",
        field,
        text: `${figure(below)} V below its window${consequence}`,
        cite: "definition",
      },
    ];
  }
  if (above > 0)
    return [
      {
        code: "above-window",
        field,
        text: `${figure(above)} V above its window`,
        cite: "definition",
      },
    ];
  return [];
}

/** V² − V₀V + RP = 0 has the roots V and R·P/V = R·I; the other currents are taken as they are at the operating point. */
function latchNotes(
  item: FeedItem,
  { inputCurrent, feedResistance }: RowAtPoint,
): Note[] {
  const lowerRoot = feedResistance * inputCurrent;
  if (
    !holdsPower(item) ||
    item.lowestVoltage === undefined ||
    lowerRoot <= item.lowestVoltage
  )
    return [];
  return [
    {
      code: "latch",
      field: "inputVoltage",
      text: `may latch at ${figure(lowerRoot)} V on start`,
      cite: "two-roots",
    },
  ];
}

function loadingNotes({ loading }: RowAtPoint): Note[] {
  if (loading === undefined || loading <= 1) return [];
  return [
    {
      code: "overloaded",
      field: "loading",
      text: `at ${figure(loading)} of its rated current`,
      cite: "definition",
    },
  ];
}

function assumptionNotes(item: FeedItem): Note[] {
  const notes: Note[] = [];
  const add = (code: string, field: string, text: string) =>
    notes.push({ code, field, text, cite: "definition" });
  const isStage = item.kind === "ratio" || item.kind === "regulated";
  const lossless =
    item.fixedLoss === undefined &&
    item.linearLoss === undefined &&
    item.quadraticLoss === undefined;
  if (
    (item.kind === "supply" || item.kind === "ratio") &&
    item.resistance === undefined &&
    item.efficiency === undefined
  ) {
    add("ideal-resistance", "outputVoltage", "ideal: no resistance given");
  }
  if (
    item.kind === "series" &&
    item.resistance === undefined &&
    item.voltage === undefined
  ) {
    add(
      "ideal-series",
      "outputVoltage",
      "ideal: no voltage or resistance given",
    );
  }
  if (isStage && lossless && item.efficiency === undefined)
    add("ideal-losses", "loss", "ideal: no losses given");
  if (isStage && item.efficiency !== undefined)
    add("efficiency", "loss", "by efficiency: light-load loss is not counted");
  return notes;
}
