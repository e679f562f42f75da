/** Efficiency of a stage over its load: the curve of the fitted losses, the datasheet's points, and the peak. */
import { line } from "d3-shape";
import { isCellTable } from "../../functions/downfeed.js";
import { stageEfficiency } from "../../src/converters/stage-efficiency.js";
import { stagePeak } from "../../src/converters/stage-peak.js";
import { words } from "../words/words.js";
import type { CallReading } from "./call-readings.js";
import { percent, plainFigure, watts } from "./parts/figures.js";
import type { Drawing, Picture, PictureVariant, Surface } from "./parts/picture.js";
import { plotOf, within } from "./parts/plot.js";
import { part } from "./parts/svg-parts.js";
import { LINE_HEIGHT, textLine, textWidth } from "./parts/text-lines.js";

const said = words.pictures.efficiency;

export interface FittedStage {
  readonly outputVoltage: number;
  readonly fixedLoss: number;
  readonly linearLoss: number;
  readonly quadraticLoss: number;
  readonly worstMisfit: number;
  readonly points: readonly EfficiencyPoint[];
}

export interface EfficiencyPoint {
  readonly load: number;
  readonly efficiency: number;
}

export function efficiencyPictures(readings: readonly CallReading[]): readonly PictureVariant[] {
  return readings.flatMap((reading) => {
    const stage = fittedStage(reading);
    const { sheet, address } = reading.at;
    return stage ? [{ name: `${sheet}!${address}`, picture: efficiencyPicture(stage) }] : [];
  });
}

/** What STAGE_FIT was given, and what it gives. */
export function fittedStage({ outcome: { value, givens } }: CallReading): FittedStage | undefined {
  if (!isCellTable(value)) return undefined;
  const [fixedLoss, linearLoss, quadraticLoss, worstMisfit] = (value[0] ?? []).map(Number);
  const { outputVoltage, loads, efficiencies } = givens as {
    outputVoltage: number;
    loads: readonly number[];
    efficiencies: readonly number[];
  };
  if (fixedLoss === undefined || linearLoss === undefined) return undefined;
  if (quadraticLoss === undefined || worstMisfit === undefined) return undefined;
  const points = loads
    .map((load, index) => ({ load, efficiency: efficiencies[index] ?? 0 }))
    .sort((one, other) => one.load - other.load);
  return {
    outputVoltage,
    fixedLoss,
    linearLoss,
    quadraticLoss,
    worstMisfit,
    points,
  };
}

export function efficiencyAt(stage: FittedStage, load: number): number {
  const outputCurrent = load / stage.outputVoltage;
  return stageEfficiency({ ...stage, outputCurrent }).efficiency;
}

/** Where fixed and quadratic loss are equal, held within the datasheet's loads. */
export function peakOf(stage: FittedStage): EfficiencyPoint & {
  readonly isInside: boolean;
} {
  const { fixedLoss, quadraticLoss, outputVoltage, points } = stage;
  const [least, most] = [points[0]?.load ?? 0, points.at(-1)?.load ?? 0];
  const hasPeak = fixedLoss > 0 && quadraticLoss > 0;
  // Without one of the two losses the efficiency only falls, or only rises.
  const beyond = quadraticLoss > 0 ? 0 : Infinity;
  const peak = hasPeak ? outputVoltage * stagePeak(stage).current : beyond;
  const load = Math.min(Math.max(peak, least), most);
  const efficiency = efficiencyAt(stage, load);
  return { load, efficiency, isInside: load === peak };
}

const CURVE_POINTS = 40;

function curveLoads({ points }: FittedStage): number[] {
  const [least, most] = [points[0]?.load ?? 0, points.at(-1)?.load ?? 0];
  return Array.from(
    { length: CURVE_POINTS + 1 },
    (_, index) => least + ((most - least) * index) / CURVE_POINTS,
  );
}

export function efficiencyPicture(stage: FittedStage): Picture {
  const { points, worstMisfit } = stage;
  const peak = peakOf(stage);
  const [least, most] = [points[0], points.at(-1)];
  const measured = new Map(points.map((one) => [one.load, one.efficiency]));
  const loads = [...new Set([...curveLoads(stage), ...measured.keys()])].sort(
    (one, other) => one - other,
  );
  return {
    title: said.title,
    alternative: said.alternative(
      points.length,
      watts(least?.load ?? 0),
      percent(least?.efficiency ?? 0),
      watts(most?.load ?? 0),
      percent(most?.efficiency ?? 0),
      percent(worstMisfit),
      peak.isInside,
      percent(peak.efficiency),
      watts(peak.load),
    ),
    draw: (surface) => drawn(stage, surface),
    table: {
      columns: [
        { heading: said.columns.load, format: "0.0" },
        { heading: said.columns.fitted, format: "0.0%" },
        { heading: said.columns.measured, format: "0.0%" },
      ],
      rows: loads.map((load) => [load, efficiencyAt(stage, load), measured.get(load) ?? ""]),
    },
    chart: {
      kind: "scatter",
      categoryTitle: said.columns.load,
      valueTitle: said.axis,
      series: ["line", "points"],
    },
  };
}

const WIDE = 560;
const MARK = 5;

function drawn(stage: FittedStage, surface: Surface): Drawing {
  const { width, palette } = surface;
  const { points } = stage;
  const loads = curveLoads(stage);
  const peak = peakOf(stage);
  const shown = [
    ...points.map(({ efficiency }) => efficiency),
    ...loads.map((load) => efficiencyAt(stage, load)),
  ];
  const [low, high] = [Math.min(...shown), Math.max(...shown)];
  const plot = plotOf(
    { title: said.columns.load, domain: [0, (loads.at(-1) ?? 1) * 1.04] },
    {
      title: said.axis,
      domain: [low - (high - low) * 0.35, high + (high - low) * 0.45],
      tell: (share) => `${plainFigure(100 * share)}\u00a0%`,
    },
    { height: width >= WIDE ? 240 : 200, right: 12 },
    surface,
  );
  const place = (load: number) => plot.x(load);
  const curve = line<number>()
    .x(place)
    .y((load) => plot.y(efficiencyAt(stage, load)))(loads);
  const told = said.peakLabel(peak.isInside, percent(peak.efficiency), watts(peak.load));
  const at = { x: place(peak.load), y: plot.y(peak.efficiency) };
  const middle = loads[Math.floor(loads.length * 0.45)] ?? 0;
  const least = points[0];
  return {
    height: plot.height,
    parts: [
      ...plot.parts,
      part("path", {
        d: curve ?? "",
        fill: "none",
        stroke: palette.accent,
        "stroke-width": 2.5,
      }),
      ...points.map(({ load, efficiency }) =>
        part(
          "circle",
          {
            cx: place(load),
            cy: plot.y(efficiency),
            r: MARK - 1,
            fill: palette.paper,
            stroke: palette.ink,
            "stroke-width": 2,
          },
          part("title", {}, `${watts(load)}: ${percent(efficiency)}`),
        ),
      ),
      part("path", {
        d: diamond(at.x, at.y - 14),
        fill: palette.ink,
      }),
      textLine(within(at.x, textWidth(told, true), plot.right), at.y - 30, told, {
        colour: palette.ink,
        anchor: "middle",
        bold: true,
        halo: palette.paper,
      }),
      textLine(
        place(middle),
        plot.y(efficiencyAt(stage, middle)) + LINE_HEIGHT + 6,
        said.curveLabel,
        { colour: palette.accent, halo: palette.paper },
      ),
      ...(least
        ? [
            textLine(
              place(least.load) + 10,
              plot.y(least.efficiency) + LINE_HEIGHT,
              said.pointLabel,
              { colour: palette.ink, halo: palette.paper },
            ),
          ]
        : []),
    ],
  };
}

function diamond(x: number, y: number): string {
  return `M${x} ${y + MARK}L${x - MARK} ${y}L${x} ${y - MARK}L${x + MARK} ${y}Z`;
}
