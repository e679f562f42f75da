/** Resistance of one loop of a row of cables, hot and cold: by size, by its maker's ohms per kilometre, or as measured. */
import {
  conductorLoop,
  conductorLoopGivens,
  conductorLoopSteps,
  type ConductorRun,
} from "../../conductors/conductor-loop.js";
import { materialWorking, REFERENCE_TEMPERATURE_C } from "../../conductors/conductor-materials.js";
import { conductorWorking, numbersOf } from "../../conductors/conductor.js";
import { figure } from "../../quantities/figures.js";
import type { Quantity, Step, Steps } from "../../quantities/steps.js";
import type { Celsius, Ohms } from "../../quantities/units.js";
import { worseOf, worseOfPlaces } from "../locations.js";
import {
  figureOf,
  inWordsOfRow,
  isGiven,
  missing,
  neededFigure,
  refused,
  type ScheduleRow,
} from "../schedule-row.js";
import {
  CABLE_FIELDS,
  type CableSetting,
  CABLES,
  CORES,
  PER_POLE,
  hottestStep,
} from "./cable-setting.js";
import { Givens, type RowMaker } from "../table-row.js";

export function resistanceCells(made: RowMaker, cable: CableSetting): void {
  const { row, places } = cable;
  const loop = figureOf(row, "resistance");
  if (loop !== undefined) {
    measuredCells(made, cable, loop);
    return;
  }
  neededFigure(row, "length");
  if (cable.size === undefined && !isGiven(row, "corePerMetre"))
    throw missing(row, "size", " (or Core Ω/km at 20 °C, or Resistance of the loop)");
  const { hotC } = cable;
  if (hotC === undefined) throw missing(row, "conductorC", " (or Insulation, whose limit it is)");
  const coldest = worseOf(places, "coldestC", "min");
  requireHotter(row, hotC, worseOf(places, "hottestC", "max"), "hottest");
  // Or its least resistance were above the greatest.
  requireHotter(row, hotC, coldest, "coldest");
  const hot = loopAt(made, cable, hotC);
  made.noteAll(hot.notes);
  deriveLoop(made, cable, "resistance", hotC);
  if (coldest !== undefined) deriveLoop(made, cable, "leastResistance", coldest);
}

/** @throws {InputError} of a conductor that is at most colder than the air around it. */
function requireHotter(
  row: ScheduleRow,
  hotC: Celsius,
  air: Celsius | undefined,
  which: "hottest" | "coldest",
): void {
  if (air !== undefined && hotC < air)
    throw refused(
      row,
      "conductorC",
      `at least ${figure(air)} °C, the ${which} air where it lies`,
      hotC,
    );
}

/** A loop that was measured holds hot and cold; it is of all cables of the row together. */
function measuredCells(made: RowMaker, { row, loops }: CableSetting, loop: Ohms): void {
  for (const [field, others] of [
    ["corePerMetre", "Core Ω/km at 20 °C"],
    ["size", "Size"],
  ] as const)
    if (isGiven(row, field)) made.note(`Resistance as typed, not by ${others}`);
  if (loops === 1) {
    made.pass("resistance");
    made.pass("leastResistance", "resistance");
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
            formula: loops * 2 === figureOf(row, "cables") ? "loop * cables / 2" : "loop * cables",
            cite: "resistance-law",
          },
        },
        { resistance: loop * loops },
      ),
  );
  made.derive("resistance", loop * loops, working, "resistance");
  made.derive("leastResistance", loop * loops, working, "resistance");
}

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
function loopAt(made: RowMaker, cable: CableSetting, temperatureC: Celsius): LoopFound {
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
  const loop = inWordsOfRow(row, CABLE_FIELDS, () => conductorLoop(run));
  const core = conductorWorking(loop.core);
  return {
    resistance: loop.resistance,
    notes: loop.caveats.filter(({ code }) => code !== "nominal-area"),
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
  const factor = 1 + temperatureCoefficient * (temperatureC - REFERENCE_TEMPERATURE_C);
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
  field: "resistance" | "leastResistance",
  temperatureC: Celsius,
): void {
  const { row, places } = cable;
  const isCold = field === "leastResistance";
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
