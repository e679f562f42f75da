/** Where each watt goes: from the supply to the loads, each loss branching off where it arises. */
import { linkHorizontal } from "d3-shape";
import { words } from "../words/words.js";
import { percent, watts } from "./parts/figures.js";
import { hatches, hatchFill } from "./parts/hatches.js";
import type { Drawing, Picture, Surface } from "./parts/picture.js";
import { feedSums, isLoad, type SolvedItem } from "./solved-feed.js";
import { part, type SvgPart } from "./parts/svg-parts.js";
import { LINE_HEIGHT, textLine, textLines, textWidth, wrapped } from "./parts/text-lines.js";
import { type FlowEnd, type FlowLayout, flowLayout, type FlowRibbon } from "./watt-flow-layout.js";

const said = words.pictures.watts;

/** From here on a label and its number stand in one line. */
const WIDE = 560;
const BAR = 4;

export function wattFlow(items: readonly SolvedItem[]): Picture | undefined {
  const sums = feedSums(items);
  if (!(sums.supply > 0)) return undefined;
  const losses = items.filter(({ loss }) => loss > 0);
  const most = losses.reduce<SolvedItem | undefined>(
    (worst, item) => (worst && worst.loss >= item.loss ? worst : item),
    undefined,
  );
  return {
    title: said.title,
    alternative: said.alternative(
      watts(sums.supply),
      watts(sums.loads),
      percent(sums.loads / sums.supply),
      watts(sums.losses),
      most && { item: most.item, power: watts(most.loss) },
    ),
    draw: (surface) => drawn(items, surface),
    table: {
      columns: [
        { heading: said.columns.item },
        { heading: said.columns.input, format: "0.0" },
        { heading: said.columns.load, format: "0.0" },
        { heading: said.columns.loss, format: "0.0" },
      ],
      rows: [
        ...items.map((item) => [
          item.item,
          item.inputPower,
          isLoad(item) ? item.inputPower : "",
          isLoad(item) ? "" : item.loss,
        ]),
        [said.total, sums.supply, sums.loads, sums.losses],
      ],
    },
  };
}

function drawn(items: readonly SolvedItem[], surface: Surface): Drawing {
  const { width, palette } = surface;
  const sums = feedSums(items);
  const isWide = width >= WIDE;
  const labels = Math.round(isWide ? width * 0.36 : width * 0.48);
  const room = labels - (isWide ? 84 : 16);
  const linesOf = ({ role, item }: Pick<FlowEnd, "role" | "item">) =>
    role === "load" ? wrapped(item, room, { bold: true }) : wrapped(said.lostIn(item), room);
  const layout = flowLayout(items, {
    flowHeight: isWide ? 190 : 140,
    gap: isWide ? 5 : 7,
    labelHeight: (end) => LINE_HEIGHT * (linesOf(end).length + (isWide ? 0 : 1)),
  });
  const head = wrapped(
    said.sums(watts(sums.supply), watts(sums.loads), watts(sums.losses)),
    width,
    { most: 4, bold: true },
  );
  const top = head.length * LINE_HEIGHT + 10;
  const across = (width - labels - BAR) / layout.columns;
  const x = (column: number) => column * across;
  return {
    height: top + layout.height,
    parts: [
      hatches(surface),
      ...textLines(0, 0, head, { colour: palette.ink, bold: true }),
      part(
        "g",
        { transform: `translate(0 ${top})` },
        ...layout.ribbons.map((ribbon) => ribbonPart(ribbon, x, surface)),
        ...layout.bars.map(({ column, top: y, height }) =>
          part("rect", {
            x: x(column),
            y,
            width: BAR,
            height: Math.max(1, height),
            fill: palette.ink,
          }),
        ),
        ...(isWide ? powersWithin(layout, across, surface) : []),
        ...layout.ends.flatMap((end) =>
          endLabel(end, linesOf(end), width - labels + 10, surface, isWide),
        ),
      ),
    ],
  };
}

/** Never thinner than a line, so that the least loss is still seen; the middle of it is where it belongs. */
const LEAST = 1;

type Place = [x: number, y: number];

function ribbonPart(
  { role, power, item, ...places }: FlowRibbon,
  x: (column: number) => number,
  surface: Surface,
): SvgPart {
  const { palette } = surface;
  const { fromColumn, toColumn, height } = places;
  const thick = Math.max(LEAST, height);
  const [fromTop, toTop] = [places.fromTop, places.toTop].map(
    (top) => top - (thick - height) / 2,
  ) as [number, number];
  const [start, bent, end] = [
    x(fromColumn) + BAR,
    x(fromColumn + 1),
    x(toColumn) + (role === "onward" ? 0 : BAR),
  ];
  const edge = (source: Place, target: Place) =>
    (linkHorizontal<unknown, Place>()({ source, target }) ?? "").slice(1);
  const outline = [
    `M${edge([start, fromTop], [bent, toTop])}`,
    `H${end}`,
    `V${toTop + thick}`,
    `L${edge([bent, toTop + thick], [start, fromTop + thick])}`,
    "Z",
  ].join("");
  const isLoss = role === "loss";
  return part(
    "path",
    {
      d: outline,
      class: `watt-${role}`,
      fill: isLoss ? hatchFill(surface, "lost") : palette.flow,
      stroke: isLoss ? palette.loss : palette.accent,
      "stroke-width": isLoss ? 0.75 : 0.5,
    },
    part("title", {}, `${isLoss ? said.lostIn(item) : item}: ${watts(power)}`),
  );
}

/** Writes behind each bar what flows through it, where the flow is thick enough. */
function powersWithin({ bars }: FlowLayout, across: number, { palette }: Surface): SvgPart[] {
  return bars.flatMap(({ column, top, height, power }) => {
    const text = watts(power);
    const fits = height >= LINE_HEIGHT + 2 && textWidth(text) + 12 <= across;
    return fits
      ? [
          textLine(column * across + BAR + 6, top + height / 2, text, {
            colour: palette.ink,
          }),
        ]
      : [];
  });
}

function endLabel(
  { role, power, middle }: FlowEnd,
  lines: readonly string[],
  x: number,
  { palette, width }: Surface,
  isWide: boolean,
): SvgPart[] {
  const look = role === "load" ? ({ bold: true } as const) : {};
  const ink = { colour: palette.ink, ...look };
  const told = watts(power);
  const linesAt = (all: readonly string[]) =>
    textLines(x, middle - (all.length * LINE_HEIGHT) / 2, all, ink);
  return isWide
    ? [...linesAt(lines), textLine(width, middle, told, { ...ink, anchor: "end" })]
    : linesAt([...lines, told]);
}
