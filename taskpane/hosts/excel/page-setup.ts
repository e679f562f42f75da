/** How a sheet is printed: fitted to the width of a page, or as its plan divides it into pages. */
import type { SheetPlan } from "../../../src/plans/sheet-plan.js";

/** In points, half an inch at the sides; below, room for the foot. */
const MARGINS = {
  leftMargin: 36,
  rightMargin: 36,
  topMargin: 43,
  bottomMargin: 51,
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
  everyPage.leftFooter = plainFoot(print.foot.left);
  everyPage.rightFooter = `${plainFoot(print.foot.right)} · Page &P of &N`;
  for (const row of print.breaks) sheet.horizontalPageBreaks.add(`A${row + 1}`);
}

/** An ampersand begins a code in the foot of a page. */
function plainFoot(text: string): string {
  return text.replaceAll("&", "&&");
}
