/**
 * What the workbench takes of its spreadsheet, by name and nothing of ours: bundled on its own by `scripts/vendor.mjs`,
 * because it is large and changes only with its version. Everything else imports types of it alone.
 */
export {
  ICommandService,
  IUndoRedoService,
  IUniverInstanceService,
  LocaleType,
  LogLevel,
  mergeWorksheetSnapshotWithDefault,
  mergeLocales,
  Univer,
  UniverInstanceType,
} from "@univerjs/core";
export { FUniver } from "@univerjs/core/facade";
export {
  ArrayValueObject,
  BaseFunction,
  BooleanValueObject,
  ErrorType,
  ErrorValueObject,
  FormulaDataModel,
  FunctionType,
  ICalculateFormulaService,
  IDefinedNamesService,
  IDependencyManagerService,
  IFormulaDependencyGenerator,
  IFunctionService,
  NullValueObject,
  NumberValueObject,
  StringValueObject,
} from "@univerjs/engine-formula";
export { FormulaCalculationSessionService, IDescriptionService } from "@univerjs/sheets-formula";
export {
  AFTER_CELL_EDIT,
  Button,
  IDialogService,
  IEditorBridgeService,
  IEditorService,
  ILayoutService,
  IRenderManagerService,
  SheetInterceptorService,
  SheetsSelectionsService,
  UniverSheetsCorePreset,
  VALIDATE_CELL,
} from "@univerjs/preset-sheets-core";
export { createElement } from "react";
export { UniverSheetsConditionalFormattingPreset } from "@univerjs/preset-sheets-conditional-formatting";
export {
  SheetsDataValidationValidatorService,
  UniverSheetsDataValidationPreset,
} from "@univerjs/preset-sheets-data-validation";
export { UniverSheetsDrawingPreset } from "@univerjs/preset-sheets-drawing";
export { UniverSheetsFindReplacePreset } from "@univerjs/preset-sheets-find-replace";
export { UniverSheetsNotePreset } from "@univerjs/preset-sheets-note";
export { default as conditionalFormattingWords } from "@univerjs/preset-sheets-conditional-formatting/locales/en-US";
export { default as coreWords } from "@univerjs/preset-sheets-core/locales/en-US";
export { default as dataValidationWords } from "@univerjs/preset-sheets-data-validation/locales/en-US";
export { default as drawingWords } from "@univerjs/preset-sheets-drawing/locales/en-US";
export { default as findReplaceWords } from "@univerjs/preset-sheets-find-replace/locales/en-US";
export { default as noteWords } from "@univerjs/preset-sheets-note/locales/en-US";
import "@univerjs/preset-sheets-core/lib/index.css";
import "@univerjs/preset-sheets-data-validation/lib/index.css";
import "@univerjs/preset-sheets-conditional-formatting/lib/index.css";
import "@univerjs/preset-sheets-drawing/lib/index.css";
import "@univerjs/preset-sheets-find-replace/lib/index.css";
import "@univerjs/preset-sheets-note/lib/index.css";
