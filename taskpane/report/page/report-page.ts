/** The report as one page for a browser, which prints it on A4 or Letter. */
import { list, text } from "../../../functions/documents/markup.js";
import { drawingPart } from "../../pictures/parts/drawing.js";
import { SHEET_PALETTE } from "../../pictures/parts/palettes.js";
import { svgText } from "../../pictures/parts/svg-parts.js";
import { issueWords } from "../../words/issue-words.js";
import type { Report, ReportBlock, ReportSection } from "../content/blocks.js";
import { reportStyle } from "./page-style.js";
import { LANDSCAPE, phrase, PORTRAIT, tableMarkup } from "./page-table.js";

const PICTURE_WIDTH = 660;

/** HTML as text; it asks for nothing from anywhere. */
export function reportPage({ title, foot, fingerprint, sections }: Report): string {
  const body = sections.map(sectionMarkup).join("\n");
  return `<!doctype html>
<html lang="en"><head><meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>${text(title)}</title><style>${reportStyle(foot, issueWords.printedFingerprint(fingerprint))}</style></head>
<body><main>
${body}
</main></body></html>`;
}

export function sectionMarkup({ kind, blocks }: ReportSection): string {
  const room = kind === "across" ? LANDSCAPE : PORTRAIT;
  return `<section class="${kind}">\n${blocks.map((block) => blockMarkup(block, room)).join("\n")}\n</section>`;
}

function blockMarkup(block: ReportBlock, room: number): string {
  switch (block.kind) {
    case "title":
      return `<h1>${text(block.text)}</h1>`;
    case "heading":
      return `<h2>${text(block.text)}</h2>`;
    case "subheading":
      return `<h3>${phrase(block.text)}</h3>`;
    case "paragraph":
      return `<p>${text(block.text)}</p>`;
    case "list":
      return list(block.items);
    case "table":
      return tableMarkup(block, room);
    case "picture": {
      const { id, picture, title, caption } = block;
      const surface = { width: PICTURE_WIDTH, palette: SHEET_PALETTE, stem: `report-${id}` };
      const named = title === undefined ? "" : `<h3>${text(title)}</h3>`;
      const told = caption === undefined ? "" : `<figcaption>${text(caption)}</figcaption>`;
      return `<figure>${named}${svgText(drawingPart(picture, surface))}${told}</figure>`;
    }
  }
}
