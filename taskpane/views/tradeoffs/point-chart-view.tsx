/** A chart of points that can be picked: by pointer, or by Tab to the chart and the arrow keys within it. */
import { render } from "preact";
import { useMemo, useRef, useState } from "preact/hooks";
import { PANE_PALETTE } from "../../pictures/parts/palettes.js";
import {
  type ChartAxis,
  type ChartPoint,
  linePath,
  markBeside,
  pointChart,
} from "../../pictures/point-chart.js";
import { LETTER_SIZE } from "../../pictures/parts/text-lines.js";
import { drawn, useWidth } from "../parts/drawing-view.js";

export interface ChartContent {
  readonly points: readonly ChartPoint[];
  readonly across: ChartAxis;
  readonly up: ChartAxis;
  /** Series whose points are joined. */
  readonly joined: readonly number[];
  readonly nameOf: (key: string) => string;
  readonly isChosen: (key: string) => boolean;
}

export interface PointChartView {
  readonly element: HTMLElement;
  draw(content: ChartContent): void;
}

/** Colours are fewer than shapes, so that the two together tell more series apart. */
export const SERIES_COLOURS = 6;

const LEAST_WIDTH = 240;
const HIT_RADIUS = 12;

export function pointChartView(name: string, choose: (key: string) => void): PointChartView {
  const place = document.createElement("div");
  return {
    element: place,
    draw: (content) => render(<Chart name={name} content={content} choose={choose} />, place),
  };
}

interface ChartProps {
  readonly name: string;
  readonly content: ChartContent;
  readonly choose: (key: string) => void;
}

function Chart({ name, content, choose }: ChartProps) {
  const place = useRef<HTMLDivElement>(null);
  const width = useWidth(place);
  const { points, across, up, joined, nameOf, isChosen } = content;
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
          {joined.map((series) => (
            <path
              key={series}
              class={`feed-chart-line feed-series-${series % SERIES_COLOURS}`}
              d={linePath(marks.filter((mark) => mark.series === series))}
            />
          ))}
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
