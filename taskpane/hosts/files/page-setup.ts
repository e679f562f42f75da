/**
 * How a sheet is printed, alike for all: landscape, as wide as one page, its frozen rows on every page. ECMA-376 18.3.1.63,
 * 18.3.1.65 and 18.2.5 (from memory). What we write ourselves is nothing to lose when a file is read.
 */
import type { SheetSnapshot } from "./workbook-snapshot.js";
import { xml } from "./write/xml-writing.js";
import type { XmlElement } from "./read/xml-reading.js";

/** As many pages high as it takes. */
const USUAL = { orientation: "landscape", fitToHeight: "0" } as const;

export const PRINT_TITLES = "_xlnm.Print_Titles";

/** Without it the fit of `pageSetupText` counts for nothing. */
export function fitToPageText(): string {
  return xml("pageSetUpPr", { fitToPage: 1 });
}

export function pageSetupText(): string {
  return xml("pageSetup", USUAL);
}

export function isUsualPage({ name, attributes }: XmlElement): boolean {
  const given = Object.entries(attributes);
  return (
    name === "pageSetup" &&
    given.length === Object.keys(USUAL).length &&
    given.every(([key, value]) => USUAL[key as keyof typeof USUAL] === value)
  );
}

/** What the name of its title rows refers to; undefined where nothing is frozen. */
export function titleRows({ name, frozen }: SheetSnapshot): string | undefined {
  return frozen.rows === 0 ? undefined : `'${name.replaceAll("'", "''")}'!$1:$${frozen.rows}`;
}
