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
/** The longest word of a heading fits. */
const OTHER_WIDTH = 124;
/** Beside a word, of the list that its cell offers. */
const ARROW = 18;

export function scheduleSheet(places: Places, key: ScheduleSheet): SheetPlan {
  const blocks = places.blocks.filter(({ sheet }) => sheet === key);
  const wide = (least: number, place: number) => {
    const words = blocks.flatMap((block) => block.wordsIn(place));
    return place === 0 ? widthFor(least, words) : Math.max(least, widthFor(0, words) + ARROW);
  };
  return sheetPlan(places, {
    key,
    ...SHEETS[key],
    columnWidths: [
      wide(190, 0),
      ...(key === "types" ? [40, 40] : [wide(150, 1), wide(130, 2)]),
      wide(OTHER_WIDTH, 3),
      ...Array.from({ length: OTHER_COLUMNS }, () => OTHER_WIDTH),
    ],
    cells: blocks.flatMap((block) => block.cells()),
    validations: blocks.flatMap((block) => block.validations(places.offers)),
    conditionalFormats: blocks.flatMap((block) => block.rules()),
  });
}
