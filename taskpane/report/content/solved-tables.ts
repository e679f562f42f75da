/** What the sheets calculate, as they show it: items, cases, bands, a day, answers; and which inputs matter for the results. */
import { TORNADO_COLUMNS } from "../../../functions/families/chain-tornado.js";
import { meaningsOfBands } from "../../../src/safety/band-meanings.js";
import type { ReadRange, ReadValue } from "../../budgets/reading/found-budget.js";
import {
  AT_NOMINAL,
  FIGURE_FORMAT,
  resultAnswers,
  varyingInputs,
} from "../../pictures/spread/spread-figures.js";
import {
  heading,
  list,
  notedTable,
  paragraph,
  type ReportBlock,
  type ReportCell,
  words,
} from "./blocks.js";
import { type ReportSource, shownBlocks, shownCell } from "./report-source.js";

const SECTIONS = [
  ["Items solved", "Solved"],
  ["Cases", "Cases"],
  ["Bands", "Bands"],
  ["Day", "Day"],
  ["Answers", "Answers"],
] as const;

export function solvedTables(source: ReportSource): readonly ReportBlock[] {
  return SECTIONS.flatMap(([title, part]) => {
    const range = source.budget.ranges[part];
    return range
      ? [
          heading(title),
          ...rangeTables(source, range, title),
          ...list(meaningsOfBands(range.values.flat())),
        ]
      : [];
  });
}

function rangeTables(source: ReportSource, range: ReadRange, title: string): ReportBlock[] {
  return shownBlocks(source, range).map(({ caption, ...block }) =>
    notedTable({
      ...block,
      caption: caption || `${title}, on sheet ${range.sheet}`,
    }),
  );
}

const SPREAD = ["Figure", "Value", "Unit", "Note"] as const;

/** Nothing of a feed that is not solved, or in which nothing varies. */
export function whatMatters({ budget }: ReportSource): readonly ReportBlock[] {
  const tables = [
    ...tablesOf("CHAIN_TORNADO", "Inputs, one at a time", TORNADO_COLUMNS, budget),
    ...tablesOf("CHAIN_UNCERTAINTY", "Spread over the tolerances", SPREAD, budget),
  ];
  return tables.length === 0
    ? []
    : [
        heading("What matters"),
        paragraph(
          `${AT_NOMINAL} Percentiles bound nothing: limits are judged by the extremes. The root of the sum of squares assumes independent, centred inputs; the worst case beside it does not.`,
        ),
        ...tables,
      ];
}

function tablesOf(
  id: Parameters<typeof resultAnswers>[0],
  caption: string,
  head: readonly string[],
  budget: ReportSource["budget"],
): readonly ReportBlock[] {
  return resultAnswers(id, budget).flatMap(({ result, rows: all = [] }) => {
    const rows = varyingInputs(all);
    // The first row of either is the result as entered.
    return rows.length < 2
      ? []
      : notedTable({
          caption: `${caption}: ${result.title.toLowerCase()}`,
          head,
          rows: rows.map((row) =>
            head.map((column) => spreadCell(column, row.get(column) as ReadValue)),
          ),
        });
  });
}

const UNITS: readonly string[] = ["Unit", "Slope unit"];

/** The unit of a plain number is none to a reader; samples are counted. */
function spreadCell(column: string, value: ReadValue): ReportCell {
  if (UNITS.includes(column) && value === "1") return words("");
  return shownCell(value, Number.isInteger(value) ? "0" : FIGURE_FORMAT);
}
