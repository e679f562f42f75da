/** What is traded, as it is shown: less is better but for the margin, which the search holds with its sign changed. */
import type { Objective } from "../../src/tradeoffs/objectives.js";
import { shownNumber } from "../words/shown-numbers.js";

/** One of these in SI. */
const SHOWN: Readonly<Record<Objective, { readonly unit: string; readonly perUnit: number }>> = {
  loss: { unit: "W", perUnit: 1 },
  mass: { unit: "kg", perUnit: 1 },
  volume: { unit: "cm³", perUnit: 1e6 },
  price: { unit: "1", perUnit: 1 },
  "worst margin": { unit: "%", perUnit: -100 },
};

/** In the unit that it is shown in. */
export function shownFigure(objective: Objective, value: number): number {
  return value * SHOWN[objective].perUnit;
}

/** – where it cannot be told. */
export function figureText(objective: Objective, value: number | undefined): string {
  if (value === undefined || !Number.isFinite(value)) return "–";
  return shownNumber(shownFigure(objective, value), SHOWN[objective].unit).text;
}

/** With its sign, and the prefix of the figure itself; "" for none. */
export function differenceText(objective: Objective, value: number, now: number): string {
  const own = shownFigure(objective, value);
  const difference = own - shownFigure(objective, now);
  if (!Number.isFinite(difference) || difference === 0) return "";
  const { text } = shownNumber(Math.abs(difference), SHOWN[objective].unit, own);
  return `${difference > 0 ? "+" : "−"} ${text}`;
}
