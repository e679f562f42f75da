/** Feeds with figures to vary, and what searches them, as one module for a script. */
import type { Cell } from "../../functions/cells.js";
import type { CellChange, TypedVariation } from "../../functions/tradeoffs/varied-blocks.js";
import type { TypedFeed } from "../../tests/feeds/typed-feed.js";
import { trackside } from "../../tests/feeds/trackside.js";
import { umbilical } from "../../tests/feeds/umbilical.js";

export { requirementsOf } from "../../functions/reading/asked-for.js";
export { changedBlocks, variedFeed } from "../../functions/tradeoffs/varied-blocks.js";
export { FeedSearch } from "../../src/tradeoffs/feed-search.js";
export { tallied } from "../../src/tradeoffs/left-out.js";
export { SearchRounds } from "../../src/tradeoffs/search-rounds.js";
export { choicesAt } from "../../src/tradeoffs/varied-feed.js";

function varied(
  block: CellChange["block"],
  row: string,
  header: string,
  values: readonly Cell[],
): TypedVariation {
  return {
    name: `${header} of ${row}`,
    choices: values.map((value) => ({
      name: String(value),
      cells: [{ block, row, header, value }],
    })),
  };
}

function numbers(from: number, to: number, step: number): number[] {
  return Array.from({ length: Math.round((to - from) / step) + 1 }, (_, at) => from + at * step);
}

/** With a mass for each type of stages, so that it can be traded, and no margin beyond the windows, so that some hold. */
function weighed(feed: TypedFeed): TypedFeed {
  return {
    askedFor: feed.askedFor.map((row) =>
      row[0] === "Margin to each window" ? [row[0], 0, ...row.slice(2)] : row,
    ),
    blocks: feed.blocks.map(([headers = [], ...rows]) =>
      headers[0] === "Stage type"
        ? [[...headers, "Mass (kg)"], ...rows.map((row) => [...row, row[0] === null ? null : 2])]
        : [headers, ...rows],
    ),
  };
}

export function feeds(sizes: readonly string[]) {
  return {
    "the trackside cabinet": {
      ...weighed(trackside()),
      variations: [
        varied("Supply", "Traction tap", "Voltage", numbers(600, 900, 25)),
        varied("Cable", "Trackside cable", "Size", sizes),
        varied("Cable", "Point cable", "Size", sizes),
        varied("Stage", "Cabinet bus", "In parallel", [2, 3, 4]),
        varied("Stage type", "Bus 16", "Steps down by", [14, 15, 16, 17, 18]),
      ],
    },
    "the umbilical": {
      ...weighed(umbilical()),
      variations: [
        varied("Cable", "Jumper", "Size", sizes),
        varied("Supply", "Topside supply", "Voltage", numbers(960, 1040, 4)),
        varied("Stage", "Main stage", "In parallel", [2, 3]),
        varied("Stage type", "Main 10", "Steps down by", numbers(8, 12, 0.5)),
      ],
    },
  };
}
