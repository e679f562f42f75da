/** Chooses the budgets that are compared: one, and those that are held against it. */
import { useState } from "preact/hooks";
import { titleOf } from "../../workbook/found-budgets.js";
import type { Version } from "../../workbook/versions/compared-versions.js";
import { words } from "../../words/words.js";
import { BudgetChoice } from "../parts/budget-choice.js";
import { Button } from "../parts/button.js";
import type { HandOverCommands } from "./hand-over-commands.js";

const said = words.handOver.versions;

export interface CompareFormProps {
  readonly versions: readonly Version[];
  readonly commands: Pick<HandOverCommands, "compare">;
}

export function CompareForm({ versions, commands }: CompareFormProps) {
  const [stem, choose] = useState("");
  const [left, leave] = useState<ReadonlySet<string>>(new Set());
  const first = versions.find(({ budget }) => budget.stem === stem) ?? versions[0]!;
  const others = versions.filter((one) => one !== first);
  const held = others.filter(({ budget }) => !left.has(budget.stem));
  const toggle = (other: string) => {
    const now = new Set(left);
    if (!now.delete(other)) now.add(other);
    leave(now);
  };
  return (
    <section class="feed-group">
      <h3 class="feed-group-heading">{said.compare}</h3>
      <p class="feed-quiet">{said.aboutComparing}</p>
      <BudgetChoice
        label={said.first}
        budgets={versions.map(({ budget }) => budget)}
        chosen={first.budget}
        choose={choose}
      />
      <fieldset>
        <legend class="feed-label">{said.others}</legend>
        {others.map(({ budget }) => (
          <label key={budget.stem} class="feed-check">
            <input
              type="checkbox"
              checked={!left.has(budget.stem)}
              onChange={() => toggle(budget.stem)}
            />{" "}
            {`${titleOf(budget)} · ${budget.stem}`}
          </label>
        ))}
      </fieldset>
      <p class="feed-fault" role="alert">
        {held.length === 0 ? said.othersNeeded : ""}
      </p>
      <div class="feed-actions">
        <Button
          aria-disabled={held.length === 0}
          press={() => held.length > 0 && commands.compare(first, held)}
        >
          {said.insert}
        </Button>
      </div>
    </section>
  );
}
