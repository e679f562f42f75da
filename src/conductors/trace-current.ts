/** Current of a printed-board trace for a rise of temperature, by the curve fit of IPC-2221. */
import { requireAbove } from "../quantities/errors.js";
import type { Cited, Caveat, Quantities, StepsWith } from "../quantities/steps.js";
import type { Amperes, Kelvins, Metres } from "../quantities/units.js";

export type TraceLayer = "outer" | "inner";
export const TRACE_LAYERS = ["outer", "inner"] as const satisfies readonly TraceLayer[];

export interface Trace {
  readonly width: Metres;
  readonly thickness: Metres;
  readonly temperatureRise: Kelvins;
  readonly layer: TraceLayer;
}

export interface TraceCurrent {
  readonly widthMils: number;
  readonly areaSquareMils: number;
  readonly layerFactor: number;
  readonly current: Amperes;
  readonly caveats: readonly Caveat[];
}

/** Exact: a thousandth of an inch. */
const MIL: Metres = 25.4e-6;

/** [ipc-2221] */
const LAYER_FACTORS: Readonly<Record<TraceLayer, number>> = {
  outer: 0.048,
  inner: 0.024,
};

/** Current of a printed trace at a rise of temperature. @throws {InputError} */
export function traceCurrent(trace: Trace): TraceCurrent {
  const { width, thickness, temperatureRise, layer } = trace;
  requireAbove("width", width, 0);
  requireAbove("thickness", thickness, 0);
  requireAbove("temperatureRise", temperatureRise, 0);
  const widthMils = width / MIL;
  const areaSquareMils = (widthMils * thickness) / MIL;
  const layerFactor = LAYER_FACTORS[layer];
  const current = layerFactor * temperatureRise ** 0.44 * areaSquareMils ** 0.725;
  const caveats = notesOn(widthMils, current, trace);
  return { widthMils, areaSquareMils, layerFactor, current, caveats };
}

function notesOn(widthMils: number, current: Amperes, { temperatureRise, layer }: Trace): Caveat[] {
  const outside = [
    ...(current > 35 ? ["35 A"] : []),
    ...(temperatureRise < 10 || temperatureRise > 100 ? ["10 to 100 K"] : []),
    ...(widthMils > 400 ? ["10.16 mm of width"] : []),
  ];
  const about = (code: string, text: string, cite: Cited): Caveat => ({
    code,
    field: "current",
    text,
    cite,
  });
  return [
    ...(outside.length > 0
      ? [about("outside-charts", `outside the charts: ${outside.join(", ")}`, "ipc-2221")]
      : []),
    layer === "inner"
      ? about(
          "inner-layer",
          "inner layers are taken as half as good, without measurement: often pessimistic",
          "ipc-2221",
        )
      : about(
          "outer-layer",
          "a trace on a board without copper planes stays well below this: about 0.7 of it, 4.5 A where this gives 6.38 A (2.54 mm, 35 µm, 20 K; from memory)",
          "ipc-2152",
        ),
  ];
}

export const traceGivens = {
  width: {
    label: "Width of the trace",
    symbol: "w",
    unit: "m",
    shown: { unit: "mm", perUnit: 1000 },
  },
  thickness: {
    label: "Thickness of the copper",
    symbol: "h",
    unit: "m",
    shown: { unit: "µm", perUnit: 1e6 },
  },
  temperatureRise: { label: "Temperature rise", symbol: "Δθ", unit: "K" },
  layer: { label: "Layer", symbol: "layer", unit: "" },
} satisfies Quantities;

export const traceCurrentSteps: StepsWith<"current"> = {
  widthMils: {
    label: "Width in mils",
    symbol: "w₁",
    unit: "mil",
    kind: "formula",
    formula: "width / 0.0000254",
    cite: "definition",
  },
  areaSquareMils: {
    label: "Area in square mils",
    symbol: "A",
    unit: "mil²",
    kind: "formula",
    formula: "widthMils * thickness / 0.0000254",
    cite: "definition",
  },
  layerFactor: {
    label: "Factor of the layer",
    symbol: "k",
    unit: "1",
    kind: "lookup",
    table: "IPC-2221A, 6.2",
    key: "layer",
    cite: "ipc-2221",
  },
  current: {
    label: "Current",
    symbol: "I",
    unit: "A",
    kind: "formula",
    formula: "layerFactor * temperatureRise^0.44 * areaSquareMils^0.725",
    cite: "ipc-2221",
  },
};
