/** A picture as a sheet of its own: its finding, where it comes from, its numbers as values, and the picture beside them. */
import {
  area,
  at,
  bareCell,
  headingRow,
  valueCell,
  widthFor,
} from "../../src/plans/sheet-builder.js";
import type {
  PlanCell,
  PlanChart,
  PlanPicture,
  WorkbookPlan,
} from "../../src/plans/sheet-plan.js";
import type { FoundBudget } from "../../src/warnings/warning.js";
import { words } from "../views/words.js";
import { drawingPart } from "./drawing.js";
import { SHEET_PALETTE } from "./palettes.js";
import type { Picture, PictureTable } from "./picture.js";
import { svgText } from "./svg-parts.js";

const said = words.pictures;

const WIDTH = 760;
const HEAD_ROW = 5;
const PICTURE_ROW = 5;

export interface PictureSource {
  readonly title: string;
  readonly solvedFor: string;
}

export function picturePlan(
  picture: Picture,
  { stem, areas }: FoundBudget,
  { title: budgetTitle, solvedFor }: PictureSource,
): WorkbookPlan {
  const { title, alternative, table } = picture;
  const cells = [areas["Feed"], areas["Solved"]].flatMap((one) =>
    one ? [`${one.sheet}!${one.address}`] : [],
  );
  const placed = drawnPicture(picture);
  return {
    id: "picture",
    title: `${budgetTitle}: ${title}`,
    stem: "Picture",
    names: [],
    sheets: [
      {
        key: "picture",
        name: "Picture",
        columnWidths: [
          ...table.columns.map(({ heading }, column) =>
            widthFor(column === 0 ? 120 : 90, [
              heading,
              ...table.rows.flatMap((row) =>
                typeof row[column] === "string" ? [row[column]] : [],
              ),
            ]),
          ),
          30,
        ],
        frozenRows: 0,
        cells: [
          valueCell(0, 1, title, "title"),
          valueCell(
            0,
            2,
            said.from(stem, cells.join(", "), solvedFor),
            "subtitle",
          ),
          valueCell(0, 3, alternative, "label"),
          ...tableCells(table),
        ],
        merges: [],
        validations: [],
        conditionalFormats: [],
        ...(picture.chart
          ? { pictures: [], charts: [chartOf(picture, picture.chart, placed)] }
          : { pictures: [placed] }),
      },
    ],
  };
}

function tableCells({ columns, rows }: PictureTable): PlanCell[] {
  return [
    ...headingRow(
      0,
      HEAD_ROW,
      columns.map(({ heading }) => heading),
    ),
    ...rows.flatMap((row, index) =>
      row.map((value, column) => {
        const { format } = columns[column] ?? {};
        const [line, look] = [HEAD_ROW + 1 + index, format ? { format } : {}];
        if (value === "") return bareCell(column, line, "result", look);
        return typeof value === "number"
          ? valueCell(column, line, value, "result", look)
          : valueCell(column, line, value, "label");
      }),
    ),
  ];
}

/** Right of the table, with an empty column between. */
function drawnPicture(picture: Picture): PlanPicture {
  const surface = { width: WIDTH, palette: SHEET_PALETTE, stem: "picture" };
  const drawing = drawingPart(picture, surface);
  return {
    at: at(picture.table.columns.length + 1, PICTURE_ROW),
    size: [WIDTH, Number(drawing.attributes["height"])],
    svg: svgText(drawing),
    alternative: `${picture.title}. ${picture.alternative}`,
  };
}

function chartOf(
  { title, table: { columns, rows } }: Picture,
  { kind, series, ...axes }: NonNullable<Picture["chart"]>,
  placed: PlanPicture,
): PlanChart {
  const last = HEAD_ROW + rows.length;
  return {
    ...placed,
    ...axes,
    kind,
    title,
    area: area(0, HEAD_ROW, columns.length - 1, last),
    series,
  };
}
