/** What a thread answers about a search: its share, the merged result, and any combination by itself. */
import { requirementsOf } from "../../functions/reading/asked-for.js";
import { variedFeed } from "../../functions/tradeoffs/varied-blocks.js";
import { CHECK_NAMES, type CheckRow } from "../../src/judgement/check-row.js";
import { CHECKS, type JudgedRow } from "../../src/judgement/checks.js";
import {
  FeedSearch,
  type FeedSearchRequest,
  type Round,
  type Settling,
  type Share,
} from "../../src/tradeoffs/feed-search.js";
import { tallied } from "../../src/tradeoffs/left-out.js";
import { MergedFindings } from "../../src/tradeoffs/merged-findings.js";
import { nextChanges } from "../../src/tradeoffs/next-changes.js";
import { figuresOf, isSummed, lacking, worstMargin } from "../../src/tradeoffs/objectives.js";
import { SearchRounds } from "../../src/tradeoffs/search-rounds.js";
import { choicesAt, StandingFeed } from "../../src/tradeoffs/varied-feed.js";
import type { JudgedFeed } from "../../src/judgement/judged-feed.js";
import type {
  Figures,
  SearchJob,
  SearchResult,
  ToldOption,
  ToldOutcome,
} from "./search-messages.js";

export interface SearchAnswers {
  /** What of all combinations is settled next. */
  readonly rounds: () => SearchRounds;
  /** @throws {UnknownFigureError} at its first step for a combination that lacks a figure which is traded. */
  readonly settling: (round: Round, share: Share) => Settling;
  /** Of rounds that have ended. */
  readonly result: (rounds: SearchRounds) => SearchResult;
  /** Any combination, one that the rounds did not settle too. */
  readonly option: (rounds: SearchRounds, index: number) => ToldOption;
}

/** Checks that tell more than a note. */
const WEIGHTY = CHECK_NAMES.filter((name) => CHECKS[name].weight !== "note");

/** @throws {InputError} for blocks or choices that cannot be read, and for too few choices. */
export function searchAnswers(job: SearchJob): SearchAnswers {
  const { objectives, checks } = job;
  const varied = variedFeed([...job.blocks, job.askedFor], job.variations);
  const request: FeedSearchRequest = {
    varied,
    requirements: requirementsOf(job.askedFor),
    checks,
    objectives,
  };
  const search = new FeedSearch(request);
  const { judge } = search;
  const standing = new StandingFeed(varied);

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

  function outcomeOf({ found }: SearchRounds, index: number): ToldOutcome {
    const outcome = found.outcomeAt(index);
    if (outcome) return outcome;
    const round = { candidates: Float64Array.of(index), front: found.front, isMeasured: false };
    const settling = search.settling(round);
    settling.advance(Infinity);
    const alone = new MergedFindings(found.front);
    alone.add(round, [settling.findings()]);
    const own = alone.outcomeAt(index)!;
    return own.kind === "unbeaten" ? { kind: "not searched" } : own;
  }

  return {
    rounds: () => new SearchRounds(varied, job.most),
    settling: (round, share) => search.settling(round, share),
    result: ({ found, extent }) => ({
      front: found.front,
      ...tallied(found.outcomes(), varied),
      extent,
      present: figures(varied.present),
      next: nextChanges(varied, { ...request, checks: WEIGHTY }).map(({ mends, ...change }) => ({
        ...change,
        mends: mends.map(plainRow),
      })),
    }),
    option(rounds, index) {
      const at = choicesAt(varied, index);
      return {
        index,
        outcome: outcomeOf(rounds, index),
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
