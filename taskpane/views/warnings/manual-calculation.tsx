/** Says that the workbook waits to be calculated, where it does, and offers to have the budgets' sheets calculated. */
import { useState } from "preact/hooks";
import type { FoundBudget } from "../../budgets/reading/found-budget.js";
import { words } from "../../words/words.js";
import { Button } from "../parts/button.js";
import { useTools } from "../parts/tools.js";

const said = words.warnings;

export function ManualCalculation({ budgets }: { readonly budgets: readonly FoundBudget[] }) {
  const { host, failed } = useTools();
  const [outcome, tell] = useState("");
  const { calculation } = host;
  if (!calculation?.isManual() || budgets.length === 0) return null;
  const calculate = async () => {
    tell("");
    const own = new Set(
      budgets.flatMap(({ ranges }) => Object.values(ranges).map((range) => range?.sheet)),
    );
    await calculation.calculate((await host.sheets()).filter((sheet) => own.has(sheet)));
    tell(said.calculated);
  };
  return (
    <div class="feed-message">
      <p>{said.manual}</p>
      <div class="feed-actions">
        <Button press={() => void calculate().catch(failed)}>{said.calculate}</Button>
      </div>
      <p class="feed-outcome" role="status">
        {outcome}
      </p>
    </div>
  );
}
