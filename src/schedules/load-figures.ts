/** What a row of loads draws: quantity and margin in it, a heater's watts as ohms. */
import type { FeedKind } from "../network/feed-item.js";
import type { Quantity, Step } from "../quantities/steps.js";
import type { LoadKind } from "./columns.js";
import {
  figureOf,
  isGiven,
  missing,
  neededFigure,
  type ScheduleRow,
  wordOf,
} from "./schedule-row.js";
import { Givens, type RowMaker } from "./table-row.js";

/** What is asked for on top of every load; undefined where nobody said. */
export interface LoadMargin {
  readonly value: number | undefined;
  /** Where it stands, to link to. */
  readonly row: ScheduleRow | undefined;
}

const KIND_OF: Readonly<Record<LoadKind, FeedKind>> = {
  power: "power load",
  current: "current load",
  heater: "resistance load",
  resistance: "resistance load",
};

export function loadKind(row: ScheduleRow): FeedKind | undefined {
  const kind = wordOf(row, "kind") as LoadKind | undefined;
  return kind && KIND_OF[kind];
}

const UNIT: Readonly<Record<LoadKind, string>> = {
  power: "W",
  current: "A",
  heater: "W",
  resistance: "Ω",
};

/** The schedule's words for the loads of the feed table. */
const LOADS = [
  { field: "lightLoad", typed: "light", label: "Light load" },
  { field: "load", typed: "nominal", label: "Nominal load" },
  { field: "peakLoad", typed: "peak", label: "Peak load" },
] as const;

/** Says 0 of a load in hosts that hand a blank cell over as 0, too. */
const NO_LOAD = "none";

/**
 * Fills the feed table's cells of a load from its row, with its margin.
 * @throws {InputError} in words of the row.
 */
export function loadCells(made: RowMaker, asked: LoadMargin): void {
  const { source: row } = made;
  const kind = wordOf(row, "kind") as LoadKind | undefined;
  if (kind === undefined) throw missing(row, "kind", ", power, current, heater or resistance");
  neededFigure(row, "nominal", " (none for a load that draws nothing then)");
  if (kind === "heater") neededFigure(row, "ratedVoltage", ", the voltage of a heater's watts");
  made.passAll(["ratedVoltage", "lowestVoltage", "highestVoltage", "tolerance"]);
  const own = figureOf(row, "margin");
  const margin = own ?? asked.value ?? 0;
  if (own !== undefined) made.pass("margin");
  else if (asked.value !== undefined) {
    if (asked.row) made.pass("margin", "value", asked.row);
    else made.say("margin", asked.value);
  } else {
    made.say("margin", 0);
    made.note("no margin: enter Load margin in Asked for");
  }
  if (isGiven(row, "quantity")) made.pass("quantity");
  else made.say("quantity", 1);
  for (const one of LOADS) loadCell(made, one, kind, margin, asked);
  capacitanceCell(made);
}

function loadCell(
  made: RowMaker,
  { field, typed, label }: (typeof LOADS)[number],
  kind: LoadKind,
  margin: number,
  asked: LoadMargin,
): void {
  const { source: row } = made;
  const one = figureOf(row, typed);
  if (one === undefined) return;
  if (one === 0) {
    made.say(field, NO_LOAD);
    return;
  }
  const quantity = figureOf(row, "quantity") ?? 1;
  const ratedVoltage = figureOf(row, "ratedVoltage") ?? 0;
  const times = quantity * (1 + margin);
  const found = {
    power: one * times,
    current: one * times,
    resistance: one / times,
    heater: ratedVoltage ** 2 / (one * times),
  }[kind];
  const working = made.work(() => {
    const givens = new Givens()
      .add("one", { label: `${label} of one`, symbol: "x", unit: UNIT[kind] }, row, typed)
      .add("quantity", QUANTITY, row, "quantity", 1);
    if (isGiven(row, "margin") || asked.row === undefined)
      givens.add("margin", MARGIN, row, "margin", 0);
    else givens.add("margin", MARGIN, asked.row, "value", margin);
    if (kind === "heater") givens.add("ratedVoltage", RATED_V, row, "ratedVoltage");
    return givens.working(
      `${row.name}: ${label.toLowerCase()}`,
      { [field]: loadStep(label, kind) },
      { [field]: found },
    );
  });
  made.derive(field, found, working, field);
}

const QUANTITY: Quantity = { label: "Quantity", symbol: "n", unit: "1" };
const MARGIN: Quantity = { label: "Margin", symbol: "m", unit: "1" };
const RATED_V: Quantity = {
  label: "Voltage of a heater's watts",
  symbol: "Ur",
  unit: "V",
};

function loadStep(label: string, kind: LoadKind): Step {
  const formula = {
    power: "one * quantity * (1 + margin)",
    current: "one * quantity * (1 + margin)",
    resistance: "one / (quantity * (1 + margin))",
    heater: "ratedVoltage^2 / (one * quantity * (1 + margin))",
  }[kind];
  return {
    label: `${label} of all, with margin`,
    symbol: kind === "power" ? "P" : kind === "current" ? "I" : "R",
    unit: kind === "heater" ? "Ω" : UNIT[kind],
    kind: "formula",
    formula,
    cite: kind === "heater" ? "ohm-joule" : "definition",
  };
}

function capacitanceCell(made: RowMaker): void {
  const { source: row } = made;
  const one = figureOf(row, "capacitance");
  if (one === undefined) return;
  const capacitance = one * (figureOf(row, "quantity") ?? 1);
  const farads = { unit: "F", shown: { unit: "µF", perUnit: 1e6 } };
  const working = made.work(() =>
    new Givens()
      .add("one", { label: "Capacitance of one", symbol: "C₁", ...farads }, row, "capacitance")
      .add("quantity", QUANTITY, row, "quantity", 1)
      .working(
        `${row.name}: capacitance`,
        {
          capacitance: {
            label: "Capacitance of all",
            symbol: "C",
            ...farads,
            kind: "formula",
            formula: "one * quantity",
            cite: "definition",
          },
        },
        { capacitance },
      ),
  );
  made.derive("capacitance", capacitance, working, "capacitance");
}
