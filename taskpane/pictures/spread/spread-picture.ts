/** How far a result spreads over the tolerances: samples in classes, percentiles, and the extremes that limits are judged by. */
import type { FoundBudget } from "../../budgets/reading/found-budget.js";
import { words } from "../../words/words.js";
import { percent } from "../parts/figures.js";
import type { Drawing, Picture, Surface } from "../parts/picture.js";
import { plotOf } from "../parts/plot.js";
import { part } from "../parts/svg-parts.js";
import { LINE_HEIGHT, textLine, textWidth } from "../parts/text-lines.js";
import {
  type AnswerRows,
  AT_NOMINAL,
  numberAt,
  type PicturedResult,
  resultPictures,
} from "./spread-figures.js";

const said = words.pictures.spread;

interface SampleClass {
  readonly from: number;
  readonly to: number;
  readonly share: number;
}

interface SpreadMark {
  readonly value: number;
  readonly told: string;
  readonly kind: "percentile" | "extreme" | "limit";
}

export function spreadPictures(budget: Pick<FoundBudget, "ranges">) {
  return resultPictures("CHAIN_UNCERTAINTY", budget, spreadPicture);
}

/** Undefined where the result does not spread. */
function spreadPicture(rows: AnswerRows, result: PicturedResult): Picture | undefined {
  const figures = new Map(
    rows.map((row) => [String(row.get("Figure")), numberAt(row, "Value")] as const),
  );
  const classes = rows.flatMap((row): SampleClass[] => {
    const [from, to, share] = ["From", "To", "Share of samples"].map((one) => numberAt(row, one));
    return from === undefined || to === undefined || share === undefined
      ? []
      : [{ from, to, share }];
  });
  const found = (name: string) => figures.get(name);
  const [entered, p05, p50, p95] = ["As entered", "P05", "P50", "P95"].map(found);
  const [lowest, highest] = [found("Lowest extreme"), found("Highest extreme")];
  if (entered === undefined || p05 === undefined || p50 === undefined || p95 === undefined)
    return undefined;
  if (classes.length < 2) return undefined;
  const { told, format, limit } = result;
  const note = String(rows[0]?.get("Note") ?? "");
  const unanswered = found("Samples without an answer") ?? 0;
  const mark = (name: string, value: number | undefined, kind: SpreadMark["kind"]): SpreadMark[] =>
    value === undefined ? [] : [{ value, told: `${name} ${told(value)}`, kind }];
  const marks = [
    ...mark(said.marks.lowest, lowest, "extreme"),
    ...mark("P05", p05, "percentile"),
    ...mark("P50", p50, "percentile"),
    ...mark("P95", p95, "percentile"),
    ...mark(said.marks.highest, highest, "extreme"),
    ...mark(said.marks.limit, limit, "limit"),
  ];
  return {
    title: said.title(result.title),
    alternative: [
      said.entered(result.title, told(entered)),
      said.between(told(p05), told(p95)),
      ...(lowest !== undefined && highest !== undefined
        ? [said.extremes(told(lowest), told(highest))]
        : []),
      ...(note === "" ? [] : [said.note(note)]),
      ...(unanswered > 0 ? [said.unanswered(unanswered)] : []),
    ].join(" "),
    solvedFor: AT_NOMINAL,
    draw: (surface) => drawn(classes, marks, result, surface),
    table: {
      columns: [
        { heading: said.columns.from, format },
        { heading: said.columns.to, format },
        { heading: said.columns.share, format: "0.0%" },
      ],
      rows: classes.map(({ from, to, share }) => [from, to, share]),
    },
  };
}

function drawn(
  classes: readonly SampleClass[],
  marks: readonly SpreadMark[],
  { title, told }: PicturedResult,
  surface: Surface,
): Drawing {
  const { palette } = surface;
  const [first, last] = [classes[0]!.from, classes.at(-1)!.to];
  const most = Math.max(...classes.map(({ share }) => share));
  const shown = marks.filter(({ value }) => value >= first && value <= last);
  // Each mark is told in a line of its own above the bars.
  const room = (shown.length * LINE_HEIGHT) / 160;
  const plot = plotOf(
    { title, domain: [first, last], tell: told },
    { title: said.axis, domain: [0, most * (1 + room)], tell: percent },
    { height: 160 + shown.length * LINE_HEIGHT, right: 8 },
    surface,
  );
  return {
    height: plot.height,
    parts: [
      ...plot.parts,
      ...classes.map(({ from, to, share }) =>
        part(
          "rect",
          {
            x: plot.x(from),
            y: plot.y(share),
            width: Math.max(0, plot.x(to) - plot.x(from)),
            height: plot.bottom - plot.y(share),
            fill: palette.flow,
            stroke: palette.accent,
            "stroke-width": 1,
          },
          part("title", {}, `${told(from)} … ${told(to)}: ${percent(share)}`),
        ),
      ),
      ...shown.flatMap(({ value, told: text, kind }, index) => {
        const at = plot.x(value);
        const line = plot.top + (index + 0.5) * LINE_HEIGHT;
        const colour = kind === "percentile" ? palette.ink : palette.limit;
        const isRight = at + 6 + textWidth(text, true) <= plot.right;
        return [
          part("path", {
            d: `M${at} ${line}V${plot.bottom}`,
            stroke: colour,
            "stroke-width": kind === "extreme" ? 2 : 1.25,
            "stroke-dasharray":
              kind === "percentile" ? "6 4" : kind === "limit" ? "2 3" : undefined,
          }),
          textLine(at + (isRight ? 5 : -5), line, text, {
            colour,
            anchor: isRight ? "start" : "end",
            bold: true,
            halo: palette.paper,
          }),
        ];
      }),
    ],
  };
}
