/** The feed table of a budget of 0.2, as the engine reads it, and what its cells were made of. */
import type { Cell } from "../../../functions/cells.js";
import { feedTable } from "../../../functions/reading/feed-table.js";
import { type FeedFigure, itemAt, kindAt } from "../../../src/network/feed-columns.js";
import type { FeedItem, FeedKind } from "../../../src/network/feed-item.js";
import { rangePlace } from "../../../src/plans/addresses.js";
import { textOf } from "../reading/range-table.js";
import type { ReadRange, ReadValue } from "../reading/found-budget.js";
import type { OldInputs, OldSheet } from "./old-inputs.js";

export interface OldRow {
  readonly item: string;
  readonly fedFrom: string;
  readonly kind: FeedKind;
  readonly figures: Pick<FeedItem, FeedFigure | "isolation">;
  /** Formula of its cell below a plain heading; "" where the cell holds none. */
  readonly formula: (heading: string) => string;
  /** What was typed below a heading that the engine does not read. */
  readonly typed: (heading: string) => number | undefined;
  /** Cells of Inputs that its own cells name. */
  readonly inputs: readonly string[];
}

/** Further columns that 0.2 put beside the table: mass and price. */
const MORE_COLUMNS = 2;

/** @param unread Told of each row that cannot be read. */
export function oldRows(
  range: ReadRange,
  sheet: OldSheet,
  inputs: OldInputs,
  unread: (line: string) => void,
): readonly OldRow[] {
  const { top, left, right } = rangePlace(range.address);
  const [headings = [], ...below] = range.values.map((row) => row.map(cellOf));
  const filled = below.flatMap((row, at) =>
    row.some((cell) => cell !== "" && cell !== 0) ? [at] : [],
  );
  if (filled.length === 0) return [];
  const { feed } = feedTable([headings, ...filled.map((at) => below[at]!)]);
  const all = sheet.values[top]!.slice(left, right + 1 + MORE_COLUMNS).map(textOf);
  const placeOf = (heading: string) => {
    const at = all.findIndex((one) => one.toLowerCase().startsWith(heading.toLowerCase()));
    return at < 0 ? undefined : left + at;
  };
  return filled.flatMap((at, row): OldRow[] => {
    const line = top + 1 + at;
    const kind = kindAt(feed, row);
    const refused = feed.refused.get(row);
    if (kind === undefined || refused) {
      unread(`${feed.item[row]!}: ${refused?.message ?? "its kind is not known"}`);
      return [];
    }
    const cell = <T>(of: readonly (readonly T[])[] | undefined, heading: string) => {
      const column = placeOf(heading);
      return column === undefined ? undefined : of?.[line]?.[column];
    };
    const formulas = (sheet.formulas[line] ?? []).slice(left, right + 1 + MORE_COLUMNS);
    return [
      {
        item: feed.item[row]!,
        fedFrom: feed.fedFrom[row] ?? "",
        kind,
        figures: itemAt(feed, row),
        formula: (heading) => cell(sheet.formulas, heading) ?? "",
        typed: (heading) => {
          const value = cell<ReadValue>(sheet.values, heading);
          return typeof value === "number" ? value : undefined;
        },
        inputs: [...new Set(formulas.flatMap((formula) => inputs.cellsIn(formula)))],
      },
    ];
  });
}

function cellOf(value: ReadValue): Cell {
  return value as Cell;
}
