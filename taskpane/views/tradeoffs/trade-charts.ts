/** Two charts of a search: what none beats over two of loss, mass and cost, and loss over the distribution voltage. */
import { lossByVoltage } from "../../../src/tradeoffs/least-loss.js";
import type { FrontPoint } from "../../../src/tradeoffs/pareto-front.js";
import type { TradeFindings } from "../../../src/tradeoffs/trade-search.js";
import { tradePlace, type TradeSpace } from "../../../src/tradeoffs/trade-space.js";
import { type ChartPoint, seriesPath } from "../../pictures/point-chart.js";
import { element, freshId } from "../parts/element.js";
import { type PointChartView, pointChartView, SERIES_COLOURS } from "./point-chart-view.js";
import { svgElement } from "../parts/svg-element.js";
import { words } from "../../words/words.js";

const said = words.tradeoffs.charts;

type Figure = "loss" | "mass" | "cost";
const PAIRS: readonly (readonly [x: Figure, y: Figure])[] = [
  ["cost", "loss"],
  ["mass", "loss"],
  ["cost", "mass"],
];

export interface TradeChartsOptions {
  readonly space: TradeSpace;
  readonly findings: TradeFindings;
  /** Name and figures of a candidate. */
  readonly told: (index: number) => string;
  readonly choose: (index: number) => void;
}

export interface TradeCharts {
  readonly element: HTMLElement;
  mark(chosen: FrontPoint | undefined): void;
}

export function tradeCharts(options: TradeChartsOptions): TradeCharts {
  const { choose } = options;
  let chosen: FrontPoint | undefined;
  let pair = PAIRS[0]!;
  const front = pointChartView(said.front, (key) => choose(Number(key)));
  const voltage = pointChartView(said.voltage, (key) => choose(Number(key.split(" ")[1])));
  const select = element(
    "select",
    { id: freshId("axes"), class: "feed-input" },
    ...PAIRS.map(([x, y], index) => element("option", { value: String(index) }, said.pair(y, x))),
  );
  select.addEventListener("change", () => {
    pair = PAIRS[select.selectedIndex] ?? pair;
    drawFront(front, pair, options, chosen);
  });
  const missing = element("p", { class: "feed-quiet" });

  return {
    element: element(
      "div",
      { class: "feed-charts" },
      element(
        "section",
        {},
        element("h3", { class: "feed-group-heading" }, said.front),
        element(
          "div",
          { class: "feed-trade-field" },
          element("label", { for: select.id }, said.axes),
          select,
        ),
        front.element,
        voltageLegend(options),
      ),
      element(
        "section",
        {},
        element("h3", { class: "feed-group-heading" }, said.voltage),
        voltage.element,
        legend([said.least, said.alike].map((text, series) => [series, text])),
        missing,
      ),
    ),
    mark(next) {
      chosen = next;
      drawFront(front, pair, options, chosen);
      missing.textContent = drawVoltages(voltage, options, chosen);
    },
  };
}

function drawFront(
  view: PointChartView,
  [x, y]: readonly [Figure, Figure],
  { space, findings, told }: TradeChartsOptions,
  chosen: FrontPoint | undefined,
): void {
  view.draw({
    points: findings.front.map((point) => ({
      key: String(point.index),
      x: point[x],
      y: point[y],
      series: tradePlace(space, point.index).supply,
    })),
    across: { title: said.axis[x], isFromZero: false },
    up: { title: said.axis[y], isFromZero: false },
    joined: [],
    nameOf: (key) => told(Number(key)),
    isChosen: (key) => key === String(chosen?.index),
  });
}

const LEAST = 0;
const ALIKE = 1;

/** @returns which voltages have nothing to show, in words. */
function drawVoltages(
  view: PointChartView,
  { space, findings, told }: TradeChartsOptions,
  chosen: FrontPoint | undefined,
): string {
  const voltages = lossByVoltage(space, findings.leastLosses, chosen);
  const volts = (supply: number) => space.supplies[supply]?.voltage ?? 0;
  const points = voltages.flatMap(({ supply, least, alike }): ChartPoint[] =>
    [least, alike].flatMap((kept, series) =>
      kept
        ? [
            {
              key: `${series} ${kept.index}`,
              x: volts(supply),
              y: kept.loss,
              series,
            },
          ]
        : [],
    ),
  );
  view.draw({
    points,
    across: { title: said.volts, isFromZero: true },
    up: { title: said.axis.loss, isFromZero: true },
    joined: [LEAST, ALIKE],
    nameOf: (key) => {
      const [series, index] = key.split(" ").map(Number);
      const which = series === LEAST ? said.least : said.alike;
      return `${which}: ${told(index ?? 0)}`;
    },
    isChosen: (key) => key.split(" ")[1] === String(chosen?.index),
  });
  const none = voltages.filter(({ least }) => !least);
  return said.nothingAt(none.map(({ supply }) => volts(supply)));
}

function voltageLegend({ space, findings }: TradeChartsOptions): HTMLElement {
  const seen = new Set(findings.front.map(({ index }) => tradePlace(space, index).supply));
  return legend(
    space.supplies.flatMap(({ voltage }, supply) =>
      seen.has(supply) ? [[supply, said.distributed(voltage)] as const] : [],
    ),
  );
}

const LEGEND_SIZE = 14;
const LEGEND_AREA = 60;

function legend(entries: readonly (readonly [series: number, text: string])[]): HTMLElement {
  return element(
    "ul",
    { class: "feed-legend" },
    ...entries.map(([series, text]) =>
      element(
        "li",
        {},
        svgElement(
          "svg",
          {
            class: `feed-series-${series % SERIES_COLOURS}`,
            width: LEGEND_SIZE,
            height: LEGEND_SIZE,
            viewBox: `${-LEGEND_SIZE / 2} ${-LEGEND_SIZE / 2} ${LEGEND_SIZE} ${LEGEND_SIZE}`,
            "aria-hidden": "true",
          },
          svgElement("path", {
            class: "feed-mark-shape",
            d: seriesPath(series, LEGEND_AREA),
          }),
        ),
        text,
      ),
    ),
  );
}
