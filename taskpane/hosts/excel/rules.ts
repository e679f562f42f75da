/** What a plan's cells accept and how they are painted by their values, in Excel. */
import { cellAddress, rangePlace } from "../../../src/plans/addresses.js";
import { paintStyles } from "../../../src/plans/cell-styles.js";
import { fillPlaceholders, type UsedNames } from "../../../src/plans/placeholders.js";
import type { PlanRule, PlanValidation } from "../../../src/plans/sheet-plan.js";
import { HostError } from "../host.js";
import { part } from "./styles.js";

export interface PreparedValidation {
  readonly range: string;
  readonly message: string;
  readonly rule: (used: UsedNames) => Excel.DataValidationRule;
  /** Whether what is not allowed is refused. */
  readonly stops: boolean;
}

/** @throws {HostError} for a list that Excel cannot offer. */
export function preparedValidation(validation: PlanValidation): PreparedValidation {
  const { range, message } = validation;
  if (validation.kind !== "offer") {
    const rule = validationRule(validation);
    return { range, message, rule: () => rule, stops: true };
  }
  const { source } = validation;
  return {
    range,
    message,
    rule: (used) => ({
      list: { inCellDropDown: true, source: `=${fillPlaceholders(source, used)}` },
    }),
    stops: false,
  };
}

export function addValidation(
  sheet: Excel.Worksheet,
  { range, message, rule, stops }: PreparedValidation,
  used: UsedNames,
): void {
  const { dataValidation } = part(sheet, range);
  dataValidation.rule = rule(used);
  dataValidation.errorAlert = {
    message,
    showAlert: stops,
    style: "Stop",
    title: "Downfeed",
  };
}

function validationRule(
  validation: Exclude<PlanValidation, { readonly kind: "offer" }>,
): Excel.DataValidationRule {
  switch (validation.kind) {
    case "list":
      return {
        list: { inCellDropDown: true, source: listSource(validation.values) },
      };
    case "number":
      return { decimal: bounds(validation) };
    case "figure":
      return { custom: { formula: figureFormula(validation) } };
    case "whole":
      return { wholeNumber: bounds(validation) };
  }
}

/** A time that the spreadsheet made of an entry is a number too, and passes. */
function figureFormula({ range, words }: Extract<PlanValidation, { kind: "figure" }>): string {
  const { top, left } = rangePlace(range);
  const cell = cellAddress({ row: top, column: left });
  return `=OR(ISNUMBER(${cell}),${words.map((word) => `${cell}="${word}",`).join("")}ISBLANK(${cell}))`;
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

export function addRule(sheet: Excel.Worksheet, rule: PlanRule, used: UsedNames): void {
  const { conditionalFormats } = part(sheet, rule.range);
  if (rule.kind === "formula") {
    const { custom } = conditionalFormats.add(Excel.ConditionalFormatType.custom);
    custom.rule.formula = `=${fillPlaceholders(rule.formula, used)}`;
    paint(custom.format, rule);
    return;
  }
  const { cellValue } = conditionalFormats.add(Excel.ConditionalFormatType.cellValue);
  cellValue.rule = valueRule(rule);
  paint(cellValue.format, rule);
}

function paint(format: Excel.ConditionalRangeFormat, { paint: name }: PlanRule): void {
  format.font.color = paintStyles[name].colour;
  format.fill.color = paintStyles[name].fill;
}

function valueRule(
  rule: Exclude<PlanRule, { readonly kind: "formula" }>,
): Excel.ConditionalCellValueRule {
  switch (rule.kind) {
    case "above":
      return { formula1: String(rule.limit), operator: "GreaterThan" };
    case "below":
      return { formula1: String(rule.limit), operator: "LessThan" };
    case "text":
      return { formula1: `="${rule.text.replaceAll('"', '""')}"`, operator: "EqualTo" };
  }
}
