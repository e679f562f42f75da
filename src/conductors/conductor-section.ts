/** Metal area of one conductor, from the way its size is named. */
import { InputError, NoAnswerError } from "../quantities/errors.js";
import type { Caveat, Quantities, StepsOf } from "../quantities/steps.js";
import { METRES_PER_INCH, SQUARE_METRES_PER_CIRCULAR_MIL } from "../quantities/units.js";
import type { Metres, SquareMetres } from "../quantities/units.js";
import { STANDARD_SIZES_MM2 } from "./conductor-classes.js";

/** `written` is the name as somebody typed it. */
export type ConductorSize =
  /** Metal area itself, in mm². */
  | { readonly sizing: "bare metal"; readonly areaMm2: number }
  /** Nominal size of a cable's conductor, in mm². */
  | {
      readonly sizing: "metric name";
      readonly nominalMm2: number;
      readonly written: string;
    }
  /** 1/0 is gauge 0, 4/0 is gauge −3. */
  | {
      readonly sizing: "AWG";
      readonly gauge: number;
      readonly written: string;
    }
  | {
      readonly sizing: "kcmil";
      readonly kcmil: number;
      readonly written: string;
    };

/** As somebody typed it: `4 mm²`, `12 AWG`. */
export function sizeText(size: ConductorSize): string {
  return size.sizing === "bare metal" ? `${size.areaMm2} mm²` : size.written;
}

interface BareSection {
  readonly sizing: "bare metal" | "metric name";
  readonly area: SquareMetres;
  readonly caveats: readonly Caveat[];
}

interface GaugeSection {
  readonly sizing: "AWG";
  readonly gauge: number;
  readonly diameter: Metres;
  readonly area: SquareMetres;
  readonly caveats: readonly Caveat[];
}

interface KcmilSection {
  readonly sizing: "kcmil";
  readonly kcmil: number;
  readonly area: SquareMetres;
  readonly caveats: readonly Caveat[];
}

export type ConductorSection = BareSection | GaugeSection | KcmilSection;

/** Diameter of 36 AWG; 4/0 is 92 times as wide, 39 equal ratios away. [astm-b258] */
const DIAMETER_OF_36_AWG: Metres = 0.005 * METRES_PER_INCH;
const WIDEST_GAUGE = -3;
/** The finest size of ASTM B258, from memory. */
const FINEST_GAUGE = 56;

/** Metal area of a size. @throws {InputError | NoAnswerError} naming `size`. */
export function conductorSection(size: ConductorSize): ConductorSection {
  switch (size.sizing) {
    case "bare metal":
      return bareSection(size.areaMm2);
    case "metric name":
      return metricSection(size.nominalMm2, size.written);
    case "AWG":
      return gaugeSection(size.gauge, size.written);
    case "kcmil":
      return kcmilSection(size.kcmil, size.written);
  }
}

function bareSection(areaMm2: number): ConductorSection {
  const area = areaMm2 / 1e6;
  if (!(area > 0 && Number.isFinite(area))) {
    throw new InputError(
      "size",
      areaMm2,
      'above 0 mm² of metal, or text like "2.5 mm²", "12 AWG" or "250 kcmil"',
    );
  }
  const caveat: Caveat = {
    code: "ideal-metal",
    field: "area",
    text: idealMetalText(areaMm2),
    cite: "iec-60228",
  };
  const caveats = isStandardSize(areaMm2) ? [caveat] : [];
  return { sizing: "bare metal", area, caveats };
}

/** A number that is a nominal size too was perhaps meant as one. */
export function idealMetalText(areaMm2: number): string {
  return `ideal metal of ${areaMm2} mm²; for the standard size write "${areaMm2} mm²"`;
}

export function isStandardSize(sizeMm2: number): boolean {
  return STANDARD_SIZES_MM2.includes(sizeMm2);
}

function metricSection(nominalMm2: number, written: string): ConductorSection {
  if (!(nominalMm2 > 0)) throw new InputError("size", written, "above 0 mm²");
  if (!isStandardSize(nominalMm2)) {
    throw new NoAnswerError(
      "size",
      `size ${nominalMm2} mm² is not an IEC 60228 size (${nearestSizes(nominalMm2)}): ` +
        `for bare metal area give the number ${nominalMm2} without a unit`,
    );
  }
  const caveat: Caveat = {
    code: "nominal-area",
    field: "area",
    text: "nominal: IEC 60228 fixes the greatest resistance of this size, not its metal area",
    cite: "iec-60228",
  };
  return { sizing: "metric name", area: nominalMm2 / 1e6, caveats: [caveat] };
}

function nearestSizes(nominalMm2: number): string {
  const below = STANDARD_SIZES_MM2.filter((size) => size < nominalMm2).at(-1);
  const above = STANDARD_SIZES_MM2.find((size) => size > nominalMm2);
  if (below === undefined) return `the smallest is ${above} mm²`;
  if (above === undefined) return `the largest is ${below} mm²`;
  return `the nearest are ${below} and ${above} mm²`;
}

function gaugeSection(gauge: number, written: string): ConductorSection {
  const listed = Number.isInteger(gauge) && gauge >= WIDEST_GAUGE && gauge <= FINEST_GAUGE;
  if (!listed) {
    throw new NoAnswerError(
      "size",
      `size "${written}" is not in ASTM B258: AWG sizes are 4/0 to 1/0 and 1 to ${FINEST_GAUGE}`,
    );
  }
  const diameter = DIAMETER_OF_36_AWG * 92 ** ((36 - gauge) / 39);
  const area = (Math.PI / 4) * diameter ** 2;
  return { sizing: "AWG", gauge, diameter, area, caveats: [] };
}

function kcmilSection(kcmil: number, written: string): ConductorSection {
  const area = kcmil * 1000 * SQUARE_METRES_PER_CIRCULAR_MIL;
  if (!(area > 0 && Number.isFinite(area))) throw new InputError("size", written, "above 0 kcmil");
  return { sizing: "kcmil", kcmil, area, caveats: [] };
}

export function sectionGivens({ sizing }: ConductorSection): Quantities {
  return {
    size:
      sizing === "bare metal"
        ? { label: "Metal area of one conductor", symbol: "S", unit: "mm²" }
        : { label: "Size of one conductor", symbol: "size", unit: "" },
  };
}

/** What `size` is in the givens: a number of mm², or the name as written. */
export function sizeAsGiven(size: ConductorSize): number | string {
  return size.sizing === "bare metal" ? size.areaMm2 : size.written;
}

const AREA = {
  label: "Metal area of one conductor",
  symbol: "A",
  unit: "m²",
  shown: { unit: "mm²", perUnit: 1e6 },
} as const;

const bareSteps: StepsOf<BareSection> = {
  area: {
    ...AREA,
    kind: "formula",
    formula: "size / 1000000",
    cite: "definition",
  },
};

const metricSteps: StepsOf<BareSection> = {
  area: {
    ...AREA,
    label: "Nominal area of one conductor",
    kind: "lookup",
    table: "IEC 60228 nominal sizes",
    key: "size",
    cite: "iec-60228",
  },
};

const gaugeSteps: StepsOf<GaugeSection> = {
  gauge: {
    label: "Gauge number (1/0 is 0, 4/0 is −3)",
    symbol: "n",
    unit: "1",
    kind: "lookup",
    table: "AWG names",
    key: "size",
    cite: "astm-b258",
  },
  diameter: {
    label: "Diameter of the solid wire",
    symbol: "d",
    unit: "m",
    shown: { unit: "mm", perUnit: 1000 },
    kind: "formula",
    formula: "0.000127 * (92)^((36 - gauge) / 39)",
    cite: "astm-b258",
  },
  area: {
    ...AREA,
    kind: "formula",
    formula: "pi / 4 * diameter^2",
    cite: "definition",
  },
};

const kcmilSteps: StepsOf<KcmilSection> = {
  kcmil: {
    label: "Thousand circular mils",
    symbol: "n",
    unit: "kcmil",
    kind: "lookup",
    table: "kcmil names",
    key: "size",
    cite: "definition",
  },
  area: {
    ...AREA,
    kind: "formula",
    formula: "kcmil * 1000 * pi / 4 * (0.0000254)^2",
    cite: "definition",
  },
};

export const sectionSteps = {
  "bare metal": bareSteps,
  "metric name": metricSteps,
  AWG: gaugeSteps,
  kcmil: kcmilSteps,
} as const;
