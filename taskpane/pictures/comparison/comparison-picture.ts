/** Two versions of a feed by the figures of the whole feed: for each a bar of A, a bar of B, and what is said of them. */
import { scaleLinear } from "d3-scale";
import {
  BETTER_WORDS,
  COVER_FIGURES,
  type CoverKind,
  WORSE_WORDS,
} from "../../../src/judgement/comparison/feed-comparison.js";
import type { FoundBudget } from "../../budgets/reading/found-budget.js";
import { titleOf } from "../../workbook/found-budgets.js";
import {
  comparedRows,
  type Version,
  versionsOf,
} from "../../workbook/versions/compared-versions.js";
import { words } from "../../words/words.js";
import { percent, plainFigure, watts } from "../parts/figures.js";
import { hatches, hatchFill } from "../parts/hatches.js";
import type { Drawing, Picture, PictureVariant, Surface } from "../parts/picture.js";
import { part, type SvgPart } from "../parts/svg-parts.js";
import { LINE_HEIGHT, shortened, textLine } from "../parts/text-lines.js";

const said = words.pictures.comparison;

interface ComparedPair {
  readonly figure: string;
  readonly unit: string;
  readonly a: number;
  readonly b: number;
  readonly relative: number | undefined;
  readonly verdict: string;
  readonly is: CoverKind;
}

/** One for each budget that is held against the first. */
export function comparisonPictures(
  budget: FoundBudget,
  others: readonly FoundBudget[],
): readonly PictureVariant[] {
  const [first] = versionsOf([budget]);
  if (!first) return [];
  return versionsOf(others).flatMap((other) => {
    const picture = comparisonPicture(first, other);
    return picture ? [{ name: nameOf(other), picture }] : [];
  });
}

/** Two budgets may have one title. */
function nameOf({ budget }: Version): string {
  return `${titleOf(budget)} · ${budget.stem}`;
}

/** Undefined where one of them cannot be solved. */
function comparisonPicture(first: Version, other: Version): Picture | undefined {
  const rows = comparedRows(first, other);
  if (!rows) return undefined;
  const pairs = COVER_FIGURES.flatMap(({ figure, is }, index): ComparedPair[] => {
    const { A: a, B: b, Unit: unit, Verdict: verdict, ...row } = rows[index]!;
    if (typeof a !== "number" || typeof b !== "number") return [];
    const relative = row["Relative difference"];
    return [
      {
        figure,
        unit: String(unit),
        a,
        b,
        relative: typeof relative === "number" ? relative : undefined,
        verdict: String(verdict),
        is,
      },
    ];
  });
  const saidOf = (verdicts: readonly string[]) =>
    pairs
      .filter(({ verdict }) => verdicts.includes(verdict))
      .map((pair) => said.told(pair.figure, told(pair, pair.a), told(pair, pair.b)));
  return {
    title: said.title(nameOf(first), nameOf(other)),
    alternative: `${said.verdicts(saidOf(BETTER_WORDS), saidOf(WORSE_WORDS))} ${said.worst}`,
    solvedFor: said.solvedFor,
    draw: (surface) => drawn(pairs, surface),
    table: {
      columns: [
        { heading: said.columns.figure },
        { heading: said.columns.a, format: "0.0##" },
        { heading: said.columns.b, format: "0.0##" },
        { heading: said.columns.difference, format: "0.0##" },
        { heading: said.columns.relative, format: "0.0%" },
        { heading: said.columns.verdict },
      ],
      rows: pairs.map(({ figure, unit, a, b, relative, verdict }) => [
        unit === "" ? figure : `${figure} (${unit})`,
        a,
        b,
        b - a,
        relative ?? "",
        verdict,
      ]),
    },
  };
}

function told({ is, unit }: ComparedPair, value: number): string {
  if (is === "power") return watts(value);
  if (is === "fraction") return percent(value);
  return unit === "" ? plainFigure(value) : `${plainFigure(value)}\u00a0${unit}`;
}

/** Of B from A; "" where none is to be seen. */
function difference(pair: ComparedPair): string {
  const { a, b, relative, is } = pair;
  if (told(pair, a) === told(pair, b)) return "";
  const sign = b > a ? "+" : "";
  if (relative !== undefined) return `${sign}${percent(relative)}`;
  if (is !== "fraction") return `${sign}${told(pair, b - a)}`;
  return `${sign}${said.points(plainFigure(Number((100 * (b - a)).toFixed(1))))}`;
}

const BAR = LINE_HEIGHT + 2;
const GAP = 10;
const ROW = LINE_HEIGHT + 2 * BAR + GAP;

function drawn(pairs: readonly ComparedPair[], surface: Surface): Drawing {
  const top = LINE_HEIGHT + GAP;
  return {
    height: top + pairs.length * ROW,
    parts: [
      hatches(surface),
      textLine(0, LINE_HEIGHT / 2, said.legend, { colour: surface.palette.quiet }),
      ...pairs.flatMap((pair, index) => pairParts(pair, top + index * ROW, surface)),
    ],
  };
}

/** Of its own scale: watts, fractions and counts stand one below the other. */
function pairParts(pair: ComparedPair, top: number, surface: Surface): SvgPart[] {
  const { figure, a, b, verdict } = pair;
  const { width, palette } = surface;
  const x = scaleLinear()
    .domain([Math.min(0, a, b), Math.max(0, a, b) || 1])
    .range([1, width - 1]);
  const caption = said.caption(figure, verdict);
  const bar = (version: "A" | "B", value: number, y: number, text: string): SvgPart[] => [
    part(
      "rect",
      {
        x: Math.min(x(0), x(value)),
        y,
        width: Math.abs(x(value) - x(0)),
        height: BAR - 2,
        fill: version === "A" ? hatchFill(surface, "even") : palette.flow,
        stroke: version === "A" ? palette.quiet : palette.accent,
        "stroke-width": 1,
      },
      part("title", {}, `${figure}, ${version}`),
    ),
    textLine(6, y + (BAR - 2) / 2, text, {
      colour: palette.ink,
      halo: palette.paper,
    }),
  ];
  return [
    textLine(0, top + LINE_HEIGHT / 2, shortened(caption, width, true), {
      colour: palette.ink,
      bold: true,
    }),
    ...bar("A", a, top + LINE_HEIGHT + 2, said.inA(told(pair, a))),
    ...bar("B", b, top + LINE_HEIGHT + 2 + BAR, said.inB(told(pair, b), difference(pair))),
  ];
}
