/**
 * What the checks of one supply and all that it feeds have in common: nine cases, and the worst of every row over loads,
 * supply window and tolerances; hot with contacts at the end of their life, and cold with new ones where a load draws
 * more then; the same with one unit lost of each row that is asked to bear it.
 */
import type { CompiledFeed, Fault } from "../network/compiled-feed.js";
import type { FeedColumns } from "../network/feed-columns.js";
import { supplyWindow } from "../network/feed-conditions.js";
import { CORNER_SUPPLIES, type CornerSupply, type FeedCorner } from "../network/feed-corner.js";
import { NO_PARENT } from "../network/feed-state.js";
import type { OperatingPoint } from "../network/operating-point.js";
import { notOfMeshes } from "../network/meshes/mesh-refusal.js";
import { EQUATION, KINDS, type RowKind } from "../network/row-kinds.js";
import type { Extreme } from "../network/worst-row.js";
import type { NoAnswerError } from "../quantities/errors.js";
import type { JudgedFeed } from "./judged-feed.js";
import type { Requirements } from "./requirements.js";

export const CASE_LOADS = ["light", "nominal", "peak"] as const;

/** One of the nine. */
export interface CaseName {
  readonly loads: (typeof CASE_LOADS)[number];
  readonly supply: CornerSupply;
}

export interface SolvedCase extends CaseName {
  readonly point: OperatingPoint;
}

/** A state of the resistances: hot with contacts at the end of their life, or cold with new ones. */
export interface Condition {
  /** In words; "" where there is but one. */
  readonly name: string;
  readonly columns: FeedColumns;
}

/** A case of the search for the worst. */
export interface WorstCase {
  readonly at: FeedCorner;
  readonly isCold: boolean;
}

export interface FoundExtreme extends WorstCase {
  readonly value: number;
  readonly columns: FeedColumns;
  /** The case in words. */
  readonly text: string;
}

/** Of which searches: with a unit of the row itself lost, without, or all. */
export type OwnUnits = "own units kept" | "own unit lost" | "any";

/** Whether a search or case without a unit of `lost` is asked of. */
export function isAskedOf(own: OwnUnits, lost: number | undefined, row: number): boolean {
  return own === "any" || (lost === row) === (own === "own unit lost");
}

/** Whether the value of an extreme is worse than another one's. */
export function isWorse(name: Extreme, value: number, than: number): boolean {
  return name === "lowestVoltage" ? value < than : value > than;
}

/** Why nothing of a tree can be judged. */
export interface TreeFault extends Fault {
  /** The case in words; "" where no case is to blame. */
  readonly text: string;
  /** The case that is to blame. */
  readonly case?: WorstCase;
}

export abstract class TreeContext {
  readonly root: number;
  readonly hot: Condition;
  /** Undefined where it is no other than hot. */
  readonly cold: Condition | undefined;
  abstract readonly cases: readonly SolvedCase[];
  abstract readonly fault: TreeFault | undefined;
  private readonly kept = new Map<string, unknown>();

  constructor(
    readonly feed: JudgedFeed,
    readonly requirements: Requirements,
    readonly topology: CompiledFeed,
    /** Supply or stage in whose level each row stands. */
    readonly source: Int32Array,
    conditions = conditionsOf(feed, requirements),
  ) {
    this.root = topology.trees[0]!.order[0]!;
    [this.hot, this.cold] = conditions;
  }

  /** The worst over every search. */
  abstract extreme(row: number, name: Extreme, own?: OwnUnits): FoundExtreme;

  /** The worst case of each search. */
  abstract worstCases(row: number, name: Extreme, own: OwnUnits): readonly WorstCase[];

  /** Why the rest has no operating point where one unit of the row is lost; undefined where it has one. */
  abstract notCarried(row: number): NoAnswerError | undefined;

  /** Conditions that are searched: cold too, where a load draws more then. */
  protected get searched(): readonly Condition[] {
    const { hot, cold, feed } = this;
    const drawsMoreCold =
      cold !== undefined &&
      feed.columns.kind.some((kind) => KINDS[kind]!.equation === EQUATION.conductance);
    return drawsMoreCold ? [hot, cold] : [hot];
  }

  /** Voltages that its window gives. */
  get supplies(): readonly CornerSupply[] {
    const windows = this.supplyRows.map((row) => supplyWindow(this.feed.columns, row));
    return CORNER_SUPPLIES.filter(
      (name) =>
        name === "nominal" ||
        windows.every(({ lowest, highest }) => !Number.isNaN(name === "lowest" ? lowest : highest)),
    );
  }

  /** One, but where several feed one bus or are tied with what they feed. */
  private get supplyRows(): readonly number[] {
    return this.topology.trees[0]!.mesh ? this.rowsOfRole("supply") : [this.root];
  }

  private rowsOfRole(role: RowKind["role"]): readonly number[] {
    const { kind } = this.feed.columns;
    return [...kind.keys()].filter((row) => KINDS[kind[row]!]?.role === role);
  }

  /** @throws {NoAnswerError} where currents have more than one way in the level behind a supply or stage. */
  requireOneWay(level: number): void {
    if (this.meshedLevels.has(level)) throw notOfMeshes(this.feed.columns.item[level]!);
  }

  /** Levels in which currents have more than one way: the way to a row there is none in particular. */
  private get meshedLevels(): ReadonlySet<number> {
    return this.once("meshed levels", () => {
      const { mesh } = this.topology.trees[0]!;
      const feeders = [...(mesh?.feeders.values() ?? [])].flat();
      return new Set(feeders.map((row) => this.levelBehind(row)));
    });
  }

  /** Supply or stage in whose level what a row feeds stands. */
  private levelBehind(row: number): number {
    const { role } = KINDS[this.feed.columns.kind[row]!]!;
    return role === "supply" || role === "stage" ? row : this.source[row]!;
  }

  /** Found once, whatever asks for it. */
  once<T>(name: string, find: () => T): T {
    if (!this.kept.has(name)) this.kept.set(name, find());
    return this.kept.get(name) as T;
  }

  /** What depends on nothing but the columns of the feed; a change of what only checks read leaves it as it was. */
  onceOfColumns<T>(name: string, find: () => T): T {
    return this.once(name, find);
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

  /** Rows of which one unit may be lost. */
  protected get losing(): readonly number[] {
    return Array.from(this.feed.columns.kind.keys()).filter((row) => this.losesOne(row));
  }

  /**
   * Rows from the supply or stage that feeds the level, which is not among them, down to the row itself.
   * @throws {NoAnswerError} where there are several ways.
   */
  wayTo(row: number): readonly number[] {
    const way: number[] = [];
    const from = this.source[row]!;
    if (this.meshedLevels.has(from)) throw notOfMeshes(this.feed.columns.item[row]!);
    for (let at = row; at !== from && at !== NO_PARENT;)
      at = (way.unshift(at), this.topology.parent[at]!);
    return way;
  }

  /** Whether a row is another one or lies behind it. */
  isFedBy(row: number, other: number): boolean {
    let at = row;
    while (at !== other && at !== NO_PARENT) at = this.topology.parent[at]!;
    return at === other;
  }

  /** Nominal voltage of the level behind a supply or stage. */
  nominalBehind(source: number): number {
    const { figures, kind } = this.feed.columns;
    if (KINDS[kind[source]!]!.inFault !== "follows") return figures.voltage[source]!;
    return this.nominalBehind(this.source[source]!) * figures.ratio[source]!;
  }

  /** Lower end of the supply's window, V; its nominal voltage where no window is given. */
  get lowestSupply(): number {
    return Math.min(
      ...this.supplyRows.map((row) => {
        const { lowest } = supplyWindow(this.feed.columns, row);
        return Number.isNaN(lowest) ? this.feed.columns.figures.voltage[row]! : lowest;
      }),
    );
  }

  /** Output of a supply or stage without any load, at the end of its tolerance and of all before it. */
  idleOutput(row: number, end: "lowest" | "highest"): number {
    const { figures, kind } = this.feed.columns;
    const { inFault } = KINDS[kind[row]!]!;
    if (inFault === "source")
      return end === "lowest"
        ? this.lowestSupply
        : Math.max(
            ...this.supplyRows.map((supply) => this.extreme(supply, "highestVoltage").value),
          );
    const shift = (end === "lowest" ? -1 : 1) * (figures.tolerance[row]! || 0);
    const full =
      inFault === "follows"
        ? this.idleOutput(this.source[row]!, end) * figures.ratio[row]!
        : figures.voltage[row]!;
    return full * (1 + shift);
  }
}

/** Hot and cold. */
export type Conditions = readonly [Condition, Condition | undefined];

function conditionsOf(feed: JudgedFeed, requirements: Requirements): Conditions {
  const { columns } = feed;
  const wear = wearOf(requirements);
  const { resistance } = columns.figures;
  const worn = resistance.map((_, row) => hotOhms(feed, row, wear));
  const cold = resistance.map((_, row) => coldOhms(feed, row));
  const of = (ohms: Float64Array) => withResistance(columns, ohms);
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

/** Those of a feed that differs in some rows. */
export function conditionsLike(
  { hot, cold, requirements }: TreeContext,
  feed: JudgedFeed,
  rows: readonly number[],
): Conditions {
  const wear = wearOf(requirements);
  const like = (one: Condition, ohmsOf: (row: number) => number): Condition => {
    const ohms = one.columns.figures.resistance.slice();
    for (const row of rows) ohms[row] = ohmsOf(row);
    return { ...one, columns: withResistance(feed.columns, ohms) };
  };
  return [
    like(hot, (row) => hotOhms(feed, row, wear)),
    cold && like(cold, (row) => coldOhms(feed, row)),
  ];
}

function wearOf(requirements: Requirements): number {
  const asked = requirements.figure("Contacts at end of life, times new");
  return typeof asked === "number" ? asked : 1;
}

function hotOhms({ columns }: JudgedFeed, row: number, wear: number): number {
  const ohms = columns.figures.resistance[row]!;
  return KINDS[columns.kind[row]!]?.builtOf === "contacts" ? ohms * wear : ohms;
}

function coldOhms({ columns, details }: JudgedFeed, row: number): number {
  return details[row]!.figures.leastResistance ?? columns.figures.resistance[row]!;
}

function withResistance(columns: FeedColumns, resistance: Float64Array): FeedColumns {
  return { ...columns, figures: { ...columns.figures, resistance } };
}
