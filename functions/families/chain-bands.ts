import { bandsWorkings, printedLimit, workingPlaces } from "../../src/safety/feed-bands-steps.js";
import {
  type FeedBands,
  feedBands,
  type ItemBand,
  type ItemBands,
  type NoBand,
} from "../../src/safety/feed-bands.js";
import { NOT_DETERMINED } from "../../src/safety/band-judgement.js";
import { stageFaultText } from "../../src/safety/stage-fault.js";
import type { Caveat } from "../../src/quantities/steps.js";
import type { Cell } from "../cells.js";
import { defineEntry, type ShownStep } from "../entry.js";
import { type AskedFor, askedFor, askedForParameter } from "../reading/asked-for.js";
import { feedTableParameter, toldCaveats } from "../reading/feed-call.js";
import { knownTable } from "../reading/feed-memory.js";
import { type FeedTable, rowReason } from "../reading/feed-table.js";
import { NONE } from "./chain.js";

/** Headers of the result, in an order that people count on. */
export const BANDS_COLUMNS = [
  "Item",
  "In service V",
  "After one fault V",
  "Band in service",
  "Band after one fault",
  "Limit V",
  "Margin in service",
  "Margin after one fault",
  "Which fault",
  "Isolation to the supply",
  "Note",
] as const;

interface BandsCall {
  readonly table: FeedTable;
  readonly asked: AskedFor;
}

interface Bands extends FeedBands {
  readonly table: FeedTable;
}

const chainBands = defineEntry({
  id: "CHAIN_BANDS",
  family: "chain",
  parameters: { feedTable: feedTableParameter, askedFor: askedForParameter },
  result: {
    shape: "table",
    unit: "V and fractions of the limit",
  },
  example: {
    args: [
      [
        [
          "Item",
          "Fed from",
          "Kind",
          "Ratio",
          "Voltage",
          "Highest V",
          "Tolerance",
          "Isolation",
          "Ripple V rms",
        ],
        ["Battery", "", "supply", "", 48, 57, "", "", ""],
        ["Up", "Battery", "ratio", 8, "", "", 0.02, "basic", 3],
        ["Lamp", "Battery", "power load", "", "", "", "", "", ""],
      ],
      [
        ["Framework", "IEC 62368-1"],
        ["Place", "dry"],
      ],
    ],
  },
  citations: [
    "iec-62368-1",
    "iec-62368-1-sum",
    "iec-62368-1-faults",
    "iec-60364-4-41",
    "iec-60364-4-41-common",
    "iec-61558-ripple-free",
    "ripple-peak-proportion",
    "iec-low-voltage",
    "iso-6469-3",
    "osha-50-v",
    "touch-voltage-faults",
    "ratio-circuit",
  ],
  copied: { verdicts: ["Band in service", "Band after one fault"] },
  read: ({ feedTable: cells, askedFor: asked }): BandsCall => ({
    table: knownTable(cells).table,
    asked: askedFor(asked),
  }),
  calculate: ({ table, asked }): Bands => ({
    table,
    ...feedBands(table.feed, asked),
  }),
  cells: (bands) => [
    [...BANDS_COLUMNS],
    ...bands.items.map((item, row) => itemCells(item, bands, row)),
  ],
  caveats: ({ items, table }) =>
    items.flatMap((item, row) => ownCaveats(item, toldCaveats(table, row))),
  cellOf: ({ items }, row, column) => bandsStep(items, row - 1, BANDS_COLUMNS[column]),
  working: (_, { items }) => bandsWorkings(items),
});

/** What a number of an item's row is in its workings. */
function bandsStep(
  items: readonly ItemBands[],
  row: number,
  heading: (typeof BANDS_COLUMNS)[number] | undefined,
): ShownStep | undefined {
  const bands = items[row];
  const places = workingPlaces(items)[row];
  if (!bands || !places) return undefined;
  const { inService, inFault } = bands;
  const step = (working: number | undefined, name: string) =>
    working === undefined ? undefined : { working, step: name };
  switch (heading) {
    case "In service V":
      return step(places.voltages, "inService");
    case "After one fault V":
      return step(places.voltages, "afterFault");
    case "Margin in service":
      return step(places.inService, "marginPart");
    case "Margin after one fault":
      return step(places.afterFault, "marginPart");
    case "Limit V": {
      const found = inService.outcome === "determined" ? inService : inFault;
      if (found.outcome !== "determined") return undefined;
      return step(places.inService ?? places.afterFault, printedLimit(found));
    }
    default:
      return undefined;
  }
}

function itemCells(item: ItemBands, { limit, table }: Bands, row: number): Cell[] {
  const { normal, afterFault, inService, inFault, circuit } = item;
  return [
    item.item,
    normal.outcome === "determined" ? normal.voltage : NOT_DETERMINED,
    afterFault.outcome === "determined" ? afterFault.voltage : NOT_DETERMINED,
    bandCell(inService),
    bandCell(inFault),
    limit ?? NOT_DETERMINED,
    marginCell(inService),
    marginCell(inFault),
    faultCell(item),
    isolationCell(circuit),
    noteCell(item, table, row),
  ];
}

function bandCell(found: ItemBand | NoBand): Cell {
  return found.outcome === "determined" ? found.judgement.band.name : NOT_DETERMINED;
}

function marginCell(found: ItemBand | NoBand): Cell {
  return found.outcome === "determined" ? found.margin : NOT_DETERMINED;
}

function faultCell({ afterFault }: ItemBands): Cell {
  if (afterFault.outcome !== "determined") return NOT_DETERMINED;
  return afterFault.fault ? stageFaultText(afterFault.fault) : NONE;
}

function isolationCell(circuit: ItemBands["circuit"]): Cell {
  return circuit ? (circuit.isolation ?? NONE) : NOT_DETERMINED;
}

/** What the table says comes first, then why something is not determined; what holds for both voltages is said once. */
function noteCell(
  { item, inService, inFault, caveats }: ItemBands,
  table: FeedTable,
  row: number,
): string {
  const reasons = [inService, inFault].flatMap((found) =>
    found.outcome === "determined" ? [] : [reasonOf(found, item, table.fields)],
  );
  const text = (note: Caveat) => note.text;
  const texts = [...toldCaveats(table, row).map(text), ...reasons, ...caveats.map(text)];
  return [...new Set(texts)].join("; ");
}

function reasonOf({ why }: NoBand, item: string, fields: FeedTable["fields"]): string {
  return "reason" in why ? why.reason : rowReason({ item, ...why }, fields);
}

function ownCaveats({ item, caveats }: ItemBands, told: readonly Caveat[]): Caveat[] {
  return [...told, ...caveats].map((note) => ({ ...note, text: `${item}: ${note.text}` }));
}

export const chainBandsEntries = [chainBands];
