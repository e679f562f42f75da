/** A picture drawn: one element with its name, as the pane shows it and as the sheet takes it. */
import type { Picture, Surface } from "./picture.js";
import { part, type SvgPart } from "./svg-parts.js";
import { LETTER_SIZE } from "./text-lines.js";

export function drawingPart(picture: Picture, surface: Surface): SvgPart {
  return drawn(picture, surface, 0, []);
}

/** Puts a drawing on a ground with a margin, so that it can be read over grid lines and in a document. */
export function framedPart(
  picture: Picture,
  { width, palette, stem }: Surface,
  margin: number,
): SvgPart {
  const ground = part("rect", {
    x: -margin,
    y: -margin,
    width: "100%",
    height: "100%",
    fill: palette.paper,
  });
  const inside = { palette, stem, width: width - 2 * margin };
  return drawn(picture, inside, margin, [ground]);
}

function drawn(
  picture: Picture,
  surface: Surface,
  margin: number,
  behind: readonly SvgPart[],
): SvgPart {
  const { height, parts } = picture.draw(surface);
  const size = {
    width: surface.width + 2 * margin,
    height: Math.ceil(height) + 2 * margin,
  };
  return part(
    "svg",
    {
      xmlns: "http://www.w3.org/2000/svg",
      viewBox: `${-margin} ${-margin} ${size.width} ${size.height}`,
      ...size,
      role: "img",
      "aria-label": `${picture.title}. ${picture.alternative}`,
      "font-family": "system-ui, sans-serif",
      "font-size": LETTER_SIZE,
    },
    ...behind,
    ...parts,
  );
}
