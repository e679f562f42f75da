/** What insulations do to heat: how they conduct it, how their surface radiates it, and how hot they are usually run. */
import type { CitationId } from "../quantities/citations.js";
import type { Celsius } from "../quantities/units.js";
import { type ConductorMaterial, conductorMaterials } from "./conductor-materials.js";

interface Figure {
  readonly value: number;
  readonly cite: CitationId;
}

interface Insulation {
  /** W/(m·K) */
  readonly conductivity: Figure;
  readonly emissivity: Figure;
  readonly usualLimitC: Celsius;
}

export const insulations = {
  PVC: insulation([1 / 5, "iec-60287-resistivity"], 0.91, 70),
  XLPE: insulation([1 / 3.5, "iec-60287-resistivity"], 0.91, 90),
  PTFE: insulation([0.25, "ptfe-conductivity"], 0.85, 200),
  silicone: insulation([0.2, "silicone-conductivity"], 0.86, 180),
} as const satisfies Record<string, Insulation>;

function insulation(
  [value, cite]: readonly [number, CitationId],
  emissivity: number,
  usualLimitC: Celsius,
): Insulation {
  return {
    conductivity: { value, cite },
    emissivity: { value: emissivity, cite: "surface-emissivity" },
    usualLimitC,
  };
}

export type InsulationName = "none" | keyof typeof insulations;

export const INSULATION_NAMES = [
  "none",
  "PVC",
  "XLPE",
  "PTFE",
  "silicone",
] as const satisfies readonly InsulationName[];

/** Emissivity of bare metal that has been in use: bright metal radiates less. */
export function bareEmissivity(material: ConductorMaterial): Figure {
  if (material.origin === "own") return { value: 0.2, cite: "unknown-metal-emissivity" };
  return material === conductorMaterials.aluminium
    ? { value: 0.2, cite: "aluminium-emissivity" }
    : { value: 0.4, cite: "copper-bar-emissivity" };
}
