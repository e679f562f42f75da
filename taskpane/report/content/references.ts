/** Sources of a report: a number beside each figure, the sources and their standing once, in the appendix. */
import { heading, numberText, paragraph, type ReportBlock, table, words } from "./blocks.js";

const STANDING = / \((seen second-hand|from memory|common practice, no source)\)$/;

export class References {
  private readonly cited = new Map<string, { readonly work: string; readonly standing: string }>();

  /** `[3]`, the same for the same source; "" where none is given. */
  mark(line: string): string {
    if (line === "") return "";
    const work = line.replace(STANDING, "");
    if (!this.cited.has(work))
      this.cited.set(work, { work, standing: STANDING.exec(line)?.[1] ?? "seen" });
    return `[${[...this.cited.keys()].indexOf(work) + 1}]`;
  }

  /** All that was marked so far. */
  appendix(): readonly ReportBlock[] {
    const rows = [...this.cited.values()].map(({ work, standing }, index) => [
      numberText(`[${index + 1}]`),
      words(work),
      words(standing),
    ]);
    return [
      heading("Citations"),
      paragraph(
        "Standing says whether a figure was read in the work itself, on a page that reproduces it, or written down from memory: read the work before relying on the last two.",
      ),
      table({
        caption: "Sources by the number beside each figure",
        head: ["No.", "Source", "Standing"],
        rows,
      }),
    ];
  }
}
