/** Feeds in which currents have more than one way: what proves their operating point, what an outage leaves, what circulates. */
import { type Circulating, circulating } from "../../src/network/circulating.js";
import { collapseOf } from "../../src/network/collapse.js";
import { enterTree } from "../../src/network/compiled-feed.js";
import type { FeedConditions } from "../../src/network/feed-conditions.js";
import type { RowFigure } from "../../src/network/feed-cases.js";
import { feedRowGivens, feedRowValues, stepsOfRow } from "../../src/network/feed-steps.js";
import { type Outage, outages } from "../../src/network/outage.js";
import type { MeshProof } from "../../src/network/feed-solver.js";
import { outageWorking } from "../../src/network/outage-steps.js";
import { KINDS } from "../../src/network/row-kinds.js";
import { solution } from "../../src/network/solution.js";
import { NoAnswerError } from "../../src/quantities/errors.js";
import { frozenIn } from "../../src/quantities/given-sources.js";
import type { Caveat } from "../../src/quantities/steps.js";
import type { Cell, CellTable } from "../cells.js";
import { defineEntry, type ShownStep, type Working } from "../entry.js";
import {
  feedTableParameter,
  figuredWorking,
  loadsParameter,
  requireEveryRow,
  type Solve,
  solve,
  solveOf,
  supplyParameter,
  waitingReason,
} from "../reading/feed-call.js";
import { type FeedTable, feedTable, rowReason } from "../reading/feed-table.js";
import { NONE } from "./chain.js";

/** Table of the examples: two supplies on one bus. 2 S and 1 S: (2 · 400 + 396 − 20 A) / 3 S = 392 V. */
const TWO_FED_TABLE: CellTable = [
  ["Item", "Fed from", "Kind", "Voltage", "Resistance", "Load", "Lowest V", "Rated A"],
  ["North", "", "supply", 400, 0.1, "", "", ""],
  ["South", "", "supply", 396, 0.1, "", "", ""],
  ["Line N", "North", "run", "", 0.4, "", "", 30],
  ["Line S", "South", "run", "", 0.9, "", "", 30],
  ["Bus", "Line N; Line S", "bus", "", "", "", "", ""],
  ["Pumps", "Bus", "power load", "", "", 7840, 350, ""],
];

/** Nothing can be said before a figure is typed. */
interface Waiting {
  readonly reason: string;
}

function waitingFor(table: FeedTable): Waiting | undefined {
  const reason = table.told.length === 0 ? undefined : waitingReason(table);
  return reason === undefined ? undefined : { reason };
}

function waitingTable(columns: readonly string[], { reason }: Waiting): CellTable {
  return [[...columns], [...columns.slice(1).map(() => NONE), reason]];
}

function waitingCaveats(found: object): Caveat[] {
  if (!("reason" in found)) return [];
  return [{ code: "of-table", field: "feedTable", text: String(found.reason), cite: "definition" }];
}

export const PROOF_COLUMNS = [
  "Fed by",
  "Proof",
  "Least pivot S",
  "Least pivot at",
  "Part left",
  "Carries times",
  "Collapses at",
  "Note",
] as const;

interface Proof {
  readonly fedBy: string;
  readonly proof: string;
  readonly pivot: RowFigure | undefined;
  readonly partLeft: number | undefined;
  /** Multiple of the loads, and where the voltage collapses at it. */
  readonly carries: RowFigure | undefined;
  readonly note: string;
}

interface Proofs {
  readonly table: FeedTable;
  readonly point: ReturnType<typeof solve>["point"];
  readonly proofs: readonly Proof[];
}

const UPPER = "upper operating point: no other lies above it";
const ONLY_ONE =
  "the only operating point with every voltage at or above the ones without the power that is given back";
const NO_POINT = "no operating point is reached from no load";
const NO_SOLUTION = "not solved";

/** Part of the multiple to which the collapse is found. */
const COLLAPSE_TOLERANCE = 1e-10;

function proofsOf(input: Solve): Proofs | Waiting {
  const { table } = input;
  const waiting = waitingFor(table);
  if (waiting) return waiting;
  const { point } = solve(input);
  const proofs = point.feed.trees.map((tree): Proof => {
    const { columns } = point.feed;
    const { item, kind } = columns;
    const supplies = [...tree.order].filter((row) => KINDS[kind[row]!]?.role === "supply");
    const fedBy = supplies.map((row) => item[row]!).join(", ") || NONE;
    const fault = point.faults.get(tree.order[0]!);
    const none = { pivot: undefined, partLeft: undefined, carries: undefined };
    if (fault) {
      const note = rowReason(
        { item: "", blamed: item[fault.row]!, error: fault.error },
        table.fields,
      );
      const isCollapsed = fault.error instanceof NoAnswerError;
      return { fedBy, proof: isCollapsed ? NO_POINT : NO_SOLUTION, ...none, note };
    }
    return { fedBy, ...proofOf(tree, point.feed, input) };
  });
  // The search for the collapse leaves other loads in the arrays.
  return { table, point: solve(input).point, proofs };
}

function proofOf(
  tree: Proofs["point"]["feed"]["trees"][number],
  feed: Proofs["point"]["feed"],
  conditions: FeedConditions,
): Omit<Proof, "fedBy"> {
  const { item } = feed.columns;
  enterTree(feed, tree, conditions);
  const found = solution(tree, feed);
  if (found.outcome !== "solved") throw new Error("solved before, and not now");
  const { mesh, leastDivisor } = found;
  const collapse = collapseOf(tree, feed, COLLAPSE_TOLERANCE);
  const names = (rows: readonly number[]) => rows.map((row) => item[row]!).join(", ");
  const unproven = mesh?.unproven ?? [];
  const blocked = mesh?.blocked ?? [];
  return {
    proof: proofText(mesh?.claim ?? "upper", names(unproven), names(blocked)),
    pivot:
      mesh && Number.isFinite(mesh.leastPivot)
        ? { row: mesh.row, value: mesh.leastPivot }
        : undefined,
    partLeft: leastDivisor,
    carries:
      collapse.outcome === "carries" ? { row: collapse.row, value: collapse.multiple } : undefined,
    note: [
      ...(blocked.length > 0 ? [`reverse flow is blocked in ${names(blocked)}`] : []),
      ...(collapse.outcome === "not determined"
        ? [`no multiple is sought where ${item[collapse.row]!} gives power back`]
        : []),
    ].join("; "),
  };
}

function proofText(claim: MeshProof["claim"], unproven: string, blocked: string): string {
  switch (claim) {
    case "upper":
      return blocked === "" ? UPPER : `${UPPER} while ${blocked} carries nothing`;
    case "only one at or above":
      return ONLY_ONE;
    case "not proven":
      return unproven === ""
        ? `not proven: with power given back${blocked === "" ? "" : ` and ${blocked} blocked`} other points may exist`
        : `not proven: losses of ${unproven} follow the current`;
  }
}

const chainProof = defineEntry({
  id: "CHAIN_PROOF",
  family: "chain",
  parameters: { feedTable: feedTableParameter, loads: loadsParameter, supply: supplyParameter },
  result: { shape: "table", unit: "S and multiples" },
  example: {
    args: [TWO_FED_TABLE],
  },
  citations: ["two-roots", "monotone-newton", "taheri-kekatos", "jeeninga", "ldl-factorisation"],
  read: ({ feedTable: cells, loads, supply }) => solveOf(cells, loads, supply),
  calculate: proofsOf,
  cells: (found) =>
    "reason" in found
      ? waitingTable(PROOF_COLUMNS, found)
      : [[...PROOF_COLUMNS], ...found.proofs.map((one) => proofCells(one, found.table))],
  caveats: waitingCaveats,
  working: (_, found) => ("reason" in found ? [] : figuredWorking(found.point)),
});

function proofCells(
  { fedBy, proof, pivot, partLeft, carries, note }: Proof,
  { feed }: FeedTable,
): Cell[] {
  const at = (figure: RowFigure | undefined): Cell[] =>
    figure ? [figure.value, feed.item[figure.row]!] : [NONE, NONE];
  return [fedBy, proof, ...at(pivot), partLeft ?? NONE, ...at(carries), note];
}

export const OUTAGE_COLUMNS = [
  "Out",
  "Dark",
  "Dark loads",
  "Lowest V",
  "Lowest V at",
  "Fall",
  "Least margin",
  "Least margin at",
  "Highest loading",
  "Highest loading at",
  "Note",
] as const;

interface Outages {
  readonly table: FeedTable;
  readonly found: readonly Outage[];
}

function outagesOf(input: Solve): Outages | Waiting {
  const { table } = input;
  const waiting = waitingFor(table);
  if (waiting) return waiting;
  requireEveryRow(solve(input));
  return { table, found: outages(table.feed, input) };
}

const chainOutage = defineEntry({
  id: "CHAIN_OUTAGE",
  family: "chain",
  parameters: { feedTable: feedTableParameter, loads: loadsParameter, supply: supplyParameter },
  result: { shape: "table", unit: "V and fractions" },
  example: {
    args: [[...TWO_FED_TABLE.slice(0, -1), ["Pumps", "Bus", "current load", "", "", 20, 350, ""]]],
  },
  citations: ["two-roots", "monotone-newton", "kirchhoff"],
  read: ({ feedTable: cells, loads, supply }) => solveOf(cells, loads, supply),
  calculate: outagesOf,
  cells: (found) =>
    "reason" in found
      ? waitingTable(OUTAGE_COLUMNS, found)
      : [[...OUTAGE_COLUMNS], ...found.found.map((one) => outageCells(one, found.table))],
  cellOf: (found, row, column) =>
    "reason" in found ? undefined : outageStep(found.found, row - 1, column),
  caveats: waitingCaveats,
  working: (_, found) =>
    "reason" in found ? [] : found.found.filter(({ fault }) => !fault).map(outageWorking),
});

function outageCells(
  { row, fault, dark, lowest, margin, loading }: Outage,
  { feed, fields }: FeedTable,
): Cell[] {
  const names = dark.map((load) => feed.item[load]!).join(", ");
  const at = (figure: RowFigure | undefined): Cell[] =>
    figure ? [figure.value, feed.item[figure.row]!] : [NONE, NONE];
  const note = fault
    ? rowReason({ item: "", blamed: feed.item[fault.row]!, error: fault.error }, fields)
    : "";
  return [
    feed.item[row]!,
    dark.length,
    names,
    ...(lowest ? [lowest.voltage, feed.item[lowest.row]!, 1 - lowest.value] : [NONE, NONE, NONE]),
    ...at(margin),
    ...at(loading),
    note,
  ];
}

const OUTAGE_STEPS: Partial<Readonly<Record<(typeof OUTAGE_COLUMNS)[number], string>>> = {
  "Lowest V": "lowestVoltage",
  Fall: "fallen",
  "Least margin": "leastMargin",
  "Highest loading": "highestLoading",
};

function outageStep(
  found: readonly Outage[],
  index: number,
  column: number,
): ShownStep | undefined {
  const heading = OUTAGE_COLUMNS[column];
  const step = heading && OUTAGE_STEPS[heading];
  const outage = found[index];
  if (step === undefined || !outage || outage.fault) return undefined;
  if (!(step in outageWorking(outage).steps)) return undefined;
  return { working: found.slice(0, index).filter(({ fault }) => !fault).length, step };
}

export const CIRCULATING_COLUMNS = [
  "Item",
  "Current A",
  "Loss W",
  "Flows",
  "Highest supply",
] as const;

interface Circulation {
  readonly table: FeedTable;
  readonly found: readonly Circulating[];
}

function circulationOf(table: FeedTable): Circulation | Waiting {
  const waiting = waitingFor(table);
  if (waiting) return waiting;
  requireEveryRow(solve({ table, loads: "none", supply: "nominal" }));
  return { table, found: circulating(table.feed) };
}

const chainCirculating = defineEntry({
  id: "CHAIN_CIRCULATING",
  family: "chain",
  parameters: { feedTable: feedTableParameter },
  result: { shape: "table", unit: "A and W" },
  example: {
    args: [TWO_FED_TABLE],
  },
  citations: ["ohm-joule", "kirchhoff"],
  read: ({ feedTable: cells }) => feedTable(cells),
  calculate: circulationOf,
  cells: (found) =>
    "reason" in found
      ? waitingTable(CIRCULATING_COLUMNS, found)
      : [[...CIRCULATING_COLUMNS], ...circulatingRows(found)],
  cellOf: (found, row, column) => {
    if ("reason" in found || !found.found[row - 1]) return undefined;
    const step = ({ 1: "outputCurrent", 2: "loss" } as const)[column];
    return step && { working: row - 1, step };
  },
  caveats: waitingCaveats,
  working: (_, found) =>
    "reason" in found ? [] : found.found.map((one) => rowWorking(one, found)),
});

function circulatingRows({ found, table: { feed } }: Circulation): Cell[][] {
  if (found.length === 0) return [["nothing circulates", 0, 0, NONE, NONE]];
  return found.map(({ row, current, loss, highest }) => [
    feed.item[row]!,
    current,
    loss,
    current < 0 ? "backwards" : "forwards",
    feed.item[highest]!,
  ]);
}

function rowWorking({ rows, place, highest }: Circulating, { table }: Circulation): Working {
  const row = rows[place]!;
  const steps = stepsOfRow(row);
  const text = `no load, ${table.feed.item[highest]!} at its highest, other supplies at their lowest`;
  return {
    title: `${row.item.item}, ${text}`,
    givens: feedRowGivens,
    steps,
    values: feedRowValues(rows)[place]!,
    frozen: frozenIn(Object.keys(feedRowGivens), text),
  };
}

export const chainMeshesEntries = [chainProof, chainOutage, chainCirculating];
