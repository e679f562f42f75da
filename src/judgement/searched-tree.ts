/** A tree of which every case is solved and the worst of every row is searched, once for all checks. */
import { type CompiledFeed, compiledFeed } from "../network/compiled-feed.js";
import type { FeedCorner } from "../network/feed-corner.js";
import { levelSources } from "../network/feed-levels.js";
import { NO_PARENT } from "../network/feed-state.js";
import {
  CollapsedCaseError,
  feedGlance,
  type FeedWorst,
  feedWorst,
  feedWorstWithout,
  TooManyCasesError,
} from "../network/feed-worst.js";
import { solvedFeed } from "../network/operating-point.js";
import type { Extreme } from "../network/worst-row.js";
import { NoAnswerError } from "../quantities/errors.js";
import { caseOf, caseText } from "./case-words.js";
import type { JudgedFeed } from "./judged-feed.js";
import type { Requirements } from "./requirements.js";
import {
  CASE_LOADS,
  type Condition,
  type FoundExtreme,
  isAskedOf,
  isWorse,
  type OwnUnits,
  type SolvedCase,
  TreeContext,
  type TreeFault,
  type WorstCase,
} from "./tree-context.js";

/** One search for the worst of every row. */
interface Search extends Condition {
  readonly lost: number | undefined;
  readonly worst: FeedWorst;
}

export class SearchedTree extends TreeContext {
  override readonly cases: readonly SolvedCase[] = [];
  override readonly fault: TreeFault | undefined;
  private readonly searches: Search[] = [];
  private readonly withoutOne = new Map<number, NoAnswerError>();
  private readonly texts = new Map<FeedCorner, string>();

  /** @param depth A glance is no judgement: what breaks a limit in it breaks it, and what holds in it may not. */
  constructor(feed: JudgedFeed, requirements: Requirements, depth: "worst" | "glance" = "worst") {
    const topology = compiledFeed(feed.columns);
    super(feed, requirements, topology, levelSources(topology));
    this.fault = refusalOf(topology);
    if (this.fault) return;
    if (depth === "glance") {
      this.fault = this.glance();
      return;
    }
    this.cases = CASE_LOADS.flatMap((loads) =>
      this.supplies.map((supply) => ({
        loads,
        supply,
        point: solvedFeed(this.hot.columns, { loads, supply }, topology),
      })),
    );
    this.fault = this.collapse() ?? this.search();
  }

  override extreme(row: number, name: Extreme, own: OwnUnits = "any"): FoundExtreme {
    let found: { readonly search: Search; readonly value: number } | undefined;
    for (const search of this.searches) {
      if (!isAskedOf(own, search.lost, row)) continue;
      const { value } = search.worst.extremeOf(row, name);
      if (!found || isWorse(name, value, found.value)) found = { search, value };
    }
    if (!found) throw new Error(`no case of row ${row}`);
    const { search, value } = found;
    const { at, isCold } = this.worstCase(row, name, search);
    const text = this.textOf(row, at, search);
    return { value, at, isCold, columns: search.columns, text };
  }

  override worstCases(row: number, name: Extreme, own: OwnUnits): readonly WorstCase[] {
    return this.searches
      .filter(({ lost }) => isAskedOf(own, lost, row))
      .map((search) => this.worstCase(row, name, search));
  }

  private worstCase(row: number, name: Extreme, { columns, worst }: Search): WorstCase {
    const isCold = columns === this.cold?.columns;
    return { at: worst.extremeOf(row, name).at, isCold };
  }

  override notCarried(row: number): NoAnswerError | undefined {
    return this.withoutOne.get(row);
  }

  /** Many rows share a corner, and a long feed has long texts. */
  private textOf(row: number, at: FeedCorner, { columns, name, worst }: Search): string {
    if (at.idle) return caseText(at, columns, name, this.rowsAbove(row));
    const known = this.texts.get(at) ?? caseText(at, columns, name);
    this.texts.set(at, known);
    return worst.isProven(row) ? known : `${known}, not proven, ${worst.cases} cases tried`;
  }

  /** All that feeds the row. */
  private rowsAbove(row: number): readonly number[] {
    const { parent } = this.topology;
    const above: number[] = [];
    for (let at = parent[row]!; at !== NO_PARENT; at = parent[at]!) above.unshift(at);
    return above;
  }

  private collapse(): TreeFault | undefined {
    for (const { point, loads, supply } of this.cases) {
      const [fault] = point.faults.values();
      if (!fault) continue;
      const shifts = new Int8Array(this.feed.columns.count);
      const at = { supply, loads, alone: undefined, idle: false, lost: undefined, shifts };
      return {
        ...fault,
        text: caseOf({ loads, supply }, this.hot.name),
        case: { at, isCold: false },
      };
    }
    return undefined;
  }

  private glance(): TreeFault | undefined {
    try {
      const worst = feedGlance(this.topology, this.source);
      this.searches.push({ ...this.hot, lost: undefined, worst });
      return undefined;
    } catch (error) {
      if (!(error instanceof NoAnswerError)) throw error;
      return { row: this.root, error, text: "" };
    }
  }

  private search(): TreeFault | undefined {
    const { hot, topology, losing } = this;
    for (const one of this.searched) {
      try {
        this.searches.push({
          ...one,
          lost: undefined,
          worst: feedWorst(one.columns, 0, topology),
        });
      } catch (error) {
        if (!(error instanceof NoAnswerError)) throw error;
        const isCold = one !== hot;
        return {
          row: this.root,
          error,
          text: "",
          ...(error instanceof CollapsedCaseError && { case: { at: error.corner, isCold } }),
        };
      }
    }
    const among = losing.length * this.searched.length;
    for (const row of losing) {
      try {
        for (const one of this.searched) {
          const worst = feedWorstWithout(one.columns, row, among, topology);
          this.searches.push({ ...one, lost: row, worst });
        }
      } catch (error) {
        if (!(error instanceof NoAnswerError)) throw error;
        this.withoutOne.set(row, error);
      }
    }
    return undefined;
  }
}

export function isUntried({ error }: TreeFault): boolean {
  return error instanceof TooManyCasesError;
}

/** The first row that is not in order, with no load drawn so that nothing collapses but by what stages lose. */
function refusalOf(topology: CompiledFeed): TreeFault | undefined {
  const { columns } = topology;
  const { faults } = solvedFeed(columns, { loads: "none", supply: "nominal" }, topology);
  const [fault] = faults.values();
  return fault && { ...fault, text: "" };
}
