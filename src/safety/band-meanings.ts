/** What the names of voltage bands mean: a sentence for each band, with its limits for dc and what else it asks for. */
import {
  type BandLimits,
  FRAMEWORKS,
  type TouchBand,
  type TouchFramework,
  touchFrameworks,
} from "./touch-bands.js";

/** By the band's name, which no two frameworks share; framework by framework, from the lowest voltage up. */
export const BAND_MEANINGS: ReadonlyMap<string, string> = new Map(
  FRAMEWORKS.flatMap((name) => {
    const framework = touchFrameworks[name];
    return framework.bands.map((band) => [band.name, meaningOf(band, framework)] as const);
  }),
);

/** Sentences of the bands that some cells or findings name, in the order in which they do, each once. */
export function meaningsOfBands(named: readonly unknown[]): readonly string[] {
  return [...new Set(named)].flatMap((name) => BAND_MEANINGS.get(String(name)) ?? []);
}

function meaningOf({ name, limits, provided }: TouchBand, framework: TouchFramework): string {
  const parts = limits ? [limitText(limits, framework), provided] : [provided];
  return `${framework.name} ${name}: ${parts.join(", ")}.`;
}

function limitText({ dc: { dry, wet } }: BandLimits, { boundary }: TouchFramework): string {
  const most = `${boundary === "inclusive" ? "up to" : "below"} ${dry} V dc`;
  if (dry === wet) return most;
  return wet === undefined ? `${most} dry` : `${most} dry, ${wet} V dc wet`;
}
