/** What is drawn of a budget: its single-line diagram, and the first of each picture that it has data for. */
import { feedItems } from "../../budgets/reading/feed-figures.js";
import type { FoundBudget } from "../../budgets/reading/found-budget.js";
import type { Host } from "../../hosts/host.js";
import { readPictures } from "../../pictures/picture-offers.js";
import { singleLine } from "../../pictures/single-line.js";
import { heading, paragraph, type ReportBlock } from "./blocks.js";

export function diagram(budget: FoundBudget): readonly ReportBlock[] {
  const picture = singleLine(feedItems(budget));
  return [
    heading("Single-line diagram"),
    picture ? { kind: "picture", id: "diagram", picture } : paragraph("No items are typed yet."),
  ];
}

export async function pictures(host: Host, budget: FoundBudget): Promise<readonly ReportBlock[]> {
  const read = await readPictures(host, budget);
  // It has a section of its own.
  const offers = read.offers.filter(({ id }) => id !== "diagram");
  if (offers.length + read.missing.length === 0) return [];
  const drawn = offers.flatMap(({ id, variants: [first] }): ReportBlock[] => {
    if (!first) return [];
    const { picture } = first;
    return [{ kind: "picture", id, picture, title: picture.title, caption: picture.alternative }];
  });
  return [
    heading("Pictures"),
    paragraph(read.solvedFor),
    ...drawn,
    ...read.missing.map((text) => paragraph(text)),
  ];
}
