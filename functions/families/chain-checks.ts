import {
  CHECKS_COLUMNS,
  type CheckRow,
  NONE,
} from "../../src/judgement/check-row.js";
import { type JudgedRow, judgedRows } from "../../src/judgement/checks.js";
import { standing } from "../../src/judgement/finding-working.js";
import type { Requirements } from "../../src/judgement/requirements.js";
import { citationLine } from "../../src/quantities/citations.js";
import type { Cell, CellTable } from "../cells.js";
import { defineEntry } from "../entry.js";
import { askedForParameter, requirementsOf } from "../reading/asked-for.js";
import { feedTableParameter } from "../reading/feed-call.js";
import { type KnownTable, knownTable } from "../reading/feed-memory.js";
import { judgedTable } from "../reading/judged-table.js";

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
  purpose:
    "Every check of a feed table in every case, against what is asked for: what is found in the worst case, its limit, whether it holds, and what to enter or to change. A screening aid; it approves nothing.",
  relation:
    "margin of at most: (limit − found) ÷ limit, of at least: (found − limit) ÷ limit; spare = rated ÷ used − 1; loading = used ÷ rated",
  parameters: { feedTable: feedTableParameter, askedFor: askedForParameter },
  result: {
    shape: "table",
    unit: "as in the column Unit",
    meaning: CHECKS_COLUMNS.join(", "),
  },
  example: {
    args: [
      [
        ["Item", "Fed from", "Kind", "Voltage (V)", "Resistance (Ω)", "Load"],
        ["Bus", "", "supply", 400, "", ""],
        ["Cable", "Bus", "run", "", 2, ""],
        ["Camp", "Cable", "power load", "", "", 7500],
      ],
      [["Largest drop of a cable", 0.05]],
    ],
    gives: [[...CHECKS_COLUMNS]],
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
  validity: [
    "Worst of light, nominal and peak loads, the supply's window, every tolerance, and one unit lost where fewer units are needed than there are or Units lost is 1. Worst in says which, and where no proof was found how many cases were tried.",
    "A check that lacks a figure is not determined and says what to enter; one whose requirement is empty says so, and fails all the same where the item's own window or rating is left. Failed checks name one change, solved in the worst case, where one is known.",
    "Loss at one location, efficiency and start are of the nine cases, without tolerances; headroom is of the lowest supply. Faults are between the poles, with the supply's resistance as entered; capacitors and earth faults are not counted.",
    "Product standards, the local code and licensed practice prevail.",
  ],
  read: ({ feedTable: cells, askedFor }): ChecksCall => ({
    known: knownTable(cells),
    cells,
    asked: requirementsOf(askedFor),
  }),
  calculate: ({ known, cells, asked }): Checks => ({
    rows: judgedRows(judgedTable(cells, known.table), asked),
  }),
  cells: ({ rows }) => [[...CHECKS_COLUMNS], ...rows.map(rowCells)],
  notes: () => [],
  working: (_, { rows }, row) => {
    const judged = row === undefined ? undefined : rows[row - 1];
    return judged ? [...judged.working(), ...standing(judged)] : [];
  },
});

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
