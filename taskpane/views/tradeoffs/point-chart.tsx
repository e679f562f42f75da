/** A chart of points that can be picked: by pointer, or by Tab to the chart and the arrow keys within it. */
import { useMemo, useRef, useState } from "preact/hooks";
import { PANE_PALETTE } from "../../pictures/parts/palettes.js";
import {
  type ChartAxis,
  type ChartPoint,
  markBeside,
  pointChart,
} from "../../pictures/point-chart.js";
import { LETTER_SIZE } from "../../pictures/parts/text-lines.js";
import { drawn, useWidth } from "../parts/drawing-view.js";

export interface ChartContent {
  readonly points: readonly ChartPoint[];
  readonly across: ChartAxis;
  readonly up: ChartAxis;
  readonly nameOf: (key: string) => string;
  readonly isChosen: (key: string) => boolean;
}

/** Colours are fewer than shapes, so that the two together tell more series apart. */
export const SERIES_COLOURS = 6;

const LEAST_WIDTH = 240;
const HIT_RADIUS = 12;

export interface PointChartProps {
  readonly name: string;
  readonly content: ChartContent;
  readonly choose: (key: string) => void;
}

export function PointChart({ name, content, choose }: PointChartProps) {
  const place = useRef<HTMLDivElement>(null);
  const width = useWidth(place);
  const { points, across, up, nameOf, isChosen } = content;
  const chart = useMemo(() => {
    if (width === 0 || points.length === 0) return undefined;
    const surface = { width: Math.max(LEAST_WIDTH, width), palette: PANE_PALETTE, stem: "" };
    return pointChart(points, across, up, surface);
  }, [content, width]);
  const marks = chart?.marks ?? [];
  const [walked, walk] = useState("");
  const elements = useRef(new Map<string, SVGGElement>());
  /** One mark at a time is reached by Tab, so that the chart is one stop. */
  const stop = (
    marks.find(({ key }) => key === walked) ??
    marks.find(({ key }) => isChosen(key)) ??
    marks[0]
  )?.key;

  const onKeyDown = (event: KeyboardEvent, from: string) => {
    const next = markBeside(marks, from, event.key);
    if (event.key === "Enter" || event.key === " ") choose(from);
    else if (next) {
      walk(next.key);
      elements.current.get(next.key)?.focus();
    } else return;
    event.preventDefault();
  };
  return (
    <div class="feed-chart" ref={place}>
      {chart && (
        <svg
          role="group"
          aria-label={name}
          width={Math.max(LEAST_WIDTH, width)}
          height={chart.height}
          font-size={LETTER_SIZE}
        >
          {/* Axes are seen, and told to a screen reader by the marks' names instead. */}
          <g aria-hidden="true">{chart.parts.map(drawn)}</g>
          {marks.map((mark) => (
            <g
              key={mark.key}
              class={`feed-mark feed-series-${mark.series % SERIES_COLOURS}`}
              role="button"
              tabindex={mark.key === stop ? 0 : -1}
              aria-pressed={isChosen(mark.key)}
              aria-label={nameOf(mark.key)}
              transform={`translate(${mark.x.toFixed(1)} ${mark.y.toFixed(1)})`}
              ref={(made) => {
                if (made) elements.current.set(mark.key, made);
              }}
              onClick={() => {
                walk(mark.key);
                choose(mark.key);
              }}
              onKeyDown={(event) => onKeyDown(event, mark.key)}
            >
              <title>{nameOf(mark.key)}</title>
              <circle class="feed-mark-ring" r={HIT_RADIUS} />
              <path class="feed-mark-shape" d={mark.path} />
            </g>
          ))}
        </svg>
      )}
    </div>
  );
}
