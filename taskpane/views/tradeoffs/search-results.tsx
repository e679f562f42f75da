/** What a search found: the front as chart and table, any combination by itself, what is left out, and what mends the feed as it is. */
import { useEffect, useMemo, useState } from "preact/hooks";
import type { FoundBudget } from "../../budgets/reading/found-budget.js";
import { presentIndex } from "../../tradeoffs/option-changes.js";
import { figureText } from "../../tradeoffs/objective-figures.js";
import { heldChecks, optionName } from "../../tradeoffs/search-job.js";
import type { Figures, ToldOption } from "../../tradeoffs/search-messages.js";
import type { WorkbookStore } from "../../workbook/workbook-store.js";
import { tradeWords as said } from "../../words/trade-words.js";
import { useTools } from "../parts/tools.js";
import { FrontChart } from "./front-chart.js";
import { FrontTable } from "./front-table.js";
import { LeftOut } from "./left-out.js";
import { NextChanges } from "./next-changes.js";
import { OptionPanel } from "./option-panel.js";
import type { DoneSearch } from "./result-props.js";

export interface SearchResultsProps {
  readonly budget: FoundBudget;
  readonly store: WorkbookStore;
  readonly done: DoneSearch;
  readonly isStale: boolean;
}

export function SearchResults({ budget, store, done, isStale }: SearchResultsProps) {
  const { failed } = useTools();
  const { job, result, run } = done;
  const { variations, objectives } = job;
  const [chosen, choose] = useState(result.front[0]?.index ?? result.extent.nearest ?? 0);
  const [option, show] = useState<ToldOption>();
  useEffect(() => {
    let isNewest = true;
    run.tell(chosen).then((told) => isNewest && show(told), failed);
    return () => {
      isNewest = false;
    };
  }, [chosen]);
  const nameOf = (index: number) => optionName(variations, index);
  const told = (name: string, figures: Figures) =>
    said.told(
      name,
      objectives.map((objective, at) =>
        said.figureTold(said.objectives[objective], figureText(objective, figures[at])),
      ),
    );
  // Where the feed as it is stands among the combinations when it was searched.
  const present = useMemo(() => presentIndex(budget, variations), [done]);
  const checks = useMemo(() => heldChecks(budget), [done]);
  const shared = { job, result, chosen, choose, nameOf };
  return (
    <>
      {isStale && <p class="feed-fault">{said.stale}</p>}
      {result.front.length > 0 && (
        <FrontChart {...shared} budget={budget} present={present} option={option} told={told} />
      )}
      <OptionPanel {...shared} budget={budget} store={store} option={option} />
      {result.front.length > 0 && <FrontTable {...shared} />}
      <LeftOut {...shared} />
      <NextChanges job={job} next={result.next} checks={checks} />
    </>
  );
}
