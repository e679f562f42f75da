/** Fills that differ without their colour: slanted lines one way for what is lost, the other way for what is compared. */
import { part, type SvgPart } from "./svg-parts.js";
import type { Surface } from "./picture.js";

export function hatchFill({ stem }: Surface, which: "lost" | "even"): string {
  return `url(#${stem}-${which})`;
}

export function hatches(surface: Surface): SvgPart {
  const { palette } = surface;
  return part(
    "defs",
    {},
    hatch(surface, "lost", 45, palette.loss),
    hatch(surface, "even", -45, palette.quiet),
  );
}

function hatch({ stem, palette }: Surface, which: string, angle: number, colour: string): SvgPart {
  const size = 6;
  return part(
    "pattern",
    {
      id: `${stem}-${which}`,
      width: size,
      height: size,
      patternUnits: "userSpaceOnUse",
      patternTransform: `rotate(${angle})`,
    },
    part("rect", { width: size, height: size, fill: palette.paper }),
    part("rect", { width: 2, height: size, fill: colour }),
  );
}
