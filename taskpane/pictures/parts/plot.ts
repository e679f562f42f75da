/** Axes and plots: where numbers lie, the ticks that fit, and labels beside lines that do not touch. */
import { scaleLinear, scaleLog } from "d3-scale";
import { plainFigure } from "./figures.js";
import type { Surface } from "./picture.js";
import { part, type SvgPart } from "./svg-parts.js";
import { LINE_HEIGHT, textLine, textWidth } from "./text-lines.js";

export interface Axis {
  readonly title: string;
  readonly domain: readonly [number, number];
  /** It ends where a tick stands. */
  readonly isRound?: boolean;
  /** Equal factors are equal distances. */
  readonly isLogarithmic?: boolean;
  /** What an axis of shares is told in. */
  readonly tell?: (value: number) => string;
}

export interface Tick {
  /** Along its axis, in pixels. */
  readonly at: number;
  readonly text: string;
}

export interface LaidAxis {
  readonly place: (value: number) => number;
  readonly ticks: readonly Tick[];
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
  readonly xTicks: readonly Tick[];
  readonly yTicks: readonly Tick[];
  readonly parts: readonly SvgPart[];
}

export function plotOf(across: Axis, up: Axis, room: PlotRoom, surface: Surface): Plot {
  const { width, palette } = surface;
  const top = LINE_HEIGHT + 8;
  const bottom = top + room.height;
  const rising = laidUp(up, [bottom, top]);
  const left = Math.max(...rising.ticks.map(({ text }) => textWidth(text))) + 8;
  const right = width - room.right;
  const along = laidAcross(across, [left, right]);
  const quiet = { colour: palette.quiet } as const;
  const grid = { stroke: palette.line, "stroke-width": 1 } as const;
  return {
    x: along.place,
    y: rising.place,
    left,
    right,
    top,
    bottom,
    height: bottom + 2 * LINE_HEIGHT + 13,
    xTicks: along.ticks,
    yTicks: rising.ticks,
    parts: [
      textLine(0, LINE_HEIGHT / 2, up.title, quiet),
      ...rising.ticks.flatMap(({ at, text }) => [
        part("path", { d: `M${left} ${at}H${right}`, ...grid }),
        textLine(left - 6, at, text, { ...quiet, anchor: "end" }),
      ]),
      ...along.ticks.flatMap((tick) => [
        part("path", { d: `M${tick.at} ${bottom}v4`, ...grid }),
        tickText(tick, bottom + 9 + LINE_HEIGHT / 2, surface),
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

/** An axis above what it measures: its ticks, and a line down from each. */
export function axisAbove({ ticks }: LaidAxis, bottom: number, surface: Surface): SvgPart[] {
  const { palette } = surface;
  return ticks.flatMap((tick) => [
    part("path", {
      d: `M${tick.at} ${LINE_HEIGHT + 5}V${bottom}`,
      stroke: palette.line,
      "stroke-width": 1,
    }),
    ...(tick.text === "" ? [] : [tickText(tick, 8, surface)]),
  ]);
}

function tickText({ at, text }: Tick, y: number, { palette, width }: Surface): SvgPart {
  return textLine(within(at, textWidth(text), width), y, text, {
    colour: palette.quiet,
    anchor: "middle",
  });
}

const BETWEEN_TICKS = 14;
/** Where every tick has a line of its own to be told by. */
const BETWEEN_LINES = 4;
const MOST_TICKS = 8;

/** From left to right: as many ticks as can be told side by side. */
export function laidAcross(axis: Omit<Axis, "title">, range: readonly [number, number]): LaidAxis {
  if (axis.isLogarithmic) return toldWhereItFits(factorAxis(axis, range));
  for (let count = MOST_TICKS; ; count -= 1) {
    const laid = laidAxis(axis, range, count);
    if (count === 1 || laid.ticks.every((tick, index) => stands(tick, laid.ticks[index - 1])))
      return laid;
  }
}

function stands({ at, text }: Tick, before: Tick | undefined, gap = BETWEEN_TICKS): boolean {
  if (!before) return true;
  return at - before.at >= (textWidth(before.text) + textWidth(text)) / 2 + gap;
}

/** The others are lines without a word. */
function toldWhereItFits({ place, ticks }: LaidAxis): LaidAxis {
  let told: Tick | undefined;
  return {
    place,
    ticks: ticks.map((tick) => {
      if (!stands(tick, told, BETWEEN_LINES)) return { ...tick, text: "" };
      told = tick;
      return tick;
    }),
  };
}

const PIXELS_PER_TICK = 46;

/** From the bottom up. */
function laidUp(axis: Axis, range: readonly [number, number]): LaidAxis {
  return laidAxis(axis, range, Math.max(2, Math.round((range[0] - range[1]) / PIXELS_PER_TICK)));
}

function laidAxis(
  { domain, isRound, tell }: Omit<Axis, "title">,
  range: readonly [number, number],
  count: number,
): LaidAxis {
  const scale = scaleLinear().domain(domain).range(range);
  if (isRound) scale.nice(count);
  const values = scale.ticks(count);
  return laid(scale, values, tell ?? evenFigures(values));
}

/** 1, 2 and 5 of each power of ten. */
function factorAxis(
  { domain, tell = plainFigure }: Omit<Axis, "title">,
  range: readonly [number, number],
) {
  const [least, most] = domain;
  const power = Math.floor(Math.log10(least));
  const values = Array.from({ length: Math.ceil(Math.log10(most)) - power + 1 }, (_, index) =>
    [1, 2, 5].map((digit) => digit * 10 ** (power + index)),
  ).flat();
  return laid(
    scaleLog().domain(domain).range(range),
    values.filter((value) => value >= least && value <= most),
    tell,
  );
}

function laid(
  place: (value: number) => number,
  values: readonly number[],
  tell: (value: number) => string,
): LaidAxis {
  return { place, ticks: values.map((value) => ({ at: place(value), text: tell(value) })) };
}

/** All ticks of an axis with the decimals that their step asks for. */
function evenFigures([first = 0, second = first + 1]: readonly number[]) {
  const decimals = Math.max(0, -Math.floor(Math.log10(second - first) + 1e-9));
  const numbers = new Intl.NumberFormat(undefined, {
    minimumFractionDigits: decimals,
    maximumFractionDigits: decimals,
    useGrouping: false,
  });
  return (value: number) => numbers.format(value);
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
