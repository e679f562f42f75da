/** The parts of a small workbook as another program might write them, to be changed one at a time. */
import { rawZip, textBytes } from "./raw-zip.js";

export type MadeParts = Readonly<Record<string, string | Uint8Array>>;

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const PACKAGE = "http://schemas.openxmlformats.org/package/2006/relationships";

export function relationships(
  ...each: readonly (readonly [id: string, type: string, target: string, mode?: string])[]
): string {
  const written = each.map(
    ([id, type, target, mode]) =>
      `<Relationship Id="${id}" Type="${OFFICE}/${type}" Target="${target}"${mode ? ` TargetMode="${mode}"` : ""}/>`,
  );
  return `<Relationships xmlns="${PACKAGE}">${written.join("")}</Relationships>`;
}

export function sheetXml(rows: string, after = "", before = ""): string {
  return `<worksheet xmlns="${MAIN}" xmlns:r="${OFFICE}">${before}<sheetData>${rows}</sheetData>${after}</worksheet>`;
}

export function oneRow(cells: string): string {
  return sheetXml(`<row r="1">${cells}</row>`);
}

export function workbookXml(names: readonly string[], after = ""): string {
  const sheets = names.map(
    (name, index) => `<sheet name="${name}" sheetId="${index + 1}" r:id="rId${index + 1}"/>`,
  );
  return `<workbook xmlns="${MAIN}" xmlns:r="${OFFICE}"><sheets>${sheets.join("")}</sheets>${after}</workbook>`;
}

export const SHEET = "xl/worksheets/sheet1.xml";
export const WORKBOOK = "xl/workbook.xml";
export const WORKBOOK_RELATIONS = "xl/_rels/workbook.xml.rels";

const GOOD: MadeParts = {
  "[Content_Types].xml":
    '<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="xml" ContentType="application/xml"/></Types>',
  "_rels/.rels": relationships(["rId1", "officeDocument", "xl/workbook.xml"]),
  [WORKBOOK]: workbookXml(["Run"]),
  [WORKBOOK_RELATIONS]: relationships(
    ["rId1", "worksheet", "worksheets/sheet1.xml"],
    ["rId9", "sharedStrings", "sharedStrings.xml"],
  ),
  "xl/sharedStrings.xml": `<sst xmlns="${MAIN}"><si><t>Length</t></si><si><t>=1+1</t></si></sst>`,
  [SHEET]: sheetXml(
    '<row r="1"><c r="A1" t="s"><v>0</v></c><c r="B1"><v>350</v></c></row><row r="2"><c r="A2"><f>B1*2</f><v>700</v></c></row>',
  ),
};

/** Without what is set to "". */
export function madeParts(changed: MadeParts = {}): MadeParts {
  return Object.fromEntries(
    Object.entries({ ...GOOD, ...changed }).filter(([, part]) => part !== ""),
  );
}

export function packed(parts: MadeParts): Uint8Array {
  return rawZip(
    Object.entries(parts).map(([name, part]) => ({
      name,
      data: typeof part === "string" ? textBytes(part) : part,
    })),
  );
}

export function madeFile(changed: MadeParts = {}): Uint8Array {
  return packed(madeParts(changed));
}
