/** What a feed can bear: how far its loads can grow, and the worst that its rows see. */
import type { SupplyCase } from "../../src/network/feed-conditions.js";
import type { FeedColumns } from "../../src/network/feed-columns.js";
import { cornerText, type FeedCorner } from "../../src/network/feed-corner.js";
import {
  type CollapsePoint,
  collapseStep,
  type FeedHeadroom,
  feedHeadroom,
  type LimitPoint,
  limitStep,
} from "../../src/network/feed-headroom.js";
import type { FeedItem } from "../../src/network/feed-item.js";
import { cornerRows, type FeedWorst, feedWorst } from "../../src/network/feed-worst.js";
import { worstWorkings } from "../../src/network/worst-steps.js";
import { solvedFeed } from "../../src/network/operating-point.js";
import { InputError } from "../../src/quantities/errors.js";
import type { Caveat, Quantities, Steps } from "../../src/quantities/steps.js";
import type { Cell, CellTable } from "../cells.js";
import { defineEntry, type ShownStep, type Working } from "../entry.js";
import {
  feedTableParameter,
  feedInOrder,
  requireOneSupply,
  rowWorkings,
  solvedWorking,
  supplyParameter,
  toldCaveats,
  waitingReason,
} from "../reading/feed-call.js";
import { type KnownTable, knownTable } from "../reading/feed-memory.js";
import type { FeedTable } from "../reading/feed-table.js";
import { NONE, TWO_ROOT_TABLE } from "./chain.js";

interface HeadroomInput {
  readonly known: KnownTable;
  readonly supply: SupplyCase;
}

interface Headroom extends FeedHeadroom {
  readonly feed: FeedColumns;
}

/** Nothing can be said before a figure is typed. */
interface Waiting {
  readonly items: readonly string[];
  readonly reason: string;
}

/** What a table made of schedules still waits for. */
function waitingFor({ table }: KnownTable): Waiting | undefined {
  const reason = table.told.length === 0 ? undefined : waitingReason(table);
  return reason === undefined ? undefined : { items: table.feed.item, reason };
}

const chainHeadroom = defineEntry({
  id: "CHAIN_HEADROOM",
  family: "chain",
  parameters: { feedTable: feedTableParameter, supply: supplyParameter },
  result: {
    shape: "row",
    unit: "multiples of every Load",
  },
  example: {
    args: [TWO_ROOT_TABLE],
  },
  citations: ["two-roots", "monotone-newton"],
  read: ({ feedTable: cells, supply }): HeadroomInput => {
    const known = knownTable(cells);
    if (typeof supply === "number") requireOneSupply(known.table, supply);
    return { known, supply: (supply ?? "nominal") as SupplyCase };
  },
  calculate: ({ known, supply }): Headroom | Waiting =>
    known.once(`headroom ${supply}`, () => {
      const waiting = waitingFor(known);
      if (waiting) return waiting;
      const feed = feedInOrder(known.table, supply);
      return { feed, ...feedHeadroom(feed, supply) };
    }),
  cells: (headroom) =>
    "reason" in headroom
      ? [[NONE, NONE, NONE, NONE]]
      : [[...pointCells(headroom.collapse), ...pointCells(headroom.limit)]],
  caveats: (headroom) => ("reason" in headroom ? waitingCaveats(headroom) : headroom.caveats),
  working: ({ supply }, headroom) =>
    "reason" in headroom ? [] : headroomWorking(headroom, supply),
});

function waitingCaveats({ reason }: Waiting): Caveat[] {
  return [{ code: "of-table", field: "feedTable", text: reason, cite: "definition" }];
}

function pointCells(
  point: { readonly multiple: number; readonly item: FeedItem } | undefined,
): Cell[] {
  return point ? [point.multiple, point.item.item] : [NONE, NONE];
}

const edgeGivens: Quantities = {
  leastDivisor: {
    label: "Smallest of 1 + R · dI/dV over the rows, at the collapse",
    symbol: "D",
    unit: "1",
  },
};

const limitGivens: Quantities = {
  reached: {
    label: "Voltage or current at the first limit",
    symbol: "x",
    unit: "V or A",
  },
  allowed: {
    label: "Lowest voltage or rated current of the row",
    symbol: "x₀",
    unit: "V or A",
  },
};

/** Both multiples, then every row's equations at the collapse and at the limit. */
function headroomWorking({ feed, collapse, limit }: Headroom, supply: SupplyCase): Working[] {
  const block = (
    title: string,
    givens: Quantities,
    steps: Steps,
    values: Working["values"],
  ): Working => ({ title, givens, steps, values });
  const rowsAt = (point: CollapsePoint | LimitPoint, where: string) => {
    const { multiple: times, loads } = point;
    if (times === 0) return [];
    const { rows } = solvedFeed(feed, { loads: { loads, times }, supply });
    return solvedWorking(rows).map((working) => ({
      ...working,
      title: `${working.title}, ${where}`,
    }));
  };
  return [
    ...(collapse
      ? [
          block(
            `Collapse at "${collapse.item.item}"`,
            edgeGivens,
            { collapseMultiple: collapseStep },
            {
              leastDivisor: collapse.leastDivisor,
              collapseMultiple: collapse.multiple,
            },
          ),
          ...rowsAt(collapse, "at the collapse"),
        ]
      : []),
    ...(limit
      ? [
          block(
            `First limit at "${limit.item.item}"`,
            limitGivens,
            { limitMultiple: limitStep },
            {
              reached: limit.reached,
              allowed: limit.allowed,
              limitMultiple: limit.multiple,
            },
          ),
          ...rowsAt(limit, "at the first limit"),
        ]
      : []),
  ];
}

/** Headers of the result, in an order that people count on. */
export const WORST_COLUMNS = [
  "Item",
  "Lowest input V",
  "Highest input V",
  "Highest input A",
  "Highest loss W",
  "Loading",
  "Least margin",
  "Where it happens",
  "Note",
] as const;

const LOST_CHOICES = [0, 1] as const;

const chainWorst = defineEntry({
  id: "CHAIN_WORST",
  family: "chain",
  parameters: {
    feedTable: feedTableParameter,
    unitsLost: {
      name: "units lost",
      unit: "1",
      meaning: "0 (default) or 1",
      kind: "number",
      optional: true,
    },
  },
  result: {
    shape: "table",
    unit: "V, A, W and fractions",
  },
  example: {
    args: [
      [
        [
          "Item",
          "Fed from",
          "Kind",
          "Voltage",
          "Resistance",
          "Load",
          "Lowest V",
          "Highest V",
          "Tolerance",
        ],
        ["Bus", "", "supply", 400, "", "", 380, 420, ""],
        ["Cable", "Bus", "run", "", 2, "", "", "", "exact"],
        ["Camp", "Cable", "current load", "", "", 10, 300, 450, 0.1],
      ],
    ],
  },
  citations: ["two-roots", "monotone-newton"],
  copied: { verdicts: [] },
  read: ({ feedTable: cells, unitsLost }) => {
    if (unitsLost !== undefined && !LOST_CHOICES.some((n) => n === unitsLost))
      throw new InputError("unitsLost", unitsLost, "0 or 1");
    return {
      known: knownTable(cells),
      unitsLost: unitsLost === 1 ? (1 as const) : (0 as const),
    };
  },
  calculate: ({ known, unitsLost }): Worst | Waiting =>
    known.once(
      `worst ${unitsLost}`,
      () =>
        waitingFor(known) ?? {
          ...feedWorst(feedInOrder(known.table, "nominal"), unitsLost),
          table: known.table,
        },
    ),
  cells: (worst) => ("reason" in worst ? waitingTable(worst) : worstTable(worst)),
  caveats: (worst) => ("reason" in worst ? waitingCaveats(worst) : worstCaseCaveats(worst)),
  cellOf: (worst, row, column) => ("reason" in worst ? undefined : worstStep(row - 1, column)),
  working: (_, worst) =>
    "reason" in worst ? [] : [...worstWorkings(worst), ...worstWorking(worst)],
});

interface Worst extends FeedWorst {
  readonly table: FeedTable;
}

function waitingTable({ items, reason }: Waiting): CellTable {
  const figures = WORST_COLUMNS.slice(1, -1).map(() => NONE);
  return [[...WORST_COLUMNS], ...items.map((item) => [item, ...figures, reason])];
}

function worstTable({ rows, columns, table }: Worst): CellTable {
  return [
    [...WORST_COLUMNS],
    ...rows.map((row) => [
      columns.item[row.row]!,
      row.lowestInputVoltage,
      row.highestInputVoltage,
      row.highestInputCurrent,
      row.highestLoss,
      row.highestLoading ?? NONE,
      row.leastMargin ?? NONE,
      cornerText(row.at, columns),
      [...toldCaveats(table, row.row), ...row.caveats].map(({ text }) => text).join("; "),
    ]),
  ];
}

function worstCaseCaveats({ rows, columns, table }: Worst): Caveat[] {
  return rows.flatMap(({ row, caveats }) =>
    [...toldCaveats(table, row), ...caveats].map((note) => ({
      ...note,
      text: `${columns.item[row]}: ${note.text}`,
    })),
  );
}

/** What each number of a row is in its working. */
const WORST_STEPS: Partial<Readonly<Record<(typeof WORST_COLUMNS)[number], string>>> = {
  "Lowest input V": "lowestInputVoltage",
  "Highest input V": "highestInputVoltage",
  "Highest input A": "highestInputCurrent",
  "Highest loss W": "highestLoss",
  Loading: "highestLoading",
  "Least margin": "leastMargin",
};

function worstStep(row: number, column: number): ShownStep | undefined {
  const heading = WORST_COLUMNS[column];
  const step = heading && WORST_STEPS[heading];
  return row < 0 || step === undefined ? undefined : { working: row, step };
}

/** Each row's equations in the case that is the worst for it; a case that is so for several rows is solved once. */
function worstWorking({ rows, columns }: FeedWorst): Working[] {
  const solvedAt = new Map<FeedCorner, ReturnType<typeof rowWorkings>>();
  return rows.flatMap(({ at, row }) => {
    const solved = solvedAt.get(at) ?? rowWorkings(cornerRows(columns, at) ?? []);
    solvedAt.set(at, solved);
    const shown = solved[row];
    return shown ? [{ ...shown, title: `${shown.title}, at ${cornerText(at, columns)}` }] : [];
  });
}

export const chainLimitEntries = [chainHeadroom, chainWorst];
