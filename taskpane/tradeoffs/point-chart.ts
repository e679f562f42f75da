/** Points over two axes, laid out: where every tick, mark and line of a chart lies, in pixels. Nothing is drawn here. */
import { type ScaleLinear, scaleLinear } from "d3-scale";
import { line, symbol, symbolsFill } from "d3-shape";

export interface ChartPoint {
  /** Tells the point from the others of its chart. */
  readonly key: string;
  readonly x: number;
  readonly y: number;
  /** Points of one series share shape and colour. */
  readonly series: number;
}

export interface ChartSize {
  readonly width: number;
  readonly height: number;
}

export interface Tick {
  /** From the left for the axis below, from the top for the one at the left. */
  readonly at: number;
  readonly text: string;
}

export interface Mark {
  readonly key: string;
  readonly x: number;
  readonly y: number;
  readonly series: number;
  /** Outline around the mark's own middle. */
  readonly path: string;
}

export interface ChartLayout extends ChartSize {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  readonly xTicks: readonly Tick[];
  readonly yTicks: readonly Tick[];
  /** From left to right. */
  readonly marks: readonly Mark[];
}

const MARGIN = { top: 26, right: 22, bottom: 42 } as const;
const DIGIT_WIDTH = 6.8;
const BESIDE_TICK = 14;
const PIXELS_PER_TICK = { x: 84, y: 46 } as const;

/** @param fromZero Axes that begin at 0, so that lengths can be compared and not only places. */
export function pointChart(
  points: readonly ChartPoint[],
  { width, height }: ChartSize,
  fromZero: { readonly x: boolean; readonly y: boolean },
): ChartLayout {
  const [top, bottom] = [MARGIN.top, height - MARGIN.bottom];
  const y = axis(
    points.map((point) => point.y),
    fromZero.y,
    [bottom, top],
    PIXELS_PER_TICK.y,
  );
  const widest = Math.max(...y.ticks.map(({ text }) => text.length));
  const left = Math.ceil(widest * DIGIT_WIDTH) + BESIDE_TICK;
  const right = width - MARGIN.right;
  const x = axis(
    points.map((point) => point.x),
    fromZero.x,
    [left, right],
    PIXELS_PER_TICK.x,
  );
  const marks = points.map((point): Mark => {
    const { key, series } = point;
    const path = seriesPath(series);
    return { key, x: x.scale(point.x), y: y.scale(point.y), series, path };
  });
  return {
    width,
    height,
    left,
    right,
    top,
    bottom,
    xTicks: x.ticks,
    yTicks: y.ticks,
    marks: marks.sort((one, other) => one.x - other.x || one.y - other.y),
  };
}

interface LaidAxis {
  readonly scale: ScaleLinear<number, number>;
  readonly ticks: readonly Tick[];
}

function axis(
  figures: readonly number[],
  fromZero: boolean,
  range: readonly [number, number],
  pixelsPerTick: number,
): LaidAxis {
  const room = Math.abs(range[1] - range[0]) / pixelsPerTick;
  const count = Math.max(2, Math.round(room));
  const scale = scaleLinear().domain(extent(figures, fromZero)).range(range).nice(count);
  const values = scale.ticks(count);
  const numbers = tickNumbers(values);
  const ticks = values.map((value) => ({
    at: scale(value),
    text: numbers.format(value),
  }));
  return { scale, ticks };
}

/** All ticks of an axis with the decimals that their step asks for. */
function tickNumbers([first = 0, second = 1]: readonly number[]) {
  const decimals = Math.max(0, -Math.floor(Math.log10(second - first) + 1e-9));
  return new Intl.NumberFormat(undefined, {
    minimumFractionDigits: decimals,
    maximumFractionDigits: decimals,
  });
}

/** A domain of some width, also where all values are one. */
function extent(values: readonly number[], fromZero: boolean): [number, number] {
  const most = Math.max(0, ...values);
  const least = fromZero ? 0 : Math.min(most, ...values);
  if (most > least) return [least, most];
  return most === 0 ? [0, 1] : [0.9 * most, 1.1 * most];
}

const MARK_AREA = 84;

/** Outline of a series' mark: told apart by shape, whatever the colours. */
export function seriesPath(series: number, area = MARK_AREA): string {
  const shape = SHAPES[series % SHAPES.length];
  return (shape && symbol(shape, area)()) ?? "";
}

const [CIRCLE, CROSS, DIAMOND, SQUARE, STAR, TRIANGLE, FORK] = symbolsFill;
/** Those that differ most stand first. */
const SHAPES = [CIRCLE, SQUARE, TRIANGLE, DIAMOND, CROSS, STAR, FORK].flatMap(
  (shape) => shape ?? [],
);

const throughMarks = line<Mark>(
  ({ x }) => x,
  ({ y }) => y,
);

/** From mark to mark, in their order. */
export function linePath(marks: readonly Mark[]): string {
  return throughMarks(marks) ?? "";
}

/** The mark that a key leads to; nothing for a key that leads nowhere. */
export function markBeside(marks: readonly Mark[], from: string, key: string): Mark | undefined {
  const at = marks.findIndex((mark) => mark.key === from);
  switch (key) {
    case "ArrowRight":
    case "ArrowDown":
      return marks[Math.min(at + 1, marks.length - 1)];
    case "ArrowLeft":
    case "ArrowUp":
      return marks[Math.max(at - 1, 0)];
    case "Home":
      return marks[0];
    case "End":
      return marks.at(-1);
    default:
      return undefined;
  }
}
