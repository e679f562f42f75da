/** Validations and conditional formats between the workbench and a file. */
import type { IRange, IStyleData } from "@univerjs/core";
import { isOneOf } from "../../files/one-of.js";
import {
  COMPARISONS,
  type Comparison,
  type RulePoint,
  type RuleSnapshot,
  type ScalePoint,
  type ValidationSnapshot,
} from "../../files/workbook-snapshot.js";
import { addressOf, rangeOf } from "./snapshot.js";
import { paintOf, paintStyle, plainColour } from "../looks.js";

/** As the spreadsheet stores them, as far as a file can say it. */
export interface StoredValidation {
  readonly uid: string;
  readonly type: string;
  readonly ranges: readonly IRange[];
  readonly formula1?: string;
  readonly formula2?: string;
  readonly operator?: string;
  readonly allowBlank?: boolean;
  readonly errorStyle?: number;
  readonly error?: string;
  readonly showErrorMessage?: boolean;
  readonly showDropDown?: boolean;
  readonly renderMode?: number;
}

const FAULTS = ["information", "stop", "warning"] as const;
/** The cell's text with an arrow beside it; otherwise it is painted as a chip. */
const ARROW = 1;

/** Nothing for a kind that files have not. */
export function validationSnapshot(stored: StoredValidation): ValidationSnapshot | undefined {
  const { type, ranges, formula1 = "", formula2 = "", operator } = stored;
  const common = {
    ranges: ranges.map(addressOf),
    allowsBlank: stored.allowBlank === true,
    onFault: FAULTS[stored.errorStyle ?? 1] ?? "stop",
    ...(stored.error && { message: stored.error }),
  };
  if (common.ranges.length === 0 || formula1 === "") return undefined;
  if (type === "list")
    return formula1.startsWith("=")
      ? { ...common, kind: "range", formula: withoutUnit(formula1) }
      : { ...common, kind: "list", values: listedValues(formula1) };
  if (type === "custom") return { ...common, kind: "custom", formula: withoutUnit(formula1) };
  if (!isOneOf(type, ["whole", "decimal", "date", "textLength"])) return undefined;
  const bounds = [formula1, formula2].filter((bound) => bound !== "").map(withoutUnit);
  const comparison = isOneOf(operator, COMPARISONS) ? operator : "between";
  return { ...common, kind: type, comparison, bounds };
}

export function storedValidation(validation: ValidationSnapshot, uid: string): StoredValidation {
  const common = {
    uid,
    ranges: validation.ranges.map(rangeOf),
    allowBlank: validation.allowsBlank,
    showErrorMessage: true,
    errorStyle: FAULTS.indexOf(validation.onFault),
    ...(validation.message !== undefined && { error: validation.message }),
  };
  const list = { type: "list", showDropDown: true, renderMode: ARROW };
  switch (validation.kind) {
    case "list":
      return {
        ...common,
        ...list,
        formula1: JSON.stringify(validation.values),
      };
    case "range":
      return { ...common, ...list, formula1: `=${validation.formula}` };
    case "custom":
      return { ...common, type: "custom", formula1: `=${validation.formula}` };
    default: {
      const [formula1, formula2] = validation.bounds.map(bound);
      return {
        ...common,
        type: validation.kind,
        operator: validation.comparison,
        ...(formula1 !== undefined && { formula1 }),
        ...(formula2 !== undefined && { formula2 }),
      };
    }
  }
}

/** Numbers as they are, anything else is a formula. */
function bound(text: string): string {
  return text.trim() !== "" && Number.isFinite(Number(text)) ? text : `=${text}`;
}

/** The formula without `=`, and without the workbook's own id, which the spreadsheet puts before a sheet. */
function withoutUnit(formula: string): string {
  return formula.replace(/^=/, "").replace(/\[[^\]]*\](?=[^,()]*!)/g, "");
}

function listedValues(formula: string): string[] {
  if (!formula.startsWith("[")) return formula.split(",");
  return (JSON.parse(formula) as unknown[]).map(String);
}

export interface StoredRule {
  readonly cfId: string;
  readonly ranges: readonly IRange[];
  readonly stopIfTrue: boolean;
  readonly rule: {
    readonly type: string;
    readonly subType?: string;
    readonly operator?: string;
    readonly value?: unknown;
    readonly style?: IStyleData;
    readonly config?: unknown;
    readonly isShowValue?: boolean;
  };
}

interface StoredPoint {
  readonly type: string;
  readonly value?: unknown;
}

interface StoredBar {
  readonly min: StoredPoint;
  readonly max: StoredPoint;
  readonly positiveColor: string;
}

interface StoredStep {
  readonly color: string;
  readonly value: StoredPoint;
}

/** Nothing for a kind that a snapshot has not. */
export function ruleSnapshot(stored: StoredRule): RuleSnapshot | undefined {
  const { type, subType, operator, value, style, config } = stored.rule;
  const common = {
    ranges: stored.ranges.map(addressOf),
    stops: stored.stopIfTrue,
  };
  if (type === "highlightCell") {
    const painted = { ...common, paint: paintOf(style) };
    if (subType === "formula" && typeof value === "string")
      return { ...painted, kind: "formula", formula: withoutUnit(value) };
    if (subType !== "number" || !isOneOf(operator, COMPARISONS)) return undefined;
    const bounds = [value].flat().map(String);
    return { ...painted, kind: "compare", comparison: operator, bounds };
  }
  if (type === "dataBar") {
    const { min, max, positiveColor } = config as StoredBar;
    const [least, most] = [pointSnapshot(min), pointSnapshot(max)];
    const colour = plainColour(positiveColor);
    return least && most && colour ? { ...common, kind: "bar", least, most, colour } : undefined;
  }
  if (type !== "colorScale") return undefined;
  const points = (config as readonly StoredStep[]).map(scalePoint);
  return points.every((point) => point !== undefined)
    ? { ...common, kind: "scale", points }
    : undefined;
}

function scalePoint({ color, value }: StoredStep): ScalePoint | undefined {
  const point = pointSnapshot(value);
  const colour = plainColour(color);
  return point && colour ? { ...point, colour } : undefined;
}

function pointSnapshot({ type, value }: StoredPoint): RulePoint | undefined {
  if (type === "min" || type === "max") return { type };
  return isOneOf(type, ["num", "percent", "percentile"]) && Number.isFinite(Number(value))
    ? { type, value: Number(value) }
    : undefined;
}

export function storedRule(rule: RuleSnapshot, cfId: string): StoredRule {
  const common = {
    cfId,
    ranges: rule.ranges.map(rangeOf),
    stopIfTrue: rule.stops,
  };
  switch (rule.kind) {
    case "formula":
      return { ...common, rule: formulaRule(rule.formula, rule.paint) };
    case "compare":
      return { ...common, rule: compareRule(rule) };
    case "scale": {
      const config = rule.points.map(({ colour, ...value }, index) => ({
        index,
        color: colour,
        value,
      }));
      return { ...common, rule: { type: "colorScale", config } };
    }
    case "bar": {
      const config = {
        min: rule.least,
        max: rule.most,
        positiveColor: rule.colour,
        nativeColor: rule.colour,
        isGradient: false,
      };
      return {
        ...common,
        rule: { type: "dataBar", isShowValue: true, config },
      };
    }
  }
}

type CompareRule = Extract<RuleSnapshot, { readonly kind: "compare" }>;

/** The spreadsheet compares with numbers only: with anything else it asks a formula about the first cell. */
function compareRule({
  ranges: [first = "A1"],
  comparison,
  bounds,
  paint,
}: CompareRule): StoredRule["rule"] {
  const numbers = bounds.map(Number);
  if (!numbers.every(Number.isFinite))
    return formulaRule(comparisonFormula(first.replace(/:.*/, ""), comparison, bounds), paint);
  return {
    type: "highlightCell",
    subType: "number",
    operator: comparison,
    value: numbers.length > 1 ? numbers : numbers[0],
    style: paintStyle(paint),
  };
}

const SIGNS: Readonly<Partial<Record<Comparison, string>>> = {
  equal: "=",
  notEqual: "<>",
  greaterThan: ">",
  lessThan: "<",
  greaterThanOrEqual: ">=",
  lessThanOrEqual: "<=",
};

function comparisonFormula(
  cell: string,
  comparison: Comparison,
  [least = "0", most = least]: readonly string[],
): string {
  const sign = SIGNS[comparison];
  if (sign !== undefined) return `${cell}${sign}(${least})`;
  const between = `AND(${cell}>=(${least}),${cell}<=(${most}))`;
  return comparison === "between" ? between : `NOT(${between})`;
}

function formulaRule(formula: string, paint: CompareRule["paint"]): StoredRule["rule"] {
  return {
    type: "highlightCell",
    subType: "formula",
    value: `=${formula}`,
    style: paintStyle(paint),
  };
}
