/** The front of a search with the chosen option, as a picture with its numbers. */
import type { Objective } from "../../../src/tradeoffs/objectives.js";
import { isWhole } from "../../../src/tradeoffs/search-rounds.js";
import { choicesAt } from "../../../src/tradeoffs/varied-feed.js";
import { figureText, shownFigure } from "../../tradeoffs/objective-figures.js";
import { optionName } from "../../tradeoffs/search-job.js";
import type {
  Figures,
  SearchJob,
  SearchResult,
  ToldOption,
} from "../../tradeoffs/search-messages.js";
import { tradeWords as said } from "../../words/trade-words.js";
import type { Drawing, Picture, Surface } from "../parts/picture.js";
import { part, type SvgPart } from "../parts/svg-parts.js";
import { LINE_HEIGHT, shortened, textLine } from "../parts/text-lines.js";
import { type ChartPoint, pointChart, seriesPath } from "../point-chart.js";

export interface PicturedFront {
  readonly job: SearchJob;
  readonly result: Pick<SearchResult, "front" | "extent" | "present">;
  readonly chosen: ToldOption | undefined;
  readonly up: Objective;
  readonly across: Objective;
  /** Place of the variation whose choices have marks of their own. */
  readonly by: number;
}

/** Digits behind the point, as a spreadsheet writes them. */
const FORMATS: Readonly<Record<Objective, string>> = {
  loss: "0.0",
  mass: "0.00",
  volume: "0",
  price: "#,##0.00",
  "worst margin": "0.0;-0.0###",
};

export function frontPicture(pictured: PicturedFront): Picture {
  const { job, result, chosen } = pictured;
  const { variations, objectives, checks } = job;
  const { front, extent } = result;
  const traded = objectives.map((objective) => said.objectives[objective]);
  const told = (name: string, figures: Figures) =>
    said.told(
      name,
      objectives.map((objective, at) =>
        said.figureTold(said.objectives[objective], figureText(objective, figures[at])),
      ),
    );
  const figureCells = (figures: Figures) =>
    objectives.map((objective, at) => {
      const value = figures[at];
      return value === undefined ? "" : shownFigure(objective, value);
    });
  return {
    title: said.pictureTitle,
    alternative: [
      isWhole(extent)
        ? said.pictureFound(front.length, extent.all, traded)
        : said.pictureFoundAmong(front.length, extent.settled, extent.all, traded, extent.unproven),
      ...variations.map(({ name, choices }) =>
        said.pictureVaried(
          name,
          choices.map((choice) => choice.name),
        ),
      ),
      said.pictureHeld(checks),
      ...(chosen
        ? [said.pictureChosen(told(optionName(variations, chosen.index), chosen.figures))]
        : []),
    ].join(" "),
    solvedFor: said.pictureSolved,
    draw: (surface) => drawn(pictured, surface),
    table: {
      columns: [
        { heading: said.option },
        ...objectives.map((objective) => ({
          heading: said.inUnits[objective],
          format: FORMATS[objective],
        })),
      ],
      rows: [
        [said.now, ...figureCells(result.present)],
        ...shownOptions(pictured).map(({ index, figures }) => [
          optionName(variations, index),
          ...figureCells(figures),
        ]),
      ],
    },
  };
}

/** The front, and the chosen one where it lies beside it. */
function shownOptions({ result, chosen }: PicturedFront) {
  const front = result.front.map(({ index, values }) => ({ index, figures: values as Figures }));
  return chosen && chosen.outcome.kind !== "unbeaten" ? [...front, chosen] : front;
}

const RING = 10;
const LEGEND_ROOM = 18;

function drawn(pictured: PicturedFront, surface: Surface): Drawing {
  const { job, chosen, up, across, by } = pictured;
  const { variations, objectives } = job;
  const { palette, width } = surface;
  const points = shownOptions(pictured).flatMap(({ index, figures }): ChartPoint[] => {
    const [x, y] = [across, up].map((objective) => figures[objectives.indexOf(objective)]);
    if (x === undefined || y === undefined) return [];
    return [
      {
        key: String(index),
        x: shownFigure(across, x),
        y: shownFigure(up, y),
        series: choicesAt({ variations }, index)[by]!,
      },
    ];
  });
  const chart = pointChart(
    points,
    { title: said.inUnits[across], isFromZero: false },
    { title: said.inUnits[up], isFromZero: false },
    surface,
  );
  const mark = (x: number, y: number, series: number): SvgPart =>
    part("path", {
      d: seriesPath(series),
      transform: `translate(${x.toFixed(1)} ${y.toFixed(1)})`,
      fill: palette.accent,
      stroke: palette.paper,
      "stroke-width": 1,
    });
  const seen = [...new Set(points.map(({ series }) => series))].sort((one, other) => one - other);
  const top = chart.height + 4;
  return {
    height: top + seen.length * LINE_HEIGHT,
    parts: [
      ...chart.parts,
      ...chart.marks
        .filter(({ key }) => key === String(chosen?.index))
        .map(({ x, y }) =>
          part("circle", {
            cx: x,
            cy: y,
            r: RING,
            fill: palette.window,
            stroke: palette.ink,
            "stroke-width": 2,
          }),
        ),
      ...chart.marks.map(({ x, y, series }) => mark(x, y, series)),
      ...seen.flatMap((series, row) => {
        const y = top + (row + 0.5) * LINE_HEIGHT;
        const { name, choices } = variations[by]!;
        const text = `${name}: ${choices[series]!.name}`;
        return [
          mark(LEGEND_ROOM / 2, y, series),
          textLine(LEGEND_ROOM, y, shortened(text, width - LEGEND_ROOM), { colour: palette.ink }),
        ];
      }),
    ],
  };
}
