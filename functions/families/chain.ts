import { chainEfficiency, chainEfficiencySteps } from "../../src/network/chain-efficiency.js";
import { totalWorking } from "../../src/network/feed-cases-steps.js";
import type { RefusedRow } from "../../src/network/feed-row.js";
import type { FeedTotals } from "../../src/network/feed-totals.js";
import { refusedRow } from "../../src/network/operating-point.js";
import { lossAt, loadingAt } from "../../src/network/row-flow.js";
import { KINDS } from "../../src/network/row-kinds.js";
import { InputError, NoAnswerError } from "../../src/quantities/errors.js";
import type { Caveat } from "../../src/quantities/steps.js";
import type { Cell, CellTable } from "../cells.js";
import { defineEntry, type ShownStep } from "../entry.js";
import {
  feedTableParameter,
  figuredWorking,
  loadsParameter,
  notesAt,
  requireEveryRow,
  type Solved,
  solve,
  solveOf,
  supplyParameter,
} from "../reading/feed-call.js";
import { type FeedTable, refusedCell, rowReason } from "../reading/feed-table.js";

/** Headers of the result, in an order that people count on. */
export const SOLVED_COLUMNS = [
  "Item",
  "Input V",
  "Input A",
  "Input W",
  "Output V",
  "Output A",
  "Output W",
  "Loss W",
  "Efficiency",
  "Share of losses",
  "Loading",
  "Note",
] as const;

/** Where a row has no such number. */
export const NONE = "–";

function solvedTable(solved: Solved): CellTable {
  const { table, point } = solved;
  const { faults, feed } = point;
  const cells = new Array<Cell[]>(feed.columns.count + 1);
  cells[0] = [...SOLVED_COLUMNS];
  for (let row = 0; row < feed.columns.count; row++) {
    const fault = faults.size > 0 ? faults.get(row) : undefined;
    cells[row + 1] = fault
      ? refusedCells(refusedRow(feed.columns, row, fault), table)
      : solvedCells(row, solved);
  }
  return cells;
}

/** Straight from the solver's arrays: a large table makes no object for each of its rows. */
function solvedCells(row: number, solved: Solved): Cell[] {
  const { feed, totals } = solved.point;
  const { columns, state } = feed;
  const feeds = KINDS[columns.kind[row]!]!.role !== "load";
  const inputVoltage = state.inputVoltage[row]!;
  const inputCurrent = state.inputCurrent[row]!;
  const inputPower = inputVoltage * inputCurrent;
  const outputVoltage = state.outputVoltage[row]!;
  const outputCurrent = state.outputCurrent[row]!;
  const outputPower = outputVoltage * outputCurrent;
  const loss = lossAt(feed, row);
  return [
    columns.item[row]!,
    inputVoltage,
    inputCurrent,
    inputPower,
    feeds ? outputVoltage : NONE,
    feeds ? outputCurrent : NONE,
    feeds ? outputPower : NONE,
    loss,
    feeds && inputPower > 0 ? outputPower / inputPower : NONE,
    totals.loss > 0 ? loss / totals.loss : NONE,
    loadingAt(feed, row) ?? NONE,
    noteText(notesAt(solved, row)),
  ];
}

function noteText(caveats: readonly Caveat[]): string {
  const [first] = caveats;
  return caveats.length > 1 ? caveats.map(({ text }) => text).join("; ") : (first?.text ?? "");
}

/** What each number of a row is in its working. */
const COLUMN_STEPS: Partial<Readonly<Record<(typeof SOLVED_COLUMNS)[number], string>>> = {
  "Input V": "inputVoltage",
  "Input A": "inputCurrent",
  "Input W": "inputPower",
  "Output V": "outputVoltage",
  "Output A": "outputCurrent",
  "Output W": "outputPower",
  "Loss W": "loss",
  Efficiency: "efficiency",
  "Share of losses": "lossShare",
  Loading: "loading",
};

/** Refused rows have no working. */
function solvedStep({ point }: Solved, tableRow: number, column: number): ShownStep | undefined {
  const row = tableRow - 1;
  const heading = SOLVED_COLUMNS[column];
  const step = heading && COLUMN_STEPS[heading];
  if (row < 0 || step === undefined || point.faults.has(row)) return undefined;
  // Without losses there is no sum that one could be a share of.
  if (step === "lossShare" && !(point.totals.loss > 0)) return undefined;
  return { working: workingOfRow(point, row), step };
}

function workingOfRow({ faults }: Solved["point"], row: number): number {
  let working = 0;
  for (let above = 0; above < row; above++) if (!faults.has(above)) working += 1;
  return working;
}

function refusedCells(row: RefusedRow, { fields }: FeedTable): Cell[] {
  const reason = rowReason(row, fields);
  const cell = refusedCell(row.error, reason);
  return [row.item, ...SOLVED_COLUMNS.slice(1, -1).map(() => cell), reason];
}

function solvedCaveats(solved: Solved): readonly Caveat[] {
  const { feed, faults } = solved.point;
  const caveats: Caveat[] = [];
  for (let row = 0; row < feed.columns.count; row++) {
    if (faults.has(row)) continue;
    const item = feed.columns.item[row]!;
    for (const note of notesAt(solved, row))
      caveats.push({ ...note, text: `${item}: ${note.text}` });
  }
  return caveats;
}

/** Table of the examples: 400 V behind 4 Ω with 5 kW at the far end, the textbook case of two roots. */
export const TWO_ROOT_TABLE: CellTable = [
  ["Item", "Fed from", "Kind", "Voltage (V)", "Resistance (Ω)", "Load (W)"],
  ["Bus", "", "supply", 400, "", ""],
  ["Cable", "Bus", "run", "", 4, ""],
  ["Camp", "Cable", "power load", "", "", 5000],
];

const chainEfficiencyEntry = defineEntry({
  id: "CHAIN_EFFICIENCY",
  family: "chain",
  parameters: {
    efficiencies: {
      name: "efficiency",
      unit: "1",
      meaning: "of one stage, above 0 and at most 1; a number, a range or several of both",
      kind: "numbers",
      each: "efficiency",
      repeating: true,
    },
  },
  result: { shape: "number", unit: "1" },
  example: {
    args: [0.97, 0.95, 0.98],
  },
  citations: [],
  read: ({ efficiencies }) => {
    if (efficiencies.includes(0)) {
      throw new InputError(
        "efficiencies",
        0,
        "above 0 and at most 1 (the spreadsheet may pass a blank cell as 0)",
      );
    }
    return { efficiencies };
  },
  calculate: chainEfficiency,
  shows: "efficiency",
  caveats: () => [],
  working: (chain, { efficiency }) => [
    {
      title: "Efficiency of the chain",
      givens: Object.fromEntries(
        chain.efficiencies.map((_, index) => [
          `efficiency${index + 1}`,
          {
            label: `Efficiency ${index + 1}`,
            symbol: `η${index + 1}`,
            unit: "1",
          },
        ]),
      ),
      steps: chainEfficiencySteps(chain),
      values: {
        ...Object.fromEntries(
          chain.efficiencies.map((value, index) => [`efficiency${index + 1}`, value]),
        ),
        efficiency,
      },
    },
  ],
});

const chainSolve = defineEntry({
  id: "CHAIN_SOLVE",
  family: "chain",
  parameters: {
    feedTable: feedTableParameter,
    loads: loadsParameter,
    supply: supplyParameter,
  },
  result: {
    shape: "table",
    unit: "V, A, W and fractions",
  },
  example: {
    args: [TWO_ROOT_TABLE],
  },
  citations: ["two-roots", "monotone-newton", "ohm-joule", "ratio-circuit", "loss-quadratic"],
  read: ({ feedTable: cells, loads, supply }) => solveOf(cells, loads, supply),
  calculate: solve,
  cells: solvedTable,
  cellOf: solvedStep,
  caveats: solvedCaveats,
  working: (_, { point }) => figuredWorking(point, point.totals.loss),
});

const QUANTITIES = [
  "supply power",
  "load power",
  "loss",
  "efficiency",
  "lowest margin",
  "closing error",
] as const;

const TOTAL_FIELDS = {
  "supply power": "supplyPower",
  "load power": "loadPower",
  loss: "loss",
  efficiency: "efficiency",
  "lowest margin": "lowestMargin",
  "closing error": "closingError",
} as const satisfies Readonly<Record<(typeof QUANTITIES)[number], keyof FeedTotals>>;

const UNITS: Readonly<Record<(typeof QUANTITIES)[number], string>> = {
  "supply power": "W",
  "load power": "W",
  loss: "W",
  efficiency: "1",
  "lowest margin": "1",
  "closing error": "W",
};

interface Total extends Solved {
  readonly quantity: (typeof QUANTITIES)[number];
  readonly total: number;
}

function total({ quantity, ...solved }: Solved & Pick<Total, "quantity">): Total {
  requireEveryRow(solved);
  const value = solved.point.totals[TOTAL_FIELDS[quantity]];
  if (value === undefined) {
    throw new NoAnswerError("quantity", `there is no ${quantity}: ${WHY_NONE[quantity] ?? ""}`);
  }
  return { ...solved, quantity, total: value };
}

const WHY_NONE: Readonly<Record<string, string>> = {
  efficiency: "the supply gives no power",
  "lowest margin": "no stage or load has Lowest V or Highest V",
};

const chainTotal = defineEntry({
  id: "CHAIN_TOTAL",
  family: "chain",
  parameters: {
    feedTable: feedTableParameter,
    quantity: {
      name: "quantity",
      unit: "",
      meaning: "which number",
      kind: "choice",
      choices: QUANTITIES,
    },
    loads: loadsParameter,
    supply: supplyParameter,
  },
  result: {
    shape: "number",
    unit: "W or 1",
  },
  example: {
    args: [TWO_ROOT_TABLE, "loss"],
  },
  citations: ["two-roots", "monotone-newton", "ohm-joule"],
  read: ({ feedTable: cells, quantity, loads, supply }) => ({
    ...solveOf(cells, loads, supply),
    quantity: quantity as Total["quantity"],
  }),
  calculate: ({ quantity, ...input }) => total({ ...solve(input), quantity }),
  cells: ({ total: value }) => value,
  unitOf: ({ quantity }) => UNITS[quantity],
  cellOf: ({ point, quantity }) => ({
    working: point.feed.columns.count,
    step: TOTAL_FIELDS[quantity],
  }),
  caveats: solvedCaveats,
  working: (_, { point, quantity }) => [
    ...figuredWorking(point),
    // Every row is solved, so that each has its working at its own place.
    totalWorking(point, TOTAL_FIELDS[quantity], (row) => row),
  ],
});

export const chainEntries = [chainEfficiencyEntry, chainSolve, chainTotal];
