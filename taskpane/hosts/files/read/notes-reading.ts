/** Notes on the cells of a sheet in a file. */
import { cellAddress } from "../../../../src/plans/addresses.js";
import { isWithin, placeIn } from "./cells-reading.js";
import { FILE_LIMITS } from "../file-limits.js";
import type { LeftOutList } from "../left-out.js";
import type { PartReader } from "./parts-reading.js";
import { storedTextOf } from "./texts-reading.js";
import { childOf, childrenOf } from "./xml-reading.js";

/** By address. */
export function readNotes(
  parts: PartReader,
  part: string,
  sheet: string,
  leftOut: LeftOutList,
): ReadonlyMap<string, string> {
  if (parts.related(part).some(({ type }) => type === "threadedComment"))
    leftOut.add("conversations on cells (a note may hold their text)", sheet);
  const notes = new Map<string, string>();
  const list = childOf(parts.relatedXml(part, "comments"), "commentList");
  for (const comment of childrenOf(list, "comment")) {
    const place = placeIn(sheet, comment.attributes["ref"] ?? "");
    const { text } = storedTextOf(childOf(comment, "text"));
    if (!isWithin(place.row, place.column)) leftOut.add("notes far outside the used cells", sheet);
    else if (text !== "") notes.set(cellAddress(place), text.slice(0, FILE_LIMITS.textLength));
  }
  return notes;
}
