/** Colours in a file, given outright, by the theme or by the old palette, as `#rrggbb`. */
import { childOf, type XmlElement } from "./xml-reading.js";

/** A colour's element to the colour; nothing for "automatic". */
export type ColourReader = (element: XmlElement | undefined) => string | undefined;

/** How a file counts the theme's colours: light and dark change places in each pair. */
const THEME_ORDER = [
  "lt1",
  "dk1",
  "lt2",
  "dk2",
  "accent1",
  "accent2",
  "accent3",
  "accent4",
  "accent5",
  "accent6",
  "hlink",
  "folHlink",
];

/** Indexed colours 8 to 63 as ECMA-376 18.8.27 lists them; 0 to 7 repeat the first eight. */
const PALETTE = (
  "000000 ffffff ff0000 00ff00 0000ff ffff00 ff00ff 00ffff 800000 008000 000080 808000 800080 008080 c0c0c0 808080 " +
  "9999ff 993366 ffffcc ccffff 660066 ff8080 0066cc ccccff 000080 ff00ff ffff00 00ffff 800080 800000 008080 0000ff " +
  "00ccff ccffff ccffcc ffff99 99ccff ff99cc cc99ff ffcc99 3366ff 33cccc 99cc00 ffcc00 ff9900 ff6600 666699 969696 " +
  "003366 339966 003300 333300 993300 993366 333399 333333"
).split(" ");

export function colourReader(theme: XmlElement | undefined): ColourReader {
  const scheme = childOf(theme, "themeElements", "clrScheme");
  const themed = THEME_ORDER.map((name) => {
    const colour = childOf(scheme, name)?.children[0]?.attributes;
    return colour?.["lastClr"] ?? colour?.["val"];
  });
  return (element) => {
    if (!element) return undefined;
    const { rgb, theme: place, indexed, tint } = element.attributes;
    const code = rgb?.slice(-6) ?? themedOrIndexed(place, indexed);
    if (code === undefined || !/^[0-9A-Fa-f]{6}$/.test(code)) return undefined;
    return tinted(code.toLowerCase(), Number(tint ?? 0));
  };

  function themedOrIndexed(place?: string, indexed?: string) {
    if (place !== undefined) return themed[Number(place)];
    if (indexed === undefined) return undefined;
    const index = Number(indexed);
    return PALETTE[index < 8 ? index : index - 8];
  }
}

/** Lightness moved towards white or black by the tint, hue and saturation kept (ECMA-376 18.8.19). */
function tinted(code: string, tint: number): string {
  if (!(Math.abs(tint) > 0 && Math.abs(tint) <= 1)) return `#${code}`;
  const parts = [0, 2, 4].map((at) => Number.parseInt(code.slice(at, at + 2), 16) / 255);
  const most = Math.max(...parts);
  const least = Math.min(...parts);
  const lightness = (most + least) / 2;
  const wanted = tint < 0 ? lightness * (1 + tint) : lightness * (1 - tint) + tint;
  // With hue and saturation kept, each part keeps its place between the extremes around the lightness.
  const room = 1 - Math.abs(2 * lightness - 1);
  const scale = room === 0 ? 0 : (1 - Math.abs(2 * wanted - 1)) / room;
  const moved = parts.map((part) =>
    Math.round((wanted + (part - lightness) * scale) * 255)
      .toString(16)
      .padStart(2, "0"),
  );
  return `#${moved.join("")}`;
}
