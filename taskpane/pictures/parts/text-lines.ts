/** How much room text takes, without a page to measure it on: wide letters are assumed, so that a guess errs to the safe side. */
import { part, type SvgPart } from "./svg-parts.js";

export const LETTER_SIZE = 12;
export const LINE_HEIGHT = 15;

const NARROW = /[iljtfrI.,:;|'!·()[\] \u00a0]/;
const WIDE = /[mwMWÄÖÜ%@→≤≥]/;
const CAPITAL = /[A-ZΩ]/;

/** In pixels. */
export function textWidth(text: string, bold = false): number {
  let ems = 0;
  for (const letter of text)
    ems += NARROW.test(letter)
      ? 0.39
      : WIDE.test(letter)
        ? 0.97
        : CAPITAL.test(letter)
          ? 0.72
          : 0.63;
  return ems * LETTER_SIZE * (bold ? 1.1 : 1);
}

/** Broken between words; what is longer than so many lines ends in an ellipsis. */
export function wrapped(text: string, width: number, { most = 2, bold = false } = {}): string[] {
  const lines: string[] = [];
  for (const word of text.split(" ")) {
    const last = lines.at(-1);
    const longer = last === undefined ? word : `${last} ${word}`;
    if (last !== undefined && textWidth(longer, bold) <= width) lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  const kept = lines.slice(0, most);
  if (lines.length > most) kept[most - 1] = lines.slice(most - 1).join(" ");
  return kept.map((line) => shortened(line, width, bold));
}

export function shortened(text: string, width: number, bold = false): string {
  if (textWidth(text, bold) <= width) return text;
  let kept = text;
  while (kept.length > 1 && textWidth(`${kept}…`, bold) > width) kept = kept.slice(0, -1);
  return `${kept.trimEnd()}…`;
}

export interface TextLook {
  readonly colour: string;
  readonly anchor?: "start" | "middle" | "end";
  readonly bold?: true;
  /** Colour of the ground, for text that a line may run behind. */
  readonly halo?: string;
}

/** `y` is the middle of the line. */
export function textLine(
  x: number,
  y: number,
  text: string,
  { colour, anchor, bold, halo }: TextLook,
): SvgPart {
  return part(
    "text",
    {
      x,
      y: y + LETTER_SIZE * 0.35,
      fill: colour,
      "text-anchor": anchor === "start" ? undefined : anchor,
      "font-weight": bold ? 600 : undefined,
      ...(halo && {
        stroke: halo,
        "stroke-width": 5,
        "stroke-linejoin": "round",
        "paint-order": "stroke",
      }),
    },
    text,
  );
}

/** One below the other; `y` is the top. */
export function textLines(
  x: number,
  y: number,
  lines: readonly string[],
  look: TextLook,
): SvgPart[] {
  return lines.map((line, index) => textLine(x, y + LINE_HEIGHT * (index + 0.5), line, look));
}
