/** Building parts of a drawing, as `element.ts` builds the rest of the pane. */
const SVG = "http://www.w3.org/2000/svg";

export function svgElement<Tag extends keyof SVGElementTagNameMap>(
  tag: Tag,
  attributes: Readonly<Record<string, string | number | boolean>> = {},
  ...children: readonly (Node | string)[]
): SVGElementTagNameMap[Tag] {
  const made = document.createElementNS(SVG, tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (value === false) continue;
    made.setAttribute(name, value === true ? "" : String(value));
  }
  made.append(...children);
  return made;
}
