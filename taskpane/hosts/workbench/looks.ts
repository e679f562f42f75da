/** Looks of cells between the workbench and a file. */
import type { IBorderStyleData, IStyleData, Nullable } from "@univerjs/core";
import {
  BORDER_LINES,
  type BorderSide,
  type Borders,
  type BorderSnapshot,
  type CellLook,
  type RulePaint,
} from "../files/workbook-snapshot.js";

/** As the spreadsheet numbers them, from 1; numbers beyond are kinds that files show as `justify`. */
const HORIZONTAL = ["left", "center", "right", "justify"] as const;
const VERTICAL = ["top", "middle", "bottom"] as const;
const WRAP = 3;
const USUAL_SIZE = 11;
const SIDES = { top: "t", bottom: "b", left: "l", right: "r" } as const;
const SIDE_NAMES = Object.keys(SIDES) as readonly BorderSide[];
/** Between a border and the text, as in the workbench's own sheets. */
const PADDING = { l: 4, r: 4 };

export function lookOf(style: Nullable<IStyleData>): CellLook | undefined {
  if (!style) return undefined;
  const colour = plainColour(style.cl?.rgb);
  const fill = plainColour(style.bg?.rgb);
  const horizontal = HORIZONTAL[(style.ht ?? 0) - 1];
  const vertical = VERTICAL[(style.vt ?? 0) - 1];
  const borders = bordersOf(style);
  const format = style.n?.pattern;
  const look: CellLook = {
    ...(style.bl && { bold: true }),
    ...(style.it && { italic: true }),
    ...(style.ul?.s && { underline: true }),
    ...(style.st?.s && { strike: true }),
    ...(style.ff && { font: style.ff }),
    ...(style.fs && style.fs !== USUAL_SIZE && { size: style.fs }),
    ...(colour !== undefined && { colour }),
    ...(fill !== undefined && { fill }),
    ...(horizontal !== undefined && { horizontal }),
    ...(vertical !== undefined && { vertical }),
    ...(style.tb === WRAP && { wrap: true }),
    ...(Object.keys(borders).length > 0 && { borders }),
    ...(format && format !== "General" && { format }),
  };
  return Object.keys(look).length > 0 ? look : undefined;
}

/** Whether a style says more than a look can. */
export function isMoreThanLook(style: Nullable<IStyleData>): boolean {
  return Boolean(style?.tr?.a || style?.tr?.v || (style?.va ?? 1) > 1);
}

export function styleOf(look: CellLook): IStyleData {
  return {
    pd: PADDING,
    ...paintStyle(look),
    ...(look.underline && { ul: { s: 1 } }),
    ...(look.strike && { st: { s: 1 } }),
    ...(look.font && { ff: look.font }),
    ...(look.size && { fs: look.size }),
    ...(look.horizontal && { ht: HORIZONTAL.indexOf(look.horizontal) + 1 }),
    ...(look.vertical && { vt: VERTICAL.indexOf(look.vertical) + 1 }),
    ...(look.wrap && { tb: WRAP }),
    ...(look.borders && { bd: borderData(look.borders) }),
    ...(look.format && { n: { pattern: look.format } }),
  };
}

export function paintStyle(paint: RulePaint): IStyleData {
  return {
    ...(paint.bold && { bl: 1 }),
    ...(paint.italic && { it: 1 }),
    ...(paint.colour && { cl: { rgb: paint.colour } }),
    ...(paint.fill && { bg: { rgb: paint.fill } }),
  };
}

export function paintOf(style: Nullable<IStyleData>): RulePaint {
  const { bold, italic, colour, fill } = lookOf(style) ?? {};
  return {
    ...(bold && { bold }),
    ...(italic && { italic }),
    ...(colour !== undefined && { colour }),
    ...(fill !== undefined && { fill }),
  };
}

function bordersOf({ bd }: IStyleData): Borders {
  const borders: Partial<Record<BorderSide, BorderSnapshot>> = {};
  for (const side of SIDE_NAMES) {
    const border = bd?.[SIDES[side]];
    const line = BORDER_LINES[(border?.s ?? 0) - 1];
    if (line === undefined) continue;
    borders[side] = { line, colour: plainColour(border?.cl.rgb) ?? "#000000" };
  }
  return borders;
}

function borderData(borders: Borders) {
  const data: Record<string, IBorderStyleData> = {};
  for (const side of SIDE_NAMES) {
    const border = borders[side];
    if (border)
      data[SIDES[side]] = {
        s: BORDER_LINES.indexOf(border.line) + 1,
        cl: { rgb: border.colour },
      };
  }
  return data;
}

/** `#rrggbb`, however the spreadsheet writes it; nothing for a colour that is none. */
export function plainColour(code: Nullable<string>): string | undefined {
  const [, six] = /^#([0-9a-f]{6})$/i.exec(code ?? "") ?? [];
  if (six !== undefined) return `#${six.toLowerCase()}`;
  const [, three] = /^#([0-9a-f]{3})$/i.exec(code ?? "") ?? [];
  if (three !== undefined)
    return `#${[...three.toLowerCase()].map((digit) => digit + digit).join("")}`;
  const [, ...parts] = /^rgba?\((\d{1,3}),\s*(\d{1,3}),\s*(\d{1,3})/i.exec(code ?? "") ?? [];
  if (parts.length < 3) return undefined;
  return `#${parts
    .map((part) => Math.min(255, Number(part)).toString(16).padStart(2, "0"))
    .join("")}`;
}
