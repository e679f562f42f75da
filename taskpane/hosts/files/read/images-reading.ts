/** Pictures on a sheet in a file. */
import { isWithin } from "./cells-reading.js";
import { FILE_LIMITS, requireAtMost } from "../file-limits.js";
import type { LeftOutList } from "../left-out.js";
import type { PartReader } from "./parts-reading.js";
import type { ImageSnapshot, ImageType } from "../workbook-snapshot.js";
import { UNITS_PER_PIXEL } from "../usual-look.js";
import { childOf, type XmlElement } from "./xml-reading.js";

const MOST_PIXELS = 10_000;
const NOT_SHOWN = "pictures of a kind that the workbench does not show";

export function readImages(
  parts: PartReader,
  part: string,
  sheet: string,
  leftOut: LeftOutList,
): readonly ImageSnapshot[] {
  const drawing = parts
    .related(part)
    .find(({ type, isOutside }) => type === "drawing" && !isOutside);
  if (!drawing) return [];
  const related = parts.related(drawing.target);
  const anchors = parts.xml(drawing.target)?.children ?? [];
  requireAtMost(anchors.length, FILE_LIMITS.images, "pictures on a sheet");
  return anchors.flatMap((anchor) => {
    const picture = childOf(anchor, "pic");
    if (!picture) {
      leftOut.add(kindOf(anchor), sheet);
      return [];
    }
    const id = childOf(picture, "blipFill", "blip")?.attributes["embed"];
    const target = related.find((each) => each.id === id && !each.isOutside)?.target;
    const bytes = target === undefined ? undefined : parts.bytes(target);
    const type = bytes && imageType(bytes);
    const place = placeOf(anchor, picture);
    const alternative = childOf(picture, "nvPicPr", "cNvPr")?.attributes["descr"];
    if (bytes && type && place)
      return [
        {
          ...place,
          type,
          base64: base64Of(bytes),
          ...(alternative && { alternative }),
        },
      ];
    leftOut.add(NOT_SHOWN, sheet);
    return [];
  });
}

function kindOf(anchor: XmlElement): string {
  return childOf(anchor, "graphicFrame") || childOf(anchor, "AlternateContent")
    ? "charts and other graphics"
    : "drawn shapes";
}

function placeOf(
  anchor: XmlElement,
  picture: XmlElement,
): Omit<ImageSnapshot, "type" | "base64"> | undefined {
  const from = childOf(anchor, "from");
  const extent = childOf(anchor, "ext") ?? childOf(picture, "spPr", "xfrm", "ext");
  const pixels = (text: string | undefined) => Math.round(Number(text ?? 0) / UNITS_PER_PIXEL);
  const whole = (name: string) => Number(childOf(from, name)?.text ?? 0);
  const place = {
    row: whole("row"),
    column: whole("col"),
    offsetX: pixels(childOf(from, "colOff")?.text),
    offsetY: pixels(childOf(from, "rowOff")?.text),
    width: pixels(extent?.attributes["cx"]) || sizeByCells(anchor, "col", 72),
    height: pixels(extent?.attributes["cy"]) || sizeByCells(anchor, "row", 20),
  };
  const isSound =
    Object.values(place).every((value) => Number.isInteger(value) && value >= 0) &&
    isWithin(place.row, place.column) &&
    [place.width, place.height].every((size) => size > 0 && size <= MOST_PIXELS);
  return isSound ? place : undefined;
}

/** Where the file gives a last cell and no size: with cells of the usual size. */
function sizeByCells(anchor: XmlElement, name: string, pixels: number): number {
  const at = (end: string) => Number(childOf(anchor, end, name)?.text ?? 0);
  return Math.max(1, at("to") - at("from")) * pixels;
}

const BEGINNINGS: Readonly<Record<ImageType, string>> = {
  png: "\x89PNG",
  jpeg: "\xff\xd8\xff",
  gif: "GIF8",
};

/** By what the bytes say, not by the part's name. */
function imageType(bytes: Uint8Array): ImageType | undefined {
  const first = String.fromCharCode(...bytes.subarray(0, 4));
  return (["png", "jpeg", "gif"] as const).find((type) => first.startsWith(BEGINNINGS[type]));
}

const CHUNK = 8_190;

function base64Of(bytes: Uint8Array): string {
  let text = "";
  // In pieces whose length divides by three, so that their codes join.
  for (let at = 0; at < bytes.length; at += CHUNK)
    text += btoa(String.fromCharCode(...bytes.subarray(at, at + CHUNK)));
  return text;
}
