/** Metal area of a flat bar, to use as a size. */
import { requireAbove } from "../quantities/errors.js";
import type { QuantitiesOf, StepsOf } from "../quantities/steps.js";
import type { Metres, SquareMetres } from "../quantities/units.js";

export interface FlatBar {
  readonly width: Metres;
  readonly thickness: Metres;
}

export interface BusbarArea {
  readonly area: SquareMetres;
}

/** @throws {InputError} */
export function busbarArea({ width, thickness }: FlatBar): BusbarArea {
  requireAbove("width", width, 0);
  requireAbove("thickness", thickness, 0);
  return { area: width * thickness };
}

const MILLIMETRES = { unit: "mm", perUnit: 1000 };

export const flatBarGivens: QuantitiesOf<FlatBar> = {
  width: { label: "Width", symbol: "w", unit: "m", shown: MILLIMETRES },
  thickness: { label: "Thickness", symbol: "h", unit: "m", shown: MILLIMETRES },
};

export const busbarAreaSteps: StepsOf<BusbarArea> = {
  area: {
    label: "Metal area",
    symbol: "A",
    unit: "m²",
    shown: { unit: "mm²", perUnit: 1e6 },
    kind: "formula",
    formula: "width * thickness",
    cite: "definition",
  },
};
