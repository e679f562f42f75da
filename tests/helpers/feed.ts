import { NO_DETAILS } from "../../src/judgement/judged-feed.js";
import type { FeedColumns } from "../../src/network/feed-columns.js";
import type { FeedItem, FeedKind } from "../../src/network/feed-item.js";
import type { FeedRow, SolvedRow } from "../../src/network/feed-row.js";
import { type MovableFeed, movableFeed } from "../../src/sensitivity/movable-feed.js";

/** A row of a feed with what a test does not care for left out. */
export function feedItem(
  item: string,
  fedFrom: string | undefined,
  kind: FeedKind,
  figures: Partial<FeedItem> = {},
): FeedItem {
  return {
    item,
    fedFrom,
    kind,
    voltage: undefined,
    resistance: undefined,
    ratio: undefined,
    fixedLoss: undefined,
    linearLoss: undefined,
    quadraticLoss: undefined,
    efficiency: undefined,
    load: undefined,
    lightLoad: undefined,
    peakLoad: undefined,
    inParallel: 1,
    lowestVoltage: undefined,
    highestVoltage: undefined,
    ratedCurrent: undefined,
    tolerance: undefined,
    isolation: undefined,
    reverseFlow: undefined,
    tripVoltage: undefined,
    rippleRms: undefined,
    ripplePeak: undefined,
    ...figures,
  };
}

/** A feed of which nothing is known but what is solved. */
export function movableOf(columns: FeedColumns): MovableFeed {
  return movableFeed({ columns, details: columns.item.map(() => NO_DETAILS) });
}

/** The row, or the reason why it has none as the test's failure. */
export function requireSolved(row: FeedRow | undefined): SolvedRow {
  if (row === undefined) throw new Error("there is no such row");
  if (row.outcome === "refused") throw new Error(`${row.item} is refused: ${row.error.message}`);
  return row;
}

/** A case of tests/reference: supplies, runs and loads by node. */
export interface FeederCase {
  readonly network: {
    readonly sources: readonly {
      readonly node: number | string;
      readonly V: number;
      readonly R_ohm?: number;
    }[];
    readonly branches: readonly {
      readonly from: number | string;
      readonly to: number | string;
      readonly R_ohm: number;
    }[];
    readonly loads: readonly {
      readonly node: number | string;
      readonly P_W?: number;
      readonly I_A?: number;
      readonly R_ohm?: number;
    }[];
  };
}

/** Rows named by the node at their output; loads are named `load at 7`. */
export function feedOfCase({ network }: FeederCase): FeedItem[] {
  return [
    ...network.sources.map(({ node, V, R_ohm }) =>
      feedItem(String(node), undefined, "supply", {
        voltage: V,
        resistance: R_ohm,
      }),
    ),
    ...network.branches.map(({ from, to, R_ohm }) =>
      feedItem(String(to), String(from), "run", { resistance: R_ohm }),
    ),
    ...network.loads.map(({ node, P_W, I_A, R_ohm }) => {
      const kind =
        P_W !== undefined ? "power load" : I_A !== undefined ? "current load" : "resistance load";
      return feedItem(`load at ${node}`, String(node), kind, {
        load: P_W ?? I_A ?? R_ohm,
      });
    }),
  ];
}

/**
 * The same of a case in which currents have more than one way: from the sources outward each branch that reaches a new
 * node is a run of that node's name, every other one a tie of both names.
 */
export function meshOfCase({ network }: FeederCase): FeedItem[] {
  const reached = new Set(network.sources.map(({ node }) => String(node)));
  const items = feedOfCase({ network: { ...network, branches: [] } });
  const waiting = new Set(network.branches);
  const oriented: FeedItem[] = [];
  for (let grew = true; grew;) {
    grew = false;
    for (const branch of waiting) {
      const [from, to] = [String(branch.from), String(branch.to)];
      if (reached.has(from) === reached.has(to)) continue;
      const [feeding, fed] = reached.has(from) ? [from, to] : [to, from];
      oriented.push(feedItem(fed, feeding, "run", { resistance: branch.R_ohm }));
      reached.add(fed);
      waiting.delete(branch);
      grew = true;
    }
  }
  const ties = [...waiting].map(({ from, to, R_ohm }) =>
    feedItem(`${from}-${to}`, `${from}; ${to}`, "tie", { resistance: R_ohm }),
  );
  return [...items, ...oriented, ...ties];
}
