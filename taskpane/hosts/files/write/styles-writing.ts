/** The table of styles of a file: each look once, cells and rules refer to it by number. */
import type { Borders, BorderSide, CellLook, RulePaint } from "../workbook-snapshot.js";
import { FILE_LIMITS } from "../file-limits.js";
import { FIRST_OWN_FORMAT, USUAL_FONT, USUAL_SIZE } from "../usual-look.js";
import { storedColour, xml, xmlList } from "./xml-writing.js";

export interface StylesTable {
  /** The number that a cell gives. */
  lookNumber(look: CellLook | undefined): number;
  /** The number that a rule gives. */
  paintNumber(paint: RulePaint): number;
  /** The part, once everything is in it. */
  text(): string;
}

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";

export function stylesTable(): StylesTable {
  const formats = numbered();
  const fonts = numbered(fontOf({}));
  // The first two are the format's own, whatever a file says.
  const fills = numbered(patternFill("none"), patternFill("gray125"));
  const borders = numbered(bordersOf({}));
  const looks = numbered(xfOf({}));
  const paints = numbered();
  const known = new Map<string, number>();

  function xfOf(look: CellLook): string {
    const format =
      look.format === undefined || look.format.length > FILE_LIMITS.formatLength
        ? 0
        : FIRST_OWN_FORMAT + formats.of(look.format);
    const font = fonts.of(fontOf(look));
    const fill = look.fill === undefined ? 0 : fills.of(solidFill(look.fill));
    const border = borders.of(bordersOf(look.borders ?? {}));
    const alignment = alignmentOf(look);
    const applied = (number: number) => (number > 0 ? 1 : undefined);
    return xml(
      "xf",
      {
        numFmtId: format,
        fontId: font,
        fillId: fill,
        borderId: border,
        xfId: 0,
        applyNumberFormat: applied(format),
        applyFont: applied(font),
        applyFill: applied(fill),
        applyBorder: applied(border),
        applyAlignment: alignment === "" ? undefined : 1,
      },
      alignment,
    );
  }

  return {
    lookNumber(look) {
      if (!look) return 0;
      const key = JSON.stringify(look);
      const number = known.get(key) ?? looks.of(xfOf(look));
      known.set(key, number);
      return number;
    },
    paintNumber: (paint) => paints.of(paintOf(paint)),
    text: () =>
      xml(
        "styleSheet",
        { xmlns: MAIN },
        xmlList(
          "numFmts",
          formats.items.map((formatCode, index) =>
            xml("numFmt", { numFmtId: FIRST_OWN_FORMAT + index, formatCode }),
          ),
        ),
        xmlList("fonts", fonts.items),
        xmlList("fills", fills.items),
        xmlList("borders", borders.items),
        xmlList("cellStyleXfs", [xml("xf", { numFmtId: 0, fontId: 0, fillId: 0, borderId: 0 })]),
        xmlList("cellXfs", looks.items),
        xmlList("cellStyles", [xml("cellStyle", { name: "Normal", xfId: 0, builtinId: 0 })]),
        xmlList("dxfs", paints.items),
      ),
  };
}

/** Things numbered in the order in which they are first met. */
function numbered(...first: readonly string[]) {
  const items = [...first];
  const numbers = new Map(first.map((item, index) => [item, index]));
  return {
    items,
    of(item: string): number {
      const number = numbers.get(item);
      if (number !== undefined) return number;
      numbers.set(item, items.length);
      return items.push(item) - 1;
    },
  };
}

function fontOf(look: CellLook): string {
  return xml(
    "font",
    {},
    ...emphasis(look),
    xml("sz", { val: look.size ?? USUAL_SIZE }),
    look.colour === undefined ? "" : xml("color", storedColour(look.colour)),
    xml("name", { val: look.font ?? USUAL_FONT }),
  );
}

function emphasis({ bold, italic, strike, underline }: CellLook): string[] {
  return [
    bold ? xml("b") : "",
    italic ? xml("i") : "",
    strike ? xml("strike") : "",
    underline ? xml("u") : "",
  ];
}

function patternFill(patternType: string): string {
  return xml("fill", {}, xml("patternFill", { patternType }));
}

function solidFill(colour: string): string {
  return xml(
    "fill",
    {},
    xml(
      "patternFill",
      { patternType: "solid" },
      xml("fgColor", storedColour(colour)),
      xml("bgColor", { indexed: 64 }),
    ),
  );
}

/** In the order of the file format. */
const SIDES: readonly BorderSide[] = ["left", "right", "top", "bottom"];

function bordersOf(borders: Borders): string {
  const sides = SIDES.map((side) => {
    const border = borders[side];
    return border
      ? xml(side, { style: border.line }, xml("color", storedColour(border.colour)))
      : xml(side);
  });
  return xml("border", {}, ...sides, xml("diagonal"));
}

function alignmentOf({ horizontal, vertical, wrap }: CellLook): string {
  return horizontal || vertical || wrap
    ? xml("alignment", {
        horizontal,
        vertical: vertical === "middle" ? "center" : vertical,
        wrapText: wrap ? 1 : undefined,
      })
    : "";
}

function paintOf({ bold, italic, colour, fill }: RulePaint): string {
  const font = [
    ...emphasis({ ...(bold && { bold }), ...(italic && { italic }) }),
    colour === undefined ? "" : xml("color", storedColour(colour)),
  ].join("");
  return xml(
    "dxf",
    {},
    font === "" ? "" : xml("font", {}, font),
    fill === undefined
      ? ""
      : xml(
          "fill",
          {},
          xml("patternFill", { patternType: "solid" }, xml("bgColor", storedColour(fill))),
        ),
  );
}
