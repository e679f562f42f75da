/** Validations and conditional formats of a sheet in a file. */
import { rangeAddress, rangePlace } from "../../../../src/plans/addresses.js";
import type { ColourReader } from "./colours-reading.js";
import { refusedFormula, typedFormula } from "../file-formulas.js";
import { FILE_LIMITS, requireAtMost } from "../file-limits.js";
import { typedText } from "../file-text.js";
import type { LeftOutList } from "../left-out.js";
import { isOneOf } from "../one-of.js";
import type { StylesRead } from "./styles-reading.js";
import {
  COMPARISONS,
  type RulePoint,
  type RuleSnapshot,
  type ValidationSnapshot,
} from "../workbook-snapshot.js";
import { childOf, childrenOf, type XmlElement } from "./xml-reading.js";

export interface RuleContext {
  readonly sheet: string;
  readonly styles: StylesRead;
  readonly colourOf: ColourReader;
  readonly leftOut: LeftOutList;
}

export function readValidations(
  root: XmlElement,
  { sheet, leftOut }: RuleContext,
): readonly ValidationSnapshot[] {
  const elements = childrenOf(childOf(root, "dataValidations"), "dataValidation");
  requireAtMost(elements.length, FILE_LIMITS.rules, "validations on a sheet");
  return elements.flatMap((element) => {
    const found = validationOf(element);
    if (!found && element.attributes["type"] !== undefined)
      leftOut.add("validations of types that the workbench does not support", sheet);
    return found ? [found] : [];
  });
}

function validationOf(element: XmlElement): ValidationSnapshot | undefined {
  const { type, operator, sqref, allowBlank, errorStyle, error } = element.attributes;
  const ranges = rangesIn(sqref);
  const formulas = [childOf(element, "formula1"), childOf(element, "formula2")]
    .flatMap((each) => (each ? [typedText(each.text)] : []))
    .filter((text) => text !== "");
  const [first] = formulas;
  if (!ranges || first === undefined || formulas.some(refusedFormula)) return undefined;
  const common = {
    ranges,
    allowsBlank: allowBlank === "1" || allowBlank === "true",
    onFault: isOneOf(errorStyle, ["warning", "information"] as const)
      ? errorStyle
      : ("stop" as const),
    ...(error !== undefined && error !== "" && { message: typedText(error).slice(0, 255) }),
  };
  if (type === "list") return { ...common, ...listOf(first) };
  if (type === "custom") return { ...common, kind: "custom", formula: typedFormula(first) };
  if (!isOneOf(type, ["whole", "decimal", "date", "textLength"] as const)) return undefined;
  const comparison = isOneOf(operator, COMPARISONS) ? operator : "between";
  return {
    ...common,
    kind: type,
    comparison,
    bounds: formulas.map(typedFormula),
  };
}

function listOf(
  formula: string,
):
  | { readonly kind: "list"; readonly values: readonly string[] }
  | { readonly kind: "range"; readonly formula: string } {
  const [, literal] = /^"((?:[^"]|"")*)"$/.exec(formula) ?? [];
  return literal === undefined
    ? { kind: "range", formula: typedFormula(formula) }
    : { kind: "list", values: literal.replaceAll('""', '"').split(",") };
}

/** In the order in which they lead. */
export function readRules(root: XmlElement, context: RuleContext): readonly RuleSnapshot[] {
  const found = childrenOf(root, "conditionalFormatting").flatMap((format) =>
    childrenOf(format, "cfRule").map((element) => ({
      ranges: rangesIn(format.attributes["sqref"]),
      element,
      priority: Number(element.attributes["priority"] ?? 0),
    })),
  );
  requireAtMost(found.length, FILE_LIMITS.rules, "conditional formats on a sheet");
  return found
    .sort((one, other) => one.priority - other.priority)
    .flatMap(({ ranges, element }) => {
      const rule = ranges && ruleOf(ranges, element, context);
      if (!rule)
        context.leftOut.add(
          "conditional formats of types that the workbench does not support",
          context.sheet,
        );
      return rule ? [rule] : [];
    });
}

function ruleOf(
  ranges: readonly string[],
  element: XmlElement,
  { styles, colourOf }: RuleContext,
): RuleSnapshot | undefined {
  const { type, operator, dxfId, stopIfTrue } = element.attributes;
  const stops = stopIfTrue === "1" || stopIfTrue === "true";
  const common = { ranges, stops };
  const formulas = childrenOf(element, "formula").map(({ text }) => typedText(text));
  const [first] = formulas;
  if (formulas.some(refusedFormula)) return undefined;
  const paint = (dxfId && styles.paints[Number(dxfId)]) || {};
  if (type === "expression" && first !== undefined)
    return { ...common, kind: "formula", formula: typedFormula(first), paint };
  if (type === "cellIs" && isOneOf(operator, COMPARISONS)) {
    const bounds = formulas.map(typedFormula);
    return { ...common, kind: "compare", comparison: operator, bounds, paint };
  }
  if (type !== "colorScale" && type !== "dataBar") return undefined;
  const scale = childOf(element, type);
  const points = childrenOf(scale, "cfvo").map(pointOf);
  const colours = childrenOf(scale, "color").map(colourOf);
  if (points.includes(undefined) || colours.includes(undefined)) return undefined;
  if (type === "colorScale") {
    const steps = points.map((point, index) => ({
      ...(point as RulePoint),
      colour: colours[index] ?? "#ffffff",
    }));
    return steps.length > 1 && steps.length < 4
      ? { ...common, kind: "scale", points: steps }
      : undefined;
  }
  const [least, most] = points;
  const [colour] = colours;
  return least && most && colour !== undefined
    ? { ...common, kind: "bar", least, most, colour }
    : undefined;
}

function pointOf({ attributes }: XmlElement): RulePoint | undefined {
  const { type, val } = attributes;
  if (type === "min" || type === "max") return { type };
  const value = Number(val);
  return isOneOf(type, ["num", "percent", "percentile"] as const) && Number.isFinite(value)
    ? { type, value }
    : undefined;
}

const MOST_AREAS = 1_000;

/** Cut to what a sheet holds here; nothing where there is no proper range. */
function rangesIn(sqref: string | undefined): readonly string[] | undefined {
  const ranges = (sqref ?? "").split(/\s+/).filter((range) => range !== "");
  requireAtMost(ranges.length, MOST_AREAS, "areas under one rule");
  try {
    const kept = ranges.flatMap((range) => {
      const { top, left, bottom, right } = rangePlace(range);
      if (top >= FILE_LIMITS.rows || left >= FILE_LIMITS.columns) return [];
      return rangeAddress({
        top,
        left,
        bottom: Math.min(bottom, FILE_LIMITS.rows - 1),
        right: Math.min(right, FILE_LIMITS.columns - 1),
      });
    });
    return kept.length > 0 ? kept : undefined;
  } catch {
    return undefined;
  }
}
