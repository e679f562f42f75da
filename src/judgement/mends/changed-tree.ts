/**
 * A tree with one figure changed, of which no more is solved than a check asks for: the cases in which it has failed
 * before, or all that may be worse.
 */
import { rowCheck } from "../../network/feed-check.js";
import type { FeedCorner } from "../../network/feed-corner.js";
import { type FeedWorst, worstAmong, worstOfRows } from "../../network/feed-worst.js";
import { solvedFeed } from "../../network/operating-point.js";
import type { Extreme } from "../../network/worst-row.js";
import { NoAnswerError } from "../../quantities/errors.js";
import type { JudgedFeed } from "../judged-feed.js";
import { SearchedTree } from "../searched-tree.js";
import {
  type CaseName,
  type Condition,
  type Conditions,
  conditionsLike,
  type FoundExtreme,
  isAskedOf,
  isWorse,
  type OwnUnits,
  type SolvedCase,
  TreeContext,
  type TreeFault,
  type WorstCase,
} from "../tree-context.js";

/** A tree before and after a figure of some rows was changed. */
export interface Changed {
  readonly before: TreeContext;
  readonly feed: JudgedFeed;
  readonly rows: readonly number[];
}

abstract class ChangedTree extends TreeContext {
  protected readonly before: TreeContext;

  /** @throws {InputError} where the figure is none that the rows may have. */
  constructor({ before, feed, rows }: Changed, conditions: Conditions) {
    super(feed, before.requirements, before.topology, before.source, conditions);
    this.before = before;
    if (this.hasSameColumns) return;
    const check = rowCheck(feed.columns);
    for (const row of rows) check(row);
  }

  private get hasSameColumns(): boolean {
    return this.feed.columns === this.before.feed.columns;
  }

  override onceOfColumns<T>(name: string, find: () => T): T {
    return this.hasSameColumns ? this.before.onceOfColumns(name, find) : this.once(name, find);
  }

  override worstCases(row: number, name: Extreme, own: OwnUnits): readonly WorstCase[] {
    return this.before.worstCases(row, name, own);
  }
}

/** With a figure of which no voltage or current depends. */
export class UnmovedTree extends ChangedTree {
  constructor(changed: Changed) {
    super(changed, [changed.before.hot, changed.before.cold]);
  }

  override get cases(): readonly SolvedCase[] {
    return this.before.cases;
  }

  override get fault(): TreeFault | undefined {
    return this.before.fault;
  }

  override extreme(row: number, name: Extreme, own?: OwnUnits): FoundExtreme {
    return this.before.extreme(row, name, own);
  }

  override notCarried(row: number): NoAnswerError | undefined {
    return this.before.notCarried(row);
  }
}

abstract class MovedTree extends ChangedTree {
  protected abstract readonly names: readonly CaseName[];

  constructor(changed: Changed) {
    super(changed, conditionsLike(changed.before, changed.feed, changed.rows));
  }

  /** @throws {NoAnswerError} */
  override get cases(): readonly SolvedCase[] {
    return this.once("cases", () =>
      this.names.map(({ loads, supply }) => {
        const point = solvedFeed(this.hot.columns, { loads, supply }, this.topology);
        for (const { error } of point.faults.values()) throw error;
        return { loads, supply, point };
      }),
    );
  }

  override notCarried(row: number): NoAnswerError | undefined {
    return this.once(`not carried without one of ${row}`, () => {
      try {
        for (const one of this.searched) this.searchOf(one, row).extremeOf(row, "highestFlow");
        return undefined;
      } catch (error) {
        if (error instanceof NoAnswerError) return error;
        throw error;
      }
    });
  }

  /** @param lost Row of which one unit is lost; undefined for none. */
  protected searchOf({ columns, name }: Condition, lost?: number): FeedWorst {
    const isCold = columns === this.cold?.columns;
    return this.once(`${name} without one of ${lost ?? "none"}`, () =>
      worstOfRows({ ...this.topology, columns }, this.source, lost, (row, extreme) =>
        this.before
          .worstCases(row, extreme, "any")
          .flatMap((one) => (one.isCold === isCold && one.at.lost === lost ? [one.at] : [])),
      ),
    );
  }

  /** The worst of some cases; undefined where the row is met in none of them. @throws {CollapsedCaseError} */
  protected among(
    cases: readonly WorstCase[],
    row: number,
    name: Extreme,
  ): FoundExtreme | undefined {
    return worstOf(
      name,
      [false, true].flatMap((isCold) => {
        const corners = cases.filter((one) => one.isCold === isCold).map(({ at }) => at);
        if (corners.length === 0) return [];
        const condition = isCold ? this.cold! : this.hot;
        const worst = this.solvedIn(condition, corners);
        const found = this.foundIn(condition, worst, row, name);
        return Number.isFinite(found.value) ? [found] : [];
      }),
    );
  }

  protected foundIn(
    { columns }: Condition,
    worst: FeedWorst,
    row: number,
    name: Extreme,
  ): FoundExtreme {
    const isCold = columns === this.cold?.columns;
    // No changed case is told.
    return { ...worst.extremeOf(row, name), columns, isCold, text: "" };
  }

  private solvedIn({ columns, name }: Condition, corners: readonly FeedCorner[]): FeedWorst {
    const key = [name, ...new Set(corners.map((at) => this.numberOf(at)))].join();
    return this.once(key, () =>
      worstAmong({ ...this.topology, columns }, this.source, [...new Set(corners)]),
    );
  }

  private readonly numbers = new Map<FeedCorner, number>();

  private numberOf(corner: FeedCorner): number {
    const known = this.numbers.get(corner) ?? this.numbers.size;
    this.numbers.set(corner, known);
    return known;
  }
}

function worstOf(name: Extreme, found: readonly FoundExtreme[]): FoundExtreme | undefined {
  return found.reduce<FoundExtreme | undefined>(
    (worst, one) => (worst && !isWorse(name, one.value, worst.value) ? worst : one),
    undefined,
  );
}

/** Solved in the cases in which a check was found to fail; where none are known, in those that were worst before. */
export class TriedTree extends MovedTree {
  protected override readonly names: readonly CaseName[];

  constructor(
    changed: Changed,
    private readonly tried: readonly WorstCase[],
    names: readonly CaseName[],
  ) {
    super(changed);
    this.names = names.length > 0 ? names : changed.before.cases;
  }

  override get fault(): TreeFault | undefined {
    try {
      this.among(this.tried, this.root, "lowestVoltage");
      return undefined;
    } catch (error) {
      if (!(error instanceof NoAnswerError)) throw error;
      return { row: this.root, error, text: "" };
    }
  }

  override extreme(row: number, name: Extreme, own: OwnUnits = "any"): FoundExtreme {
    const tried = this.tried.filter(({ at }) => isAskedOf(own, at.lost, row));
    return (
      this.among(tried, row, name) ?? this.among(this.before.worstCases(row, name, own), row, name)!
    );
  }

  override notCarried(row: number): NoAnswerError | undefined {
    return this.before.notCarried(row) && super.notCarried(row);
  }
}

/** Of each row that is asked of, all that may be its worst. */
export class WholeTree extends MovedTree {
  protected override readonly names = this.before.cases;

  override get fault(): TreeFault | undefined {
    return this.once("fault", () => new SearchedTree(this.feed, this.requirements).fault);
  }

  override extreme(row: number, name: Extreme, own: OwnUnits = "any"): FoundExtreme {
    const losing = this.losing.filter(
      (lost) => isAskedOf(own, lost, row) && (this.isFedBy(row, lost) || this.isFedBy(lost, row)),
    );
    const elsewhere = this.before
      .worstCases(row, name, own)
      .filter(({ at: { lost } }) => lost !== undefined && !losing.includes(lost));
    const found = [
      ...(own === "own unit lost"
        ? []
        : this.searched.map((one) => this.foundIn(one, this.searchOf(one), row, name))),
      ...losing
        .filter((lost) => this.notCarried(lost) === undefined)
        .flatMap((lost) =>
          this.searched.map((one) => this.foundIn(one, this.searchOf(one, lost), row, name)),
        ),
      ...(elsewhere.length === 0 ? [] : [this.among(elsewhere, row, name)!]),
    ];
    return worstOf(name, found)!;
  }
}
