/** The report as a sheet that is made to be printed, for a spreadsheet that opens no page of a browser. */
import type { WorkbookPlan } from "../../../src/plans/sheet-plan.js";
import { issueWords } from "../../words/issue-words.js";
import { words as said } from "../../words/words.js";
import type { Report, ReportBlock } from "../content/blocks.js";
import { placePicture } from "./placed-picture.js";
import { placeTable, roomToBegin } from "./placed-table.js";
import { COLUMN_WIDTHS, SCALE, SheetPages } from "./sheet-pages.js";

export function reportPlan({ title, foot, fingerprint, sections }: Report): WorkbookPlan {
  const pages = new SheetPages();
  sections.forEach(({ blocks }, index) => {
    if (index > 0) pages.endPage();
    blocks.forEach((block, at) => placeBlock(pages, block, blocks[at + 1]));
  });
  const { cells, merges, pictures, breaks } = pages;
  return {
    id: "report",
    title: said.handOver.reportOf(title),
    stem: "Report",
    names: [],
    sheets: [
      {
        key: "report",
        name: said.handOver.reportSheetName,
        columnWidths: COLUMN_WIDTHS,
        frozenRows: 0,
        cells,
        merges,
        validations: [],
        conditionalFormats: [],
        pictures,
        print: {
          scale: SCALE,
          breaks,
          head: title,
          foot: { left: foot, right: issueWords.printedFingerprint(fingerprint) },
        },
      },
    ],
  };
}

/** @param next What follows it: a heading never ends a page. */
function placeBlock(pages: SheetPages, block: ReportBlock, next: ReportBlock | undefined): void {
  switch (block.kind) {
    case "title":
      return pages.line(block.text, "title");
    case "heading":
      pages.gap();
      return pages.line(block.text, "heading", roomFor(next));
    case "subheading":
      return pages.line(block.text, "caption", roomFor(next));
    case "paragraph":
      return pages.line(block.text, "text");
    case "list":
      for (const item of block.items) pages.line(`– ${item}`, "text");
      return;
    case "table":
      return placeTable(pages, block);
    case "picture":
      return placePicture(pages, block);
  }
}

/** In pixels, of what must stand on the same page as the heading above it. */
function roomFor(next: ReportBlock | undefined): number {
  switch (next?.kind) {
    case "picture":
      return SheetPages.PICTURE;
    case "table":
      return roomToBegin(next);
    default:
      return SheetPages.FEW_ROWS;
  }
}
