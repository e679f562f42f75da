/** Which inputs matter: one bar for each, from the result at its low end to the result at its high end, widest first. */
import { scaleLinear } from "d3-scale";
import type { FoundBudget } from "../../budgets/reading/found-budget.js";
import { words } from "../../words/words.js";
import { hatches, hatchFill } from "../parts/hatches.js";
import type { Drawing, Picture, Surface } from "../parts/picture.js";
import { within } from "../parts/plot.js";
import { part, type SvgPart } from "../parts/svg-parts.js";
import { LINE_HEIGHT, shortened, textLine, textLines, textWidth } from "../parts/text-lines.js";
import {
  type AnswerRows,
  AT_NOMINAL,
  numberAt,
  type PicturedResult,
  resultPictures,
  varyingInputs,
} from "./spread-figures.js";

const said = words.pictures.tornado;

/** Further inputs are in the function's own table. */
const MOST_BARS = 12;

interface TornadoBar {
  readonly input: string;
  readonly lowGives: number;
  readonly highGives: number;
}

export function tornadoPictures(budget: Pick<FoundBudget, "ranges">) {
  return resultPictures("CHAIN_TORNADO", budget, tornadoPicture);
}

/** Undefined where nothing varies, or nothing that matters. */
function tornadoPicture(
  [entered, ...rows]: AnswerRows,
  result: PicturedResult,
): Picture | undefined {
  const inputs = varyingInputs(rows);
  const nominal = entered && numberAt(entered, "Low gives");
  if (!entered || nominal === undefined) return undefined;
  const bars = inputs.flatMap((row): TornadoBar[] => {
    const [lowGives, highGives] = [numberAt(row, "Low gives"), numberAt(row, "High gives")];
    if (lowGives === undefined || highGives === undefined || lowGives === highGives) return [];
    return [{ input: String(row.get("Input")), lowGives, highGives }];
  });
  const without = inputs.filter((row) => numberAt(row, "Swing") === undefined).length;
  const shown = bars.slice(0, MOST_BARS);
  const [widest] = shown;
  if (!widest) return undefined;
  const { told, format } = result;
  return {
    title: said.title(result.title),
    alternative: [
      said.entered(result.title, told(nominal)),
      said.widest(widest.input, told(widest.lowGives), told(widest.highGives)),
      ...(without > 0 ? [said.without(without)] : []),
      ...(bars.length > shown.length ? [said.more(bars.length - shown.length)] : []),
      said.atNominal(String(entered.get("Note"))),
    ].join(" "),
    solvedFor: AT_NOMINAL,
    draw: (surface) => drawn(shown, nominal, result, surface),
    table: {
      columns: [
        { heading: said.columns.input },
        { heading: said.columns.low, format },
        { heading: said.columns.high, format },
        { heading: said.columns.swing, format },
      ],
      rows: shown.map(({ input, lowGives, highGives }) => [
        input,
        lowGives,
        highGives,
        Math.max(lowGives, nominal, highGives) - Math.min(lowGives, nominal, highGives),
      ]),
    },
  };
}

const BAR = 16;
const ROW = LINE_HEIGHT + BAR + 10;

function drawn(
  bars: readonly TornadoBar[],
  nominal: number,
  { told, limit }: PicturedResult,
  surface: Surface,
): Drawing {
  const { width, palette } = surface;
  const values = bars.flatMap(({ lowGives, highGives }) => [lowGives, highGives]);
  const [lowest, highest] = [Math.min(nominal, ...values), Math.max(nominal, ...values)];
  const isLimitIn = limit !== undefined && limit >= lowest && limit <= highest;
  const x = scaleLinear()
    .domain([lowest, highest])
    .range([2, width - 2]);
  const top = 2 * LINE_HEIGHT + 8;
  const bottom = top + bars.length * ROW;
  const ends = [told(lowest), told(highest)] as const;
  const middle = said.enteredMark(told(nominal));
  return {
    height: bottom + LINE_HEIGHT + 6,
    parts: [
      hatches(surface),
      textLine(0, LINE_HEIGHT / 2, said.legend, { colour: palette.quiet }),
      ...bars.flatMap((bar, index) => barParts(bar, nominal, x, top + index * ROW, surface)),
      part("path", {
        d: `M${x(nominal)} ${top}V${bottom}`,
        stroke: palette.ink,
        "stroke-width": 1.25,
        "stroke-dasharray": "6 4",
      }),
      ...(isLimitIn
        ? [
            part("path", {
              d: `M${x(limit) - 1.5} ${top}V${bottom}M${x(limit) + 1.5} ${top}V${bottom}`,
              stroke: palette.limit,
              "stroke-width": 1.25,
            }),
          ]
        : []),
      textLine(
        within(x(nominal), textWidth(middle, true), width),
        top - LINE_HEIGHT / 2 - 2,
        middle,
        { colour: palette.ink, anchor: "middle", bold: true, halo: palette.paper },
      ),
      ...bars.flatMap(({ input, lowGives, highGives }, index) =>
        textLines(
          6,
          top + index * ROW,
          [shortened(said.bar(input, told(lowGives), told(highGives)), width - 8)],
          {
            colour: palette.ink,
            halo: palette.paper,
          },
        ),
      ),
      textLine(0, bottom + LINE_HEIGHT / 2 + 4, ends[0], { colour: palette.quiet }),
      textLine(width, bottom + LINE_HEIGHT / 2 + 4, ends[1], {
        colour: palette.quiet,
        anchor: "end",
      }),
    ],
  };
}

/** Hatched where the input is low, plain where it is high. */
function barParts(
  { input, lowGives, highGives }: TornadoBar,
  nominal: number,
  x: (value: number) => number,
  top: number,
  surface: Surface,
): SvgPart[] {
  const { palette } = surface;
  const half = (end: number, fill: string, stroke: string) =>
    part(
      "rect",
      {
        x: Math.min(x(nominal), x(end)),
        y: top + LINE_HEIGHT + 2,
        width: Math.abs(x(end) - x(nominal)),
        height: BAR,
        fill,
        stroke,
        "stroke-width": 1,
      },
      part("title", {}, input),
    );
  return [
    half(lowGives, hatchFill(surface, "even"), palette.quiet),
    half(highGives, palette.flow, palette.accent),
  ];
}
