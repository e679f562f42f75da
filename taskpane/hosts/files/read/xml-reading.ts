/** XML as it stands in a workbook's parts, strictly: no document types, no entities but the five, a bounded depth. */
import { FILE_LIMITS, FileRefusedError, requireAtMost } from "../file-limits.js";
import { damaged } from "./unpacking.js";

/** Names are without prefix. */
export interface XmlElement {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly XmlElement[];
  /** Its own text, not that of its children. */
  readonly text: string;
}

/** True when the element was taken and its parent need not keep it. */
export type Taking = (element: XmlElement, parent: XmlElement) => boolean;

interface Growing extends XmlElement {
  readonly children: XmlElement[];
  text: string;
  /** Number of elements: itself and all within it. */
  elements: number;
}

const TAG =
  /<(\/?)([A-Za-z_][\w.:-]*)((?:\s+[A-Za-z_][\w.:-]*\s*=\s*(?:"[^"<]*"|'[^'<]*'))*)\s*(\/?)>/y;
const ATTRIBUTE = /([A-Za-z_][\w.:-]*)\s*=\s*(?:"([^"]*)"|'([^']*)')/g;

/** @throws {FileRefusedError} */
export function readXml(bytes: Uint8Array, part: string, takes: Taking = () => false): XmlElement {
  const text = decoded(bytes, part);
  const faulty = () => damaged(`${part} cannot be read`);
  const root: Growing = {
    name: "",
    attributes: {},
    children: [],
    text: "",
    elements: 1,
  };
  const open: Growing[] = [root];
  let at = 0;
  while (at < text.length) {
    const next = text.indexOf("<", at);
    const end = next < 0 ? text.length : next;
    const current = open[open.length - 1] ?? root;
    if (end > at) current.text += plainText(text.slice(at, end), part);
    at = end;
    if (next < 0) break;
    const aside = asideAt(text, at);
    if (aside) {
      current.text += aside.text;
      at = aside.end;
      continue;
    }
    requireShort(text, at, part);
    TAG.lastIndex = at;
    const [whole, closes, fullName = "", attributes = "", isEmpty] = TAG.exec(text) ?? [];
    if (whole === undefined) throw faulty();
    at += whole.length;
    const name = withoutPrefix(fullName);
    if (closes) {
      if (open.length < 2 || current.name !== name) throw faulty();
      close(open, takes);
      continue;
    }
    if (open.length > FILE_LIMITS.xmlDepth)
      throw new FileRefusedError(`The file is nested too deeply in ${part}.`);
    open.push({
      name,
      attributes: attributesIn(attributes, part),
      children: [],
      text: "",
      elements: 1,
    });
    if (isEmpty) close(open, takes);
  }
  const [first, ...more] = root.children;
  if (open.length > 1 || !first || more.length > 0) throw faulty();
  return first;
}

/** Length of one element with its attributes: the longest are formulas and messages of rules. */
const LONGEST_TAG = 200_000;

function requireShort(text: string, at: number, part: string): void {
  const end = text.indexOf(">", at);
  if (end < 0 || end - at > LONGEST_TAG) throw damaged(`${part} cannot be read`);
}

function close(open: Growing[], takes: Taking): void {
  const done = open.pop();
  const parent = open[open.length - 1];
  if (!done || !parent || takes(done, parent)) return;
  parent.children.push(done);
  parent.elements += done.elements;
  requireAtMost(parent.elements, FILE_LIMITS.xmlElements, "elements in a part");
}

/** Comments, instructions and character data. */
function asideAt(
  text: string,
  at: number,
): { readonly end: number; readonly text: string } | undefined {
  const until = (mark: string) => {
    const end = text.indexOf(mark, at);
    if (end < 0) throw damaged("a part of it is cut off");
    return end + mark.length;
  };
  if (text.startsWith("<?", at)) return { end: until("?>"), text: "" };
  if (!text.startsWith("<!", at)) return undefined;
  if (text.startsWith("<!--", at)) return { end: until("-->"), text: "" };
  if (text.startsWith("<![CDATA[", at)) {
    const end = until("]]>");
    return { end, text: text.slice(at + 9, end - 3) };
  }
  throw new FileRefusedError(
    "The file declares a document type of its own, which no workbook needs and the workbench does not open.",
  );
}

function attributesIn(text: string, part: string): Record<string, string> {
  const found: Record<string, string> = Object.create(null) as Record<string, string>;
  if (text === "") return found;
  for (const [, fullName = "", double, single] of text.matchAll(ATTRIBUTE)) {
    const name = withoutPrefix(fullName);
    found[name] = plainText(double ?? single ?? "", part);
  }
  return found;
}

function withoutPrefix(name: string): string {
  return name.slice(name.indexOf(":") + 1);
}

const ENTITIES: Readonly<Record<string, string>> = {
  lt: "<",
  gt: ">",
  amp: "&",
  quot: '"',
  apos: "'",
};

function plainText(text: string, part: string): string {
  if (!text.includes("&")) return text;
  return text.replace(/&([^;&]{0,10};?)/g, (found, inside: string) => {
    const name = inside.slice(0, -1);
    const code = /^#(?:x([0-9A-Fa-f]+)|(\d+))$/.exec(name);
    const point = code ? Number.parseInt(code[1] ?? code[2] ?? "", code[1] ? 16 : 10) : Number.NaN;
    const character = point > 0 && point <= 0x10ffff ? String.fromCodePoint(point) : ENTITIES[name];
    if (character === undefined || !found.endsWith(";")) throw damaged(`${part} cannot be read`);
    return character;
  });
}

function decoded(bytes: Uint8Array, part: string): string {
  const [first, second] = bytes;
  const encoding =
    first === 0xff && second === 0xfe
      ? "utf-16le"
      : first === 0xfe && second === 0xff
        ? "utf-16be"
        : "utf-8";
  try {
    return new TextDecoder(encoding, { fatal: true }).decode(bytes);
  } catch {
    throw damaged(`${part} cannot be read`);
  }
}

/** Children of that name. */
export function childrenOf(element: XmlElement | undefined, name: string): readonly XmlElement[] {
  return element?.children.filter((child) => child.name === name) ?? [];
}

export function childOf(
  element: XmlElement | undefined,
  ...path: readonly string[]
): XmlElement | undefined {
  return path.reduce<XmlElement | undefined>(
    (found, name) => found?.children.find((child) => child.name === name),
    element,
  );
}
