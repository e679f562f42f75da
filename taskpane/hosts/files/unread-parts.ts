/** What a file may hold that is not taken over, in the words of the list. */
import type { LeftOutList } from "./left-out.js";
import { isUsualPage } from "./page-setup.js";
import { childrenOf, type XmlElement } from "./read/xml-reading.js";

const BY_PART: readonly (readonly [RegExp, string])[] = [
  [/vbaproject|\/macrosheets\/|\/activex\//i, "macros (they are not run)"],
  [/\/externallinks\/externallink\d*\.xml$/i, "links to other files"],
  [/\/pivottables\/pivottable\d*\.xml$/i, "pivot tables (their values are kept)"],
  [/\/connections\.xml$|\/querytables\//i, "connections to outside data"],
  [/\/slicers\/|\/timelines\//i, "slicers"],
  [/\/embeddings\//i, "embedded files"],
  [/\/ctrlprops\//i, "buttons and other controls"],
  [/\/model\/item\.data/i, "data model"],
  [/richdata\/richvalue\.xml|\/rdrichvalue\.xml$/i, "pictures and rich data in cells"],
];

export function listUnreadParts(names: readonly string[], leftOut: LeftOutList): void {
  for (const name of names)
    for (const [pattern, what] of BY_PART) if (pattern.test(`/${name}`)) leftOut.add(what);
}

/** Elements of a sheet that are read elsewhere, or have nothing to lose. */
const QUIET = new Set([
  "sheetPr",
  "dimension",
  "sheetViews",
  "sheetFormatPr",
  "sheetCalcPr",
  "cols",
  "sheetData",
  "mergeCells",
  "phoneticPr",
  "conditionalFormatting",
  "dataValidations",
  "printOptions",
  "pageMargins",
  "ignoredErrors",
  "drawing",
  "legacyDrawing",
  "extLst",
]);

const BY_ELEMENT: Readonly<Record<string, string>> = {
  sheetProtection: "sheet protection",
  protectedRanges: "sheet protection",
  autoFilter: "filters",
  sortState: "filters",
  hyperlinks: "links on cells (their text is kept)",
  pageSetup: "page setup for printing",
  headerFooter: "page setup for printing",
  rowBreaks: "page setup for printing",
  colBreaks: "page setup for printing",
  tableParts: "tables (their cells are kept)",
  scenarios: "scenarios",
  dataConsolidate: "consolidations",
  picture: "background pictures",
  legacyDrawingHF: "page setup for printing",
  oleObjects: "embedded files",
  controls: "buttons and other controls",
  customSheetViews: "views of single users",
  webPublishItems: "publishing on the web",
  sparklineGroups: "sparklines",
  dataValidations: "validations of types that the workbench does not support",
};

export function listUnreadElements(root: XmlElement, sheet: string, leftOut: LeftOutList): void {
  for (const child of root.children) {
    const { name } = child;
    if (!QUIET.has(name) && !isUsualPage(child))
      leftOut.add(BY_ELEMENT[name] ?? `parts of a sheet called ${name}`, sheet);
  }
  const extensions = childrenOf(root, "extLst")
    .flatMap((list) => childrenOf(list, "ext"))
    .flatMap(({ children }) => children);
  for (const extension of extensions) {
    if (extension.name === "conditionalFormattings") {
      if (!onlyDressesBars(extension))
        leftOut.add("conditional formats of types that the workbench does not support", sheet);
    } else
      leftOut.add(BY_ELEMENT[extension.name] ?? `parts of a sheet called ${extension.name}`, sheet);
  }
}

/** What an extension says of a bar beyond the bar itself is how it is painted. */
function onlyDressesBars(extension: XmlElement): boolean {
  return childrenOf(extension, "conditionalFormatting").every((format) =>
    childrenOf(format, "cfRule").every(({ attributes }) => attributes["type"] === "dataBar"),
  );
}
