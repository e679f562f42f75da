/**
 * One core of a conductor: metal area, and resistance per metre at 20 °C.
 *
 * The resistance is looked up where a table prints the greatest one of the size (IEC 60228 classes, tin-plated wire by
 * AWG), and is ρ/A where the size is geometric (AWG, kcmil, bare metal), with 2 % on top for stranding: then it is the
 * least that such a size can have, and a note says what a table has for it.
 */
import type { Caveat, Quantities, Step, StepsWith } from "../quantities/steps.js";
import type { OhmsPerMetre } from "../quantities/units.js";
import {
  type ConductorBuild,
  type ConductorChoice,
  foundInTable,
  isTabled,
  tabledMaterial,
  usualBuild,
} from "./conductor-build.js";
import { type TabledResistance, tabledInClass } from "./conductor-classes.js";
import {
  type ConductorMaterial,
  conductorMaterials,
  materialWorking,
} from "./conductor-materials.js";
import {
  type ConductorSection,
  type ConductorSize,
  conductorSection,
  idealMetalText,
  isStandardSize,
  sectionGivens,
  sectionSteps,
  sizeAsGiven,
} from "./conductor-section.js";
import { TINNED_GAUGES, tinnedWire } from "./tinned-wire.js";

interface OneCore {
  readonly choice: ConductorChoice;
  readonly section: ConductorSection;
  /** Resistance of one core at 20 °C. */
  readonly resistancePerMetre: OhmsPerMetre;
  readonly caveats: readonly Caveat[];
}

export type Conductor = OneCore &
  (
    | { readonly basis: "table"; readonly found: TabledResistance }
    | { readonly basis: "solid" | "stranded" }
  );

/** A stranded conductor's wires are longer than the conductor. [nec-table-8] */
const STRANDING_FACTOR = 1.02;

/** Part of a printed figure below which its last digit is not worth a word. */
const NOTED_ROUNDING = 0.01;

/** Between silver (1.6e-8) and nichrome (1.1e-6) with room on both sides: a figure outside is likely in another unit. */
const LEAST_RESISTIVITY = 1e-8;
const GREATEST_RESISTIVITY = 2e-6;

/**
 * Resistance of one core at 20 °C, from a table of its build or from its metal.
 * @throws {InputError | NoAnswerError} naming `size`, `build` or `material`.
 */
export function conductor(choice: ConductorChoice): Conductor {
  const { size, material } = choice;
  const section = conductorSection(size);
  const build = choice.build ?? usualBuild(size);
  const caveats = notesOn(choice, build);
  if (isTabled(build)) {
    const found = foundInTable(choice, build);
    const { resistancePerMetre } = found;
    const basis = "table";
    return { choice, section, basis, found, resistancePerMetre, caveats };
  }
  const solid = material.resistivity / section.area;
  if (build !== "stranded") {
    const resistancePerMetre = solid;
    return { choice, section, basis: "solid", resistancePerMetre, caveats };
  }
  const resistancePerMetre = STRANDING_FACTOR * solid;
  return { choice, section, basis: "stranded", resistancePerMetre, caveats };
}

function notesOn(choice: ConductorChoice, build: ConductorBuild): Caveat[] {
  const { size, material } = choice;
  const caveats = [...bestCaseCaveats(choice), ...tinnedWireCaveats(choice, build)];
  const about = (code: string, text: string, cite: Caveat["cite"]) =>
    caveats.push({ code, field: "resistancePerMetre", text, cite });
  if (size.sizing === "metric name" && !isTabled(build)) {
    about(
      "nominal-area",
      "nominal size taken as metal area: a cable of this size may have less metal, up to the greatest resistance of its class",
      "iec-60228",
    );
  }
  if (isSpecialClass1(size, material, build)) {
    about(
      "special-cables",
      "solid copper of 25 mm² and more is for particular types of cable, not for general use",
      "iec-60228",
    );
  }
  if (isOddResistivity(material)) {
    about(
      "unlike-a-metal",
      `${material.resistivity} Ω·m is unlike any conductor metal (1e-8 to 2e-6 Ω·m): is it in another unit?`,
      "common-practice",
    );
  }
  return caveats;
}

/** How much more resistance a size may have that was taken as ideal metal unasked. */
function bestCaseCaveats({ size, material, build }: ConductorChoice): Caveat[] {
  const field = "resistancePerMetre";
  if (size.sizing === "AWG" && build === undefined)
    return [
      {
        code: "taken-as-solid",
        field,
        text: `taken as solid, the best case; stranded: 2 % more${material === conductorMaterials.copper ? tinnedText(size.gauge) : ""}`,
        cite: "nec-table-8",
      },
    ];
  if (size.sizing !== "bare metal" || build === "geometric") return [];
  const tabled = tabledMaterial(material);
  const { areaMm2 } = size;
  if (!tabled || !isStandardSize(areaMm2)) return [];
  const found = tabledInClass(tabled, "class 2", areaMm2);
  if (!found) return [];
  const solid = material.resistivity / conductorSection(size).area;
  const taken = build === "stranded" ? STRANDING_FACTOR * solid : solid;
  return [
    {
      code: "ideal-metal",
      field,
      text: `${idealMetalText(areaMm2)} (class 2: up to ${percentAbove(found.resistancePerMetre / taken)} % more resistance)`,
      cite: found.cite,
    },
  ];
}

function tinnedText(gauge: number): string {
  const above = tinnedAboveSolid(gauge);
  return above !== undefined && above > STRANDING_FACTOR
    ? `, stranded tinned: up to ${percentAbove(above)} % more`
    : `, stranded tinned of other gauges: up to ${percentAbove(MOST_ABOVE_SOLID)} % more`;
}

/** Resistance of tin-plated stranded wire ÷ of solid copper of the gauge; undefined where the table has no row for it. */
function tinnedAboveSolid(gauge: number): number | undefined {
  const found = tinnedWire(gauge);
  const { area } = conductorSection({ sizing: "AWG", gauge, written: "" });
  const { resistivity } = conductorMaterials.copper;
  return found && (found.resistancePerMetre * area) / resistivity;
}

const MOST_ABOVE_SOLID = Math.max(...TINNED_GAUGES.map((gauge) => tinnedAboveSolid(gauge) ?? 1));

/** Rounded up, so that "up to" holds. */
function percentAbove(ratio: number): number {
  return Math.ceil(100 * (ratio - 1));
}

/** Where the table's figure is not the greatest that a stranded wire of the gauge can have. */
function tinnedWireCaveats({ size }: ConductorChoice, build: ConductorBuild): Caveat[] {
  if (size.sizing !== "AWG" || build !== "stranded tinned") return [];
  const { gauge } = size;
  const rounding = tinnedWire(gauge)?.rounding ?? 0;
  const stranded = STRANDING_FACTOR / (tinnedAboveSolid(gauge) ?? 1);
  const about = (code: string, text: string): Caveat => ({
    code,
    field: "resistancePerMetre",
    text,
    cite: "faa-wire-table",
  });
  return [
    ...(rounding > NOTED_ROUNDING
      ? [
          about(
            "coarse-table",
            `printed to 0.01 Ω per 1000 ft only: up to ${percentAbove(1 + rounding)} % more`,
          ),
        ]
      : []),
    ...(stranded > 1
      ? [
          about(
            "more-metal",
            `the table's wire has more metal than this gauge: other stranded wire of it has about ${percentAbove(stranded)} % more resistance (build "stranded")`,
          ),
        ]
      : []),
  ];
}

function isSpecialClass1(
  size: ConductorSize,
  material: ConductorMaterial,
  build: ConductorBuild,
): boolean {
  return (
    build === "class 1" &&
    size.sizing === "metric name" &&
    size.nominalMm2 >= 25 &&
    material === conductorMaterials.copper
  );
}

function isOddResistivity({ origin, resistivity }: ConductorMaterial): boolean {
  return (
    origin === "own" && (resistivity < LEAST_RESISTIVITY || resistivity > GREATEST_RESISTIVITY)
  );
}

const PER_METRE = {
  label: "Resistance per metre of one core at 20 °C",
  symbol: "R′₂₀",
  unit: "Ω/m",
  shown: { unit: "Ω/km", perUnit: 1000 },
} as const;

function perMetreStep(core: Conductor): Step {
  switch (core.basis) {
    case "table":
      return {
        ...PER_METRE,
        label: "Greatest resistance per metre of one core at 20 °C",
        kind: "lookup",
        table: core.found.table,
        key: "size",
        cite: core.found.cite,
      };
    case "solid":
      return {
        ...PER_METRE,
        kind: "formula",
        formula: "resistivity / area",
        cite: "resistance-law",
      };
    case "stranded":
      return {
        ...PER_METRE,
        kind: "formula",
        formula: "1.02 * resistivity / area",
        cite: "nec-table-8",
      };
  }
}

export interface ConductorWorking<Shown extends string = never> {
  readonly givens: Quantities;
  readonly steps: StepsWith<Shown>;
  readonly values: Readonly<Record<string, number | string>>;
}

/** How the core's resistance comes about: by area and resistivity, or out of a class table, which needs neither. */
export function conductorWorking(core: Conductor): ConductorWorking {
  const { choice, section, resistancePerMetre } = core;
  const { resistivity, temperatureCoefficient, name } = choice.material;
  const tabled = core.basis === "table";
  const figures = materialWorking(
    choice.material,
    tabled ? ["temperatureCoefficient"] : ["resistivity", "temperatureCoefficient"],
  );
  return {
    givens: { ...sectionGivens(section), ...figures.givens },
    steps: {
      ...sectionSteps[section.sizing],
      ...figures.steps,
      resistancePerMetre: perMetreStep(core),
    },
    values: {
      size: sizeAsGiven(choice.size),
      material: name,
      ...numbersOf(section),
      resistivity,
      temperatureCoefficient,
      resistancePerMetre,
    },
  };
}

export function numbersOf(record: object): Record<string, number> {
  return Object.fromEntries(
    Object.entries(record).filter(
      (entry): entry is [string, number] => typeof entry[1] === "number",
    ),
  );
}
