/** Texts that a file keeps in one table for all its cells. */
import { typedText } from "../file-text.js";
import { childrenOf, type XmlElement } from "./xml-reading.js";

export interface StoredText {
  readonly text: string;
  /** Whether letters in it differ in look. */
  readonly isMixed: boolean;
}

/** Text of `<si>`, `<is>` or a note: in one piece or in runs. Hints for reading aloud are no part of it. */
export function storedTextOf(element: XmlElement | undefined): StoredText {
  const runs = childrenOf(element, "r");
  const pieces = [...childrenOf(element, "t"), ...runs.flatMap((run) => childrenOf(run, "t"))];
  return {
    text: typedText(pieces.map(({ text }) => text).join("")),
    isMixed: runs.length > 1,
  };
}
