/** What a row of cables implies: resistance hot and cold, rating by heat, inductance, mass and price. */
import {
  ampacityWorking,
  conductorAmpacity,
} from "../conductors/conductor-ampacity.js";
import type { ConductorBuild } from "../conductors/conductor-build.js";
import {
  conductorLoop,
  conductorLoopGivens,
  conductorLoopSteps,
  type ConductorRun,
} from "../conductors/conductor-loop.js";
import { conductorMass } from "../conductors/conductor-mass.js";
import {
  type ConductorMaterial,
  conductorMaterials,
  materialNamed,
  materialWorking,
  REFERENCE_TEMPERATURE_C,
} from "../conductors/conductor-materials.js";
import {
  conductorPairGivens,
  pairInductance,
  pairInductanceSteps,
} from "../conductors/conductor-pair.js";
import {
  conductorSection,
  type ConductorSize,
  sectionGivens,
  sectionSteps,
  sizeAsGiven,
} from "../conductors/conductor-section.js";
import { conductorWorking, numbersOf } from "../conductors/conductor.js";
import { type InsulationName, insulations } from "../conductors/insulations.js";
import { materialDensity } from "../conductors/material-properties.js";
import { InputError, NoAnswerError } from "../quantities/errors.js";
import { figure } from "../quantities/figures.js";
import type { Quantities, Quantity, Step, Steps } from "../quantities/steps.js";
import type { Celsius, Ohms } from "../quantities/units.js";
import { coresPerPole } from "./columns.js";
import { worseOf, worseOfPlaces } from "./locations.js";
import {
  figureOf,
  inWordsOfRow,
  isGiven,
  neededFigure,
  refused,
  type ScheduleRow,
  sizeOf,
  wordOf,
} from "./schedule-row.js";
import { Givens, type RowMaker } from "./table-row.js";

/** The engine's names of a cable's figures, as the row has them. */
const FIELDS = {
  temperatureC: "conductorC",
  temperatureLimitC: "conductorC",
  ambientC: "locations",
  loadedCores: "cores",
  spacing: "coreSpacing",
  diameter: "size",
} as const;

interface CableSetting {
  readonly row: ScheduleRow;
  readonly places: readonly ScheduleRow[];
  readonly material: ConductorMaterial;
  readonly build: ConductorBuild | undefined;
  readonly size: ConductorSize | undefined;
  readonly cores: number;
  /** Cables of the row, and loops that they make. */
  readonly cables: number;
  readonly loops: number;
  /** Cores side by side of one loop's pole. */
  readonly perPole: number;
  /** Hottest conductor; undefined where neither it nor an insulation is given. */
  readonly hotC: Celsius | undefined;
  readonly insulation: InsulationName | undefined;
}

/** @throws {InputError} in words of the row. */
export function cableCells(
  made: RowMaker,
  places: readonly ScheduleRow[],
): void {
  const cable = settingOf(made.source, places);
  if (isGiven(made.source, "cables") && cable.cables === cable.loops)
    made.pass("inParallel", "cables");
  else made.say("inParallel", cable.loops);
  made.passAll([
    "length",
    "build",
    "corePerMetre",
    "outerDiameter",
    "insulation",
    "surroundings",
    "grouping",
    "ratedCurrent",
    "ratedVoltage",
    "tolerance",
  ]);
  if (isGiven(made.source, "cores")) made.pass("cores");
  else made.say("cores", cable.cores);
  if (cable.size) made.say("size", sizeInWords(cable.size));
  if (cable.size || isGiven(made.source, "corePerMetre"))
    made.say("material", cable.material.name);
  limitCell(made, cable);
  resistanceCells(made, cable);
  ratingCell(made, cable);
  inductanceCell(made, cable);
  massCell(made, cable);
  priceCell(made, cable);
}

function settingOf(
  row: ScheduleRow,
  places: readonly ScheduleRow[],
): CableSetting {
  const cores = figureOf(row, "cores") ?? 2;
  const cables = figureOf(row, "cables") ?? 1;
  const isOdd = cores % 2 === 1;
  if (isOdd && cables % 2 === 1)
    throw refused(
      row,
      isGiven(row, "cores") ? "cores" : "cables",
      `even, half out and half back, or Cables even (${cores} × ${cables} cores)`,
    );
  const insulation = wordOf(row, "insulation") as InsulationName | undefined;
  const build = wordOf(row, "build") as ConductorBuild | undefined;
  const material = wordOf(row, "material");
  return {
    row,
    places,
    cores,
    cables,
    loops: isOdd ? cables / 2 : cables,
    perPole: coresPerPole(cores),
    build,
    size: sizeOf(row),
    material:
      material === undefined
        ? conductorMaterials.copper
        : materialNamed(material),
    insulation,
    hotC: figureOf(row, "conductorC") ?? limitOf(insulation),
  };
}

function limitOf(insulation: InsulationName | undefined): Celsius | undefined {
  return insulation === undefined || insulation === "none"
    ? undefined
    : insulations[insulation].usualLimitC;
}

/** As text: a bare number would be metal area. */
function sizeInWords(size: ConductorSize): string {
  return size.sizing === "bare metal" ? String(size.areaMm2) : size.written;
}

const LIMIT: Step = {
  label: "Hottest conductor, the usual limit of its insulation",
  symbol: "θ",
  unit: "°C",
  kind: "lookup",
  table: "Insulations",
  key: "insulation",
  cite: "insulation-limits",
};

function limitCell(made: RowMaker, { row, hotC }: CableSetting): void {
  if (isGiven(row, "conductorC")) {
    made.pass("conductorC");
    return;
  }
  if (hotC === undefined) return;
  const working = made.work(() =>
    new Givens()
      .add("insulation", INSULATION, row, "insulation")
      .working(
        `${row.name}: hottest conductor`,
        { temperatureC: LIMIT },
        { temperatureC: hotC },
      ),
  );
  made.derive("conductorC", hotC, working, "temperatureC");
  made.note(
    `at ${hotC} °C, the usual limit of ${String(wordOf(row, "insulation"))}`,
  );
}

function resistanceCells(made: RowMaker, cable: CableSetting): void {
  const { row, places } = cable;
  const loop = figureOf(row, "resistance");
  if (loop !== undefined) {
    measuredCells(made, cable, loop);
    return;
  }
  neededFigure(row, "length");
  if (cable.size === undefined && !isGiven(row, "corePerMetre"))
    throw refused(
      row,
      "size",
      "given (or Core Ω/km at 20 °C, or Resistance of the loop)",
    );
  const { hotC } = cable;
  if (hotC === undefined)
    throw refused(
      row,
      "conductorC",
      "given (or Insulation, whose limit it is)",
    );
  const hottest = worseOf(places, "hottestC", "max");
  if (hottest !== undefined && hotC < hottest)
    throw refused(
      row,
      "conductorC",
      `at least ${figure(hottest)} °C, the hottest air where it lies`,
      hotC,
    );
  const hot = loopAt(made, cable, hotC);
  made.noteAll(hot.notes);
  deriveLoop(made, cable, "resistance", hotC);
  const coldest = worseOf(places, "coldestC", "min");
  if (coldest !== undefined) deriveLoop(made, cable, "resistanceCold", coldest);
}

/** A loop that was measured holds hot and cold; it is of all cables of the row together. */
function measuredCells(
  made: RowMaker,
  { row, loops }: CableSetting,
  loop: Ohms,
): void {
  for (const [field, others] of [
    ["corePerMetre", "Core Ω/km at 20 °C"],
    ["size", "Size"],
  ] as const)
    if (isGiven(row, field)) made.note(`Resistance as typed, not by ${others}`);
  if (loops === 1) {
    made.pass("resistance");
    made.pass("resistanceCold", "resistance");
    return;
  }
  const working = made.work(() =>
    new Givens()
      .add(
        "loop",
        { label: "Loop of all cables, as typed", symbol: "R", unit: "Ω" },
        row,
        "resistance",
      )
      .add("cables", CABLES, row, "cables", loops)
      .working(
        `${row.name}: resistance of one loop`,
        {
          resistance: {
            label: "Resistance of one of its loops",
            symbol: "R₁",
            unit: "Ω",
            kind: "formula",
            formula:
              loops * 2 === figureOf(row, "cables")
                ? "loop * cables / 2"
                : "loop * cables",
            cite: "resistance-law",
          },
        },
        { resistance: loop * loops },
      ),
  );
  made.derive("resistance", loop * loops, working, "resistance");
  made.derive("resistanceCold", loop * loops, working, "resistance");
}

const CABLES: Quantity = {
  label: "Cables side by side",
  symbol: "n",
  unit: "1",
};

interface LoopFound {
  readonly resistance: Ohms;
  readonly notes: readonly {
    readonly code: string;
    readonly field: string;
    readonly text: string;
    readonly cite: Step["cite"];
  }[];
  readonly steps: Steps;
  readonly givens: Readonly<Record<string, Quantity>>;
  readonly values: Readonly<Record<string, number | string>>;
}

/** Ω/km wins over size. */
function loopAt(
  made: RowMaker,
  cable: CableSetting,
  temperatureC: Celsius,
): LoopFound {
  const { row } = cable;
  const perMetre = figureOf(row, "corePerMetre");
  if (perMetre !== undefined) {
    if (cable.size) made.note("resistance by Core Ω/km at 20 °C, not by Size");
    return loopByMaker(cable, perMetre, temperatureC);
  }
  return loopBySize(cable, temperatureC);
}

function loopBySize(cable: CableSetting, temperatureC: Celsius): LoopFound {
  const { row, size, material, build, perPole } = cable;
  const run: ConductorRun = {
    size: size!,
    material,
    build,
    length: neededFigure(row, "length"),
    conductors: 2,
    parallel: perPole,
    temperatureC,
  };
  const loop = inWordsOfRow(row, FIELDS, () => conductorLoop(run));
  const core = conductorWorking(loop.core);
  return {
    resistance: loop.resistance,
    notes: loop.notes.filter(({ code }) => code !== "nominal-area"),
    givens: { ...core.givens, ...conductorLoopGivens },
    steps: { ...core.steps, ...conductorLoopSteps },
    values: { ...core.values, ...numbersOf(run), ...numbersOf(loop) },
  };
}

function loopByMaker(
  cable: CableSetting,
  resistancePerMetre: number,
  temperatureC: Celsius,
): LoopFound {
  const { row, material, perPole: parallel } = cable;
  const length = neededFigure(row, "length");
  const { temperatureCoefficient } = material;
  const factor =
    1 + temperatureCoefficient * (temperatureC - REFERENCE_TEMPERATURE_C);
  if (!(factor > 0))
    throw refused(
      row,
      "conductorC",
      `where the straight-line law leaves ${material.name} a resistance`,
      temperatureC,
    );
  const loopLength = 2 * length;
  const referenceResistance = (resistancePerMetre * loopLength) / parallel;
  const alpha = materialWorking(material, ["temperatureCoefficient"]);
  return {
    resistance: referenceResistance * factor,
    notes: [],
    givens: {
      ...alpha.givens,
      ...conductorLoopGivens,
      resistancePerMetre: {
        label: "Resistance per metre of one core at 20 °C, from its maker",
        symbol: "R′₂₀",
        unit: "Ω/m",
        shown: { unit: "Ω/km", perUnit: 1000 },
      },
    },
    steps: { ...alpha.steps, ...conductorLoopSteps },
    values: {
      material: material.name,
      temperatureCoefficient,
      resistancePerMetre,
      length,
      conductors: 2,
      parallel,
      temperatureC,
      loopLength,
      referenceResistance,
      temperatureFactor: factor,
      resistance: referenceResistance * factor,
    },
  };
}

function deriveLoop(
  made: RowMaker,
  cable: CableSetting,
  field: "resistance" | "resistanceCold",
  temperatureC: Celsius,
): void {
  const { row, places } = cable;
  const isCold = field === "resistanceCold";
  const found = loopAt(made, cable, temperatureC);
  const working = made.work(() => {
    const givens = new Givens()
      .link("length", row, "length")
      .link("size", row, "size")
      .link("material", row, "material")
      .link("resistancePerMetre", row, "corePerMetre")
      .link("cores", row, "cores");
    Object.assign(givens.quantities, found.givens, { cores: CORES });
    delete givens.quantities["parallel"];
    const temperature = isCold
      ? worseOfPlaces(givens, places, "coldestC", "temperatureC", COLD)
      : hottestStep(givens, row, "temperatureC");
    return givens.working(
      `${row.name}: resistance ${isCold ? "cold" : "hot"}`,
      { ...temperature, parallel: PER_POLE, ...found.steps },
      { ...found.values, temperatureC, cores: cable.cores },
    );
  });
  made.derive(field, found.resistance, working, "resistance");
}

const COLD: Quantity = {
  label: "Conductor, as cold as the air",
  symbol: "θ",
  unit: "°C",
};

const CORES: Quantity = {
  label: "Cores that carry current in each cable",
  symbol: "c",
  unit: "1",
};

/** Looked up, since an odd count goes one way as a whole: what was found for one count holds for no other. */
const PER_POLE: Step = {
  label: "Cores of one pole: half of them, of an odd count all",
  symbol: "m",
  unit: "1",
  kind: "lookup",
  table: "Cores of one pole",
  key: "cores",
  cite: "definition",
};

/** As typed, which is then a given, or the limit of the insulation. */
function hottestStep(
  givens: Givens,
  row: ScheduleRow,
  name: string,
): Readonly<Record<string, Step>> {
  if (isGiven(row, "conductorC")) {
    givens.link(name, row, "conductorC");
    return {};
  }
  delete givens.quantities[name];
  givens.add("insulation", INSULATION, row, "insulation");
  return { [name]: LIMIT };
}

const INSULATION: Quantity = {
  label: "Insulation",
  symbol: "insulation",
  unit: "",
};

/** Only where all is given that a balance needs; a cable elsewhere than in still air has none. */
function ratingCell(made: RowMaker, cable: CableSetting): void {
  const { row, places, size, insulation, hotC, perPole, cores } = cable;
  const outerDiameter = figureOf(row, "outerDiameter");
  const ambientC = worseOf(places, "hottestC", "max");
  const surroundings = wordOf(row, "surroundings") ?? "still air";
  if (
    isGiven(row, "ratedCurrent") ||
    size === undefined ||
    insulation === undefined ||
    outerDiameter === undefined ||
    hotC === undefined ||
    ambientC === undefined ||
    surroundings !== "still air"
  )
    return;
  const altitude = worseOf(places, "altitude", "max");
  const limited = {
    size,
    material: cable.material,
    build: cable.build,
    ambientC,
    outerDiameter,
    loadedCores: cores,
    insulation,
    grouping: figureOf(row, "grouping") ?? 1,
    altitude: altitude ?? 0,
    sun: worseOf(places, "sun", "max") ?? 0,
    temperatureLimitC: Math.min(hotC, limitOf(insulation) ?? hotC),
  };
  let found;
  try {
    found = conductorAmpacity(limited);
  } catch (error) {
    if (error instanceof NoAnswerError) {
      made.note(`no rating: ${error.message}`);
      return;
    }
    if (!(error instanceof InputError)) throw error;
    const fields: Readonly<Record<string, string>> = FIELDS;
    throw refused(row, fields[error.field] ?? error.field, error.requirement);
  }
  const ratedCurrent = found.current * perPole;
  const working = made.work(() => {
    const balance = ampacityWorking(limited, found);
    const givens = new Givens()
      .link("outerDiameter", row, "outerDiameter")
      .link("insulation", row, "insulation")
      .link("loadedCores", row, "cores")
      .link("grouping", row, "grouping")
      .link("size", row, "size")
      .link("material", row, "material");
    Object.assign(givens.quantities, balance.givens);
    const air = (field: "hottestC" | "altitude" | "sun", name: string) =>
      worseOfPlaces(givens, places, field, name, quantityOf(balance, name));
    const steps = {
      ...air("hottestC", "ambientC"),
      ...air("altitude", "altitude"),
      ...air("sun", "sun"),
      ...limitSteps(givens, cable, quantityOf(balance, "temperatureLimitC")),
      ...balance.steps,
      perPole: { ...PER_POLE, key: "loadedCores" },
      ratedCurrent: RATED,
    };
    const { temperatureLimitC } = limited;
    return givens.working(`${row.name}: rating by its heat balance`, steps, {
      ...balance.values,
      ...(insulation !== "none" && { insulationLimitC: limitOf(insulation)! }),
      temperatureLimitC,
      perPole,
      ratedCurrent,
    });
  });
  made.derive("ratedCurrent", ratedCurrent, working, "ratedCurrent");
  made.note(
    `Rated A from its heat balance at ${figure(limited.temperatureLimitC)} °C in still air of ${figure(ambientC)} °C${altitude === undefined ? ", at sea level" : ""}${limited.grouping === 1 ? ", alone" : ""}`,
  );
}

const RATED: Step = {
  label: "Current of one cable",
  symbol: "Ir",
  unit: "A",
  kind: "formula",
  formula: "current * perPole",
  cite: "definition",
};

function quantityOf(
  { givens }: { readonly givens: Quantities },
  name: string,
): Quantity {
  const { label, symbol, unit } = givens[name]!;
  return { label, symbol, unit };
}

/** The lesser of what was typed and what the insulation allows. */
function limitSteps(
  givens: Givens,
  { row, insulation }: CableSetting,
  described: Quantity,
): Steps {
  if (insulation === "none" || !isGiven(row, "conductorC"))
    return hottestStep(givens, row, "temperatureLimitC");
  delete givens.quantities["temperatureLimitC"];
  givens
    .add("insulation", INSULATION, row, "insulation")
    .add(
      "conductorC",
      { label: "Conductor at most, as typed", symbol: "θc", unit: "°C" },
      row,
      "conductorC",
    );
  return {
    insulationLimitC: { ...LIMIT, label: "Usual limit of the insulation" },
    temperatureLimitC: {
      ...described,
      kind: "formula",
      formula: "min(conductorC, insulationLimitC)",
      cite: "definition",
    },
  };
}

/** Several cores a pole have less: one pair's is the safe side for stability. */
function inductanceCell(made: RowMaker, cable: CableSetting): void {
  const { row, size } = cable;
  const length = figureOf(row, "length");
  if (length === undefined) return;
  const perMetre = figureOf(row, "inductancePerMetre");
  if (perMetre !== undefined) {
    if (isGiven(row, "coreSpacing"))
      made.note("inductance as typed, not by Core spacing");
    const working = made.work(() =>
      new Givens()
        .add(
          "perMetre",
          {
            label: "Inductance of a loop, for each metre of route",
            symbol: "L′",
            unit: "H/m",
            shown: { unit: "µH/m", perUnit: 1e6 },
          },
          row,
          "inductancePerMetre",
        )
        .add("length", conductorLoopGivens.length, row, "length")
        .working(
          `${row.name}: inductance`,
          {
            inductance: {
              label: "Inductance of the loop",
              symbol: "L",
              unit: "H",
              shown: { unit: "µH", perUnit: 1e6 },
              kind: "formula",
              formula: "perMetre * length",
              cite: "definition",
            },
          },
          { inductance: perMetre * length },
        ),
    );
    made.derive("inductance", perMetre * length, working, "inductance");
    return;
  }
  const spacing = figureOf(row, "coreSpacing");
  if (spacing === undefined || size === undefined) return;
  const found = inWordsOfRow(row, FIELDS, () => {
    const section = conductorSection(size);
    const diameter = 2 * Math.sqrt(section.area / Math.PI);
    const pair = { length, diameter, spacing };
    return { section, pair, ...pairInductance(pair) };
  });
  const working = made.work(() => {
    const { section, pair } = found;
    const givens = new Givens()
      .add("length", conductorPairGivens.length, row, "length")
      .add("spacing", conductorPairGivens.spacing, row, "coreSpacing")
      .link("size", row, "size");
    Object.assign(givens.quantities, sectionGivens(section));
    return givens.working(
      `${row.name}: inductance of a pair of its cores`,
      {
        ...sectionSteps[section.sizing],
        diameter: {
          ...conductorPairGivens.diameter,
          kind: "formula",
          formula: "2 * sqrt(area / pi)",
          cite: "definition",
        },
        ...pairInductanceSteps,
      },
      {
        size: sizeAsGiven(size),
        ...numbersOf(section),
        ...pair,
        radius: found.radius,
        inductance: found.inductance,
      },
    );
  });
  made.derive("inductance", found.inductance, working, "inductance");
}

const LENGTH = conductorLoopGivens.length;

function massCell(made: RowMaker, cable: CableSetting): void {
  const { row, size, material, cables, cores } = cable;
  const length = figureOf(row, "length");
  if (length === undefined) return;
  const perMetre = figureOf(row, "massPerMetre");
  if (perMetre !== undefined) {
    const mass = perMetre * length * cables;
    const working = made.work(() =>
      new Givens()
        .add(
          "perMetre",
          { label: "Mass of one cable, a metre", symbol: "m′", unit: "kg/m" },
          row,
          "massPerMetre",
        )
        .add("length", LENGTH, row, "length")
        .add("cables", CABLES, row, "cables", 1)
        .working(
          `${row.name}: mass`,
          { mass: massStep("perMetre * length * cables") },
          { mass },
        ),
    );
    made.derive("mass", mass, working, "mass");
    return;
  }
  if (size === undefined) return;
  const metal = inWordsOfRow(row, FIELDS, () =>
    conductorMass({
      size,
      material,
      length,
      conductors: 2,
      parallel: (cores * cables) / 2,
      insulation: 0,
    }),
  );
  const working = made.work(() => {
    const givens = new Givens()
      .add("length", LENGTH, row, "length")
      .add("cables", CABLES, row, "cables", 1)
      .add("cores", CORES, row, "cores", 2)
      .link("size", row, "size")
      .link("material", row, "material");
    Object.assign(givens.quantities, sectionGivens(metal.section), {
      material: { label: "Material", symbol: "material", unit: "" },
    });
    return givens.working(
      `${row.name}: mass of its metal`,
      {
        ...sectionSteps[metal.section.sizing],
        density: {
          label: `Density of ${material.name}`,
          symbol: "γ",
          unit: "kg/m³",
          kind: "lookup",
          table: "densities of conductor metals",
          key: "material",
          cite: materialDensity(material).cite,
        },
        mass: massStep("cores * cables * area * length * density"),
      },
      {
        size: sizeAsGiven(size),
        material: material.name,
        ...numbersOf(metal.section),
        density: metal.density,
        mass: metal.mass,
      },
    );
  });
  made.derive("mass", metal.mass, working, "mass");
  made.note("Mass of the metal only");
}

function massStep(formula: string): Step {
  return {
    label: "Mass of the row",
    symbol: "M",
    unit: "kg",
    kind: "formula",
    formula,
    cite: "definition",
  };
}

function priceCell(made: RowMaker, { row, cables }: CableSetting): void {
  const length = figureOf(row, "length");
  const perMetre = figureOf(row, "pricePerMetre");
  if (length === undefined || perMetre === undefined) return;
  const price = perMetre * length * cables;
  const working = made.work(() =>
    new Givens()
      .add(
        "perMetre",
        { label: "Price of one cable, a metre", symbol: "p′", unit: "1" },
        row,
        "pricePerMetre",
      )
      .add("length", LENGTH, row, "length")
      .add("cables", CABLES, row, "cables", 1)
      .working(
        `${row.name}: price`,
        {
          price: {
            label: "Price of the row",
            symbol: "p",
            unit: "1",
            kind: "formula",
            formula: "perMetre * length * cables",
            cite: "definition",
          },
        },
        { price },
      ),
  );
  made.derive("price", price, working, "price");
}
