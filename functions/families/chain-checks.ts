import { CHECKS_COLUMNS, type CheckRow, NONE } from "../../src/judgement/check-row.js";
import { type JudgedRow } from "../../src/judgement/checks.js";
import { standing, stands } from "../../src/judgement/finding-working.js";
import type { Requirements } from "../../src/judgement/requirements.js";
import { citationLine } from "../../src/quantities/citations.js";
import type { Cell, CellTable } from "../cells.js";
import { defineEntry, type ShownStep } from "../entry.js";
import { askedForParameter, requirementsOf } from "../reading/asked-for.js";
import { feedTableParameter } from "../reading/feed-call.js";
import { type KnownTable, knownTable } from "../reading/feed-memory.js";
import { checksOf } from "../reading/judged-table.js";

interface ChecksCall {
  readonly known: KnownTable;
  readonly cells: CellTable;
  readonly asked: Requirements;
}

interface Checks {
  readonly rows: readonly JudgedRow[];
}

const chainChecks = defineEntry({
  id: "CHAIN_CHECKS",
  family: "chain",
  parameters: { feedTable: feedTableParameter, askedFor: askedForParameter },
  result: {
    shape: "table",
    unit: "as in the column Unit",
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
          "Load",
          "Lowest V",
          "Highest V",
          "Rated A",
        ],
        ["Battery", "", "supply", 48, 0.5, "", 44, 56, 12],
        ["Lamp", "Battery", "current load", "", "", 10, 38, 60, ""],
      ],
      [
        ["Asked for", "Value"],
        ["Framework", "not asked"],
        ["Largest loading of a supply", 0.8],
        ["Spare capacity of the supply", "not asked"],
        ["Margin to each window", 0.03],
        ["Efficiency, supply to load", 0.75],
        ["Largest loss at one location", "not asked"],
        ["Headroom to collapse", "not asked"],
        ["Ripple of a bus", "not asked"],
        ["Altitude, clearances hold up to", "not asked"],
        ["Largest mass", "not asked"],
      ],
    ],
  },
  citations: [
    "two-roots",
    "ohm-joule",
    "maximum-power",
    "constant-power-stability",
    "parallel-generators",
    "hottest-of-several",
    "insulation-limits",
    "iec-60364-5-54",
    "iec-60364-4-41-table-41-1",
    "iec-60204-1-discharge",
    "iec-60664-1-altitude",
    "nfpa-70e-360",
    "touch-voltage-faults",
    "common-practice",
  ],
  copied: { verdicts: ["Verdict", "Enter or try"] },
  read: ({ feedTable: cells, askedFor }): ChecksCall => ({
    known: knownTable(cells),
    cells,
    asked: requirementsOf(askedFor),
  }),
  calculate: ({ known, cells, asked }): Checks => ({
    rows: checksOf(known, cells, asked),
  }),
  cells: ({ rows }) => [[...CHECKS_COLUMNS], ...rows.map(rowCells)],
  caveats: () => [],
  working: (_, { rows }, row) => {
    const judged = row === undefined ? undefined : rows[row - 1];
    const before = judged?.working() ?? [];
    return judged ? [...before, ...standing(judged, before)] : [];
  },
  cellOf: ({ rows }, row, column) => checkStep(rows[row - 1], CHECKS_COLUMNS[column]),
});

const COLUMN_STEPS: Partial<Readonly<Record<(typeof CHECKS_COLUMNS)[number], string>>> = {
  Found: "found",
  Limit: "limit",
  Margin: "margin",
};

/** Figures that stand against each other do so in the row's last working. */
function checkStep(
  row: JudgedRow | undefined,
  heading: (typeof CHECKS_COLUMNS)[number] | undefined,
): ShownStep | undefined {
  const step = heading && COLUMN_STEPS[heading];
  return step !== undefined && row && stands(row) ? { working: -1, step } : undefined;
}

function rowCells(row: CheckRow): Cell[] {
  const { item, check, worstIn, found, asked, limit, unit, margin } = row;
  const { verdict, weight, cause, column, enterOrTry, cite } = row;
  return [
    item,
    check,
    worstIn,
    found,
    asked,
    limit,
    unit,
    margin ?? NONE,
    verdict,
    weight,
    cause,
    column,
    enterOrTry,
    cite === "definition" ? "" : citationLine(cite),
  ];
}

export const chainChecksEntries = [chainChecks];
