/** Sizes of conductors that sheets and forms offer in a list; any other may be typed. */
import { sizeFrom } from "../../functions/reading/size-text.js";
import { type ConductorSize, sizeText } from "../../src/conductors/conductor-section.js";
import { SERIES_SIZES } from "../../src/conductors/conductor-size-choice.js";
import { InputError } from "../../src/quantities/errors.js";

export const OFFERED_SIZES: readonly string[] = [...SERIES_SIZES.metric, ...SERIES_SIZES.AWG].map(
  sizeText,
);

const SPELT = new Map(OFFERED_SIZES.map((text) => [keyOf(sizeFrom(text)), text]));

/** The size as the list spells it, so that a cell takes `4mm2` or `AWG 12` for one of its own; other text as it is. */
export function offeredSpelling(text: string): string {
  try {
    return SPELT.get(keyOf(sizeFrom(text))) ?? text;
  } catch (error) {
    if (error instanceof InputError) return text;
    throw error;
  }
}

function keyOf(size: ConductorSize): string {
  return JSON.stringify({ ...size, written: "" });
}
