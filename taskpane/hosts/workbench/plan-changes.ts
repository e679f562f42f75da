/**
 * Inserting a plan into the open workbook, as changes of the spreadsheet's own kind, each with what undoes it: run in
 * order they insert the plan, their undoing in reverse order takes every trace of it away again.
 */
import type { IMutationInfo, IWorksheetData } from "@univerjs/core";
import { cellPlace } from "../../../src/plans/addresses.js";
import { paintStyles } from "../../../src/plans/cell-styles.js";
import { fillPlaceholders, type UsedNames } from "../../../src/plans/placeholders.js";
import { ruleCondition } from "../../../src/plans/rule-condition.js";
import type {
  PlanCell,
  PlanRule,
  PlanValidation,
  SheetPlan,
  WorkbookPlan,
} from "../../../src/plans/sheet-plan.js";
import type { DrawnPicture } from "../plan-pictures.js";
import { storedImage } from "./snapshots/file-images.js";
import { lineSizes, planNames, rangeOf, sheetData } from "./snapshots/snapshot.js";

export interface Change {
  readonly redo: IMutationInfo;
  readonly undo: IMutationInfo;
}

export interface Insertion {
  readonly plan: WorkbookPlan;
  readonly used: UsedNames;
  readonly unitId: string;
  /** Id of each sheet by its key in the plan. */
  readonly sheetIds: Readonly<Record<string, string>>;
  /** Fills in what a sheet's data leaves out. */
  readonly complete: (data: Partial<IWorksheetData>) => IWorksheetData;
  /** How many sheets there are already. */
  readonly sheetCount: number;
  /** Drawn pictures of each sheet, by the sheet's key. */
  readonly pictures: PlanPictures;
}

export type PlanPictures = Readonly<Record<string, readonly DrawnPicture[]>>;

export function insertionChanges(insertion: Insertion): readonly Change[] {
  return [...nameChanges(insertion), ...sheetChanges(insertion), ...dressingChanges(insertion)];
}

/** Names first: the formulas of the sheets refer to them. */
function nameChanges({ plan, used, unitId }: Insertion): readonly Change[] {
  return planNames(plan, used).map(({ name, reference }) => {
    const params = {
      unitId,
      id: name,
      name,
      formulaOrRefString: reference,
      localSheetId: "AllDefaultWorkbook",
    };
    return {
      redo: { id: "formula.mutation.set-defined-name", params },
      undo: { id: "formula.mutation.remove-defined-name", params },
    };
  });
}

function sheetChanges(insertion: Insertion): readonly Change[] {
  const { plan, used, unitId, sheetIds, complete, sheetCount } = insertion;
  return plan.sheets.map((sheet, index) => {
    const data = complete({
      id: sheetIds[sheet.key] ?? sheet.key,
      ...sheetData(sheet, used),
    });
    return {
      redo: {
        id: "sheet.mutation.insert-sheet",
        params: { unitId, index: sheetCount + index, sheet: data },
      },
      undo: {
        id: "sheet.mutation.remove-sheet",
        params: { unitId, subUnitId: data.id, subUnitName: data.name },
      },
    };
  });
}

/** What a sheet carries besides its cells; also put on a workbook that was opened with the plan's sheets. */
export function dressingChanges({
  plan,
  used,
  unitId,
  sheetIds,
  pictures,
}: Pick<Insertion, "plan" | "used" | "unitId" | "sheetIds" | "pictures">): readonly Change[] {
  return plan.sheets.flatMap((sheet) => {
    const subUnitId = sheetIds[sheet.key] ?? sheet.key;
    return [
      ...validationChanges(unitId, subUnitId, sheet, used),
      ...ruleChanges(unitId, subUnitId, sheet, used),
      ...noteChanges(unitId, subUnitId, sheet),
      ...pictureChanges(unitId, subUnitId, sheet, pictures[sheet.key] ?? []),
    ];
  });
}

function validationChanges(
  unitId: string,
  subUnitId: string,
  { validations }: SheetPlan,
  used: UsedNames,
): readonly Change[] {
  // Figures are read as they are typed, before the spreadsheet reads them.
  const rules = validations.filter(({ kind }) => kind !== "figure") as readonly CheckedValidation[];
  return rules.map((validation, index) => {
    const uid = `${subUnitId}-validation-${index}`;
    return {
      redo: {
        id: "data-validation.mutation.addRule",
        params: { unitId, subUnitId, rule: validationRule(uid, validation, used) },
      },
      undo: {
        id: "data-validation.mutation.removeRule",
        params: { unitId, subUnitId, ruleId: uid },
      },
    };
  });
}

const TOLD = 0;
const STOP = 1;
/** The cell's text with an arrow beside it; otherwise it is painted as a chip. */
const ARROW = 1;

type CheckedValidation = Exclude<PlanValidation, { readonly kind: "figure" }>;

function validationRule(uid: string, validation: CheckedValidation, used: UsedNames) {
  const common = {
    uid,
    ranges: [rangeOf(validation.range)],
    allowBlank: true,
    showErrorMessage: true,
    errorStyle: STOP,
    error: validation.message,
  };
  const list = { ...common, type: "list", showDropDown: true, renderMode: ARROW };
  if (validation.kind === "list") return { ...list, formula1: JSON.stringify(validation.values) };
  if (validation.kind === "offer")
    return {
      ...list,
      errorStyle: TOLD,
      formula1: `=${fillPlaceholders(validation.source, used)}`,
    };
  return {
    ...common,
    type: validation.kind === "whole" ? "whole" : "decimal",
    operator: "between",
    formula1: String(validation.least),
    formula2: String(validation.most),
  };
}

/** The spreadsheet puts a new rule before the others; from last to first, so that the plan's first one leads. */
function ruleChanges(
  unitId: string,
  subUnitId: string,
  { conditionalFormats }: SheetPlan,
  used: UsedNames,
): readonly Change[] {
  return conditionalFormats
    .map((rule, index) => {
      const cfId = `${subUnitId}-rule-${index}`;
      return {
        redo: {
          id: "sheet.mutation.add-conditional-rule",
          params: { unitId, subUnitId, rule: paintRule(cfId, rule, used) },
        },
        undo: {
          id: "sheet.mutation.delete-conditional-rule",
          params: { unitId, subUnitId, cfId },
        },
      };
    })
    .reverse();
}

/** By a formula for each cell: the spreadsheet's rules by value do not see what is spilled. */
function paintRule(cfId: string, rule: PlanRule, used: UsedNames) {
  const { colour, fill } = paintStyles[rule.paint];
  return {
    cfId,
    ranges: [rangeOf(rule.range)],
    stopIfTrue: false,
    rule: {
      type: "highlightCell",
      subType: "formula",
      value: `=${ruleCondition(rule, used)}`,
      style: { cl: { rgb: colour }, bg: { rgb: fill } },
    },
  };
}

function noteChanges(unitId: string, sheetId: string, { cells }: SheetPlan): readonly Change[] {
  return cells.flatMap((cell) =>
    cell.note === undefined ? [] : [noteChange(unitId, sheetId, cell, cell.note)],
  );
}

const NOTE_SIZE = { width: 240, height: 90 };

function noteChange(unitId: string, sheetId: string, { at }: PlanCell, text: string): Change {
  const { row, column } = cellPlace(at);
  const noteId = `${sheetId}-note-${at}`;
  const place = { unitId, sheetId, row, col: column };
  const note = {
    id: noteId,
    row,
    col: column,
    note: text,
    show: false,
    ...NOTE_SIZE,
  };
  return {
    redo: { id: "sheet.mutation.update-note", params: { ...place, note } },
    undo: { id: "sheet.mutation.remove-note", params: { ...place, noteId } },
  };
}

const INSERTED = 0;
const REMOVED = 1;

/** Where the spreadsheet keeps drawings: by workbook and sheet, each by its id, and the order in which they lie. */
function pictureChanges(
  unitId: string,
  subUnitId: string,
  sheet: SheetPlan,
  pictures: readonly DrawnPicture[],
): readonly Change[] {
  const sizes = lineSizes(sheet);
  return pictures.map(({ picture, png }, index) => {
    const drawingId = `${subUnitId}-picture-${index + 1}`;
    const ids = { unitId, subUnitId, drawingId };
    const [width, height] = picture.size;
    const drawing = storedImage(
      {
        ...cellPlace(picture.at),
        offsetX: 0,
        offsetY: 0,
        width,
        height,
        type: "png",
        base64: png,
        alternative: picture.alternative,
      },
      ids,
      sizes,
    );
    const change = (type: number, data: unknown, order: unknown) => ({
      id: "sheet.mutation.set-drawing-apply",
      params: {
        unitId,
        subUnitId,
        type,
        objects: [ids],
        op: [unitId, subUnitId, ["data", drawingId, data], ["order", index, order]],
      },
    });
    return {
      redo: change(INSERTED, { i: drawing }, { i: drawingId }),
      undo: change(REMOVED, { r: true }, { r: true }),
    };
  });
}
