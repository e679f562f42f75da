/** A choice with its label, and the one among the workbook's budgets, where there are several. */
import { useMemo } from "preact/hooks";
import type { FoundBudget } from "../../budgets/reading/found-budget.js";
import { titleOf } from "../../workbook/found-budgets.js";
import { freshId } from "./element.js";

export interface ChoiceProps {
  readonly label: string;
  readonly options: readonly { readonly value: string; readonly label: string }[];
  readonly chosen: string;
  readonly choose: (value: string) => void;
}

export function Choice({ label, options, chosen, choose }: ChoiceProps) {
  const id = useMemo(() => freshId("choice"), []);
  return (
    <div class="feed-picture-choice">
      <label class="feed-label" for={id}>
        {label}
      </label>
      <select
        class="feed-input"
        id={id}
        value={chosen}
        onChange={({ currentTarget }) => choose(currentTarget.value)}
      >
        {options.map((option) => (
          <option key={option.value} value={option.value}>
            {option.label}
          </option>
        ))}
      </select>
    </div>
  );
}

export interface BudgetChoiceProps {
  readonly label: string;
  readonly budgets: readonly FoundBudget[];
  readonly chosen: FoundBudget | undefined;
  readonly choose: (stem: string) => void;
}

export function BudgetChoice({ label, budgets, chosen, choose }: BudgetChoiceProps) {
  if (budgets.length < 2) return null;
  const options = budgets.map((one) => ({
    value: one.stem,
    label: `${titleOf(one)} · ${one.stem}`,
  }));
  return <Choice label={label} options={options} chosen={chosen?.stem ?? ""} choose={choose} />;
}
