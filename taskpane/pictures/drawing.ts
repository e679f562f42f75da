/** A picture drawn: one element with its name, as the pane shows it and as the sheet takes it. */
import type { Picture, Surface } from "./picture.js";
import { part, type SvgPart } from "./svg-parts.js";
import { LETTER_SIZE } from "./text-lines.js";

export function drawingPart(picture: Picture, surface: Surface): SvgPart {
  const { height, parts } = picture.draw(surface);
  const size = { width: surface.width, height: Math.ceil(height) };
  return part(
    "svg",
    {
      xmlns: "http://www.w3.org/2000/svg",
      viewBox: `0 0 ${size.width} ${size.height}`,
      ...size,
      role: "img",
      "aria-label": `${picture.title}. ${picture.alternative}`,
      "font-family": "system-ui, sans-serif",
      "font-size": LETTER_SIZE,
    },
    ...parts,
  );
}
