/** What is drawn of a budget: its single-line diagram, and the first of each picture that it has data for. */
import { heading, paragraph, text } from "../../functions/documents/markup.js";
import { feedItems } from "../budgets/reading/feed-figures.js";
import type { FoundBudget } from "../budgets/reading/found-budget.js";
import type { Host } from "../hosts/host.js";
import { drawingPart } from "../pictures/parts/drawing.js";
import { SHEET_PALETTE } from "../pictures/parts/palettes.js";
import type { Picture } from "../pictures/parts/picture.js";
import { svgText } from "../pictures/parts/svg-parts.js";
import { readPictures } from "../pictures/picture-offers.js";
import { singleLine } from "../pictures/single-line.js";

const WIDTH = 660;

export function diagram(budget: FoundBudget): string {
  const picture = singleLine(feedItems(budget));
  return [
    heading(2, "Single-line diagram"),
    picture ? `<figure>${drawn(picture, "report")}</figure>` : paragraph("No items are typed yet."),
  ].join("\n");
}

export async function pictures(host: Host, budget: FoundBudget): Promise<string> {
  const read = await readPictures(host, budget);
  // It has a section of its own.
  const offers = read.offers.filter(({ id }) => id !== "diagram");
  if (offers.length === 0) return "";
  const figures = offers.flatMap(({ id, variants: [first] }) =>
    first
      ? [
          `<figure><h3>${text(first.picture.title)}</h3>${drawn(first.picture, `report-${id}`)}<figcaption>${text(first.picture.alternative)}</figcaption></figure>`,
        ]
      : [],
  );
  return [heading(2, "Pictures"), paragraph(read.solvedFor), ...figures].join("\n");
}

function drawn(picture: Picture, stem: string): string {
  return svgText(drawingPart(picture, { width: WIDTH, palette: SHEET_PALETTE, stem }));
}
