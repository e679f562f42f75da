/** The looks of cells in a file's table of styles. */
import {
  BORDER_LINES,
  type BorderSide,
  type Borders,
  type BorderSnapshot,
  type CellLook,
  type RulePaint,
} from "../workbook-snapshot.js";
import type { ColourReader } from "./colours-reading.js";
import { FILE_LIMITS } from "../file-limits.js";
import { typedText } from "../file-text.js";
import { isOneOf } from "../one-of.js";
import { USUAL_FONT, USUAL_SIZE } from "../usual-look.js";
import { childOf, childrenOf, type XmlElement } from "./xml-reading.js";

export interface StylesRead {
  /** By the number that a cell gives. */
  readonly looks: readonly (CellLook | undefined)[];
  /** By the number that a conditional format gives. */
  readonly paints: readonly RulePaint[];
  /** Whether a look says more than is taken over, by the same number. */
  readonly isReduced: readonly boolean[];
}

/** Formats that a file names by number alone (ECMA-376 18.8.30). */
const BUILT_IN: Readonly<Record<number, string>> = {
  1: "0",
  2: "0.00",
  3: "#,##0",
  4: "#,##0.00",
  9: "0%",
  10: "0.00%",
  11: "0.00E+00",
  12: "# ?/?",
  13: "# ??/??",
  14: "m/d/yyyy",
  15: "d-mmm-yy",
  16: "d-mmm",
  17: "mmm-yy",
  18: "h:mm AM/PM",
  19: "h:mm:ss AM/PM",
  20: "h:mm",
  21: "h:mm:ss",
  22: "m/d/yy h:mm",
  37: "#,##0 ;(#,##0)",
  38: "#,##0 ;[Red](#,##0)",
  39: "#,##0.00;(#,##0.00)",
  40: "#,##0.00;[Red](#,##0.00)",
  45: "mm:ss",
  46: "[h]:mm:ss",
  47: "mmss.0",
  48: "##0.0E+0",
  49: "@",
};

export function readStyles(root: XmlElement | undefined, colourOf: ColourReader): StylesRead {
  const formats = new Map(
    childrenOf(childOf(root, "numFmts"), "numFmt").map(({ attributes }) => [
      Number(attributes["numFmtId"]),
      typedText(attributes["formatCode"] ?? ""),
    ]),
  );
  const fonts = childrenOf(childOf(root, "fonts"), "font").map((font) => fontLook(font, colourOf));
  const fills = childrenOf(childOf(root, "fills"), "fill");
  const borders = childrenOf(childOf(root, "borders"), "border").map((border) =>
    bordersOf(border, colourOf),
  );
  const kinds = childrenOf(childOf(root, "cellXfs"), "xf");
  const fillOf = (kind: XmlElement) => fills[numberIn(kind, "fillId")];
  return {
    looks: kinds.map((kind) => {
      const look: CellLook = {
        ...fonts[numberIn(kind, "fontId")],
        ...solidFill(fillOf(kind), colourOf),
        ...alignmentLook(childOf(kind, "alignment")),
        ...borders[numberIn(kind, "borderId")],
        ...formatLook(numberIn(kind, "numFmtId"), formats),
      };
      return Object.keys(look).length > 0 ? look : undefined;
    }),
    paints: childrenOf(childOf(root, "dxfs"), "dxf").map((paint) => rulePaint(paint, colourOf)),
    isReduced: kinds.map(
      (kind) => isTurned(childOf(kind, "alignment")) || isPatterned(fillOf(kind)),
    ),
  };
}

function numberIn(element: XmlElement, name: string): number {
  return Number(element.attributes[name] ?? 0);
}

function isSet(element: XmlElement | undefined): boolean {
  return element !== undefined && !["0", "false", "none"].includes(element.attributes["val"] ?? "");
}

function fontLook(font: XmlElement, colourOf: ColourReader): CellLook {
  const name = childOf(font, "name")?.attributes["val"]?.slice(0, 64) ?? USUAL_FONT;
  const size = Number(childOf(font, "sz")?.attributes["val"] ?? USUAL_SIZE);
  const colour = childOf(font, "color");
  // The theme's own text colour is what text has anyway.
  const isUsual = colour?.attributes["theme"] === "1";
  const code = isUsual ? undefined : colourOf(colour);
  return {
    ...(isSet(childOf(font, "b")) && { bold: true }),
    ...(isSet(childOf(font, "i")) && { italic: true }),
    ...(isSet(childOf(font, "u")) && { underline: true }),
    ...(isSet(childOf(font, "strike")) && { strike: true }),
    ...(name !== USUAL_FONT && { font: name }),
    ...(size !== USUAL_SIZE && size >= 1 && size <= 409 && { size }),
    ...(code !== undefined && { colour: code }),
  };
}

function solidFill(fill: XmlElement | undefined, colourOf: ColourReader): CellLook {
  const pattern = childOf(fill, "patternFill");
  const colour = colourOf(childOf(pattern, "fgColor"));
  return pattern?.attributes["patternType"] === "solid" && colour !== undefined
    ? { fill: colour }
    : {};
}

function isPatterned(fill: XmlElement | undefined): boolean {
  const pattern = childOf(fill, "patternFill")?.attributes["patternType"];
  return (
    childOf(fill, "gradientFill") !== undefined ||
    !["none", "solid", "gray125", undefined].includes(pattern)
  );
}

function alignmentLook(alignment: XmlElement | undefined): CellLook {
  const { horizontal, vertical, wrapText } = alignment?.attributes ?? {};
  return {
    ...(isOneOf(horizontal, ["left", "center", "right", "justify"] as const) && {
      horizontal,
    }),
    ...(vertical === "center" && { vertical: "middle" as const }),
    ...(isOneOf(vertical, ["top", "bottom"] as const) && { vertical }),
    ...((wrapText === "1" || wrapText === "true") && { wrap: true }),
  };
}

function isTurned(alignment: XmlElement | undefined): boolean {
  return ["textRotation", "indent", "shrinkToFit"].some(
    (name) => Number(alignment?.attributes[name] ?? 0) !== 0,
  );
}

const SIDES: readonly BorderSide[] = ["top", "bottom", "left", "right"];

function bordersOf(border: XmlElement, colourOf: ColourReader): CellLook {
  const found: Partial<Record<BorderSide, BorderSnapshot>> = {};
  for (const side of SIDES) {
    const element = childOf(border, side);
    const line = element?.attributes["style"];
    if (!isOneOf(line, BORDER_LINES)) continue;
    const colour = colourOf(childOf(element, "color")) ?? "#000000";
    found[side] = { line, colour };
  }
  const borders: Borders = found;
  return Object.keys(borders).length > 0 ? { borders } : {};
}

function formatLook(id: number, formats: ReadonlyMap<number, string>): CellLook {
  const format = formats.get(id) ?? BUILT_IN[id];
  return format === undefined ||
    format.toLowerCase() === "general" ||
    format.length > FILE_LIMITS.formatLength
    ? {}
    : { format };
}

function rulePaint(paint: XmlElement, colourOf: ColourReader): RulePaint {
  const font = childOf(paint, "font");
  const colour = colourOf(childOf(font, "color"));
  // Unlike a cell's, a rule's fill is written in the background colour.
  const pattern = childOf(paint, "fill", "patternFill");
  const fill = colourOf(childOf(pattern, "bgColor")) ?? colourOf(childOf(pattern, "fgColor"));
  return {
    ...(isSet(childOf(font, "b")) && { bold: true }),
    ...(isSet(childOf(font, "i")) && { italic: true }),
    ...(colour !== undefined && { colour }),
    ...(fill !== undefined && { fill }),
  };
}
