/** What next: single choices that mend what the feed as it is breaks, with what each costs. */
import type { Objective } from "../../../src/tradeoffs/objectives.js";
import { differenceText } from "../../tradeoffs/objective-figures.js";
import type { HeldCheck } from "../../tradeoffs/search-job.js";
import type { SearchJob, SearchResult } from "../../tradeoffs/search-messages.js";
import { tradeWords as said } from "../../words/trade-words.js";

export interface NextChangesProps {
  readonly job: SearchJob;
  readonly next: SearchResult["next"];
  /** Checks of the feed as it is. */
  readonly checks: readonly HeldCheck[];
}

const TOLD = ["price", "mass", "loss"] as const satisfies readonly Objective[];

export function NextChanges({ job, next, checks }: NextChangesProps) {
  if (next.length === 0) {
    const failing = checks.flatMap(({ check, failsAt }) =>
      failsAt.map((item) => said.chosen.row(item, check)),
    );
    return failing.length === 0 ? null : (
      <section aria-label={said.next}>
        <h3 class="feed-group-heading">{said.next}</h3>
        <p>{said.noNext(failing)}</p>
      </section>
    );
  }
  return (
    <section aria-label={said.next}>
      <h3 class="feed-group-heading">{said.next}</h3>
      <p class="feed-quiet">{said.nextAbout}</p>
      <ol class="feed-next">
        {next.map(({ variation, choice, mends, ...differences }) => {
          const { name, choices } = job.variations[variation]!;
          const costs = TOLD.flatMap((objective) => {
            const difference = differences[objective];
            const text =
              difference === undefined ? said.notKnown : differenceText(objective, difference, 0);
            return text === "" ? [] : [said.figureTold(said.objectives[objective], text)];
          });
          return (
            <li key={`${variation} ${choice}`}>
              {said.nextMends(
                `${name}, ${choices[choice]!.name}`,
                mends.map(({ item, check }) => said.chosen.row(item, check)),
              )}
              {costs.length > 0 && <span class="feed-hint"> {costs.join(", ")}</span>}
            </li>
          );
        })}
      </ol>
    </section>
  );
}
