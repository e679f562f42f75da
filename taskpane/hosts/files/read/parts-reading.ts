/** Which part of a file is which: the workbook, and what each part relates to. */
import { FileRefusedError } from "../file-limits.js";
import type { Parts } from "./unpacking.js";
import { childrenOf, readXml, type Taking, type XmlElement } from "./xml-reading.js";

export interface Related {
  readonly id: string;
  /** Last step of the type's address: `worksheet`. */
  readonly type: string;
  /** Name of the part, or an address outside the file. */
  readonly target: string;
  readonly isOutside: boolean;
}

export interface PartReader {
  readonly names: readonly string[];
  bytes(name: string): Uint8Array | undefined;
  /** @throws {FileRefusedError} when it is there and cannot be read. */
  xml(name: string, takes?: Taking): XmlElement | undefined;
  related(name: string): readonly Related[];
  /** Reads the first related part of a type. */
  relatedXml(name: string, type: string, takes?: Taking): XmlElement | undefined;
}

export function partReader(parts: Parts): PartReader {
  // A relation may spell a part in other capitals.
  const known = new Map([...parts].map(([name, bytes]) => [name.toLowerCase(), bytes]));
  const bytes = (name: string) => known.get(name.toLowerCase());
  function xml(name: string, takes?: Taking): XmlElement | undefined {
    const part = bytes(name);
    return part && readXml(part, name, takes);
  }
  function related(name: string): readonly Related[] {
    const cut = name.lastIndexOf("/") + 1;
    const [folder, file] = [name.slice(0, cut), name.slice(cut)];
    const root = xml(`${folder}_rels/${file}.rels`);
    return childrenOf(root, "Relationship").map(({ attributes }) => {
      const { Id = "", Type = "", Target = "", TargetMode } = attributes;
      const isOutside = TargetMode === "External";
      return {
        id: Id,
        type: Type.slice(Type.lastIndexOf("/") + 1),
        target: isOutside ? Target : resolved(folder, Target),
        isOutside,
      };
    });
  }
  return {
    names: [...parts.keys()],
    bytes,
    xml,
    related,
    relatedXml(name, type, takes) {
      const found = related(name).find((each) => each.type === type && !each.isOutside);
      return found && xml(found.target, takes);
    },
  };
}

function resolved(folder: string, target: string): string {
  if (target.startsWith("/")) return target.slice(1);
  const steps = folder.split("/").slice(0, -1);
  for (const step of target.split("/")) {
    if (step === "..") steps.pop();
    else if (step !== ".") steps.push(step);
  }
  return steps.join("/");
}

/** Name of the workbook's part. @throws {FileRefusedError} */
export function workbookPart(parts: PartReader): string {
  const found = parts
    .related("")
    .find(({ type, isOutside }) => type === "officeDocument" && !isOutside);
  if (found && /\.bin$/.test(found.target))
    throw new FileRefusedError("The file is a binary workbook (.xlsb). Save it as .xlsx first.");
  if (!found || parts.bytes(found.target) === undefined)
    throw new FileRefusedError("The file is not an .xlsx workbook: there is no workbook in it.");
  return found.target;
}
