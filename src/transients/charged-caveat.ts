/** What every capacitance large enough for these calculations asks for. */
import type { Caveat } from "../quantities/steps.js";

export const CHARGED_NOTE: Caveat = {
  code: "stays-charged",
  field: "energy",
  text: "the capacitor stays charged when the supply is off: discharge it, then verify by measurement before touching anything",
  cite: "common-practice",
};
