/** Bars one below the other, each with its name and number above it, and upright lines that all of them are held against. */
import { scaleLinear } from "d3-scale";
import { hatches, hatchFill } from "./hatches.js";
import type { Drawing, Surface } from "./picture.js";
import { part, type SvgPart } from "./svg-parts.js";
import { LINE_HEIGHT, textLine, textLines, textWidth } from "./text-lines.js";

export interface Bar {
  readonly name: string;
  readonly value: number;
  readonly told: string;
  /** Hatched: what the bar before it is compared with. */
  readonly isCompared?: true;
}

export interface Mark {
  readonly value: number;
  readonly told: string;
  readonly kind: "even" | "rated";
}

const BAR = 16;
const ROW = LINE_HEIGHT + BAR + 10;

export function barsDrawing(
  bars: readonly Bar[],
  marks: readonly Mark[],
  surface: Surface,
): Drawing {
  const { width, palette } = surface;
  const values = [...bars, ...marks].map(({ value }) => value);
  const x = scaleLinear()
    .domain([Math.min(0, ...values), Math.max(...values) * 1.04])
    .range([0, width - 2]);
  const top = marks.length * LINE_HEIGHT + 6;
  const bottom = top + bars.length * ROW;
  return {
    height: bottom,
    parts: [
      hatches(surface),
      ...bars.flatMap((bar, index) => barParts(bar, x, top + index * ROW, surface)),
      part("path", {
        d: `M${x(0)} ${top}V${bottom}`,
        stroke: palette.quiet,
        "stroke-width": 1,
      }),
      ...marks.flatMap((mark, index) =>
        markParts(mark, x(mark.value), index * LINE_HEIGHT, bottom, surface),
      ),
      ...bars.flatMap(({ name, told }, index) => [
        ...textLines(6, top + index * ROW, [`${name}: ${told}`], {
          colour: palette.ink,
          halo: palette.paper,
        }),
      ]),
    ],
  };
}

function barParts(
  { name, value, told, isCompared }: Bar,
  x: (value: number) => number,
  top: number,
  surface: Surface,
): SvgPart[] {
  const { palette } = surface;
  const [from, to] = [x(Math.min(0, value)), x(Math.max(0, value))];
  return [
    part(
      "rect",
      {
        x: from,
        y: top + LINE_HEIGHT + 2,
        width: to - from,
        height: BAR,
        fill: isCompared ? hatchFill(surface, "even") : palette.flow,
        stroke: isCompared ? palette.quiet : palette.accent,
        "stroke-width": 1,
      },
      part("title", {}, `${name}: ${told}`),
    ),
  ];
}

/** Dashed for an even share, a double line for a rating. */
function markParts(
  { told, kind }: Mark,
  at: number,
  top: number,
  bottom: number,
  { palette, width }: Surface,
): SvgPart[] {
  const isRated = kind === "rated";
  const colour = isRated ? palette.limit : palette.ink;
  const line = (offset: number) =>
    part("path", {
      d: `M${at + offset} ${top}V${bottom}`,
      stroke: colour,
      "stroke-width": 1.25,
      "stroke-dasharray": isRated ? undefined : "6 4",
    });
  const fitsRight = at + 8 + textWidth(told, true) <= width;
  return [
    ...(isRated ? [line(-1.5), line(1.5)] : [line(0)]),
    textLine(at + (fitsRight ? 6 : -6), top + LINE_HEIGHT / 2, told, {
      colour,
      anchor: fitsRight ? "start" : "end",
      bold: true,
      halo: palette.paper,
    }),
  ];
}
