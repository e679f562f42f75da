/**
 * What the checks of one supply and all that it feeds have in common, computed once: nine cases, and the worst of every
 * row over loads, supply window and tolerances; hot with contacts at the end of their life, and cold with new ones where
 * a load draws more then; the same with one unit lost of each row that is asked to bear it.
 */
import type { Extreme } from "../network/worst-row.js";
import { NO_PARENT } from "../network/feed-state.js";
import { levelSources } from "../network/feed-levels.js";
import { type CompiledFeed, compiledFeed, type Fault } from "../network/compiled-feed.js";
import { type FeedColumns, kindAt } from "../network/feed-columns.js";
import { supplyWindow } from "../network/feed-conditions.js";
import { CORNER_SUPPLIES, type CornerSupply, type FeedCorner } from "../network/feed-corner.js";
import {
  type FeedWorst,
  feedWorst,
  feedWorstWithout,
  TooManyCasesError,
} from "../network/feed-worst.js";
import { type OperatingPoint, solvedFeed } from "../network/operating-point.js";
import { EQUATION, KINDS } from "../network/row-kinds.js";
import { NoAnswerError } from "../quantities/errors.js";
import { caseOf, caseText } from "./case-words.js";
import type { JudgedFeed } from "./judged-feed.js";
import type { Requirements } from "./requirements.js";

export const CASE_LOADS = ["light", "nominal", "peak"] as const;

export interface SolvedCase {
  readonly loads: (typeof CASE_LOADS)[number];
  readonly supply: CornerSupply;
  readonly point: OperatingPoint;
}

/** Of resistances: hot with contacts at the end of their life, or cold with new ones. */
export interface Condition {
  /** In words; "" where there is but one. */
  readonly name: string;
  readonly columns: FeedColumns;
}

/** One search for the worst of every row. */
interface Search extends Condition {
  readonly lost: number | undefined;
  readonly worst: FeedWorst;
}

export interface FoundExtreme {
  readonly value: number;
  readonly at: FeedCorner;
  readonly columns: FeedColumns;
  /** The case in words. */
  readonly text: string;
}

/** Why nothing of a tree can be judged. */
export interface TreeFault extends Fault {
  /** The case in words; "" where no case is to blame. */
  readonly text: string;
}

export class TreeContext {
  readonly topology: CompiledFeed;
  /** Supply or stage in whose level each row stands. */
  readonly source: Int32Array;
  readonly root: number;
  readonly hot: Condition;
  /** Undefined where it is no other than hot. */
  readonly cold: Condition | undefined;
  readonly cases: readonly SolvedCase[] = [];
  readonly fault: TreeFault | undefined;
  private readonly searches: Search[] = [];
  /** Rows of which one unit is lost, and why the rest has no operating point then. */
  readonly notCarried = new Map<number, NoAnswerError>();
  private readonly kept = new Map<string, unknown>();
  private readonly texts = new Map<FeedCorner, string>();

  constructor(
    readonly feed: JudgedFeed,
    readonly requirements: Requirements,
  ) {
    const { columns } = feed;
    this.topology = compiledFeed(columns);
    this.source = levelSources(this.topology);
    this.root = this.topology.trees[0]!.order[0]!;
    const [hot, cold] = conditions(feed, requirements);
    this.hot = hot;
    this.cold = cold;
    this.fault = refusalOf(columns);
    if (this.fault) return;
    this.cases = ninePoints(hot.columns, this.supplies);
    this.fault = this.collapse() ?? this.search();
  }

  /** Voltages that its window gives. */
  get supplies(): readonly CornerSupply[] {
    const { lowest, highest } = supplyWindow(this.feed.columns, this.root);
    return CORNER_SUPPLIES.filter(
      (name) => name === "nominal" || !Number.isNaN(name === "lowest" ? lowest : highest),
    );
  }

  /** Found once, whatever asks for it. */
  once<T>(name: string, find: () => T): T {
    if (!this.kept.has(name)) this.kept.set(name, find());
    return this.kept.get(name) as T;
  }

  /** Whether one unit of the row may be lost. */
  losesOne(row: number): boolean {
    const { columns, details } = this.feed;
    const { role } = KINDS[columns.kind[row]!]!;
    const inParallel = columns.figures.inParallel[row]!;
    if (inParallel < 2 || (role !== "stage" && role !== "supply")) return false;
    const asked = this.requirements.figure("Units lost");
    if (asked === 1) return true;
    if (asked !== "not given") return false;
    const needed = details[row]!.figures.unitsNeeded;
    return needed !== undefined && needed < inParallel;
  }

  /** The worst over every search; of a row's own unit lost only where `own` asks for it. */
  extreme(
    row: number,
    name: Extreme,
    own: "own units kept" | "own unit lost" | "any" = "any",
  ): FoundExtreme {
    const isLeast = name === "lowestVoltage";
    let value = isLeast ? Infinity : -Infinity;
    let where: Search | undefined;
    for (const search of this.searches) {
      if (own === "own units kept" && search.lost === row) continue;
      if (own === "own unit lost" && search.lost !== row) continue;
      const one = search.worst.extremeOf(row, name).value;
      if (isLeast ? one >= value : one <= value) continue;
      value = one;
      where = search;
    }
    if (!where) throw new Error(`no case of row ${row}`);
    const { columns, worst } = where;
    const { at } = worst.extremeOf(row, name);
    return {
      value,
      at,
      columns,
      text: this.textOf(row, at, worst.isProven(row), where),
    };
  }

  /** Many rows share a corner, and a long feed has long texts. */
  private textOf(
    row: number,
    at: FeedCorner,
    proven: boolean,
    { columns, name, worst }: Search,
  ): string {
    if (at.idle) return caseText(at, columns, name, this.rowsAbove(row));
    const known = this.texts.get(at) ?? caseText(at, columns, name);
    this.texts.set(at, known);
    return proven ? known : `${known}, not proven, ${worst.cases} cases tried`;
  }

  /** All that feeds the row. */
  private rowsAbove(row: number): readonly number[] {
    const { parent } = this.topology;
    const above: number[] = [];
    for (let at = parent[row]!; at !== NO_PARENT; at = parent[at]!) above.unshift(at);
    return above;
  }

  /** Rows from the supply or stage that feeds the level, which is not among them, down to the row itself. */
  wayTo(row: number): readonly number[] {
    const way: number[] = [];
    const from = this.source[row]!;
    for (let at = row; at !== from && at !== NO_PARENT;)
      at = (way.unshift(at), this.topology.parent[at]!);
    return way;
  }

  /** Nominal voltage of the level behind a supply or stage. */
  nominalBehind(source: number): number {
    const { figures, kind } = this.feed.columns;
    if (KINDS[kind[source]!]!.inFault !== "follows") return figures.voltage[source]!;
    return this.nominalBehind(this.source[source]!) * figures.ratio[source]!;
  }

  /** Of the supply's window, or its nominal voltage where none is given. */
  get lowestSupply(): number {
    const { lowest } = supplyWindow(this.feed.columns, this.root);
    return Number.isNaN(lowest) ? this.feed.columns.figures.voltage[this.root]! : lowest;
  }

  /** Output of a supply or stage without any load, at the end of its tolerance and of all before it. */
  idleOutput(row: number, end: "lowest" | "highest"): number {
    const { figures, kind } = this.feed.columns;
    const { inFault } = KINDS[kind[row]!]!;
    if (inFault === "source")
      return end === "lowest" ? this.lowestSupply : this.extreme(row, "highestVoltage").value;
    const shift = (end === "lowest" ? -1 : 1) * (figures.tolerance[row]! || 0);
    const full =
      inFault === "follows"
        ? this.idleOutput(this.source[row]!, end) * figures.ratio[row]!
        : figures.voltage[row]!;
    return full * (1 + shift);
  }

  private collapse(): TreeFault | undefined {
    for (const { point, loads, supply } of this.cases) {
      const [fault] = point.faults.values();
      if (!fault) continue;
      return { ...fault, text: caseOf({ loads, supply }, this.hot.name) };
    }
    return undefined;
  }

  private search(): TreeFault | undefined {
    const { hot, cold, feed } = this;
    const drawsMoreCold =
      cold !== undefined &&
      feed.columns.kind.some((kind) => KINDS[kind]!.equation === EQUATION.conductance);
    const conditions = drawsMoreCold ? [hot, cold] : [hot];
    try {
      for (const one of conditions)
        this.searches.push({
          ...one,
          lost: undefined,
          worst: feedWorst(one.columns, 0),
        });
    } catch (error) {
      if (!(error instanceof NoAnswerError)) throw error;
      return { row: this.root, error, text: "" };
    }
    const losing = Array.from(feed.columns.kind.keys()).filter((row) => this.losesOne(row));
    const among = losing.length * conditions.length;
    for (const row of losing) {
      try {
        for (const one of conditions) {
          const worst = feedWorstWithout(one.columns, row, among);
          this.searches.push({ ...one, lost: row, worst });
        }
      } catch (error) {
        if (!(error instanceof NoAnswerError)) throw error;
        this.notCarried.set(row, error);
      }
    }
    return undefined;
  }
}

export function isUntried({ error }: Fault): boolean {
  return error instanceof TooManyCasesError;
}

function ninePoints(columns: FeedColumns, supplies: readonly CornerSupply[]): SolvedCase[] {
  return CASE_LOADS.flatMap((loads) =>
    supplies.map((supply) => ({
      loads,
      supply,
      point: solvedFeed(columns, { loads, supply }),
    })),
  );
}

/** The first row that is not in order, with no load drawn so that nothing collapses but by what stages lose. */
function refusalOf(columns: FeedColumns): TreeFault | undefined {
  const { faults } = solvedFeed(columns, { loads: "none", supply: "nominal" });
  const [fault] = faults.values();
  return fault && { ...fault, text: "" };
}

function conditions(
  { columns, details }: JudgedFeed,
  requirements: Requirements,
): readonly [Condition, Condition | undefined] {
  const asked = requirements.figure("Contacts at end of life, times new");
  const wear = typeof asked === "number" ? asked : 1;
  const { resistance } = columns.figures;
  const worn = resistance.map((ohms, row) =>
    kindAt(columns, row) === "series" ? ohms * wear : ohms,
  );
  const cold = resistance.map((ohms, row) => details[row]!.figures.leastResistance ?? ohms);
  const of = (ohms: Float64Array): FeedColumns => ({
    ...columns,
    figures: { ...columns.figures, resistance: ohms },
  });
  const differs = cold.some((ohms, row) => ohms < worn[row]!);
  if (!differs) return [{ name: "", columns: of(worn) }, undefined];
  return [
    {
      name: wear === 1 ? "hot" : "hot, contacts at end of life",
      columns: of(worn),
    },
    {
      name: wear === 1 ? "cold" : "cold, contacts new",
      columns: of(cold),
    },
  ];
}
