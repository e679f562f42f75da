/** Files that are broken, or made to do harm, and what is to become of each. Made when they are asked for. */
import { FILE_LIMITS } from "../../../taskpane/hosts/files/file-limits.js";
import {
  madeFile,
  madeParts,
  oneRow,
  relationships,
  SHEET,
  sheetXml,
  WORKBOOK,
  WORKBOOK_RELATIONS,
  workbookXml,
} from "./made-workbook.js";
import { type RawEntry, rawZip, textBytes } from "./raw-zip.js";

export interface HostileFile {
  readonly name: string;
  readonly bytes: () => Uint8Array;
  /** Said to the user, or else in the list of what was left out; nothing where all is kept. */
  readonly refused?: RegExp;
  readonly leftOut?: RegExp;
}

/** Evenly spread, the same every time (Numerical Recipes' quick generator). */
export function chance(seed: number): (below: number) => number {
  let state = seed >>> 0;
  return (below) => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return Math.floor((state / 2 ** 32) * below);
  };
}

function noise(length: number, seed: number): Uint8Array {
  const next = chance(seed);
  return Uint8Array.from({ length }, () => next(256));
}

function withStart(start: readonly number[], bytes: Uint8Array): Uint8Array {
  bytes.set(start);
  return bytes;
}

function entries(changed = {}): readonly RawEntry[] {
  return Object.entries(madeParts(changed)).map(([name, part]) => ({
    name,
    data: typeof part === "string" ? textBytes(part) : part,
  }));
}

const DAMAGED = /^The file is damaged: /;
const NO_WORKBOOK = /not an \.xlsx workbook/;

const notPacked: readonly HostileFile[] = [
  { name: "an empty file", bytes: () => new Uint8Array(), refused: /empty/ },
  { name: "chance bytes", bytes: () => noise(4_096, 1), refused: NO_WORKBOOK },
  {
    name: "chance bytes that begin as a packed file",
    bytes: () => withStart([0x50, 0x4b, 3, 4], noise(4_096, 2)),
    refused: NO_WORKBOOK,
  },
  {
    name: "a table of text",
    bytes: () => textBytes("Length;Drop\n350;20,7\n"),
    refused: NO_WORKBOOK,
  },
  {
    name: "an old or password-protected workbook called .xlsx",
    bytes: () => withStart([0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1], new Uint8Array(2_048)),
    refused: /password|\.xls format/,
  },
  {
    name: "a file of 21 MB",
    bytes: () => noise(21_000_000, 3),
    refused: /20,000,000 bytes/,
  },
];

/** A part of zeros, which packs to a thousandth. */
function zeros(megabytes: number): Uint8Array {
  return new Uint8Array(megabytes * 1_000_000);
}

const badlyPacked: readonly HostileFile[] = [
  {
    name: "half a file",
    bytes: () => {
      const whole = madeFile();
      return whole.subarray(0, whole.length / 2);
    },
    refused: NO_WORKBOOK,
  },
  {
    name: "a file that lacks its last bytes",
    bytes: () => madeFile().subarray(0, -9),
    refused: NO_WORKBOOK,
  },
  {
    name: "a file that lacks its beginning",
    bytes: () => madeFile().subarray(40),
    refused: DAMAGED,
  },
  {
    name: "a table of contents that names more than it holds",
    bytes: () => rawZip(entries(), 60),
    refused: /table of contents/,
  },
  {
    name: "2,001 parts",
    bytes: () =>
      rawZip([
        ...entries(),
        ...Array.from({ length: 2_001 }, (_, index) => ({
          name: `xl/media/${index}.txt`,
          data: textBytes(""),
        })),
      ]),
    refused: /2,000 parts/,
  },
  ...(
    [
      ["a size that is too small", { size: 10 }, DAMAGED],
      ["a size that is too large", { size: 4_000_000 }, DAMAGED],
      ["a wrong checksum", { checksum: 1 }, DAMAGED],
      ["an unknown way of packing", { method: 12 }, DAMAGED],
      ["bytes said to be stored as they are", { method: 0 }, DAMAGED],
      ["an encrypted part", { flags: 1 }, /encrypted/],
      ["a size for very large files", { size: 0xffffffff }, /very large/],
      ["a part over another", { sameAs: 0 }, DAMAGED],
    ] as const
  ).map(([name, says, refused]) => ({
    name,
    bytes: () =>
      rawZip(entries().map((entry) => (entry.name === SHEET ? { ...entry, says } : entry))),
    refused,
  })),
  ...[
    SHEET,
    SHEET.toUpperCase(),
    "../../outside.xml",
    "/etc/absolute.xml",
    "xl\\..\\..\\outside.xml",
    "C:/outside.xml",
    "xl/./sheet.xml",
  ].map((name, index) => ({
    name: `a part called ${name}${index < 2 ? " twice" : ""}`,
    bytes: () => rawZip([...entries(), { name, data: textBytes("<x/>") }]),
    refused: index < 2 ? /is in it twice/ : /contains an unsafe path/,
  })),
  {
    name: "one part that unpacks to 210 MB",
    bytes: () => rawZip([...entries(), { name: "xl/media/a.bin", data: zeros(210) }]),
    refused: /200 MB/,
  },
  {
    name: "five parts that unpack to 250 MB together, and say 1 kB each",
    bytes: () => {
      const data = zeros(50);
      const bombs = [1, 2, 3, 4, 5].map((index) => ({
        name: `xl/media/${index}.bin`,
        data,
      }));
      return rawZip([...entries(), ...bombs]);
    },
    refused: /200 MB/,
  },
  {
    name: "a part that unpacks to 100 MB and says 1 kB",
    bytes: () =>
      rawZip([...entries(), { name: "xl/media/a.bin", data: zeros(100), says: { size: 1_000 } }]),
    refused: DAMAGED,
  },
];

const notWorkbooks: readonly HostileFile[] = [
  {
    name: "a packed folder",
    bytes: () => rawZip([{ name: "read me.txt", data: textBytes("hello") }]),
    refused: NO_WORKBOOK,
  },
  {
    name: "a text document",
    bytes: () => madeFile({ [WORKBOOK]: "<document><body/></document>" }),
    refused: NO_WORKBOOK,
  },
  {
    name: "no workbook where there should be one",
    bytes: () => madeFile({ [WORKBOOK]: "" }),
    refused: NO_WORKBOOK,
  },
  {
    name: "a binary workbook",
    bytes: () =>
      madeFile({
        "_rels/.rels": relationships(["r", "officeDocument", "xl/workbook.bin"]),
      }),
    refused: /\.xlsb/,
  },
  {
    name: "a workbook outside the file",
    bytes: () =>
      madeFile({
        "_rels/.rels": relationships([
          "r",
          "officeDocument",
          "https://example.org/a.xml",
          "External",
        ]),
      }),
    refused: NO_WORKBOOK,
  },
  {
    name: "no sheets",
    bytes: () => madeFile({ [WORKBOOK]: workbookXml([]) }),
    refused: /no sheet/,
  },
  {
    name: "a missing sheet",
    bytes: () => madeFile({ [SHEET]: "" }),
    refused: /Run is missing/,
  },
  {
    name: "a sheet outside the file",
    bytes: () =>
      madeFile({
        [WORKBOOK_RELATIONS]: relationships([
          "rId1",
          "worksheet",
          "file:///etc/passwd",
          "External",
        ]),
      }),
    refused: /Run is missing/,
  },
  {
    name: "two sheets of one name",
    bytes: () => madeFile({ [WORKBOOK]: workbookXml(["Run", "RUN"]) }),
    refused: DAMAGED,
  },
  {
    name: "a sheet with a name of 300 letters",
    bytes: () => madeFile({ [WORKBOOK]: workbookXml(["x".repeat(300)]) }),
    refused: DAMAGED,
  },
  {
    name: "65 sheets",
    bytes: () =>
      madeFile({
        [WORKBOOK]: workbookXml(Array.from({ length: 65 }, (_, index) => `Sheet ${index}`)),
      }),
    refused: /64 sheets/,
  },
];

const LAUGHS = '<!DOCTYPE x [<!ENTITY a "ha"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;">]>';

const badXml: readonly HostileFile[] = [
  {
    name: "entities that grow",
    bytes: () => madeFile({ [SHEET]: LAUGHS + oneRow("<c><v>&b;</v></c>") }),
    refused: /document type/,
  },
  {
    name: "an entity from a file",
    bytes: () =>
      madeFile({
        [WORKBOOK]: `<!DOCTYPE x [<!ENTITY e SYSTEM "file:///etc/passwd">]>${workbookXml(["&e;"])}`,
      }),
    refused: /document type/,
  },
  {
    name: "an unknown entity",
    bytes: () => madeFile({ [SHEET]: oneRow('<c t="str"><v>&nothing;</v></c>') }),
    refused: DAMAGED,
  },
  {
    name: "100,000 elements within each other",
    bytes: () =>
      madeFile({
        [SHEET]: oneRow("<x>".repeat(100_000) + "</x>".repeat(100_000)),
      }),
    refused: /nested too deeply/,
  },
  ...(
    [
      ["an element that is not closed", "<worksheet><sheetData>"],
      ["elements that cross", "<worksheet><a><b></a></b></worksheet>"],
      ["an attribute without quotes", "<worksheet a=1/>"],
      ["a comment without an end", "<worksheet><!-- "],
      ["nothing", " "],
      ["a character that is none", "<worksheet>&#x110000;</worksheet>"],
      ["100,000 attributes", `<worksheet${' a="1"'.repeat(100_000)}`],
      ["a run of blanks in a tag", `<worksheet${" ".repeat(200_000)}`],
    ] as const
  ).map(([name, text]) => ({
    name: `a sheet that is ${name}`,
    bytes: () => madeFile({ [SHEET]: text }),
    refused: DAMAGED,
  })),
  {
    name: "bytes that are no text",
    bytes: () => madeFile({ [SHEET]: noise(5_000, 4) }),
    refused: DAMAGED,
  },
];

function manyCells(count: number, cell: string, perRow = 1_000): string {
  const rows: string[] = [];
  for (let left = count; left > 0; left -= perRow)
    rows.push(`<row>${cell.repeat(Math.min(left, perRow))}</row>`);
  return sheetXml(rows.join(""));
}

const tooMuch: readonly HostileFile[] = [
  {
    name: "500,001 cells",
    bytes: () =>
      madeFile({
        [SHEET]: manyCells(FILE_LIMITS.cells + 1, "<c><v>1</v></c>"),
      }),
    refused: /500,000 cells/,
  },
  {
    name: "a text of 32 kB, shared by 10,000 cells",
    bytes: () =>
      madeFile({
        "xl/sharedStrings.xml": `<sst><si><t>${"x".repeat(32_000)}</t></si></sst>`,
        [SHEET]: manyCells(10_000, '<c t="s"><v>0</v></c>'),
      }),
    refused: /50,000,000 characters/,
  },
  {
    name: "50,001 formulas",
    bytes: () =>
      madeFile({
        [SHEET]: manyCells(FILE_LIMITS.formulas + 1, "<c><f>1+1</f></c>"),
      }),
    refused: /50,000 formulas/,
  },
  {
    name: "8 kB of formula, shared by 10,000 cells",
    bytes: () =>
      madeFile({
        [SHEET]: sheetXml(
          `<row><c><f t="shared" si="0" ref="A1:J1000">1${"+B2".repeat(2_600)}</f></c></row>` +
            `<row>${'<c><f t="shared" si="0"/></c>'.repeat(500)}</row>`.repeat(20),
        ),
      }),
    refused: /10,000,000 characters in shared/,
  },
  {
    name: "100 formulas that each fill 50 million cells",
    bytes: () =>
      madeFile({
        [SHEET]: sheetXml(
          Array.from(
            { length: 100 },
            (_, row) =>
              `<row r="${row + 1}"><c r="A${row + 1}"><f t="array" ref="A${row + 1}:SG100000">1</f></c></row>`,
          ).join(""),
        ),
      }),
    refused: /more than/,
  },
  {
    name: "a million elements that mean nothing",
    bytes: () => madeFile({ [SHEET]: sheetXml("", "<x/>".repeat(1_000_001)) }),
    refused: /1,000,000 elements/,
  },
  {
    name: "a value in the last cell that there can be",
    bytes: () =>
      madeFile({
        [SHEET]: sheetXml('<row r="1048576"><c r="XFD1048576"><v>1</v></c></row>'),
      }),
    refused: /XFD1048576 lies beyond/,
  },
  {
    name: "a row of the number two million",
    bytes: () => madeFile({ [SHEET]: sheetXml('<row r="2000000"/>') }),
    refused: DAMAGED,
  },
  {
    name: "20,001 merged areas",
    bytes: () =>
      madeFile({
        [SHEET]: sheetXml(
          "",
          `<mergeCells>${'<mergeCell ref="A1:B1"/>'.repeat(20_001)}</mergeCells>`,
        ),
      }),
    refused: /20,000 merged areas/,
  },
  {
    name: "10,001 names",
    bytes: () =>
      madeFile({
        [WORKBOOK]: workbookXml(
          ["Run"],
          `<definedNames>${'<definedName name="a">1</definedName>'.repeat(10_001)}</definedNames>`,
        ),
      }),
    refused: /10,000 names/,
  },
  {
    name: "5,001 validations",
    bytes: () =>
      madeFile({
        [SHEET]: sheetXml(
          "",
          `<dataValidations>${'<dataValidation type="whole" sqref="A1"><formula1>1</formula1></dataValidation>'.repeat(5_001)}</dataValidations>`,
        ),
      }),
    refused: /5,000 validations/,
  },
];

const badCells: readonly HostileFile[] = [
  ...(
    [
      ["the same cell twice", '<c r="A1"/><c r="A1"/>'],
      ["a cell of another row", '<c r="A2"><v>1</v></c>'],
      ["a cell without a proper address", '<c r="1A"><v>1</v></c>'],
      ["a number that is none", "<c><v>1e999</v></c>"],
      ["a date that is none", '<c t="d"><v>yesterday</v></c>'],
      ["a text that is not there", '<c t="s"><v>99</v></c>'],
      ["a text that is no number", '<c t="s"><v>__proto__</v></c>'],
    ] as const
  ).map(([name, cells]) => ({
    name,
    bytes: () => madeFile({ [SHEET]: oneRow(cells) }),
    refused: DAMAGED,
  })),
  {
    name: "a merged area without an address",
    bytes: () =>
      madeFile({
        [SHEET]: sheetXml("", '<mergeCells><mergeCell ref="everything"/></mergeCells>'),
      }),
    refused: DAMAGED,
  },
];

function formulaFile(formula: string) {
  return () => madeFile({ [SHEET]: oneRow(`<c><f>${formula}</f><v>7</v></c>`) });
}

const reduced: readonly HostileFile[] = [
  ...(
    [
      ["a link to another file", "[1]Sheet1!A1", /other files/],
      ["a link by address", "'https://example.org/[b.xlsx]S'!A1", /other files/],
      ["a program to be run", "cmd|'/c calc'!A0", /other files/],
      ["a page to be fetched", 'WEBSERVICE("https://example.org")', /reach outside/],
      ["a picture to be fetched", '_xlfn.IMAGE("https://example.org")', /reach outside/],
      ["a reference to a table", "SUM(Loads[Power])", /tables by name/],
      ["a formula of 9,000 letters", `1${"+1".repeat(4_500)}`, /too long/],
      [
        "2,000 brackets within each other",
        `${"(".repeat(2_000)}1${")".repeat(2_000)}`,
        /nested too deeply/,
      ],
    ] as const
  ).map(([name, formula, leftOut]) => ({
    name,
    bytes: formulaFile(formula),
    leftOut,
  })),
  {
    name: "macros",
    bytes: () => madeFile({ "xl/vbaProject.bin": noise(2_000, 5) }),
    leftOut: /macros/,
  },
  {
    name: "a link to another file, whether used or not",
    bytes: () => madeFile({ "xl/externalLinks/externalLink1.xml": "<externalLink/>" }),
    leftOut: /other files/,
  },
  {
    name: "names that run macros or print",
    bytes: () =>
      madeFile({
        [WORKBOOK]: workbookXml(
          ["Run"],
          '<definedNames><definedName name="Auto_Open" xlm="1">EXEC("calc")</definedName><definedName name="_xlnm.Print_Area">Run!$A$1</definedName></definedNames>',
        ),
      }),
    leftOut: /macros|printing/,
  },
  {
    name: "merged areas that meet",
    bytes: () =>
      madeFile({
        [SHEET]: sheetXml(
          "",
          '<mergeCells><mergeCell ref="A1:C3"/><mergeCell ref="B2:D4"/></mergeCells>',
        ),
      }),
    leftOut: /merged areas/,
  },
  {
    name: "a text that is too long for a cell",
    bytes: () =>
      madeFile({
        [SHEET]: oneRow(`<c t="str"><v>${"x".repeat(40_000)}</v></c>`),
      }),
    leftOut: /ends of texts/,
  },
  {
    name: "a picture that is none",
    bytes: () =>
      madeFile({
        [SHEET]: sheetXml("", '<drawing r:id="rId1"/>'),
        "xl/worksheets/_rels/sheet1.xml.rels": relationships([
          "rId1",
          "drawing",
          "../drawings/drawing1.xml",
        ]),
        "xl/drawings/_rels/drawing1.xml.rels": relationships([
          "rId1",
          "image",
          "../media/image1.png",
        ]),
        "xl/drawings/drawing1.xml":
          '<wsDr><oneCellAnchor><from><col>0</col><row>0</row></from><ext cx="9525" cy="9525"/><pic><blipFill><blip r:embed="rId1"/></blipFill></pic></oneCellAnchor></wsDr>',
        "xl/media/image1.png": "<svg onload='alert(1)'/>",
      }),
    leftOut: /pictures/,
  },
  {
    name: "filters, links, protection and things of tomorrow on a sheet",
    bytes: () =>
      madeFile({
        [SHEET]: sheetXml(
          "",
          '<sheetProtection sheet="1"/><autoFilter ref="A1:B2"/><hyperlinks/><newThing/>',
        ),
      }),
    leftOut: /newThing/,
  },
  {
    name: "a validation and a rule over whole columns",
    bytes: () =>
      madeFile({
        [SHEET]: sheetXml(
          "",
          '<conditionalFormatting sqref="A1:XFD1048576"><cfRule type="expression" priority="1"><formula>A1&gt;1</formula></cfRule></conditionalFormatting><dataValidations><dataValidation type="whole" sqref="A1:XFD1048576"><formula1>1</formula1><formula2>2</formula2></dataValidation></dataValidations>',
          '<dimension ref="A1:XFD1048576"/><cols><col min="1" max="16384" width="9"/></cols>',
        ),
      }),
  },
  {
    name: "texts that look like formulas",
    bytes: () =>
      madeFile({
        [SHEET]: oneRow(
          '<c t="s"><v>1</v></c><c t="inlineStr"><is><t>@SUM(A1)</t></is></c><c t="str"><v>-1+cmd</v></c>',
        ),
      }),
  },
  {
    name: "words of the language for names",
    bytes: () =>
      madeFile({
        [WORKBOOK]: workbookXml(
          ["__proto__"],
          '<definedNames><definedName name="constructor">1</definedName></definedNames>',
        ),
      }),
  },
  {
    name: "a sheet in UTF-16",
    bytes: () =>
      madeFile({
        [SHEET]: new Uint8Array(Buffer.from(`\ufeff${oneRow("<c><v>1</v></c>")}`, "utf16le")),
      }),
  },
];

export const hostileFiles: readonly HostileFile[] = [
  ...notPacked,
  ...badlyPacked,
  ...notWorkbooks,
  ...badXml,
  ...tooMuch,
  ...badCells,
  ...reduced,
];
