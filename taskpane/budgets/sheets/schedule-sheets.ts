/** The sheets on which a feed is typed: Feed, Loads, Types. */
import type { SheetPlan } from "../../../src/plans/sheet-plan.js";
import { widthFor } from "../../../src/plans/sheet-builder.js";
import type { Places, ScheduleSheet } from "../places.js";
import { sheetPlan } from "./sheet.js";

const SHEETS: Readonly<
  Record<ScheduleSheet, { readonly name: string; readonly subtitle: string }>
> = {
  feed: {
    name: "Feed",
    subtitle:
      "Supplies, stages, cables and what else is in line, each with the name of what feeds it. Typed cells are framed and blue on yellow; a formula is welcome in them.",
  },
  loads: {
    name: "Loads",
    subtitle:
      "What is fed: figures of one, before the margin. A column that begins with # is your own: it is carried, not read.",
  },
  types: {
    name: "Types",
    subtitle:
      "Where things are, and what stages are, each typed once; in Spread what varies beside the Tolerance of an item's own row. A unit in a header's brackets converts: mV, kV, mA, kA, kW, mm, km, ft, g.",
  },
};

const OTHER_COLUMNS = 40;

export function scheduleSheet(places: Places, key: ScheduleSheet): SheetPlan {
  const blocks = places.blocks.filter(({ sheet }) => sheet === key);
  const names = blocks.flatMap(({ names: typed }) => typed);
  return sheetPlan(places, {
    key,
    ...SHEETS[key],
    columnWidths: [
      widthFor(190, names),
      ...(key === "types" ? [40, 40] : [widthFor(150, names), 130]),
      ...Array.from({ length: OTHER_COLUMNS }, () => 104),
    ],
    cells: blocks.flatMap((block) => block.cells()),
    validations: blocks.flatMap((block) => block.validations(places.offers)),
    conditionalFormats: blocks.flatMap((block) => block.rules()),
  });
}
