/** Loss over the supply's window: the budget's own feed table solved at one voltage after the other. */
import { area, line } from "d3-shape";
import { type Cell, type CellTable, evaluate, isCellTable } from "../../functions/downfeed.js";
import { calledTable, rangeRows, numberOf } from "../budgets/reading/range-table.js";
import type { ReadRange } from "../budgets/reading/found-budget.js";
import { words } from "../words/words.js";
import { volts, watts } from "./parts/figures.js";
import { hatches, hatchFill } from "./parts/hatches.js";
import type { Drawing, Picture, Surface } from "./parts/picture.js";
import { plotOf, spreadApart, within } from "./parts/plot.js";
import { isStage, onlySupply, type SolvedItem } from "./solved-feed.js";
import { part } from "./parts/svg-parts.js";
import { LINE_HEIGHT, textLines, textWidth } from "./parts/text-lines.js";

const said = words.pictures.sweep;

export interface SweepPoint {
  readonly voltage: number;
  /** Supply, runs and everything in series with them. */
  readonly line: number;
  readonly stages: number;
}

export interface SweptFeed {
  readonly feed: ReadRange;
  /** As the sheet's own call says: light, nominal or peak. */
  readonly loads: Cell;
}

const POINTS = 25;

/** Voltages at which the feed has no operating point are left out. */
export function lossSweep(
  { feed, loads }: SweptFeed,
  [lowest, highest]: readonly [number, number],
): readonly SweepPoint[] {
  const cells = calledTable(feed);
  return Array.from({ length: POINTS }, (_, index) => {
    const part = index / (POINTS - 1);
    return lowest + (highest - lowest) * part;
  }).flatMap((voltage) => sweepPoint(cells, loads, voltage, feed));
}

function sweepPoint(cells: CellTable, loads: Cell, voltage: number, feed: ReadRange): SweepPoint[] {
  const outcome = evaluate("CHAIN_SOLVE", [cells, loads, voltage]);
  if (!outcome.ok || !isCellTable(outcome.value)) return [];
  const values = outcome.value.map((row) => row.map((value) => value ?? ""));
  const solved = rangeRows({ ...feed, values });
  const losses = rangeRows(feed).map((row, index) => ({
    kind: String(row.value("Kind")).trim().toLowerCase(),
    loss: numberOf(solved[index]?.value("Loss W") ?? ""),
  }));
  if (losses.some(({ loss }) => loss === undefined)) return [];
  const sum = (wanted: boolean) =>
    losses.reduce(
      (total, { kind, loss = 0 }) => total + (isStage({ kind }) === wanted ? loss : 0),
      0,
    );
  return [{ voltage, stages: sum(true), line: sum(false) }];
}

export function lossSweepPicture(
  items: readonly SolvedItem[],
  swept: SweptFeed,
): Picture | undefined {
  const supply = onlySupply(items);
  const { lowestVoltage: low, highestVoltage: high } = supply ?? {};
  if (!supply || low === undefined || high === undefined) return undefined;
  if (!(high > low)) return undefined;
  const points = lossSweep(swept, [low, high]);
  const [first, last] = [points[0], points.at(-1)];
  if (!first || !last || points.length < 2) return undefined;
  const solved = solvedPoint(items, supply);
  return {
    title: said.title,
    alternative: [
      said.alternative(
        volts(first.voltage),
        watts(total(first)),
        volts(last.voltage),
        watts(total(last)),
      ),
      said.solved(
        volts(solved.voltage),
        watts(total(solved)),
        watts(solved.line),
        watts(solved.stages),
      ),
      ...(points.length < POINTS ? [said.leftOut(POINTS - points.length)] : []),
    ].join(" "),
    draw: (surface) => drawn(points, solved, surface),
    table: {
      columns: [
        { heading: said.columns.voltage, format: "0.0" },
        { heading: said.columns.line, format: "0.0" },
        { heading: said.columns.stages, format: "0.0" },
        { heading: said.columns.total, format: "0.0" },
      ],
      rows: points.map((point) => [point.voltage, point.line, point.stages, total(point)]),
    },
    chart: {
      kind: "scatter",
      categoryTitle: said.columns.voltage,
      valueTitle: said.axis,
      series: ["line", "line", "line"],
    },
  };
}

/** What the sheet shows. */
function solvedPoint(items: readonly SolvedItem[], { inputVoltage }: SolvedItem): SweepPoint {
  const sum = (wanted: boolean) =>
    items.filter((item) => isStage(item) === wanted).reduce((sum, { loss }) => sum + loss, 0);
  return { voltage: inputVoltage, line: sum(false), stages: sum(true) };
}

function total({ line: along, stages }: SweepPoint): number {
  return along + stages;
}

const WIDE = 560;

function drawn(points: readonly SweepPoint[], solved: SweepPoint, surface: Surface): Drawing {
  const { width, palette } = surface;
  const isWide = width >= WIDE;
  const most = Math.max(total(solved), ...points.map(total));
  const [first, last] = [points[0] ?? solved, points.at(-1) ?? solved];
  const plot = plotOf(
    { title: said.columns.voltage, domain: [first.voltage, last.voltage] },
    { title: said.axis, domain: [0, most * 1.25] },
    { height: isWide ? 240 : 200, right: isWide ? 210 : 96 },
    surface,
  );
  const x = (point: SweepPoint) => plot.x(point.voltage);
  const layer = (
    from: (point: SweepPoint) => number,
    to: (point: SweepPoint) => number,
    fill: string,
    stroke: string,
  ) =>
    part("path", {
      d:
        area<SweepPoint>()
          .x(x)
          .y0((point) => plot.y(from(point)))
          .y1((point) => plot.y(to(point)))(points) ?? "",
      fill,
      stroke,
      "stroke-width": 0.75,
    });
  const edge = line<SweepPoint>()
    .x(x)
    .y((point) => plot.y(total(point)))(points);
  const labels = [
    { lines: said.totalLabel(watts(total(last))), at: total(last), bold: true },
    {
      lines: said.stagesLabel(watts(last.stages)),
      at: last.line + last.stages / 2,
    },
    { lines: said.lineLabel(watts(last.line)), at: last.line / 2 },
  ];
  const height = (isWide ? 1 : 2) * LINE_HEIGHT;
  const places = spreadApart(
    labels.map(({ at }) => plot.y(at)),
    height + 2,
    [plot.top + height / 2, plot.bottom - height / 2],
  );
  const at = { x: plot.x(solved.voltage), y: plot.y(total(solved)) };
  const told = said.solvedLabel(volts(solved.voltage), watts(total(solved)));
  const toldLines = isWide ? [told.join(", ")] : told;
  const widest = Math.max(...toldLines.map((each) => textWidth(each, true)));
  return {
    height: plot.height,
    parts: [
      hatches(surface),
      ...plot.parts,
      layer(
        () => 0,
        ({ line: along }) => along,
        hatchFill(surface, "lost"),
        palette.loss,
      ),
      layer(({ line: along }) => along, total, palette.window, palette.accent),
      part("path", {
        d: edge ?? "",
        fill: "none",
        stroke: palette.ink,
        "stroke-width": 2,
      }),
      ...labels.flatMap(({ lines, bold }, index) =>
        textLines(
          plot.right + 8,
          (places[index] ?? 0) - height / 2,
          isWide ? [lines.join(" ")] : lines,
          { colour: palette.ink, ...(bold && { bold: true as const }) },
        ),
      ),
      part("path", {
        d: `M${at.x} ${plot.bottom}V${at.y}`,
        stroke: palette.ink,
        "stroke-width": 1,
        "stroke-dasharray": "2 3",
      }),
      part("circle", {
        cx: at.x,
        cy: at.y,
        r: 5,
        fill: palette.paper,
        stroke: palette.ink,
        "stroke-width": 2,
      }),
      ...textLines(
        plot.left + within(at.x - plot.left, widest + 8, plot.right - plot.left),
        at.y - 8 - toldLines.length * LINE_HEIGHT,
        toldLines,
        {
          colour: palette.ink,
          anchor: "middle",
          bold: true,
          halo: palette.paper,
        },
      ),
    ],
  };
}
