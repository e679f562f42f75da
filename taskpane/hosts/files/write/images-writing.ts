/** Pictures of a sheet as a file holds them. */
import { UNITS_PER_PIXEL } from "../usual-look.js";
import type { ImageSnapshot } from "../workbook-snapshot.js";
import { xml, XML_HEAD } from "./xml-writing.js";

const DRAWING = "http://schemas.openxmlformats.org/drawingml/2006/spreadsheetDrawing";
const ART = "http://schemas.openxmlformats.org/drawingml/2006/main";
const RELATIONS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";

/** The relation of each picture is `rId` and its number, from 1. */
export function drawingPart(images: readonly ImageSnapshot[]): string {
  return (
    XML_HEAD +
    xml(
      "xdr:wsDr",
      { "xmlns:xdr": DRAWING, "xmlns:a": ART },
      ...images.map((image, index) => anchorText(image, index + 1)),
    )
  );
}

function anchorText(image: ImageSnapshot, number: number): string {
  const units = (pixels: number) => Math.round(pixels * UNITS_PER_PIXEL);
  const size = { cx: units(image.width), cy: units(image.height) };
  const picture = xml(
    "xdr:pic",
    {},
    xml(
      "xdr:nvPicPr",
      {},
      xml("xdr:cNvPr", {
        id: number + 1,
        name: `Picture ${number}`,
        descr: image.alternative,
      }),
      xml("xdr:cNvPicPr", {}, xml("a:picLocks", { noChangeAspect: 1 })),
    ),
    xml(
      "xdr:blipFill",
      {},
      xml("a:blip", { "xmlns:r": RELATIONS, "r:embed": `rId${number}` }),
      xml("a:stretch", {}, xml("a:fillRect")),
    ),
    xml(
      "xdr:spPr",
      {},
      xml("a:xfrm", {}, xml("a:off", { x: 0, y: 0 }), xml("a:ext", size)),
      xml("a:prstGeom", { prst: "rect" }, xml("a:avLst")),
    ),
  );
  return xml(
    "xdr:oneCellAnchor",
    {},
    xml(
      "xdr:from",
      {},
      xml("xdr:col", {}, String(image.column)),
      xml("xdr:colOff", {}, String(units(image.offsetX))),
      xml("xdr:row", {}, String(image.row)),
      xml("xdr:rowOff", {}, String(units(image.offsetY))),
    ),
    xml("xdr:ext", size),
    picture,
    xml("xdr:clientData"),
  );
}

export function imageBytes({ base64 }: ImageSnapshot): Uint8Array {
  return Uint8Array.from(atob(base64), (character) => character.charCodeAt(0));
}
