import {
  chainEfficiency,
  chainEfficiencySteps,
} from "../../src/network/chain-efficiency.js";
import type { FeedRow } from "../../src/network/feed-row.js";
import { feedRowSteps } from "../../src/network/feed-steps.js";
import type { FeedTotals } from "../../src/network/feed-totals.js";
import { InputError, NoAnswerError } from "../../src/quantities/errors.js";
import type { Note } from "../../src/quantities/steps.js";
import type { Cell, CellError, CellTable } from "../cells.js";
import { defineEntry, type ShownStep } from "../entry.js";
import {
  feedTableParameter,
  loadsParameter,
  requireEveryRow,
  type Solved,
  solve,
  solvedWorking,
  solveOf,
  supplyParameter,
} from "../reading/feed-call.js";
import { type FeedTable, rowReason } from "../reading/feed-table.js";

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

function solvedTable({ table, rows, totals }: Solved): CellTable {
  return [
    [...SOLVED_COLUMNS],
    ...rows.map((row) => rowCells(row, totals, table)),
  ];
}

function rowCells(
  row: FeedRow,
  { loss }: FeedTotals,
  table: FeedTable,
): Cell[] {
  if (row.outcome === "refused")
    return refusedCells(row.item, rowReason(row, table.columns), row.error);
  const { output } = row;
  return [
    row.item.item,
    row.inputVoltage,
    row.inputCurrent,
    row.inputPower,
    output?.voltage ?? NONE,
    output?.current ?? NONE,
    output?.power ?? NONE,
    row.loss,
    row.efficiency ?? NONE,
    loss > 0 ? row.loss / loss : NONE,
    row.loading ?? NONE,
    row.notes.map(({ text }) => text).join("; "),
  ];
}

/** Columns whose numbers a row's equations give; which rows have such an equation, its kind says. */
const COLUMN_STEPS: Partial<
  Readonly<Record<(typeof SOLVED_COLUMNS)[number], string>>
> = {
  "Input A": "inputCurrent",
  "Output V": "outputVoltage",
  "Output A": "outputCurrent",
  "Loss W": "loss",
};

/** Refused rows have no working. */
function solvedStep(
  { rows }: Solved,
  tableRow: number,
  column: number,
): ShownStep | undefined {
  const row = rows[tableRow - 1];
  const heading = SOLVED_COLUMNS[column];
  const step = heading && COLUMN_STEPS[heading];
  if (row?.outcome !== "solved" || step === undefined) return undefined;
  if (!(step in feedRowSteps[row.item.kind])) return undefined;
  const above = rows.slice(0, tableRow - 1);
  const working = above.filter(({ outcome }) => outcome === "solved").length;
  return { working, step };
}

function refusedCells(
  item: string,
  reason: string,
  error: InputError | NoAnswerError,
): Cell[] {
  const cell: CellError = { error: codeOf(error), message: reason };
  return [item, ...SOLVED_COLUMNS.slice(1, -1).map(() => cell), reason];
}

function codeOf(error: InputError | NoAnswerError): "#N/A" | "#VALUE!" {
  return error instanceof NoAnswerError ? "#N/A" : "#VALUE!";
}

function solvedNotes({ rows }: Solved): readonly Note[] {
  return rows.flatMap((row) =>
    row.outcome === "solved"
      ? row.notes.map((note) => ({
          ...note,
          text: `${row.item.item}: ${note.text}`,
        }))
      : [],
  );
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
  purpose:
    "Efficiency of stages in a row: the product of all efficiencies given. Blank cells in a range are passed over; 0 is refused.",
  relation: "η = η₁ · η₂ · …",
  parameters: {
    efficiencies: {
      name: "efficiency",
      unit: "1",
      meaning:
        "of one stage, above 0 and at most 1; a number, a range or several of both",
      kind: "numbers",
      each: "efficiency",
      repeating: true,
    },
  },
  result: { shape: "number", unit: "1", meaning: "efficiency of the chain" },
  example: {
    args: [0.97, 0.95, 0.98],
    gives: 0.90307,
    note: "0.97 · 0.95 · 0.98",
  },
  citations: [],
  validity: [
    "Holds where every stage works at the load its efficiency was given for.",
  ],
  read: ({ efficiencies }) => {
    if (efficiencies.includes(0)) {
      throw new InputError(
        "efficiencies",
        0,
        "above 0 and at most 1 (a blank cell may be read as 0)",
      );
    }
    return { efficiencies };
  },
  calculate: chainEfficiency,
  shows: "efficiency",
  notes: () => [],
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
          chain.efficiencies.map((value, index) => [
            `efficiency${index + 1}`,
            value,
          ]),
        ),
        efficiency,
      },
    },
  ],
});

const chainSolve = defineEntry({
  id: "CHAIN_SOLVE",
  family: "chain",
  purpose:
    "Solves a feed table: voltage, current, power and loss of every row at the chosen loads and supply voltage, with a note for every doubt. Spills a header and one row for each item.",
  relation: "every row's own equations; of two roots always the upper one",
  parameters: {
    feedTable: feedTableParameter,
    loads: loadsParameter,
    supply: supplyParameter,
  },
  result: {
    shape: "table",
    unit: "V, A, W and fractions",
    meaning: SOLVED_COLUMNS.join(", "),
  },
  example: {
    args: [TWO_ROOT_TABLE],
    gives: [
      [...SOLVED_COLUMNS],
      [
        "Bus",
        400,
        14.644661,
        5857.8644,
        400,
        14.644661,
        5857.8644,
        0,
        1,
        0,
        NONE,
        "ideal: no resistance given",
      ],
      [
        "Cable",
        400,
        14.644661,
        5857.8644,
        341.421356,
        14.644661,
        5000,
        857.8644,
        0.85355339,
        1,
        NONE,
        "",
      ],
      [
        "Camp",
        341.421356,
        14.644661,
        5000,
        NONE,
        NONE,
        NONE,
        0,
        NONE,
        0,
        NONE,
        "",
      ],
    ],
    note: "V = (400 + √(400² − 4 · 4 · 5000)) / 2 = 341.421356 V",
  },
  citations: [
    "two-roots",
    "monotone-newton",
    "ohm-joule",
    "ratio-circuit",
    "loss-quadratic",
  ],
  validity: [
    "Steady state of a tree: each item has one feed. Where loads hold their power the upper root is given, and proved.",
    "A row that is refused or whose tree collapses shows why in its Note; other trees still solve.",
  ],
  read: ({ feedTable: cells, loads, supply }) => solveOf(cells, loads, supply),
  calculate: solve,
  cells: solvedTable,
  cellOf: solvedStep,
  notes: solvedNotes,
  working: (_, solved) => solvedWorking(solved),
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
} as const satisfies Readonly<
  Record<(typeof QUANTITIES)[number], keyof FeedTotals>
>;

interface Total extends Solved {
  readonly quantity: (typeof QUANTITIES)[number];
  readonly total: number;
}

function total({
  quantity,
  ...solved
}: Solved & Pick<Total, "quantity">): Total {
  requireEveryRow(solved);
  const value = solved.totals[TOTAL_FIELDS[quantity]];
  if (value === undefined) {
    throw new NoAnswerError(
      "quantity",
      `there is no ${quantity}: ${WHY_NONE[quantity] ?? ""}`,
    );
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
  purpose:
    "One number over a whole feed table: supply power, load power, loss, efficiency, the least margin to a window, or the closing error (supply power less loads and losses).",
  relation: "P supply = Σ P load + Σ P loss",
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
    meaning: "the quantity asked for",
  },
  example: {
    args: [TWO_ROOT_TABLE, "loss"],
    gives: 857.8644,
    note: "I²R = 14.644661² · 4",
  },
  citations: ["two-roots", "monotone-newton", "ohm-joule"],
  validity: ["As CHAIN_SOLVE; one refused row refuses the total."],
  read: ({ feedTable: cells, quantity, loads, supply }) => ({
    ...solveOf(cells, loads, supply),
    quantity: quantity as Total["quantity"],
  }),
  calculate: ({ quantity, ...input }) => total({ ...solve(input), quantity }),
  cells: ({ total: value }) => value,
  notes: solvedNotes,
  working: (_, solved) => solvedWorking(solved),
});

export const chainEntries = [chainEfficiencyEntry, chainSolve, chainTotal];
