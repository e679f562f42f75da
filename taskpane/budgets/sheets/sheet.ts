/** What all sheets of a budget have in common: a title that is typed once, on Inputs, and how they are frozen. */
import type {
  PlanCell,
  PlanRule,
  PlanValidation,
  SheetPlan,
} from "../../../src/plans/sheet-plan.js";
import { formulaCell, quoted, valueCell } from "../../../src/plans/sheet-builder.js";
import { cellPlace } from "../../../src/plans/addresses.js";
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
    columnWidths: fitted(parts),
    frozenColumns: frozenRows === 0 ? 0 : frozenColumns,
    cells: [formulaCell(0, 1, heading, "title"), valueCell(0, 2, subtitle, "subtitle"), ...cells],
  };
}

/** Mean width of bold capitals and small letters. */
const PIXELS_PER_CHARACTER = 8;
const PIXELS_BESIDE = 14;

/** No word of a heading is broken. */
function fitted({ columnWidths, cells }: SheetParts): number[] {
  const widths = [...columnWidths];
  for (const { at, value, shows, style } of cells) {
    const text = value ?? shows;
    if (style !== "tableHeading" || typeof text !== "string") continue;
    const { column } = cellPlace(at);
    const longest = Math.max(...text.split(" ").map((word) => word.length));
    const needed = longest * PIXELS_PER_CHARACTER + PIXELS_BESIDE;
    widths[column] = Math.max(widths[column] ?? needed, needed);
  }
  return widths;
}
