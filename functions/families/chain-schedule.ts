/** Cables and stages of a feed as a proposal lists them. */
import { type FeedCase, caseText, feedCases } from "../../src/network/feed-cases.js";
import { feedRowGivens, feedRowValues, stepsOfRow } from "../../src/network/feed-steps.js";
import type { Quantities, Steps } from "../../src/quantities/steps.js";
import { type ListedRow, proposalLists } from "../../src/schedules/proposal-lists.js";
import type { TableField } from "../../src/schedules/columns.js";
import type { Cell, CellTable } from "../cells.js";
import { defineEntry, type ShownStep, type Working } from "../entry.js";
import { feedTableParameter } from "../reading/feed-call.js";
import { knownTable } from "../reading/feed-memory.js";
import { type FeedTable, refusedCell, rowReason } from "../reading/feed-table.js";
import { TableCells } from "../reading/table-cells.js";
import { NONE } from "./chain.js";

/** Headers of the result, in an order that people count on. */
export const SCHEDULE_COLUMNS = [
  "List",
  "Item",
  "Fed from",
  "Location",
  "In parallel",
  "Length (m)",
  "Cores",
  "Size",
  "Material",
  "Build",
  "Type",
  "Highest A",
  "Rated A",
  "Highest drop V",
  "Highest loss W",
  "Highest output W",
  "Output per litre (W/l)",
  "Mass (kg)",
  "Volume (l)",
  "Price",
  "Basis",
  "Note",
] as const;

interface Schedule {
  readonly table: FeedTable;
  readonly cells: TableCells;
  readonly cases: readonly FeedCase[];
  readonly rows: readonly ListedRow[];
}

const chainSchedule = defineEntry({
  id: "CHAIN_SCHEDULE",
  family: "chain",
  parameters: { feedTable: feedTableParameter },
  result: {
    shape: "table",
    unit: "as the headers say",
  },
  example: {
    args: [
      [
        [
          "Item",
          "Fed from",
          "Kind",
          "Voltage (V)",
          "Resistance (Ω)",
          "Ratio",
          "Load",
          "In parallel",
          "Lowest V",
          "Highest V",
          "Rated A",
          "Length (m)",
          "Size",
          "Volume (cm³)",
          "Mass (kg)",
        ],
        ["Bus", "", "supply", 400, "", "", "", "", 380, 420, "", "", "", "", ""],
        ["Cable", "Bus", "run", "", 2, "", "", "", "", "", 20, 220, "4 mm²", "", 42],
        ["Unit", "Cable", "ratio", "", "", 0.125, "", 2, "", "", 40, "", "", 1600, 5.2],
        ["Camp", "Unit", "current load", "", "", "", 64, "", "", "", "", "", "", "", ""],
      ],
    ],
  },
  citations: ["two-roots", "monotone-newton", "ohm-joule"],
  read: ({ feedTable: cells }) => ({
    known: knownTable(cells),
    cells: new TableCells(cells),
  }),
  calculate: ({ known, cells }): Schedule => {
    const { table } = known;
    const cases = known.once("cases", () => feedCases(table.feed));
    return { table, cells, cases, rows: proposalLists(table.feed, cases) };
  },
  cells: scheduleTable,
  cellOf: scheduleStep,
  caveats: () => [],
  working: (_, schedule) => scheduleWorking(schedule),
});

function scheduleTable(schedule: Schedule): CellTable {
  return [[...SCHEDULE_COLUMNS], ...schedule.rows.map((row) => rowCells(row, schedule))];
}

function rowCells(listed: ListedRow, schedule: Schedule): Cell[] {
  const { row, list, highest } = listed;
  const { table, cells, cases } = schedule;
  const { item, fedFrom, figures } = table.feed;
  const count = figures.inParallel[row]!;
  const rated = figures.ratedCurrent[row]! * count;
  const reason = reasonOf(cases, table);
  const [first] = cases.flatMap((one) => one.refused ?? []);
  const refused = first ? refusedCell(first.error, reason) : NONE;
  const solved = (name: "current" | "drop" | "loss" | "outputPower") =>
    highest ? highest[name].value : refused;
  const figure = (field: TableField, unit = 1) => {
    const value = cells.figure(row, field);
    return value === undefined ? NONE : value * unit;
  };
  const volume = volumeOf(listed, schedule);
  return [
    ...[list, item[row]!, fedFrom[row] ?? ""],
    cells.text(row, "locations"),
    ...[count, figure("length"), figure("cores")],
    ...(["size", "material", "build", "type"] as const).map((field) => cells.text(row, field)),
    ...[solved("current"), Number.isNaN(rated) ? NONE : rated],
    list === "Cable" ? solved("drop") : NONE,
    ...[solved("loss"), solved("outputPower")],
    volume === undefined || list === "Cable"
      ? NONE
      : highest
        ? highest.outputPower.value / (LITRES * volume)
        : refused,
    figure("mass"),
    volume === undefined ? NONE : LITRES * volume,
    figure("price"),
    ...[cells.text(row, "basis"), reason],
  ];
}

/** In one cubic metre. */
const LITRES = 1000;

/** Volume of the whole row, m³. */
function volumeOf({ row }: ListedRow, { table, cells }: Schedule): number | undefined {
  const one = cells.figure(row, "volume");
  return one && one * table.feed.figures.inParallel[row]!;
}

/** What the first case without an answer says; "" where all have one. */
function reasonOf(cases: readonly FeedCase[], { fields }: FeedTable): string {
  const without = cases.filter(({ refused }) => refused);
  const [first] = without;
  if (!first?.refused) return "";
  const reason = rowReason({ ...first.refused, item: "" }, fields);
  return without.length === cases.length
    ? reason
    : `${without.length} of ${cases.length} cases without an answer, ${caseText(first)} the first: ${reason}`;
}

const LISTED_GIVENS: Quantities = {
  volumeOfOne: { label: "Volume of one", symbol: "v", unit: "m³" },
  inParallel: { label: "In parallel", symbol: "n", unit: "1" },
};

const DROP: Steps = {
  drop: {
    label: "Drop",
    symbol: "ΔV",
    unit: "V",
    kind: "formula",
    formula: "inputVoltage - outputVoltage",
    cite: "definition",
  },
};

/** Of a cable of a ring through which current flows back. */
const DROP_BACK: Steps = {
  drop: { ...DROP["drop"]!, kind: "formula", formula: "outputVoltage - inputVoltage" },
};

const OUTPUT: Steps = {
  outputPower: {
    label: "Output power",
    symbol: "P₂",
    unit: "W",
    kind: "formula",
    formula: "outputVoltage * outputCurrent",
    cite: "definition",
  },
};

const VOLUME: Steps = {
  litres: {
    label: "Volume of the row",
    symbol: "V_n",
    unit: "l",
    kind: "formula",
    formula: "1000 * volumeOfOne * inParallel",
    cite: "definition",
  },
  perLitre: {
    label: "Output per litre",
    symbol: "p",
    unit: "W/l",
    kind: "formula",
    formula: "outputPower / litres",
    cite: "definition",
  },
};

/** The case whose equations are shown: a cable's with the highest drop, a stage's with the highest output. */
function shownCase({ list, highest }: ListedRow): FeedCase | undefined {
  return list === "Cable" ? highest?.drop.at : highest?.outputPower.at;
}

/** One for each row that is solved. */
function scheduleWorking(schedule: Schedule): Working[] {
  const valuesIn = new Map<FeedCase, ReturnType<typeof feedRowValues>>();
  return schedule.rows.flatMap((listed): Working[] => {
    const at = shownCase(listed);
    if (!at) return [];
    const values = valuesIn.get(at) ?? feedRowValues(at.point.rows);
    valuesIn.set(at, values);
    const own = values[listed.row] ?? {};
    const row = at.point.rows[listed.row]!;
    const { item, figures } = schedule.table.feed;
    const inParallel = figures.inParallel[listed.row]!;
    const volume = listed.list === "Stage" ? volumeOf(listed, schedule) : undefined;
    const fallen = own["inputVoltage"]! - own["outputVoltage"]!;
    const drop = Math.abs(fallen);
    const outputPower = own["outputVoltage"]! * own["outputCurrent"]!;
    const filled =
      volume === undefined
        ? {}
        : {
            volumeOfOne: volume / inParallel,
            inParallel,
            litres: LITRES * volume,
            perLitre: outputPower / (LITRES * volume),
          };
    return [
      {
        title: `${item[listed.row]}, ${caseText(at)}`,
        givens: {
          ...feedRowGivens,
          ...(volume === undefined ? {} : LISTED_GIVENS),
        },
        steps: {
          ...(row.outcome === "solved" && stepsOfRow(row)),
          ...(listed.list === "Cable" ? (fallen < 0 ? DROP_BACK : DROP) : {}),
          ...OUTPUT,
          ...(volume === undefined ? {} : VOLUME),
        },
        values: { ...own, drop, outputPower, ...filled },
      },
    ];
  });
}

/** Columns that show a step, and the figure whose highest case has to be the shown one. */
const COLUMN_STEPS: Partial<
  Readonly<
    Record<
      (typeof SCHEDULE_COLUMNS)[number],
      readonly [step: string, of: keyof NonNullable<ListedRow["highest"]>, list?: ListedRow["list"]]
    >
  >
> = {
  "Highest A": ["outputCurrent", "current"],
  "Highest drop V": ["drop", "drop", "Cable"],
  "Highest loss W": ["loss", "loss"],
  "Highest output W": ["outputPower", "outputPower"],
  "Output per litre (W/l)": ["perLitre", "outputPower", "Stage"],
};

function scheduleStep({ rows }: Schedule, tableRow: number, column: number): ShownStep | undefined {
  const listed = rows[tableRow - 1];
  const heading = SCHEDULE_COLUMNS[column];
  const [step, of, list] = (heading && COLUMN_STEPS[heading]) ?? [];
  if (!listed?.highest || !step || !of) return undefined;
  if (list !== undefined && list !== listed.list) return undefined;
  if (listed.highest[of].at !== shownCase(listed)) return undefined;
  return { working: tableRow - 1, step };
}

export const chainScheduleEntries = [chainSchedule];
