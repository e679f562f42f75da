/** A plain plot with two axes: where numbers lie in it, its ticks, and labels beside its lines that do not touch. */
import { scaleLinear } from "d3-scale";
import { plainFigure } from "./figures.js";
import type { Surface } from "./picture.js";
import { part, type SvgPart } from "./svg-parts.js";
import { LINE_HEIGHT, textLine, textWidth } from "./text-lines.js";

export interface Axis {
  readonly title: string;
  readonly domain: readonly [number, number];
  /** What an axis of shares is told in. */
  readonly tell?: (value: number) => string;
}

export interface PlotRoom {
  readonly height: number;
  /** For labels beside the lines. */
  readonly right: number;
}

export interface Plot {
  readonly x: (value: number) => number;
  readonly y: (value: number) => number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  readonly height: number;
  readonly parts: readonly SvgPart[];
}

export function plotOf(across: Axis, up: Axis, room: PlotRoom, { width, palette }: Surface): Plot {
  const top = LINE_HEIGHT + 8;
  const bottom = top + room.height;
  const tellUp = up.tell ?? plainFigure;
  const tellAcross = across.tell ?? plainFigure;
  const yScale = scaleLinear().domain(up.domain).range([bottom, top]);
  const yTicks = yScale.ticks(5);
  const left = Math.max(...yTicks.map((tick) => textWidth(tellUp(tick)))) + 8;
  const right = width - room.right;
  const xScale = scaleLinear().domain(across.domain).range([left, right]);
  const xTicks = ticksThatFit(xScale, right - left, tellAcross);
  const quiet = { colour: palette.quiet } as const;
  const grid = { stroke: palette.line, "stroke-width": 1 } as const;
  return {
    x: xScale,
    y: yScale,
    left,
    right,
    top,
    bottom,
    height: bottom + 2 * LINE_HEIGHT + 13,
    parts: [
      textLine(0, LINE_HEIGHT / 2, up.title, quiet),
      ...yTicks.flatMap((tick) => [
        part("path", { d: `M${left} ${yScale(tick)}H${right}`, ...grid }),
        textLine(left - 6, yScale(tick), tellUp(tick), {
          ...quiet,
          anchor: "end",
        }),
      ]),
      ...xTicks.flatMap((tick) => [
        part("path", { d: `M${xScale(tick)} ${bottom}v4`, ...grid }),
        textLine(
          within(xScale(tick), textWidth(tellAcross(tick)), width),
          bottom + 9 + LINE_HEIGHT / 2,
          tellAcross(tick),
          { ...quiet, anchor: "middle" },
        ),
      ]),
      part("path", {
        d: `M${left} ${bottom}H${right}`,
        stroke: palette.quiet,
        "stroke-width": 1,
      }),
      textLine(right, bottom + 11 + LINE_HEIGHT * 1.5, across.title, {
        ...quiet,
        anchor: "end",
      }),
    ],
  };
}

const BETWEEN_TICKS = 14;

/** As many as can be told side by side. */
function ticksThatFit(
  scale: { ticks(count: number): number[] },
  length: number,
  tell: (value: number) => string,
): number[] {
  for (let count = 8; count > 2; count -= 1) {
    const ticks = scale.ticks(count);
    const widest = Math.max(...ticks.map((tick) => textWidth(tell(tick))));
    if ((widest + BETWEEN_TICKS) * (ticks.length - 1) <= length) return ticks;
  }
  return scale.ticks(2);
}

/** The middle of a text so wide, so that it stays inside. */
export function within(middle: number, wide: number, width: number): number {
  return Math.min(Math.max(middle, wide / 2), width - wide / 2);
}

/** Moved apart, in their order, as little as it takes; none beyond the ends. */
export function spreadApart(
  wanted: readonly number[],
  gap: number,
  [first, last]: readonly [number, number],
): number[] {
  const order = wanted.map((_, index) => index);
  order.sort((one, other) => (wanted[one] ?? 0) - (wanted[other] ?? 0));
  const placed: number[] = [...wanted];
  let free = first;
  for (const index of order) {
    placed[index] = Math.max(free, wanted[index] ?? 0);
    free = (placed[index] ?? 0) + gap;
  }
  let most = last;
  for (const index of order.reverse()) {
    placed[index] = Math.min(most, placed[index] ?? 0);
    most = (placed[index] ?? 0) - gap;
  }
  return placed;
}
