/** What is typed: every schedule with the basis of each row, what is asked for, and the other figures. */
import { rangePlace } from "../../../src/plans/addresses.js";
import { BLOCK_NAMES } from "../../../src/schedules/columns.js";
import { BLOCK_AREAS } from "../../budgets/names.js";
import type { ReadRange } from "../../budgets/reading/found-budget.js";
import {
  heading,
  paragraph,
  type ReportBlock,
  type ReportCell,
  table,
  withoutEmptyColumns,
  words,
} from "./blocks.js";
import { inputsSheet, type ReportSource, shownRange, shownBlocks } from "./report-source.js";

/** Columns of which an empty cell says something: of a schedule, and of what is asked for. */
const WANTED = ["Basis", "Value"];

export function schedules(source: ReportSource): readonly ReportBlock[] {
  const tables = BLOCK_NAMES.flatMap((block) => {
    const range = source.budget.ranges[BLOCK_AREAS[block]];
    return range ? scheduleTable(block, source, range) : [];
  });
  return [
    heading("Schedules, and what is asked for"),
    paragraph("Figures as they are typed. Columns in which nothing is typed are left out."),
    ...(tables.length === 0 ? [paragraph("No schedule has a row.")] : tables),
    ...otherFigures(source),
  ];
}

function scheduleTable(block: string, source: ReportSource, range: ReadRange): ReportBlock[] {
  const [head = [], ...rows] = shownRange(source, range).filter(([item]) => item?.text !== "");
  if (rows.length === 0) return [];
  const kept = head.flatMap(({ text: label }, column) => {
    const isTyped = rows.some((row) => row[column]?.text !== "");
    return label !== "" && (isTyped || WANTED.includes(label)) ? [column] : [];
  });
  const cell = (row: readonly ReportCell[], column: number) => {
    const shown = row[column] ?? words("");
    const isWanted = WANTED.some((label) => label === head[column]?.text);
    return isWanted && shown.text === "" ? words("not given") : shown;
  };
  return [
    table({
      caption: block === "Asked for" ? block : `Schedule: ${block}`,
      head: kept.map((column) => head[column]?.text ?? ""),
      rows: rows.map((row) => kept.map((column) => cell(row, column))),
    }),
  ];
}

/** What stands on Inputs below the requirements. */
function otherFigures(source: ReportSource): ReportBlock[] {
  const { budget } = source;
  const inputs = inputsSheet(source);
  const asked = budget.ranges["Asked"];
  if (!inputs || !asked || asked.sheet !== inputs.name) return [];
  const from = rangePlace(asked.address).bottom + 1;
  const rest: ReadRange = {
    sheet: inputs.name,
    address: `A${from + 1}`,
    values: inputs.values.slice(from),
  };
  return shownBlocks(source, rest).map(({ caption, ...block }) =>
    table(withoutEmptyColumns({ ...block, caption: caption || "Other figures" })),
  );
}
