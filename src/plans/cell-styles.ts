/**
 * How each kind of cell looks, once for every host. Colours keep a contrast of 4.5 : 1 or more on their own ground;
 * an input is told by its fill, its border and its blue text together, never by colour alone.
 */
import type { PlanRule, StyleName } from "./sheet-plan.js";

export interface CellStyle {
  readonly bold?: true;
  readonly italic?: true;
  /** In points; a host's usual size where it is left out. */
  readonly fontSize?: number;
  /** `#rrggbb` */
  readonly colour?: string;
  readonly fill?: string;
  readonly border?: "thin" | "bottom" | "top";
  readonly borderColour?: string;
  readonly align?: "left" | "centre" | "right";
  readonly wrap?: true;
}

const INK = "#1b1f24";
const DEEP = "#14405c";
const LINE = "#9aa7b2";
const INPUT = {
  colour: "#1238a8",
  fill: "#fff8dc",
  border: "thin",
  borderColour: "#8a8460",
} as const;

export const cellStyles: Readonly<Record<StyleName, CellStyle>> = {
  title: { bold: true, fontSize: 16, colour: DEEP },
  subtitle: { italic: true, colour: "#46525c" },
  heading: {
    bold: true,
    fontSize: 12,
    colour: DEEP,
    border: "bottom",
    borderColour: DEEP,
  },
  tableHeading: {
    bold: true,
    colour: INK,
    fill: "#dbe7ef",
    border: "thin",
    borderColour: LINE,
    align: "centre",
    wrap: true,
  },
  label: { colour: INK },
  text: { colour: INK, wrap: true },
  unit: { colour: "#46525c" },
  input: { ...INPUT, align: "right" },
  inputText: { ...INPUT, align: "left" },
  result: { colour: INK, align: "right" },
  resultText: { colour: INK, align: "left" },
  key: {
    bold: true,
    colour: INK,
    fill: "#e6f2e8",
    border: "thin",
    borderColour: "#5d8a66",
    align: "right",
  },
  total: {
    bold: true,
    colour: INK,
    border: "top",
    borderColour: INK,
  },
  caution: {
    bold: true,
    colour: "#6b2400",
    fill: "#ffeede",
    border: "thin",
    borderColour: "#b4521a",
    wrap: true,
  },
  remark: { italic: true, colour: "#46525c", wrap: true },
  caption: { bold: true, colour: INK, wrap: true },
  lineText: { colour: INK, align: "left", wrap: true, border: "bottom", borderColour: LINE },
  lineFigure: { colour: INK, align: "right", wrap: true, border: "bottom", borderColour: LINE },
  closing: { colour: INK, fill: "#c3ccd4" },
  unused: { colour: INK, fill: "#eceff2" },
};

/** What a rule of a plan paints over a cell's own style; the words and symbols in the cells say the same. */
export const paintStyles: Readonly<
  Record<PlanRule["paint"], { readonly colour: string; readonly fill: string }>
> = {
  danger: { colour: "#8c0d16", fill: "#ffdcdc" },
  warning: { colour: "#6b3d00", fill: "#ffeab8" },
  good: { colour: "#14532d", fill: "#dcf3e2" },
  unused: { colour: "#46525c", fill: "#eceff2" },
};
