/** A plan as a file of its own, without any spreadsheet: what it holds, how it looks and what paints it. */
import { fixedAddress, quotedSheet } from "../../../src/plans/addresses.js";
import { cellStyles, paintStyles } from "../../../src/plans/cell-styles.js";
import { fillPlaceholders, plainNames, type UsedNames } from "../../../src/plans/placeholders.js";
import { rowHeights } from "../../../src/plans/row-heights.js";
import { ruleCondition } from "../../../src/plans/rule-condition.js";
import type {
  PlanCell,
  PlanRule,
  PlanValidation,
  SheetPlan,
  WorkbookPlan,
} from "../../../src/plans/sheet-plan.js";
import type {
  Borders,
  CellLook,
  CellSnapshot,
  RuleSnapshot,
  SheetSnapshot,
  SnapshotValue,
  ValidationSnapshot,
  WorkbookSnapshot,
} from "./workbook-snapshot.js";

/** What formulas of the plan come to, where that is known: `key!B4`, by the sheet's key. */
type KnownResults = ReadonlyMap<string, SnapshotValue>;

/**
 * Pictures are left out: a file holds them as pixels, which only a page can draw.
 * @param namespace Of the cell functions, where the plan has some.
 */
export function planSnapshot(
  plan: WorkbookPlan,
  namespace: string,
  results: KnownResults = new Map(),
): WorkbookSnapshot {
  const used = plainNames(plan, namespace);
  return {
    sheets: plan.sheets.map((sheet) => sheetSnapshot(sheet, used, results)),
    names: plan.names.map(({ name, sheet, range }) => ({
      name: used.names[name] ?? name,
      refersTo: `${quotedSheet(used.sheets[sheet] ?? sheet)}!${fixedAddress(range)}`,
    })),
  };
}

function sheetSnapshot(sheet: SheetPlan, used: UsedNames, results: KnownResults): SheetSnapshot {
  return {
    name: used.sheets[sheet.key] ?? sheet.name,
    cells: sheet.cells.map((cell) =>
      cellSnapshot(cell, used, results.get(`${sheet.key}!${cell.at}`)),
    ),
    columnWidths: { ...sheet.columnWidths },
    rowHeights: Object.fromEntries(rowHeights(sheet)),
    hiddenColumns: [],
    hiddenRows: [],
    frozen: { rows: sheet.frozenRows, columns: sheet.frozenColumns ?? 0 },
    merges: sheet.merges,
    validations: sheet.validations.flatMap((each) => validationSnapshot(each, used)),
    rules: sheet.conditionalFormats.map((one) => ruleSnapshot(one, used)),
    images: [],
  };
}

function cellSnapshot(
  { at, value, formula, style, format, note }: PlanCell,
  used: UsedNames,
  result: SnapshotValue | undefined,
): CellSnapshot {
  const shown = formula === undefined ? value : result;
  return {
    at,
    ...(shown !== undefined && { value: shown }),
    ...(formula !== undefined && { formula: fillPlaceholders(formula, used) }),
    look: lookOf(style, format),
    ...(note !== undefined && { note }),
  };
}

const ALIGNED = { left: "left", centre: "center", right: "right" } as const;

function lookOf(style: PlanCell["style"], format: string | undefined): CellLook {
  const { bold, italic, fontSize, colour, fill, align, wrap, border, borderColour } =
    cellStyles[style];
  return {
    vertical: "middle",
    ...(bold && { bold }),
    ...(italic && { italic }),
    ...(fontSize !== undefined && { size: fontSize }),
    ...(colour !== undefined && { colour }),
    ...(fill !== undefined && { fill }),
    ...(align !== undefined && { horizontal: ALIGNED[align] }),
    ...(wrap && { wrap }),
    ...(border !== undefined && { borders: bordersOf(border, borderColour) }),
    ...(format !== undefined && { format }),
  };
}

function bordersOf(border: "thin" | "bottom" | "top", colour = "#000000"): Borders {
  const line = { line: "thin", colour } as const;
  if (border === "thin") return { top: line, bottom: line, left: line, right: line };
  return { [border]: line };
}

function ruleSnapshot(rule: PlanRule, used: UsedNames): RuleSnapshot {
  const { colour, fill } = paintStyles[rule.paint];
  return {
    ranges: [rule.range],
    stops: false,
    kind: "formula",
    formula: ruleCondition(rule, used),
    paint: { colour, fill },
  };
}

function validationSnapshot(validation: PlanValidation, used: UsedNames): ValidationSnapshot[] {
  const { range, message } = validation;
  const common = { ranges: [range], allowsBlank: true, onFault: "stop", message } as const;
  switch (validation.kind) {
    case "list":
      return [{ ...common, kind: "list", values: validation.values }];
    case "offer":
      return [
        {
          ...common,
          onFault: "information",
          kind: "range",
          formula: fillPlaceholders(validation.source, used),
        },
      ];
    case "figure":
      // Whoever types into a file does it in a spreadsheet that reads its own way.
      return [];
    default:
      return [
        {
          ...common,
          kind: validation.kind === "whole" ? "whole" : "decimal",
          comparison: "between",
          bounds: [String(validation.least), String(validation.most)],
        },
      ];
  }
}
