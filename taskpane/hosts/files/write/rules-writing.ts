/** Validations and conditional formats of a sheet as a file holds them. */
import { storedFormula } from "../file-formulas.js";
import type { WritingContext } from "./cells-writing.js";
import type {
  RulePoint,
  RuleSnapshot,
  SheetSnapshot,
  ValidationSnapshot,
} from "../workbook-snapshot.js";
import { storedColour, xml, xmlList, xmlText } from "./xml-writing.js";

/** A file holds a list of words in one text of this length. */
const LONGEST_LIST = 255;

export function writeValidations(
  { validations, name }: SheetSnapshot,
  { leftOut }: WritingContext,
): string {
  const written = validations.flatMap((validation) => {
    const formulas = validationFormulas(validation);
    if (formulas) return [validationText(validation, formulas)];
    leftOut.add("lists of choices that are too long for a file", name);
    return [];
  });
  return xmlList("dataValidations", written);
}

function validationText(validation: ValidationSnapshot, formulas: readonly string[]): string {
  const { kind, ranges, allowsBlank, onFault, message } = validation;
  return xml(
    "dataValidation",
    {
      type: kind === "range" ? "list" : kind,
      errorStyle: onFault === "stop" ? undefined : onFault,
      operator: "comparison" in validation ? validation.comparison : undefined,
      allowBlank: allowsBlank ? 1 : undefined,
      showErrorMessage: 1,
      error: message?.slice(0, LONGEST_LIST),
      sqref: ranges.join(" "),
    },
    ...formulas.map((formula, index) => xml(`formula${index + 1}`, {}, xmlText(formula))),
  );
}

function validationFormulas(validation: ValidationSnapshot): readonly string[] | undefined {
  switch (validation.kind) {
    case "list": {
      const { values } = validation;
      const text = values.join(",");
      const fits = text.length <= LONGEST_LIST && values.every((value) => !value.includes(","));
      return fits ? [`"${text.replaceAll('"', '""')}"`] : undefined;
    }
    case "range":
    case "custom":
      return [storedFormula(validation.formula)];
    default:
      return validation.bounds.map(storedFormula);
  }
}

export function writeRules({ rules }: SheetSnapshot, { styles }: WritingContext): string {
  return rules
    .map((rule, index) =>
      xml(
        "conditionalFormatting",
        { sqref: rule.ranges.join(" ") },
        ruleText(rule, index + 1, styles),
      ),
    )
    .join("");
}

function ruleText(rule: RuleSnapshot, priority: number, styles: WritingContext["styles"]): string {
  const common = { priority, stopIfTrue: rule.stops ? 1 : undefined };
  const formulas = (texts: readonly string[]) =>
    texts.map((text) => xml("formula", {}, xmlText(storedFormula(text))));
  switch (rule.kind) {
    case "formula":
      return xml(
        "cfRule",
        {
          type: "expression",
          dxfId: styles.paintNumber(rule.paint),
          ...common,
        },
        ...formulas([rule.formula]),
      );
    case "compare":
      return xml(
        "cfRule",
        {
          type: "cellIs",
          dxfId: styles.paintNumber(rule.paint),
          ...common,
          operator: rule.comparison,
        },
        ...formulas(rule.bounds),
      );
    case "scale":
      return xml(
        "cfRule",
        { type: "colorScale", ...common },
        xml(
          "colorScale",
          {},
          ...rule.points.map(pointText),
          ...rule.points.map(({ colour }) => colourText(colour)),
        ),
      );
    case "bar":
      return xml(
        "cfRule",
        { type: "dataBar", ...common },
        xml("dataBar", {}, pointText(rule.least), pointText(rule.most), colourText(rule.colour)),
      );
  }
}

function pointText({ type, value }: RulePoint): string {
  return xml("cfvo", { type, val: value });
}

function colourText(colour: string): string {
  return xml("color", storedColour(colour));
}
