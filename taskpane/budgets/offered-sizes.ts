/** Sizes of conductors that sheets and forms offer in a list; any other may be typed. */
import { STANDARD_SIZES_MM2 } from "../../src/conductors/conductor-classes.js";

const FINEST_GAUGE = 24;

export const OFFERED_SIZES: readonly string[] = [
  ...STANDARD_SIZES_MM2.map((size) => `${size} mm²`),
  ...Array.from({ length: FINEST_GAUGE / 2 }, (_, index) => `AWG ${FINEST_GAUGE - 2 * index}`),
  ...["1/0 AWG", "2/0 AWG", "3/0 AWG", "4/0 AWG"],
];
