/** What a thread answers about a search: its share, the merged result, and any combination by itself. */
import { requirementsOf } from "../../functions/reading/asked-for.js";
import { variedFeed } from "../../functions/tradeoffs/varied-blocks.js";
import { CHECK_NAMES, type CheckRow } from "../../src/judgement/check-row.js";
import { CHECKS, type JudgedRow } from "../../src/judgement/checks.js";
import { CandidateJudge } from "../../src/tradeoffs/candidate-judge.js";
import {
  FeedSearch,
  type FeedSearchRequest,
  type SearchFindings,
  type Share,
} from "../../src/tradeoffs/feed-search.js";
import { leftOutChoices } from "../../src/tradeoffs/left-out.js";
import { mergedFindings, type TradeFindings } from "../../src/tradeoffs/merged-findings.js";
import { nextChanges } from "../../src/tradeoffs/next-changes.js";
import {
  figuresOf,
  isSummed,
  lacking,
  type UnknownFigure,
  unknownFigure,
  worstMargin,
} from "../../src/tradeoffs/objectives.js";
import { choicesAt, StandingFeed } from "../../src/tradeoffs/varied-feed.js";
import type { JudgedFeed } from "../../src/judgement/judged-feed.js";
import type { Figures, SearchJob, SearchResult, ToldOption } from "./search-messages.js";

export interface SearchAnswers {
  readonly search: (share: Share) => FeedSearch;
  readonly result: (shares: readonly SearchFindings[]) => SearchResult;
  /** Of a result that was merged here. */
  readonly option: (index: number) => ToldOption;
}

/** Checks that tell more than a note. */
const WEIGHTY = CHECK_NAMES.filter((name) => CHECKS[name].weight !== "note");

/** @throws {InputError} for blocks or choices that cannot be read, and for too many or too few choices. */
export function searchAnswers(job: SearchJob): SearchAnswers | { readonly unknown: UnknownFigure } {
  const { objectives, checks } = job;
  const varied = variedFeed([...job.blocks, job.askedFor], job.variations);
  const request: FeedSearchRequest = {
    varied,
    requirements: requirementsOf(job.askedFor),
    checks,
    objectives,
  };
  const unknown = unknownFigure(varied, objectives);
  if (unknown) return { unknown };
  const judge = new CandidateJudge(varied, request);
  const standing = new StandingFeed(varied);
  let merged: TradeFindings | undefined;

  const variedRows = varied.parts.flatMap(({ rows }) => rows);

  function figures(feed: JudgedFeed): Figures {
    const held = judge.rows(feed).filter(({ check }) => checks.includes(check));
    const isBroken = held.some((row) => judge.isBroken(row));
    return figuresOf(feed, objectives)().map((value, at) => {
      const objective = objectives[at]!;
      // Beside options that have it, a feed that lacks it would look the cheaper one.
      if (isSummed(objective) && lacking(feed, variedRows, objective) !== undefined)
        return undefined;
      if (value === undefined) return isBroken ? undefined : -worstMargin(held);
      return Number.isNaN(value) ? undefined : value;
    });
  }

  return {
    search: (share) => new FeedSearch(request, share),
    result(shares) {
      merged = mergedFindings(shares, objectives.length);
      return {
        front: merged.front,
        counts: merged.counts,
        leftOut: leftOutChoices(merged, varied),
        present: figures(varied.present),
        next: nextChanges(varied, { ...request, checks: WEIGHTY }).map(({ mends, ...change }) => ({
          ...change,
          mends: mends.map(plainRow),
        })),
      };
    },
    option(index) {
      if (!merged) throw new Error("the shares are not merged yet");
      const at = choicesAt(varied, index);
      return {
        index,
        outcome: merged.outcomeAt(index),
        figures: figures(standing.at(at)),
        broken: judge.whyNot(at).map(plainRow),
      };
    },
  };
}

/** Without its working, which cannot be handed over. */
function plainRow(row: JudgedRow): CheckRow {
  const { item, check, worstIn, found, asked, limit, unit, margin, verdict, weight } = row;
  const { cause, column, enterOrTry, cite } = row;
  return {
    ...{ item, check, worstIn, found, asked, limit, unit, margin, verdict, weight },
    ...{ cause, column, enterOrTry, cite },
  };
}
