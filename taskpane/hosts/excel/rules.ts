/** What a plan's cells accept and how they are painted by their values, in Excel. */
import { paintStyles } from "../../../src/plans/cell-styles.js";
import type { PlanRule, PlanValidation } from "../../../src/plans/sheet-plan.js";
import { HostError } from "../host.js";

export interface PreparedValidation {
  readonly area: string;
  readonly message: string;
  readonly rule: Excel.DataValidationRule;
}

/** @throws {HostError} for a list that Excel cannot offer. */
export function preparedValidation(validation: PlanValidation): PreparedValidation {
  const { area, message } = validation;
  return { area, message, rule: validationRule(validation) };
}

export function addValidation(
  sheet: Excel.Worksheet,
  { area, message, rule }: PreparedValidation,
): void {
  const { dataValidation } = sheet.getRange(area);
  dataValidation.rule = rule;
  dataValidation.errorAlert = {
    message,
    showAlert: true,
    style: "Stop",
    title: "Downfeed",
  };
}

function validationRule(validation: PlanValidation): Excel.DataValidationRule {
  switch (validation.kind) {
    case "list":
      return {
        list: { inCellDropDown: true, source: listSource(validation.values) },
      };
    case "number":
      return { decimal: bounds(validation) };
    case "whole":
      return { wholeNumber: bounds(validation) };
  }
}

/** Longest list that a file keeps. */
const MOST_CHARACTERS = 255;

/** Excel separates the words by commas and has no way to write one inside a word. */
function listSource(values: readonly string[]): string {
  const source = values.join(",");
  if (source.length > MOST_CHARACTERS || values.some((value) => value.includes(",")))
    throw new HostError(`Excel cannot offer the list ${source}`);
  return source;
}

function bounds({
  least,
  most,
}: {
  readonly least: number;
  readonly most: number;
}): Excel.BasicDataValidation {
  if (most === Infinity) return { formula1: least, operator: "GreaterThanOrEqualTo" };
  if (least === -Infinity) return { formula1: most, operator: "LessThanOrEqualTo" };
  return { formula1: least, formula2: most, operator: "Between" };
}

export function addRule(sheet: Excel.Worksheet, rule: PlanRule): void {
  const { cellValue } = sheet
    .getRange(rule.area)
    .conditionalFormats.add(Excel.ConditionalFormatType.cellValue);
  cellValue.rule = valueRule(rule);
  cellValue.format.font.color = paintStyles[rule.paint].colour;
  cellValue.format.fill.color = paintStyles[rule.paint].fill;
}

function valueRule(rule: PlanRule): Excel.ConditionalCellValueRule {
  switch (rule.kind) {
    case "above":
      return { formula1: String(rule.limit), operator: "GreaterThan" };
    case "below":
      return { formula1: String(rule.limit), operator: "LessThan" };
    case "text":
      return { formula1: `="${rule.text.replaceAll('"', '""')}"`, operator: "EqualTo" };
  }
}
