/**
 * One core of a conductor: metal area, and resistance per metre at 20 °C.
 *
 * The resistance is looked up where the standard that the size belongs to guarantees one (IEC 60228 classes), and is
 * ρ/A where the size is geometric (AWG, kcmil, bare metal), with 2 % on top for stranding.
 */
import type { Note, Quantities, Step, StepsWith } from "../quantities/steps.js";
import type { OhmsPerMetre } from "../quantities/units.js";
import {
  type ConductorBuild,
  type ConductorChoice,
  foundInTable,
  isClass,
  usualBuild,
} from "./conductor-build.js";
import type { ClassResistance } from "./conductor-classes.js";
import {
  type ConductorMaterial,
  conductorMaterials,
  materialWorking,
} from "./conductor-materials.js";
import {
  type ConductorSection,
  type ConductorSize,
  conductorSection,
  sectionGivens,
  sectionSteps,
  sizeAsGiven,
} from "./conductor-section.js";

interface OneCore {
  readonly choice: ConductorChoice;
  readonly section: ConductorSection;
  /** Of one core, at 20 °C. */
  readonly resistancePerMetre: OhmsPerMetre;
  readonly notes: readonly Note[];
}

export type Conductor = OneCore &
  (
    | { readonly basis: "class table"; readonly found: ClassResistance }
    | { readonly basis: "solid" | "stranded" }
  );

/** A stranded conductor's wires are longer than the conductor. [nec-table-8] */
const STRANDING_FACTOR = 1.02;

/** Between silver (1.6e-8) and nichrome (1.1e-6) with room on both sides: a figure outside is likely in another unit. */
const LEAST_RESISTIVITY = 1e-8;
const GREATEST_RESISTIVITY = 2e-6;

/** @throws {InputError | NoAnswerError} naming `size`, `build` or `material`. */
export function conductor(choice: ConductorChoice): Conductor {
  const { size, material } = choice;
  const section = conductorSection(size);
  const build = choice.build ?? usualBuild(size);
  const notes = notesOn(choice, build);
  if (isClass(build)) {
    const found = foundInTable(choice, build);
    const { resistancePerMetre } = found;
    const basis = "class table";
    return { choice, section, basis, found, resistancePerMetre, notes };
  }
  const solid = material.resistivity / section.area;
  if (build !== "stranded") {
    const resistancePerMetre = solid;
    return { choice, section, basis: "solid", resistancePerMetre, notes };
  }
  const resistancePerMetre = STRANDING_FACTOR * solid;
  return { choice, section, basis: "stranded", resistancePerMetre, notes };
}

function notesOn(
  { size, material, build: asked }: ConductorChoice,
  build: ConductorBuild,
): Note[] {
  const notes: Note[] = [];
  const about = (code: string, text: string, cite: Note["cite"]) =>
    notes.push({ code, field: "resistancePerMetre", text, cite });
  if (size.sizing === "AWG" && asked === undefined)
    about(
      "taken-as-solid",
      "taken as solid; stranded: 2 % more",
      "nec-table-8",
    );
  if (size.sizing === "metric name" && !isClass(build)) {
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
  return notes;
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
    origin === "own" &&
    (resistivity < LEAST_RESISTIVITY || resistivity > GREATEST_RESISTIVITY)
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
    case "class table":
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
  const tabled = core.basis === "class table";
  const figures = materialWorking(
    choice.material,
    tabled
      ? ["temperatureCoefficient"]
      : ["resistivity", "temperatureCoefficient"],
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
