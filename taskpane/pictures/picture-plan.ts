/** A picture as a sheet of its own: its finding, where it comes from, the picture, and below it its numbers as values. */
import {
  range,
  at,
  bareCell,
  headingRow,
  valueCell,
  widthFor,
} from "../../src/plans/sheet-builder.js";
import type { PlanCell, PlanChart, PlanPicture, WorkbookPlan } from "../../src/plans/sheet-plan.js";
import type { FoundBudget } from "../budgets/reading/found-budget.js";
import { rangeText } from "../formula-reading/argument-text.js";
import { words } from "../words/words.js";
import { framedPart } from "./parts/drawing.js";
import { SHEET_PALETTE } from "./parts/palettes.js";
import type { Picture, PictureTable } from "./parts/picture.js";
import { svgText } from "./parts/svg-parts.js";

const said = words.pictures;

const WIDTH = 780;
const MARGIN = 12;
const CHART_SIZE = [WIDTH, 380] as const;
/** Of the lowest rows that a spreadsheet has without being told. */
const ROW_PIXELS = 20;

/** A heading's letters are wider than the table's. */
const ROOM_FOR_BOLD = "   ";

export interface PictureSource {
  readonly title: string;
  readonly solvedFor: string;
}

export function picturePlan(
  picture: Picture,
  { ranges }: FoundBudget,
  { title: budgetTitle, solvedFor }: PictureSource,
): WorkbookPlan {
  const { title, alternative, table } = picture;
  const cells = [ranges["Feed"], ranges["Solved"]].flatMap((one) => (one ? [rangeText(one)] : []));
  const lines = [
    said.from(budgetTitle, cells.join(", ")),
    said.values(picture.solvedFor ?? solvedFor),
    ...alternative.split(/(?<=\.) /),
  ];
  const pictureRow = lines.length + 3;
  const placed: PlanPicture = { at: at(0, pictureRow), ...pictureImage(picture) };
  const tallest = Math.max(placed.size[1], picture.chart ? CHART_SIZE[1] : 0);
  const headRow = pictureRow + Math.ceil(tallest / ROW_PIXELS) + 1;
  return {
    id: "picture",
    title: `${budgetTitle}: ${title}`,
    stem: "Picture",
    names: [],
    sheets: [
      {
        key: "picture",
        name: "Picture",
        columnWidths: columnWidths(table),
        frozenRows: 0,
        cells: [
          valueCell(0, 1, title, "title"),
          ...lines.map((line, index) =>
            valueCell(0, index + 2, line, index < 2 ? "subtitle" : "label"),
          ),
          ...tableCells(table, headRow),
        ],
        merges: [],
        validations: [],
        conditionalFormats: [],
        ...(picture.chart
          ? {
              pictures: [],
              charts: [chartOf(picture, picture.chart, placed, headRow)],
            }
          : { pictures: [placed] }),
      },
    ],
  };
}

function columnWidths({ columns, rows }: PictureTable): number[] {
  return columns.map(({ heading }, column) =>
    widthFor(column === 0 ? 120 : 90, [
      `${heading}${ROOM_FOR_BOLD}`,
      ...rows.flatMap((row) => (typeof row[column] === "string" ? [row[column]] : [])),
    ]),
  );
}

function tableCells({ columns, rows }: PictureTable, headRow: number): PlanCell[] {
  return [
    ...headingRow(
      0,
      headRow,
      columns.map(({ heading }) => heading),
    ),
    ...rows.flatMap((row, index) =>
      row.map((value, column) => {
        const { format } = columns[column] ?? {};
        const [line, look] = [headRow + 1 + index, format ? { format } : {}];
        if (value === "") return bareCell(column, line, "result", look);
        return typeof value === "number"
          ? valueCell(column, line, value, "result", look)
          : valueCell(column, line, value, "label");
      }),
    ),
  ];
}

/** On white, as wide as on a sheet. */
export function pictureImage(picture: Picture): Omit<PlanPicture, "at"> {
  const surface = { width: WIDTH, palette: SHEET_PALETTE, stem: "picture" };
  const drawing = framedPart(picture, surface, MARGIN);
  return {
    size: [WIDTH, Number(drawing.attributes["height"])],
    svg: svgText(drawing),
    alternative: `${picture.title}. ${picture.alternative}`,
  };
}

function chartOf(
  { title, table: { columns, rows } }: Picture,
  { kind, series, ...axes }: NonNullable<Picture["chart"]>,
  placed: PlanPicture,
  headRow: number,
): PlanChart {
  return {
    ...placed,
    ...axes,
    chartSize: CHART_SIZE,
    kind,
    title,
    range: range(0, headRow, columns.length - 1, headRow + rows.length),
    series,
  };
}
