/** What may not be broken, and what is traded. */
import type { CheckName } from "../../../src/judgement/check-row.js";
import { type Objective, OBJECTIVES } from "../../../src/tradeoffs/objectives.js";
import type { HeldCheck } from "../../tradeoffs/search-job.js";
import { tradeWords as said } from "../../words/trade-words.js";

export interface HeldFormProps {
  readonly checks: readonly HeldCheck[];
  readonly held: readonly CheckName[];
  readonly hold: (check: CheckName, isHeld: boolean) => void;
  readonly objectives: readonly Objective[];
  readonly trade: (objectives: readonly Objective[]) => void;
}

export function HeldForm({ checks, held, hold, objectives, trade }: HeldFormProps) {
  return (
    <>
      <details class="feed-block">
        <summary>{said.checks(held.length, checks.length)}</summary>
        <p class="feed-hint">{said.checksAbout}</p>
        {checks.map(({ check, failsAt }) => (
          <label class="feed-tick" key={check}>
            <input
              type="checkbox"
              checked={held.includes(check)}
              onChange={({ currentTarget }) => hold(check, currentTarget.checked)}
            />
            <span>
              {check}
              {failsAt.length > 0 && <span class="feed-hint"> {said.failsAt(failsAt)}</span>}
            </span>
          </label>
        ))}
      </details>
      {checks.length === 0 && <p class="feed-hint">{said.noChecks}</p>}
      <fieldset class="feed-traded">
        <legend class="feed-label">{said.trade}</legend>
        {OBJECTIVES.map((objective) => (
          <label class="feed-tick" key={objective}>
            <input
              type="checkbox"
              checked={objectives.includes(objective)}
              onChange={({ currentTarget }) =>
                trade(
                  OBJECTIVES.filter((one) =>
                    one === objective ? currentTarget.checked : objectives.includes(one),
                  ),
                )
              }
            />
            <span>{said.objectives[objective]}</span>
          </label>
        ))}
      </fieldset>
    </>
  );
}
