/** The parts of a file in the making: what each is, and what it relates to. */
import { strToU8 } from "fflate";
import { xml, XML_HEAD } from "./xml-writing.js";

export interface PartsWriter {
  add(name: string, kind: string, text: string): void;
  /** A part whose kind is told by its name's end. */
  addBytes(name: string, extension: string, bytes: Uint8Array): void;
  /** Adds a relation from a part, "" for the file itself, to another. @returns the relation's id */
  relate(from: string, kind: string, to: string): string;
  /** All parts, with those that say what the others are. */
  all(): readonly (readonly [name: string, bytes: Uint8Array])[];
}

const SHEET = "application/vnd.openxmlformats-officedocument.spreadsheetml";
const CONTENT_TYPES: Readonly<Record<string, string>> = {
  workbook: `${SHEET}.sheet.main+xml`,
  worksheet: `${SHEET}.worksheet+xml`,
  styles: `${SHEET}.styles+xml`,
  sharedStrings: `${SHEET}.sharedStrings+xml`,
  sheetMetadata: `${SHEET}.sheetMetadata+xml`,
  comments: `${SHEET}.comments+xml`,
  drawing: "application/vnd.openxmlformats-officedocument.drawing+xml",
  "extended-properties": "application/vnd.openxmlformats-officedocument.extended-properties+xml",
  rels: "application/vnd.openxmlformats-package.relationships+xml",
  vml: "application/vnd.openxmlformats-officedocument.vmlDrawing",
  png: "image/png",
  jpeg: "image/jpeg",
  gif: "image/gif",
  xml: "application/xml",
};

const PACKAGE = "http://schemas.openxmlformats.org/package/2006";
const RELATION_TYPES = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";

export function partsWriter(): PartsWriter {
  const bytes = new Map<string, Uint8Array>();
  const kinds = new Map<string, string>();
  const extensions = new Set(["rels", "xml"]);
  const relations = new Map<string, string[]>();

  function contentTypes(): string {
    return xml(
      "Types",
      { xmlns: `${PACKAGE}/content-types` },
      ...[...extensions].map((extension) =>
        xml("Default", {
          Extension: extension,
          ContentType: CONTENT_TYPES[extension],
        }),
      ),
      ...[...kinds].map(([name, kind]) =>
        xml("Override", {
          PartName: `/${name}`,
          ContentType: CONTENT_TYPES[kind],
        }),
      ),
    );
  }

  function relationParts(): [string, Uint8Array][] {
    return [...relations].map(([from, items]) => {
      const cut = from.lastIndexOf("/") + 1;
      const name = `${from.slice(0, cut)}_rels/${from.slice(cut)}.rels`;
      const text = xml("Relationships", { xmlns: `${PACKAGE}/relationships` }, ...items);
      return [name, strToU8(XML_HEAD + text)];
    });
  }

  return {
    add(name, kind, text) {
      bytes.set(name, strToU8(text));
      kinds.set(name, kind);
    },
    addBytes(name, extension, content) {
      bytes.set(name, content);
      extensions.add(extension);
    },
    relate(from, kind, to) {
      const items = relations.get(from) ?? [];
      relations.set(from, items);
      const id = `rId${items.length + 1}`;
      items.push(
        xml("Relationship", {
          Id: id,
          Type: `${RELATION_TYPES}/${kind}`,
          // Some readers do not find what is named from the root.
          Target: relativePath(from, to),
        }),
      );
      return id;
    },
    all: () => [
      ["[Content_Types].xml", strToU8(XML_HEAD + contentTypes())],
      ...relationParts(),
      ...bytes,
    ],
  };
}

/** Path from the folder of one part to another: `../comments1.xml`. */
function relativePath(from: string, to: string): string {
  const folder = from.split("/").slice(0, -1);
  const target = to.split("/");
  const parts = folder.findIndex((name, index) => name !== target[index]);
  const shared = parts < 0 ? folder.length : parts;
  return [...folder.slice(shared).map(() => ".."), ...target.slice(shared)].join("/");
}
