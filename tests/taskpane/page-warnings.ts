/** In place of the engine's warnings in tests of the pane: each row of `_Limits` is one, so that a test writes them into cells. */
import type { FoundBudget, Warning } from "../../taskpane/budgets/warnings/warning.js";

export function warningsOf({ areas }: FoundBudget): readonly Warning[] {
  const area = areas["Limits"];
  if (!area) return [];
  return area.values.flatMap(([severity, item, value, limit], index) =>
    severity === "danger" || severity === "warning" || severity === "note"
      ? [
          {
            id: String(item),
            severity,
            item: String(item),
            text: `${String(item)} is above its limit.`,
            value: Number(value),
            limit: Number(limit),
            unit: "V",
            cite: "iec-62368-1",
            at: { sheet: area.sheet, address: `C${index + 5}` },
          },
        ]
      : [],
  );
}
