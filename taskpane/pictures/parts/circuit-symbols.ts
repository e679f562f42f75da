/**
 * Symbols of a single-line diagram after IEC 60617, drawn by us: each stands on a vertical line through (0, 0), 28 high.
 * What the standard has no symbol for is a plain box.
 */
import type { InLineKind } from "../../../src/schedules/columns.js";
import type { Palette } from "./palettes.js";
import { group, part, type SvgPart } from "./svg-parts.js";

export const SYMBOL_HEIGHT = 28;
const HALF = SYMBOL_HEIGHT / 2;

export type CircuitSymbol = "source" | "cable" | "converter" | "load" | "resistor" | InLineKind;

export function circuitSymbol(symbol: CircuitSymbol, { ink, paper }: Palette): SvgPart {
  const stroke = { stroke: ink, "stroke-width": 1.5, fill: "none" };
  const line = (d: string) => part("path", { d, ...stroke });
  const box = (width: number, height: number) =>
    part("rect", { x: -width / 2, y: -height / 2, width, height, ...stroke, fill: paper });
  const circle = (radius: number) =>
    part("circle", { cx: 0, cy: 0, r: radius, ...stroke, fill: paper });
  const through = line(`M0 ${-HALF}V${HALF}`);
  /** A blade that is open, from its lower end; the mark at its upper end says what it is. */
  const contact = (mark: string) => group(line(`M0 ${-HALF}V-7M0 ${HALF}V7L-8 -6`), line(mark));
  switch (symbol) {
    case "source":
      return group(line(`M0 12V${HALF}`), circle(12), line("M-6 -2H6M-6 3H-3M-1.5 3H1.5M3 3H6"));
    case "cable":
      return group(through, line("M-5 4L5 -4M-5 8L5 0"));
    case "bus":
      return group(
        through,
        part("path", { d: "M-14 0H14", stroke: ink, "stroke-width": 5, fill: "none" }),
      );
    case "converter":
      return group(
        through,
        box(24, 24),
        line("M-12 12L12 -12M-9 -7H-1M-9 -4H-7M-6 -4H-4M-3 -4H-1M1 6H9M1 9H3M4 9H6M7 9H9"),
      );
    case "load":
      return group(line(`M0 ${-HALF}V2`), part("path", { d: "M-7 2H7L0 13Z", fill: ink }));
    case "resistor":
    case "other":
      return group(through, box(10, 20));
    case "fuse":
      return group(box(10, 20), through);
    case "breaker":
      return contact("M-3 -10L3 -4M3 -10L-3 -4");
    case "contactor":
      return contact("M0 -11A4 4 0 0 1 0 -3");
    case "isolator":
      return contact("M-5 -7H5");
    case "connector":
      return group(through, line("M-6 -6L0 0L6 -6M-6 0L0 6L6 0"));
    case "slip ring":
      return group(through, circle(9), circle(4));
    case "diode":
      return group(
        through,
        part("path", { d: "M-7 -6H7L0 6Z", ...stroke, fill: paper }),
        line("M-7 6H7"),
      );
    case "filter":
      return group(through, box(22, 22), line("M-7 -3Q-3.5 -8 0 -3T7 -3M-7 5Q-3.5 0 0 5T7 5"));
  }
}
