/** A chart of points that can be picked: by pointer, or by Tab to the chart and the arrow keys within it. */
import {
  type ChartLayout,
  type ChartPoint,
  linePath,
  type Mark,
  markBeside,
  pointChart,
} from "../../tradeoffs/point-chart.js";
import { element } from "../parts/element.js";
import { svgElement } from "../parts/svg-element.js";

export interface ChartContent {
  readonly points: readonly ChartPoint[];
  readonly fromZero: { readonly x: boolean; readonly y: boolean };
  readonly xTitle: string;
  readonly yTitle: string;
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

const HEIGHT = 260;
const LEAST_WIDTH = 240;
const HIT_RADIUS = 12;

export function pointChartView(name: string, choose: (key: string) => void): PointChartView {
  const place = element("div", { class: "feed-chart" });
  let content: ChartContent | undefined;
  let drawnWidth = 0;

  function draw(next: ChartContent): void {
    content = next;
    drawnWidth = place.clientWidth;
    if (next.points.length === 0 || drawnWidth === 0) {
      place.replaceChildren();
      return;
    }
    const had = focusedKey(place);
    const width = Math.max(LEAST_WIDTH, drawnWidth);
    const size = { width, height: HEIGHT };
    const layout = pointChart(next.points, size, next.fromZero);
    place.replaceChildren(drawing(name, layout, next, choose));
    if (had !== undefined) markOf(place, had)?.focus();
  }

  new ResizeObserver(() => {
    if (content && place.clientWidth !== drawnWidth) draw(content);
  }).observe(place);
  return { element: place, draw };
}

function focusedKey(place: HTMLElement): string | undefined {
  const { activeElement } = document;
  return activeElement instanceof SVGGElement && place.contains(activeElement)
    ? activeElement.dataset["key"]
    : undefined;
}

function markOf(place: Element, key: string): SVGGElement | undefined {
  return [...place.querySelectorAll<SVGGElement>(".feed-mark")].find(
    (mark) => mark.dataset["key"] === key,
  );
}

function drawing(
  name: string,
  layout: ChartLayout,
  content: ChartContent,
  choose: (key: string) => void,
): SVGSVGElement {
  const { width, height, marks } = layout;
  const chosen = marks.filter(({ key }) => content.isChosen(key));
  const stop = chosen[0] ?? marks[0];
  const drawn = svgElement(
    "svg",
    {
      role: "group",
      "aria-label": name,
      width: String(width),
      height: String(height),
      viewBox: `0 0 ${width} ${height}`,
    },
    frame(layout, content),
    ...content.joined.map((series) =>
      svgElement("path", {
        class: `feed-chart-line feed-series-${series % SERIES_COLOURS}`,
        d: linePath(marks.filter((mark) => mark.series === series)),
      }),
    ),
    ...marks.map((mark) => pickable(mark, content, mark === stop)),
  );
  drawn.addEventListener("click", ({ target }) => {
    const key = keyOf(target);
    if (key !== undefined) choose(key);
  });
  drawn.addEventListener("keydown", (event) => {
    const key = keyOf(event.target);
    if (key === undefined) return;
    if (event.key === "Enter" || event.key === " ") choose(key);
    else if (!moveTo(drawn, markBeside(marks, key, event.key))) return;
    event.preventDefault();
  });
  return drawn;
}

function keyOf(target: EventTarget | null): string | undefined {
  return target instanceof Element
    ? target.closest<SVGGElement>(".feed-mark")?.dataset["key"]
    : undefined;
}

/** One mark at a time is reached by Tab, so that the chart is one stop. */
function moveTo(drawn: SVGSVGElement, mark: Mark | undefined): boolean {
  const next = mark && markOf(drawn, mark.key);
  if (!next) return false;
  for (const each of drawn.querySelectorAll(".feed-mark"))
    each.setAttribute("tabindex", each === next ? "0" : "-1");
  next.focus();
  return true;
}

function pickable(
  { key, x, y, path, series }: Mark,
  { nameOf, isChosen }: ChartContent,
  isStop: boolean,
): SVGGElement {
  const name = nameOf(key);
  return svgElement(
    "g",
    {
      class: `feed-mark feed-series-${series % SERIES_COLOURS}`,
      role: "button",
      tabindex: isStop ? "0" : "-1",
      "aria-pressed": String(isChosen(key)),
      "aria-label": name,
      "data-key": key,
      transform: `translate(${x.toFixed(1)} ${y.toFixed(1)})`,
    },
    svgElement("title", {}, name),
    svgElement("circle", { class: "feed-mark-ring", r: HIT_RADIUS }),
    svgElement("path", { class: "feed-mark-shape", d: path }),
  );
}

/** Axes, their ticks and titles: seen, and told to a screen reader by the marks' names instead. */
function frame(
  { left, right, top, bottom, height, xTicks, yTicks }: ChartLayout,
  { xTitle, yTitle }: ChartContent,
): SVGGElement {
  const label = (x: number, y: number, anchor: string, text: string) =>
    svgElement("text", { x: String(x), y: String(y), "text-anchor": anchor }, text);
  const rule = (x1: number, y1: number, x2: number, y2: number) =>
    svgElement("line", { x1, y1, x2, y2 });
  return svgElement(
    "g",
    { class: "feed-chart-frame", "aria-hidden": "true" },
    ...yTicks.flatMap(({ at, text }) => [
      rule(left, at, right, at),
      label(left - 7, at + 4, "end", text),
    ]),
    ...xTicks.flatMap(({ at, text }) => [
      rule(at, bottom, at, bottom + 5),
      label(at, bottom + 18, "middle", text),
    ]),
    rule(left, bottom, right, bottom),
    label(2, top - 14, "start", yTitle),
    label(right, height - 6, "end", xTitle),
  );
}
