/** How a sheet is printed: fitted to the width of a page, or as its plan divides it into pages. */
import type { SheetPlan } from "../../../src/plans/sheet-plan.js";

/** In points, half an inch at the sides; above and below, room for head and foot. */
const MARGINS = {
  leftMargin: 36,
  rightMargin: 36,
  topMargin: 43,
  bottomMargin: 51,
  headerMargin: 20,
  footerMargin: 24,
} as const;

export function setUpPages(sheet: Excel.Worksheet, { frozenRows, print }: SheetPlan): void {
  const { pageLayout } = sheet;
  pageLayout.orientation = "Landscape";
  if (frozenRows > 0) pageLayout.setPrintTitleRows(`$1:$${frozenRows}`);
  if (print === undefined) {
    pageLayout.zoom = { horizontalFitToPages: 1 };
    return;
  }
  // A sheet that is fitted to pages ignores the breaks that it is given.
  pageLayout.zoom = { scale: print.scale };
  for (const [margin, points] of Object.entries(MARGINS))
    pageLayout[margin as keyof typeof MARGINS] = points;
  const { defaultForAllPages: everyPage } = pageLayout.headersFooters;
  everyPage.leftHeader = plainText(print.head);
  everyPage.rightHeader = PAGE;
  everyPage.leftFooter = plainText(print.foot.left);
  everyPage.rightFooter = `${plainText(print.foot.right)} · ${PAGE}`;
  for (const row of print.breaks) sheet.horizontalPageBreaks.add(`A${row + 1}`);
}

const PAGE = "Page &P of &N";

/** An ampersand begins a code in the head or foot of a page. */
function plainText(text: string): string {
  return text.replaceAll("&", "&&");
}
