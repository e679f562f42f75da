/**
 * Voltage from the supply to a load, item below item: a line that falls from left to right reads from the top down. The
 * scale is one of factors, because a feed goes from hundreds of volts to five, and a drop of so many per cent is the same
 * length everywhere.
 */
import { words } from "../words/words.js";
import { percent, plainFigure, volts } from "./parts/figures.js";
import { hatches } from "./parts/hatches.js";
import type { Drawing, Picture, PictureVariant, Surface } from "./parts/picture.js";
import { axisAbove, laidAcross } from "./parts/plot.js";
import { isLoad, isStage, pathTo, type SolvedItem } from "./solved-feed.js";
import { part, type SvgPart } from "./parts/svg-parts.js";
import { LINE_HEIGHT, textLine, textLines, textWidth, wrapped } from "./parts/text-lines.js";
import type { BandLine } from "./asked-bands.js";

const said = words.pictures.voltage;

/** One for each load; the one with the least margin to its window leads. */
export function voltagePaths(
  items: readonly SolvedItem[],
  bands: readonly BandLine[],
): readonly PictureVariant[] {
  const loads = items.filter(isLoad);
  return [...loads]
    .sort((one, other) => margin(one) - margin(other))
    .map((load) => ({
      name: load.item,
      picture: voltagePath(pathTo(items, load), bands),
    }));
}

/** Distance to the nearer end of the window, as a part of that end; below 0 outside. */
function margin(item: SolvedItem): number {
  const { inputVoltage: at, lowestVoltage, highestVoltage } = item;
  return Math.min(
    lowestVoltage === undefined ? Infinity : at / lowestVoltage - 1,
    highestVoltage === undefined ? Infinity : 1 - at / highestVoltage,
  );
}

function voltagePath(path: readonly SolvedItem[], bands: readonly BandLine[]): Picture {
  const [supply, load] = [path[0], path.at(-1)];
  return {
    title: said.title(load?.item ?? ""),
    alternative: [
      said.falls(
        supply?.item ?? "",
        volts(supply?.inputVoltage ?? 0),
        load?.item ?? "",
        volts(load?.inputVoltage ?? 0),
      ),
      ...(load && hasWindow(load) ? [windowTold(load)] : []),
      ...path
        .filter((item) => margin(item) < 0)
        .map(({ item, inputVoltage }) => said.outside(item, volts(inputVoltage))),
      ...bands.map(({ name, limit }) => {
        const within = path.filter(({ inputVoltage }) => inputVoltage <= limit);
        return said.within(
          name,
          plainFigure(limit),
          within.map(({ item }) => item),
        );
      }),
    ].join(" "),
    draw: (surface) => drawn(path, bands, surface),
    table: {
      columns: [
        { heading: said.columns.item },
        { heading: said.columns.input, format: "0.00" },
        { heading: said.columns.output, format: "0.00" },
        { heading: said.columns.lowest, format: "0.00" },
        { heading: said.columns.highest, format: "0.00" },
      ],
      rows: path.map((item) => [
        item.item,
        item.inputVoltage,
        item.outputVoltage ?? "",
        item.lowestVoltage ?? "",
        item.highestVoltage ?? "",
      ]),
    },
    chart: {
      kind: "line",
      categoryTitle: said.columns.item,
      valueTitle: said.axis,
      logarithmic: true,
      series: ["line", "line", "points", "points"],
    },
  };
}

function hasWindow({ lowestVoltage, highestVoltage }: SolvedItem): boolean {
  return lowestVoltage !== undefined || highestVoltage !== undefined;
}

function windowTold(item: SolvedItem): string {
  const away = percent(Math.abs(margin(item)));
  return said.accepts(item.item, windowOf(item), away);
}

function windowOf({ lowestVoltage: low, highestVoltage: high }: SolvedItem) {
  if (low === undefined) return said.upTo(plainFigure(high ?? 0));
  return high === undefined
    ? said.from(plainFigure(low))
    : said.fromTo(plainFigure(low), plainFigure(high));
}

const ROW = 54;
const WIDE_ROW = 44;
const WIDE = 560;
const AXIS = 26;
const MARK = 4;

function drawn(path: readonly SolvedItem[], bands: readonly BandLine[], surface: Surface): Drawing {
  const { width, palette } = surface;
  const isWide = width >= WIDE;
  const left = isWide ? 320 : 6;
  const row = isWide ? WIDE_ROW : ROW;
  const text = isWide ? 0 : LINE_HEIGHT + 2;
  const ends = [left, width - 12] as const;
  const axis = laidAcross({ domain: domainOf(path, bands), isLogarithmic: true, tell }, ends);
  const x = axis.place;
  const top = AXIS + bands.length * LINE_HEIGHT;
  const bottom = top + path.length * row;
  const key = wrapped(said.key, width, { most: 3 });
  return {
    height: bottom + 10 + key.length * LINE_HEIGHT,
    parts: [
      hatches(surface),
      ...axisAbove(axis, bottom, surface),
      ...bandParts(bands, x, bottom, surface),
      ...path.flatMap((item, index) =>
        windowPart(item, x, ends, top + index * row + text, row - text, surface),
      ),
      part("path", {
        d: path
          .map((item, index) => itemLine(item, x, top + index * row, row, text, index === 0))
          .join(""),
        fill: "none",
        stroke: palette.ink,
        "stroke-width": 2,
        "stroke-linejoin": "round",
      }),
      ...path.flatMap((item, index) =>
        itemLabel(item, top + index * row, row, left, isWide, surface),
      ),
      endMark(path, x, bottom - (row - text) / 2, surface),
      ...textLines(0, bottom + 8, key, { colour: palette.quiet }),
    ],
  };
}

type Scale = (volts: number) => number;

/** Half an octave more on either side than anything that is drawn. */
function domainOf(path: readonly SolvedItem[], bands: readonly BandLine[]): [number, number] {
  const all = [
    ...path.flatMap((item) => [
      item.inputVoltage,
      item.outputVoltage,
      item.lowestVoltage,
      item.highestVoltage,
    ]),
    ...bands.map(({ limit }) => limit),
  ].filter((value) => value !== undefined && value > 0) as number[];
  return [Math.min(...all) / 1.2, Math.max(...all) * 1.2];
}

function tell(voltage: number): string {
  return `${plainFigure(voltage)}\u00a0V`;
}

/** Dashed where touching is allowed up to, dotted for the band above; each with its name in a line of its own. */
function bandParts(
  bands: readonly BandLine[],
  x: Scale,
  bottom: number,
  { palette, width }: Surface,
): SvgPart[] {
  const lines = bands.map(({ limit }, index) =>
    part("path", {
      d: `M${x(limit)} ${AXIS - 6 + index * LINE_HEIGHT}V${bottom}`,
      stroke: palette.limit,
      "stroke-width": 1.5,
      "stroke-dasharray": index === 0 ? "7 4" : "2 3",
    }),
  );
  const labels = bands.map(({ name, limit }, index) => {
    const told = said.band(name, plainFigure(limit));
    const y = AXIS - 6 + index * LINE_HEIGHT;
    const fitsRight = x(limit) + 6 + textWidth(told, true) <= width;
    return textLine(x(limit) + (fitsRight ? 6 : -6), y + LINE_HEIGHT / 2, told, {
      colour: palette.limit,
      anchor: fitsRight ? "start" : "end",
      bold: true,
      halo: palette.paper,
    });
  });
  return [...lines, ...labels];
}

function windowPart(
  item: SolvedItem,
  x: Scale,
  [start, end]: readonly [number, number],
  top: number,
  height: number,
  { palette }: Surface,
): SvgPart[] {
  if (!hasWindow(item)) return [];
  const { lowestVoltage: low, highestVoltage: high } = item;
  const [from, to] = [low === undefined ? start : x(low), high === undefined ? end : x(high)];
  return [
    part(
      "rect",
      {
        x: from,
        y: top + 4,
        width: Math.max(1, to - from),
        height: height - 8,
        fill: palette.window,
        stroke: palette.accent,
        "stroke-width": 1,
        rx: 2,
      },
      part("title", {}, windowTold(item)),
    ),
  ];
}

/** Through an item: slanted where it only drops, a step where it converts, and to the middle of a load. */
function itemLine(
  item: SolvedItem,
  x: Scale,
  top: number,
  row: number,
  text: number,
  isFirst: boolean,
): string {
  const { inputVoltage, outputVoltage } = item;
  const middle = top + text + (row - text) / 2;
  const start = isFirst ? `M${x(inputVoltage)} ${top + text / 2}` : "";
  if (outputVoltage === undefined) return `${start}V${middle}`;
  const [enter, leave] = isStage(item) ? [middle, middle] : [top + text + 4, top + row - 4];
  return `${start}V${enter}L${x(outputVoltage)} ${leave}V${top + row}`;
}

function endMark(path: readonly SolvedItem[], x: Scale, y: number, { palette }: Surface): SvgPart {
  const load = path.at(-1);
  return part("circle", {
    cx: x(load?.inputVoltage ?? 1),
    cy: y,
    r: MARK,
    fill: palette.ink,
    stroke: palette.paper,
    "stroke-width": 1.5,
  });
}

function itemLabel(
  item: SolvedItem,
  top: number,
  row: number,
  left: number,
  isWide: boolean,
  { palette, width }: Surface,
): SvgPart[] {
  const { inputVoltage, outputVoltage } = item;
  const told =
    outputVoltage === undefined
      ? volts(inputVoltage)
      : said.through(volts(inputVoltage), volts(outputVoltage));
  const look = { colour: palette.ink, halo: palette.paper } as const;
  if (!isWide) {
    const name = wrapped(item.item, width - textWidth(told) - 12, {
      most: 1,
      bold: true,
    });
    return [
      ...textLines(0, top, name, { ...look, bold: true }),
      ...textLines(width, top, [told], { ...look, anchor: "end" }),
    ];
  }
  const y = top + row / 2 - LINE_HEIGHT;
  return [
    ...textLines(0, y, wrapped(item.item, left - 24, { most: 1, bold: true }), {
      ...look,
      bold: true,
    }),
    ...textLines(
      0,
      y + LINE_HEIGHT,
      [hasWindow(item) ? said.allowed(told, windowOf(item)) : told],
      look,
    ),
  ];
}
