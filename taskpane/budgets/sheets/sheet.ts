/** What all sheets of a budget have in common: a title that is typed once, on Inputs, and how they are frozen. */
import type {
  PlanCell,
  PlanRule,
  PlanValidation,
  SheetPlan,
} from "../../../src/plans/sheet-plan.js";
import {
  formulaCell,
  quoted,
  valueCell,
} from "../../../src/plans/sheet-builder.js";
import type { Places } from "../places.js";

interface SheetParts {
  readonly key: string;
  readonly name: string;
  readonly columnWidths: readonly number[];
  /** Below the title. */
  readonly subtitle: string;
  readonly cells: readonly PlanCell[];
  readonly frozenRows?: number;
  readonly frozenColumns?: number;
  readonly merges?: readonly string[];
  readonly validations?: readonly PlanValidation[];
  readonly conditionalFormats?: readonly PlanRule[];
}

export function sheetPlan(places: Places, parts: SheetParts): SheetPlan {
  const { subtitle, cells, name, frozenRows = 3, frozenColumns = 1 } = parts;
  const [title, issue] = [places.document("title"), places.document("issue")];
  const heading = `${title}&${quoted(`: ${name.toLowerCase()}`)}&IF(${issue}="","",", issue "&${issue})`;
  return {
    merges: [],
    validations: [],
    conditionalFormats: [],
    pictures: [],
    ...parts,
    frozenRows,
    frozenColumns: frozenRows === 0 ? 0 : frozenColumns,
    cells: [
      formulaCell(0, 1, heading, "title"),
      valueCell(0, 2, subtitle, "subtitle"),
      ...cells,
    ],
  };
}
