/** The pictures that a budget has data for, read from its sheets through the host. */
import { type Cell, isCellTable } from "../../functions/downfeed.js";
import { answersOf } from "../../functions/working/lines/call-answer.js";
import type { FormulaTree } from "../../functions/working/lines/call-tree.js";
import { rangePlace, cellAddress } from "../../src/plans/addresses.js";
import { textOf } from "../budgets/reading/range-table.js";
import type { FoundBudget, ReadRange } from "../budgets/reading/found-budget.js";
import { feedItems } from "../budgets/reading/feed-figures.js";
import { readBudgetSheets, type ReadingHost } from "../workbook/budget-copying.js";
import type { RangeContent } from "../hosts/host.js";
import { words } from "../words/words.js";
import { askedBands } from "./asked-bands.js";
import { callReadings } from "./call-readings.js";
import { comparisonPictures } from "./comparison/comparison-picture.js";
import { volts } from "./parts/figures.js";
import { lossSweepPicture } from "./loss-sweep.js";
import type { OfferedPictures, Picture, PictureOffer, PictureVariant } from "./parts/picture.js";
import { isMeshed, onlySupply, solvedFeed, type SolvedItem } from "./solved-feed.js";
import { singleLine } from "./single-line.js";
import { efficiencyPictures } from "./stage-efficiency.js";
import { typePictures } from "./stage-types.js";
import { type ItemOf, sharePictures, worstConverterPictures } from "./converter-share.js";
import { voltagePaths } from "./voltage-path.js";
import { spreadPictures } from "./spread/spread-picture.js";
import { tornadoPictures } from "./spread/tornado-picture.js";
import { wattFlow } from "./watt-flow.js";

/** @param others Budgets that it is compared with. */
export async function readPictures(
  host: ReadingHost,
  budget: FoundBudget,
  others: readonly FoundBudget[] = [],
): Promise<OfferedPictures> {
  const items = solvedFeed(budget);
  if (!items) return { solvedFor: "", offers: [], missing: [] };
  const { contents, trees } = await readBudgetSheets(host, budget);
  const loads = solvedLoads(budget.ranges["Solved"], trees);
  const supply = onlySupply(items);
  const offers = [
    ...pictureOffers(budget, items, loads, contents, trees),
    { id: "comparison" as const, variants: comparisonPictures(budget, others) },
  ];
  return {
    solvedFor: words.pictures.solvedFor(
      String(loads ?? DEFAULT_LOADS),
      supply && volts(supply.inputVoltage),
    ),
    offers: offers.filter(({ variants }) => variants.length > 0),
    missing: offers.flatMap(({ variants, missing }) =>
      variants.length === 0 && missing !== undefined ? [missing] : [],
    ),
  };
}

/** What CHAIN_SOLVE takes where it is not told. */
const DEFAULT_LOADS = "nominal";

function pictureOffers(
  budget: FoundBudget,
  items: readonly SolvedItem[],
  loads: Cell | undefined,
  contents: readonly RangeContent[],
  trees: ReadonlyMap<string, FormulaTree>,
): PictureOffer[] {
  const feed = budget.ranges["Feed"];
  const itemOf = itemByRow(items, contents);
  const readings = (id: string) => callReadings(trees.values(), id);
  return [
    { id: "diagram", variants: alone(singleLine(feedItems(budget))) },
    { id: "watts", variants: alone(isMeshed(items) ? undefined : wattFlow(items)) },
    { id: "voltage", variants: voltagePaths(items, askedBands(budget)) },
    {
      id: "sweep",
      variants: alone(
        feed && loads !== undefined ? lossSweepPicture(items, { feed, loads }) : undefined,
      ),
    },
    { id: "tornado", ...tornadoPictures(budget) },
    { id: "spread", ...spreadPictures(budget) },
    {
      id: "share",
      variants: sharePictures(readings("PARALLEL_SHARE"), itemOf),
    },
    {
      id: "worst",
      variants: worstConverterPictures(readings("PARALLEL_WORST"), itemOf),
    },
    {
      id: "efficiency",
      variants: [
        ...typePictures(budget.ranges["Types"]),
        ...efficiencyPictures(readings("STAGE_FIT")),
      ],
    },
  ];
}

function alone(picture: Picture | undefined): PictureVariant[] {
  return picture ? [{ name: picture.title, picture }] : [];
}

/** What the call that spills the solved rows is asked for: light, nominal or peak. */
function solvedLoads(
  solved: ReadRange | undefined,
  trees: ReadonlyMap<string, FormulaTree>,
): Cell | undefined {
  if (!solved) return undefined;
  const { top, left } = rangePlace(solved.address);
  const anchor = cellAddress({ row: top, column: left });
  const tree = trees.get(`${solved.sheet}!${anchor}`);
  const call = tree && [...answersOf(tree).values()].find(({ call }) => call.id === "CHAIN_SOLVE");
  if (!call) return undefined;
  const given = call.args[1];
  return (isCellTable(given) ? given[0]?.[0] : given) ?? null;
}

/** Arguments that stand in the row of one item alone are about it: the budget's tables begin with its name. */
function itemByRow(items: readonly SolvedItem[], contents: readonly RangeContent[]): ItemOf {
  const byName = new Map(items.map((item) => [item.item.trim().toLowerCase(), item]));
  return ({ references }) => {
    const found = new Set<SolvedItem>();
    for (const { sheet, address } of references) {
      const { top, bottom } = rangePlace(address);
      const content = contents.find(({ range }) => range.sheet === sheet);
      const name = textOf(content?.values[top]?.[0]);
      const item = byName.get(name.toLowerCase());
      if (item && top === bottom) found.add(item);
    }
    const [only] = found;
    return found.size === 1 ? only : undefined;
  };
}
