/** Cells of a budget's further sheets that show an error: what stands there is not known. */
import { areaPlace } from "../plans/addresses.js";
import { cellAt, errorOf, textOf } from "./area-table.js";
import type { FoundBudget, ReadArea, Warning } from "./warning.js";

/** Looked at by nobody else. */
const PARTS = ["Cases", "Day", "Answers"] as const;

export function errorWarnings({ areas }: FoundBudget): readonly Warning[] {
  return PARTS.flatMap((part) => {
    const area = areas[part];
    return area ? errorsIn(area) : [];
  });
}

/** One for each row: cells beside each other mostly fail together. */
function errorsIn(area: ReadArea): Warning[] {
  const { top } = areaPlace(area.address);
  return area.values.flatMap((row, index): Warning[] => {
    const column = row.findIndex((cell) => errorOf(cell) !== undefined);
    if (column < 0) return [];
    const label = textOf(row[0]);
    return [
      {
        id: `error ${area.sheet} ${top + index + 1}`,
        severity: "warning",
        item: "",
        text: `${label === "" ? "A cell" : `“${label}”`} on ${area.sheet} shows ${errorOf(row[column]) ?? ""}: select it to see why.`,
        unit: "",
        cite: "definition",
        at: cellAt(area, index, column),
      },
    ];
  });
}
