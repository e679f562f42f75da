/** What concerns a budget as a whole: names that are gone, the closing check, the altitude. */
import { figure } from "../quantities/figures.js";
import { cellAt, numberOf, sameItem, textOf } from "./area-table.js";
import { ALTITUDE_LABEL, type BudgetLimits } from "./budget-limits.js";
import type { FoundBudget, ReadArea, Warning } from "./warning.js";

/** Without it, this is not looked at. */
const PARTS = {
  Feed: "windows, drops and added items",
  Solved: "voltages, loadings and notes",
  Bands: "voltage bands",
  Closing: "the closing check",
  Limits: "drops, loadings and voltage bands",
} as const;

export function missingNames({ stem, areas }: FoundBudget): readonly Warning[] {
  const [any] = Object.values(areas).filter((area) => area !== undefined);
  return Object.entries(PARTS)
    .filter(([part]) => areas[part] === undefined)
    .map(([part, without]) => ({
      id: `missing ${part}`,
      severity: "warning",
      item: "",
      text: `The name ${stem}_${part} is not there: ${without} cannot be looked at.`,
      unit: "",
      cite: "definition",
      at: any ? cellAt(any, 0, 0) : { sheet: "", address: "A1" },
    }));
}

export function closingWarnings({ areas }: FoundBudget): readonly Warning[] {
  const area = areas["Closing"];
  if (!area) return [];
  const [error, allowed] = [
    valueOf(area, "Closing error"),
    valueOf(area, "Closing error allowed"),
  ];
  const common = {
    severity: "danger",
    item: "",
    unit: "W",
    cite: "definition",
    at: error.at,
  } as const;
  if (error.value === undefined || allowed.value === undefined)
    return [
      {
        ...common,
        id: "closing-unknown",
        text: "The closing error is not a number: powers in and out cannot be compared.",
      },
    ];
  if (Math.abs(error.value) <= allowed.value) return [];
  return [
    {
      ...common,
      id: "closing",
      text: `Loads and losses miss the supply power by ${figure(Math.abs(error.value))} W: do not use these figures.`,
      value: Math.abs(error.value),
      limit: allowed.value,
      remedy:
        "calculate the sheets again; look for a formula that was written over",
    },
  ];
}

/** Label in the first column, value in the second. */
function valueOf(
  area: ReadArea,
  label: string,
): { readonly value: number | undefined; readonly at: Warning["at"] } {
  const row = area.values.findIndex(([first]) =>
    sameItem(textOf(first), label),
  );
  return {
    value: numberOf(area.values[row]?.[1] ?? ""),
    at: cellAt(area, Math.max(0, row), 1),
  };
}

export function altitudeWarnings(
  limits: BudgetLimits | undefined,
): readonly Warning[] {
  const { altitude, altitudeLimit } = limits ?? {};
  if (!limits || altitude === undefined || altitudeLimit === undefined)
    return [];
  if (altitude <= altitudeLimit) return [];
  return [
    {
      id: "altitude",
      severity: "note",
      item: "",
      text: "Air insulates less up there: clearances must be larger than printed.",
      value: altitude,
      limit: altitudeLimit,
      unit: "m",
      cite: "iec-60664-1-altitude",
      at: limits.at(ALTITUDE_LABEL),
    },
  ];
}
