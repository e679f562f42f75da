/** Workbook files put together part by part, as another program, or an enemy, might write them. */
import { strToU8, zipSync, type Zippable } from "fflate";

export interface RawSheet {
  readonly name: string;
  /** The whole part. */
  readonly xml: string;
}

export interface RawFile {
  readonly sheets: readonly RawSheet[];
  /** Instead of or beside the usual parts. */
  readonly more?: Readonly<Record<string, Uint8Array>>;
  /** Inside the workbook's part, after its sheets. */
  readonly inWorkbook?: string;
}

const HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>';
const MAIN =
  'xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"';
const RELATIONS =
  "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const PACKAGE = "http://schemas.openxmlformats.org/package/2006";

export function rawSheet(name: string, inside: string): RawSheet {
  return { name, xml: `${HEAD}<worksheet ${MAIN}>${inside}</worksheet>` };
}

/** With rows as XML. */
export function rowsSheet(name: string, rows: string): RawSheet {
  return rawSheet(name, `<sheetData>${rows}</sheetData>`);
}

export function emptySheet(name: string): RawSheet {
  return rowsSheet(name, "");
}

export function relations(
  ...items: readonly (readonly [type: string, target: string])[]
): Uint8Array {
  const written = items.map(
    ([type, target], index) =>
      `<Relationship Id="rId${index + 1}" Type="${RELATIONS}/${type}" Target="${target}"/>`,
  );
  return strToU8(
    `${HEAD}<Relationships xmlns="${PACKAGE}/relationships">${written.join("")}</Relationships>`,
  );
}

export function fileParts({
  sheets,
  more = {},
  inWorkbook = "",
}: RawFile): Record<string, Uint8Array> {
  const listed = sheets.map(
    ({ name }, index) =>
      `<sheet name="${name}" sheetId="${index + 1}" r:id="rId${index + 1}"/>`,
  );
  const parts = sheets.map(
    ({ xml }, index) =>
      [`xl/worksheets/sheet${index + 1}.xml`, strToU8(xml)] as const,
  );
  return {
    "[Content_Types].xml": strToU8(
      `${HEAD}<Types xmlns="${PACKAGE}/content-types"><Default Extension="xml" ContentType="application/xml"/></Types>`,
    ),
    "_rels/.rels": relations(["officeDocument", "xl/workbook.xml"]),
    "xl/workbook.xml": strToU8(
      `${HEAD}<workbook ${MAIN}><sheets>${listed.join("")}</sheets>${inWorkbook}</workbook>`,
    ),
    "xl/_rels/workbook.xml.rels": relations(
      ...sheets.map(
        (_, index) =>
          ["worksheet", `worksheets/sheet${index + 1}.xml`] as const,
      ),
      ["sharedStrings", "sharedStrings.xml"],
      ["styles", "styles.xml"],
    ),
    ...Object.fromEntries(parts),
    ...more,
  };
}

export function packedFile(file: RawFile): Uint8Array {
  return packedParts(fileParts(file));
}

export function packedParts(parts: Zippable): Uint8Array {
  return zipSync(parts, { level: 6, mtime: new Date(1980, 0, 1) });
}
