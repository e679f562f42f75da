/** Sharing between units: the current of each beside the even share, and the worst-placed of like units. */
import { type Argument, isCellTable } from "../../functions/downfeed.js";
import { words } from "../words/words.js";
import { type Bar, barsDrawing, type Mark } from "./parts/bars.js";
import type { CallReading } from "./call-readings.js";
import { amperes, percent } from "./parts/figures.js";
import type { Picture, PictureVariant } from "./parts/picture.js";
import type { SolvedItem } from "./solved-feed.js";

const said = words.pictures.share;

/** The item that a call is about, where its arguments tell. */
export type ItemOf = (reading: CallReading) => SolvedItem | undefined;

export function sharePictures(
  readings: readonly CallReading[],
  itemOf: ItemOf,
): readonly PictureVariant[] {
  return readings.flatMap((reading) => {
    const picture = sharePicture(reading, itemOf(reading));
    if (!picture) return [];
    const { sheet, address } = reading.at;
    return [{ name: `${sheet}!${address}`, picture }];
  });
}

/** The last row of the result is the bus. */
function sharePicture({ outcome }: CallReading, item: SolvedItem | undefined): Picture | undefined {
  if (!isCellTable(outcome.value)) return undefined;
  const converters = outcome.value.slice(0, -1).map(([current]) => Number(current));
  const sum = converters.reduce((total, current) => total + current, 0);
  if (converters.length < 2 || !(sum > 0)) return undefined;
  const even = sum / converters.length;
  const most = Math.max(...converters);
  const rated = item?.ratedCurrent;
  const bars = converters.map((current, index): Bar => ({
    name: said.unit(index + 1),
    value: current,
    told: `${amperes(current)} (${percent(current / sum)})`,
  }));
  return {
    title: said.title(item?.item),
    alternative: [
      said.alternative(
        converters.length,
        amperes(sum),
        amperes(even),
        said.unit(converters.indexOf(most) + 1),
        amperes(most),
        percent(most / even - 1),
      ),
      ...ratedTold(most, rated),
    ].join(" "),
    draw: (surface) => barsDrawing(bars, marks(even, rated), surface),
    table: {
      columns: [
        { heading: said.columns.unit },
        { heading: said.columns.current, format: "0.00" },
        { heading: said.columns.even, format: "0.00" },
        ...(rated === undefined ? [] : [{ heading: said.columns.rated, format: "0.0" }]),
      ],
      rows: converters.map((current, index) => [
        said.unit(index + 1),
        current,
        even,
        ...(rated === undefined ? [] : [rated]),
      ]),
    },
    chart: {
      kind: "column",
      categoryTitle: said.columns.unit,
      valueTitle: said.columns.current,
      series: rated === undefined ? ["bars", "bars"] : ["bars", "bars", "bars"],
    },
  };
}

function marks(even: number, rated: number | undefined): Mark[] {
  const evenMark: Mark = {
    kind: "even",
    value: even,
    told: said.evenMark(amperes(even)),
  };
  return rated === undefined
    ? [evenMark]
    : [evenMark, { kind: "rated", value: rated, told: said.ratedMark(amperes(rated)) }];
}

function ratedTold(most: number, rated: number | undefined): string[] {
  if (rated === undefined) return [];
  return [
    most <= rated
      ? said.belowRating(amperes(rated), percent(most / rated))
      : said.aboveRating(amperes(rated), percent(most / rated)),
  ];
}

interface WorstConverter {
  readonly converters: number;
  readonly load: number;
  readonly worst: number;
}

/** What each sheet asks, in a picture of its own: one may ask at the solved load, another at the worst case. */
export function worstConverterPictures(
  readings: readonly CallReading[],
  itemOf: ItemOf,
): readonly PictureVariant[] {
  const sheets = [...new Set(readings.map(({ at }) => at.sheet))];
  return sheets.flatMap((name) => {
    const own = readings.filter(({ at }) => at.sheet === name);
    const picture = worstConverterPicture(own, itemOf);
    return picture ? [{ name, picture }] : [];
  });
}

/** All such calls in one picture: with all units, with one lost, and so on. */
export function worstConverterPicture(
  readings: readonly CallReading[],
  itemOf: ItemOf,
): Picture | undefined {
  const worst = readings.flatMap(({ args, outcome }): WorstConverter[] => {
    const [load, converters] = [numberIn(args[0]), numberIn(args[1])];
    const current = outcome.value;
    if (load === undefined || converters === undefined) return [];
    return typeof current === "number" ? [{ load, converters, worst: current }] : [];
  });
  const [first] = worst;
  const [reading] = readings;
  if (!first || !reading) return undefined;
  const item = itemOf(reading);
  const rated = item?.ratedCurrent;
  const most = Math.max(...worst.map((one) => one.worst));
  const bars = worst.flatMap(({ converters, load, worst: current }): Bar[] => {
    const [own, even] = [current, load / converters];
    const worstBar = {
      name: said.worstOf(converters),
      value: own,
      told: amperes(own),
    };
    // Alone it carries all: there is nothing to compare it with.
    if (converters === 1) return [worstBar];
    const name = said.evenOf(converters);
    return [worstBar, { name, value: even, told: amperes(even), isCompared: true }];
  });
  const ratedMarks = marks(0, rated).filter(({ kind }) => kind === "rated");
  return {
    title: said.worstTitle(item?.item),
    alternative: [
      ...worst.map(({ converters, load, worst: current }) =>
        converters === 1
          ? said.aloneAlternative(amperes(current))
          : said.worstAlternative(converters, amperes(current), amperes(load / converters)),
      ),
      ...ratedTold(most, rated),
    ].join(" "),
    draw: (surface) => barsDrawing(bars, ratedMarks, surface),
    table: {
      columns: [
        { heading: said.columns.converters },
        { heading: said.columns.worst, format: "0.00" },
        { heading: said.columns.even, format: "0.00" },
        ...(rated === undefined ? [] : [{ heading: said.columns.rated, format: "0.0" }]),
      ],
      rows: worst.map(({ converters, load, worst: current }) => [
        said.converterCount(converters),
        current,
        load / converters,
        ...(rated === undefined ? [] : [rated]),
      ]),
    },
    chart: {
      kind: "column",
      categoryTitle: said.columns.converters,
      valueTitle: said.columns.current,
      series: rated === undefined ? ["bars", "bars"] : ["bars", "bars", "bars"],
    },
  };
}

function numberIn(value: Argument): number | undefined {
  const cell = isCellTable(value) ? value[0]?.[0] : value;
  return typeof cell === "number" ? cell : undefined;
}
