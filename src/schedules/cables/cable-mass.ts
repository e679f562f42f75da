/** Mass and price of all cables of a row. */
import { conductorLoopGivens } from "../../conductors/conductor-loop.js";
import { conductorMass } from "../../conductors/conductor-mass.js";
import { sectionGivens, sectionSteps, sizeAsGiven } from "../../conductors/conductor-section.js";
import { numbersOf } from "../../conductors/conductor.js";
import { materialDensity } from "../../conductors/material-properties.js";
import type { Step } from "../../quantities/steps.js";
import { figureOf, inWordsOfRow } from "../schedule-row.js";
import { CABLE_FIELDS, type CableSetting, CABLES, CORES } from "./cable-setting.js";
import { Givens, type RowMaker } from "../table-row.js";

const LENGTH = conductorLoopGivens.length;

export function massCell(made: RowMaker, cable: CableSetting): void {
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
        .working(`${row.name}: mass`, { mass: massStep("perMetre * length * cables") }, { mass }),
    );
    made.derive("mass", mass, working, "mass");
    return;
  }
  if (size === undefined) return;
  const metal = inWordsOfRow(row, CABLE_FIELDS, () =>
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

export function priceCell(made: RowMaker, { row, cables }: CableSetting): void {
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
