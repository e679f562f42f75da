/** Trade-offs of a budget's own feed: what varies, what is held and traded, and what the search found. */
import { useEffect, useLayoutEffect, useMemo, useRef, useState } from "preact/hooks";
import type { CheckName } from "../../../src/judgement/check-row.js";
import type { Objective } from "../../../src/tradeoffs/objectives.js";
import { isWhole, MOST_CANDIDATES, MOST_COUNTED } from "../../../src/tradeoffs/search-rounds.js";
import { fingerprint } from "../../budgets/issues/fingerprint.js";
import type { FoundBudget } from "../../budgets/reading/found-budget.js";
import { type Mark, offeredMarks } from "../../tradeoffs/marks.js";
import { choiceCount, combinations, MarkError, markName } from "../../tradeoffs/mark-reading.js";
import { heldChecks, optionName, searchJob } from "../../tradeoffs/search-job.js";
import type { SearchJob, SearchResult } from "../../tradeoffs/search-messages.js";
import {
  type SearchProgress,
  type SearchRun,
  startSearch,
  UnknownFigureError,
} from "../../tradeoffs/search-run.js";
import type { WorkbookStore } from "../../workbook/workbook-store.js";
import { tradeWords as said } from "../../words/trade-words.js";
import { BudgetChoice } from "../parts/budget-choice.js";
import { Button } from "../parts/button.js";
import { drawInto, type Tools, useTools } from "../parts/tools.js";
import { useSearch } from "../parts/use-store.js";
import { HeldForm } from "./held-form.js";
import { MarksForm } from "./marks-form.js";
import type { DoneSearch } from "./result-props.js";
import { SearchResults } from "./search-results.js";

export interface TradeoffsOptions extends Tools {
  readonly store: WorkbookStore;
}

export function tradeoffsView(options: TradeoffsOptions): HTMLElement {
  const place = document.createElement("div");
  drawInto(place, options, <Tradeoffs store={options.store} />);
  return place;
}

function Tradeoffs({ store }: Pick<TradeoffsOptions, "store">) {
  const search = useSearch(store);
  const budgets = search?.budgets ?? [];
  const [stem, choose] = useState("");
  const budget = budgets.find((one) => one.stem === stem) ?? budgets.at(0);
  return (
    <div class="feed-tradeoffs">
      <h2 class="feed-heading">{said.title}</h2>
      <p class="feed-quiet">{said.about}</p>
      <BudgetChoice label={said.budget} budgets={budgets} chosen={budget} choose={choose} />
      {budget ? (
        <OneBudget key={budget.stem} budget={budget} store={store} />
      ) : (
        search && <p>{said.noBudget}</p>
      )}
    </div>
  );
}

interface OneBudgetProps {
  readonly budget: FoundBudget;
  readonly store: WorkbookStore;
}

function OneBudget({ budget, store }: OneBudgetProps) {
  const { failed } = useTools();
  const offered = useMemo(() => offeredMarks(budget), [budget]);
  const checks = useMemo(() => heldChecks(budget), [budget]);
  const [marks, mark] = useState<readonly Mark[]>([]);
  const [ticked, tick] = useState<ReadonlyMap<CheckName, boolean>>(new Map());
  const [objectives, trade] = useState<readonly Objective[]>(["loss", "mass", "price"]);
  const [fault, blame] = useState<MarkError>();
  const [outcome, tell] = useState("");
  const [progress, show] = useState<SearchProgress>();
  const [run, setRun] = useState<SearchRun>();
  const [done, finish] = useState<DoneSearch>();
  /** Seconds that a combination of this feed took when it was searched last. */
  const [pace, setPace] = useState<number>();
  const button = useRef<HTMLDivElement>(null);
  useEffect(() => () => run?.end(), [run]);
  const isRunning = run !== undefined && done === undefined;
  // Search and Cancel stand in each other's place: the keyboard stays there.
  const wasRunning = useRef(false);
  useLayoutEffect(() => {
    if (wasRunning.current !== isRunning) button.current?.querySelector("button")?.focus();
    wasRunning.current = isRunning;
  }, [isRunning]);

  // While a search tells of its progress, its long tables of choices stand as they are.
  const marksForm = useMemo(
    () => <MarksForm offered={offered} marks={marks} change={mark} fault={fault} />,
    [offered, marks, fault],
  );
  const held = checks.flatMap(({ check, isHeld }) =>
    (ticked.get(check) ?? isHeld) ? [check] : [],
  );
  const count = combinations(marks);
  const widest = [...marks].sort((one, other) => choiceCount(other) - choiceCount(one))[0];
  const refused =
    count > MOST_COUNTED && widest
      ? said.tooMany(count, markName(widest))
      : objectives.length < 2 || objectives.length > 3
        ? said.twoOrThree
        : "";

  async function search(): Promise<void> {
    finish(undefined);
    show(undefined);
    blame(undefined);
    try {
      const job = searchJob(budget, marks, held, objectives);
      tell(said.reading);
      const since = performance.now();
      const begun = startSearch(job, count, (now) => {
        show(now);
        tell(progressText(now, count));
      });
      setRun(begun);
      const result = await begun.result;
      if (!result) {
        setRun(undefined);
        return tell(said.cancelled);
      }
      finish({ job, result, run: begun, print: fingerprint(budget) });
      setPace((performance.now() - since) / 1000 / result.extent.settled);
      tell(foundText(job, result));
    } catch (error) {
      setRun(undefined);
      tell(refusalText(error));
      if (error instanceof MarkError) blame(error);
    }
  }

  return (
    <>
      {marksForm}
      <HeldForm
        checks={checks}
        held={held}
        hold={(check, isHeld) => tick(new Map([...ticked, [check, isHeld]]))}
        objectives={objectives}
        trade={trade}
      />
      {marks.length > 0 && <p>{refused || countText(count, pace)}</p>}
      <div class="feed-actions" ref={button}>
        {isRunning ? (
          <Button press={() => run.end()}>{said.cancel}</Button>
        ) : (
          <Button
            class="feed-button feed-main"
            aria-disabled={marks.length === 0 || refused !== ""}
            press={() => {
              if (marks.length > 0 && refused === "") search().catch(failed);
            }}
          >
            {said.search}
          </Button>
        )}
      </div>
      {isRunning && (
        <progress
          aria-label={said.progress}
          max={2 * Math.min(count, MOST_CANDIDATES)}
          value={progress && progress.figured + progress.settled}
        />
      )}
      <p class="feed-outcome" role="status">
        {outcome}
      </p>
      {done && (
        <SearchResults
          budget={budget}
          done={done}
          isStale={done.print !== fingerprint(budget)}
          store={store}
        />
      )}
    </>
  );
}

function countText(count: number, pace: number | undefined): string {
  return count > MOST_CANDIDATES
    ? said.sampled(count, MOST_CANDIDATES)
    : said.count(count, pace && count * pace);
}

function progressText({ figured, settled, most, left, front }: SearchProgress, count: number) {
  const seconds = left && left / 1000;
  if (seconds === undefined || settled === 0) return said.figured(figured, most, seconds);
  const text = count > most ? said.settledAmong : said.settled;
  return text(settled, most, seconds, front.length);
}

function foundText({ variations }: SearchJob, { front, counts, extent }: SearchResult): string {
  const { all, settled, unproven, nearest } = extent;
  if (nearest !== undefined)
    return said.noneFoundAmong(settled, all, optionName(variations, nearest));
  if (front.length === 0) return said.noneFound(counts.stopped);
  if (isWhole(extent)) return said.found(front.length, counts.beaten, counts.stopped);
  return [
    said.foundAmong(front.length, settled, all),
    unproven === 0 ? said.proven : said.unproven(unproven, front.length),
  ].join(" ");
}

function refusalText(error: unknown): string {
  if (error instanceof MarkError)
    return said.faultAt(markName(error.mark), error.row + 1, error.message);
  if (error instanceof UnknownFigureError) {
    const { objective, item, size } = error.figure;
    return said.unknown(said.objectives[objective], item, size);
  }
  return error instanceof Error ? error.message : String(error);
}
