/** A drawing as plain data: the pane makes elements of it, the sheet takes it as text. Nothing in it is read as markup. */
import { text as escaped } from "../../../functions/documents/markup.js";

export interface SvgPart {
  readonly tag: string;
  readonly attributes: Readonly<Record<string, string | number>>;
  readonly children: readonly (SvgPart | string)[];
}

export function part(
  tag: string,
  attributes: Readonly<Record<string, string | number | undefined>>,
  ...children: readonly (SvgPart | string)[]
): SvgPart {
  const given = Object.entries(attributes).flatMap(([name, value]) =>
    value === undefined ? [] : [[name, value] as const],
  );
  return { tag, attributes: Object.fromEntries(given), children };
}

export function group(...children: readonly SvgPart[]): SvgPart {
  return part("g", {}, ...children);
}

/** An attribute as it is written: hundredths of a pixel are enough. */
export function attributeText(value: string | number): string {
  return typeof value === "number" ? String(Math.round(value * 100) / 100) : value;
}

export function svgText({ tag, attributes, children }: SvgPart): string {
  const written = Object.entries(attributes)
    .map(([name, value]) => ` ${name}="${escaped(attributeText(value))}"`)
    .join("");
  const inner = children
    .map((child) => (typeof child === "string" ? escaped(child) : svgText(child)))
    .join("");
  return `<${tag}${written}>${inner}</${tag}>`;
}
