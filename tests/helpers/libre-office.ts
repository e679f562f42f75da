/** A workbook opened, recalculated and read by LibreOffice (https://www.libreoffice.org), without a window. */
import { execFile } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { promisify } from "node:util";
import { cellPlace, columnLetters } from "../../src/plans/addresses.js";
import type { SheetContent } from "./iron-calc.js";

export type OfficeValue = string | number | boolean | { readonly error: string };

/** By sheet, then by address; an empty cell is not in it. */
export type OfficeValues = ReadonlyMap<string, ReadonlyMap<string, OfficeValue>>;

const PROGRAM = "soffice";

/** With the settings of a workbook of the usual kind: `*` in a criterion stands for any text. Formulas start with `=`, in the syntax that spreadsheets share (en-US, A1). Every one is calculated anew. */
export function calculatedByLibreOffice(
  sheets: Readonly<Record<string, SheetContent>>,
): Promise<OfficeValues> {
  return openedByLibreOffice("fods", documentOf(sheets));
}

/** What a file shows when it is opened there: stored results where the program keeps them. */
export function shownByLibreOffice(xlsx: Uint8Array): Promise<OfficeValues> {
  return openedByLibreOffice("xlsx", xlsx);
}

interface Asked {
  readonly ending: string;
  readonly content: string | Uint8Array;
  readonly resolve: (values: OfficeValues) => void;
  readonly reject: (error: unknown) => void;
}

/** Starting the program takes longer than its work: what is asked for in one turn is opened by one run of it. */
let waiting: Asked[] = [];
let running: Promise<void> = Promise.resolve();

function openedByLibreOffice(ending: string, content: string | Uint8Array): Promise<OfficeValues> {
  return new Promise((resolve, reject) => {
    waiting.push({ ending, content, resolve, reject });
    if (waiting.length === 1)
      setImmediate(() => {
        const asked = waiting;
        waiting = [];
        running = running.then(() => openTogether(asked));
      });
  });
}

async function openTogether(asked: readonly Asked[]): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), "downfeed-office-"));
  try {
    const files = asked.map(({ ending, content }, index) => {
      const file = join(folder, `${index}.${ending}`);
      writeFileSync(file, content);
      return file;
    });
    const out = join(folder, "out");
    mkdirSync(out);
    await runOffice([
      `-env:UserInstallation=file://${folder}/profile`,
      "--headless",
      "--convert-to",
      "fods",
      "--outdir",
      out,
      ...files,
    ]);
    for (const [index, { resolve }] of asked.entries())
      resolve(valuesIn(readFileSync(join(out, `${index}.fods`), "utf8")));
  } catch (error) {
    for (const { reject } of asked) reject(error);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

async function runOffice(args: readonly string[]): Promise<void> {
  try {
    await promisify(execFile)(PROGRAM, args, { timeout: 240_000 });
  } catch (error) {
    if ((error as { readonly code?: string }).code !== "ENOENT") throw error;
    throw new Error("LibreOffice was not found: run `npm run office`, or put soffice on the PATH", {
      cause: error,
    });
  }
}

const NAMESPACES = [
  'xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0"',
  'xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0"',
  'xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0"',
  'xmlns:msoxl="http://schemas.microsoft.com/office/excel/formula"',
].join(" ");

function documentOf(sheets: Readonly<Record<string, SheetContent>>): string {
  const tables = Object.entries(sheets).map(([name, content]) => {
    const rows = rowsOf(content).map(
      (cells) => `<table:table-row>${cells.map(cellText).join("")}</table:table-row>`,
    );
    return `<table:table table:name="${escaped(name)}">${rows.join("")}</table:table>`;
  });
  return `<?xml version="1.0" encoding="UTF-8"?><office:document ${NAMESPACES} office:version="1.3" office:mimetype="application/vnd.oasis.opendocument.spreadsheet"><office:body><office:spreadsheet><table:calculation-settings table:use-wildcards="true"/>${tables.join("")}</office:spreadsheet></office:body></office:document>`;
}

type Content = string | number | boolean;

function rowsOf(content: SheetContent): (Content | undefined)[][] {
  const rows: (Content | undefined)[][] = [];
  for (const [at, value] of content) {
    const { row, column } = cellPlace(at);
    while (rows.length <= row) rows.push([]);
    const cells = rows[row]!;
    while (cells.length <= column) cells.push(undefined);
    cells[column] = value;
  }
  return rows;
}

function cellText(content: Content | undefined): string {
  if (content === undefined) return "<table:table-cell/>";
  if (typeof content === "number")
    return `<table:table-cell office:value-type="float" office:value="${content}"/>`;
  if (typeof content === "boolean")
    return `<table:table-cell office:value-type="boolean" office:boolean-value="${content}"/>`;
  if (content.startsWith("="))
    return `<table:table-cell table:formula="msoxl:${escaped(content)}"/>`;
  return `<table:table-cell office:value-type="string" office:string-value="${escaped(content)}"/>`;
}

function escaped(text: string): string {
  return text
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll('"', "&quot;")
    .replaceAll("\n", "&#10;");
}

function plain(text: string): string {
  return text
    .replaceAll("&lt;", "<")
    .replaceAll("&gt;", ">")
    .replaceAll("&quot;", '"')
    .replaceAll("&apos;", "'")
    .replaceAll("&#10;", "\n")
    .replaceAll("&amp;", "&");
}

const TABLE = /<table:table table:name="([^"]*)".*?<\/table:table>/gs;
const ROW = /<table:table-row(?: ([^>]*?))?(?:\/>|>(.*?)<\/table:table-row>)/gs;
const CELL =
  /<table:(?:covered-)?table-cell(?: ([^>]*?))?(?:\/>|>(.*?)<\/table:(?:covered-)?table-cell>)/gs;

/** Values as stored, not as displayed. */
function valuesIn(text: string): OfficeValues {
  const sheets = new Map<string, Map<string, OfficeValue>>();
  for (const [table, name = ""] of text.matchAll(TABLE)) {
    const cells = new Map<string, OfficeValue>();
    let row = 0;
    for (const [, ofRow = "", inside = ""] of table.matchAll(ROW)) {
      let column = 0;
      for (const [, attributes = "", shown = ""] of inside.matchAll(CELL)) {
        const value = valueOf(attributes, shown);
        const next = column + repeated(attributes, "columns");
        for (; column < next && value !== undefined; column += 1)
          cells.set(`${columnLetters(column)}${row + 1}`, value);
        column = next;
      }
      row += repeated(ofRow, "rows");
    }
    sheets.set(plain(name), cells);
  }
  return sheets;
}

function repeated(attributes: string, what: string): number {
  const [, count = "1"] = new RegExp(`number-${what}-repeated="(\\d+)"`).exec(attributes) ?? [];
  return Number(count);
}

function valueOf(attributes: string, shown: string): OfficeValue | undefined {
  const attribute = (name: string) => new RegExp(`${name}="([^"]*)"`).exec(attributes)?.[1];
  const content = shown.replace(/<office:annotation.*?<\/office:annotation>/gs, "");
  const text = plain(
    [...content.matchAll(/<text:p[^>]*?(?:\/>|>(.*?)<\/text:p>)/gs)]
      .map(([, line = ""]) => line.replace(/<text:s[^>]*\/>/g, " ").replace(/<[^>]*>/g, ""))
      .join("\n"),
  );
  if (attribute("calcext:value-type") === "error") return { error: text };
  switch (attribute("office:value-type")) {
    case "float":
    case "percentage":
    case "currency":
      return Number(attribute("office:value"));
    case "boolean":
      return attribute("office:boolean-value") === "true";
    case "string":
      return plain(attribute("office:string-value") ?? text);
    default:
      return undefined;
  }
}
