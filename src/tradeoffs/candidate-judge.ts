/** Candidates judged by the checks of the feed: what stops one, and by how much. */
import type { CheckName, CheckRow } from "../judgement/check-row.js";
import { CHECK_NAMES, NONE, WHOLE_FEED } from "../judgement/check-row.js";
import {
  type AskedCheck,
  CHECKS,
  GLANCE_CHECKS,
  type JudgedRow,
  judgedRows,
  verdictsOf,
} from "../judgement/checks.js";
import type { JudgedFeed } from "../judgement/judged-feed.js";
import type { Requirements } from "../judgement/requirements.js";
import { WHOLE_CHECKS } from "../judgement/checks/feed-checks.js";
import { worstMargin } from "./objectives.js";
import { type Choices, StandingFeed, type VariedFeed } from "./varied-feed.js";

/** Checks that may not be broken, and all that they ask. */
export interface Held {
  readonly requirements: Requirements;
  /** The operating point is always held. */
  readonly checks: readonly CheckName[];
}

/** One check that stops a candidate; of several, the one that was found first. */
export type Stop = Pick<CheckRow, "item" | "check">;

/** Checks of some weight that the feed as it is does not break; those that it breaks are for its user to hold. */
export function checksToHold(
  present: readonly Pick<CheckRow, "check" | "verdict">[],
): readonly CheckName[] {
  const fails = new Set(present.flatMap((row) => (row.verdict === "fails" ? [row.check] : [])));
  return CHECK_NAMES.filter((name) => CHECKS[name].weight !== "note" && !fails.has(name));
}

export class CandidateJudge {
  private readonly feed: StandingFeed;
  private readonly checks: ReadonlySet<CheckName>;
  /** Rows of the feed as it is that could not be determined: a candidate may leave them so. */
  private readonly open: ReadonlySet<string>;
  /** What stopped a candidate is likely to stop the next one: it is asked first then. */
  private readonly asked: AskedCheck[];
  /** Of those, what a glance at a few cases may find broken before all are searched. */
  private readonly glanced: AskedCheck[];

  constructor(
    varied: VariedFeed,
    private readonly held: Held,
  ) {
    this.feed = new StandingFeed(varied);
    this.checks = new Set<CheckName>(["Operating point", ...held.checks]);
    const present = judgedRows(varied.present, held.requirements);
    this.open = new Set(
      present.flatMap((row) => (row.verdict === "not determined" ? [keyOf(row)] : [])),
    );
    const rows = Array.from({ length: varied.present.columns.count }, (_, row) => row);
    this.asked = CHECK_NAMES.filter((check) => this.checks.has(check)).flatMap(
      (check): AskedCheck[] =>
        check in WHOLE_CHECKS ? [{ check, row: undefined }] : rows.map((row) => ({ check, row })),
    );
    const names: readonly CheckName[] = GLANCE_CHECKS;
    this.glanced = this.asked.filter(({ check }) => names.includes(check));
  }

  /** What stops it first, or how near its held checks come to their limits. */
  judge(at: Choices): { readonly stop: Stop } | { readonly stop?: never; readonly margin: number } {
    const feed = this.feed.at(at);
    const { stop } = this.firstBroken(feed, this.glanced, "glance");
    if (stop) return { stop };
    return this.firstBroken(feed, this.asked, "worst");
  }

  /**
   * How far a candidate is from holding: the number of checks that it breaks, and behind the point the sum of what they
   * lack as shares of their limits, brought below 1. In a tree without an operating point all of them are broken.
   */
  brokenness(at: Choices): number {
    let broken = 0;
    let lacked = 0;
    for (const { found } of verdictsOf(this.feed.at(at), this.held.requirements, this.asked)) {
      if (!this.isBroken(found)) continue;
      broken += 1;
      if (found.margin !== undefined) lacked += Math.max(0, -found.margin);
    }
    return broken + (Number.isFinite(lacked) ? lacked / (1 + lacked) : 0);
  }

  private firstBroken(
    feed: JudgedFeed,
    order: AskedCheck[],
    depth: "worst" | "glance",
  ): { readonly stop: Stop } | { readonly stop?: never; readonly margin: number } {
    const seen: JudgedRow[] = [];
    for (const { asked, found } of verdictsOf(feed, this.held.requirements, order, depth)) {
      const isBroken = depth === "glance" ? found.verdict === "fails" : this.isBroken(found);
      if (isBroken) {
        const place = order.indexOf(asked);
        if (place > 0) order.unshift(...order.splice(place, 1));
        return { stop: { item: found.item, check: found.check } };
      }
      seen.push(found);
    }
    return { margin: worstMargin(seen) };
  }

  /** Why a candidate cannot be: the rows of its own judgement that break what is held, with what mends each. */
  whyNot(at: Choices): readonly JudgedRow[] {
    return this.rows(this.feed.at(at)).filter((row) => this.isBroken(row));
  }

  /** All that is said of a feed. */
  rows(feed: JudgedFeed): readonly JudgedRow[] {
    return judgedRows(feed, this.held.requirements);
  }

  isBroken(row: CheckRow): boolean {
    if (!this.checks.has(row.check)) return false;
    if (row.verdict === "fails") return true;
    if (row.verdict !== "not determined") return false;
    const isSolved = row.check !== "Operating point" || row.found !== NONE;
    return !isSolved || !this.open.has(keyOf(row));
  }
}

function keyOf({ item, check }: Stop): string {
  return `${item === WHOLE_FEED ? "" : item}|${check}`;
}
