/** Points over two axes, laid out: the plot that they stand in, and where every mark lies. */
import { symbol, symbolsFill } from "d3-shape";
import type { Surface } from "./parts/picture.js";
import { type Axis, type Plot, plotOf } from "./parts/plot.js";

export interface ChartPoint {
  /** Tells the point from the others of its chart. */
  readonly key: string;
  readonly x: number;
  readonly y: number;
  /** Points of one series share shape and colour. */
  readonly series: number;
}

export interface ChartAxis {
  readonly title: string;
  /** It begins at 0, so that lengths can be compared and not only places. */
  readonly isFromZero: boolean;
}

export interface Mark {
  readonly key: string;
  readonly x: number;
  readonly y: number;
  readonly series: number;
  /** Outline around the mark's own middle. */
  readonly path: string;
}

export interface PointChart extends Plot {
  /** From left to right. */
  readonly marks: readonly Mark[];
}

const ROOM = { height: 192, right: 22 } as const;

export function pointChart(
  points: readonly ChartPoint[],
  across: ChartAxis,
  up: ChartAxis,
  surface: Surface,
): PointChart {
  const plot = plotOf(
    axisFor(
      across,
      points.map(({ x }) => x),
    ),
    axisFor(
      up,
      points.map(({ y }) => y),
    ),
    ROOM,
    surface,
  );
  const marks = points.map(({ key, x, y, series }): Mark => {
    return { key, x: plot.x(x), y: plot.y(y), series, path: seriesPath(series) };
  });
  return { ...plot, marks: marks.sort((one, other) => one.x - other.x || one.y - other.y) };
}

function axisFor({ title, isFromZero }: ChartAxis, figures: readonly number[]): Axis {
  return { title, domain: extent(figures, isFromZero), isRound: true };
}

/** A domain of some width, also where all values are one. */
function extent(values: readonly number[], isFromZero: boolean): [number, number] {
  const most = Math.max(0, ...values);
  const least = isFromZero ? 0 : Math.min(most, ...values);
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
