/** Inductance of one loop of a row of cables. */
import { conductorLoopGivens } from "../../conductors/conductor-loop.js";
import {
  conductorPairGivens,
  pairInductance,
  pairInductanceSteps,
} from "../../conductors/conductor-pair.js";
import {
  conductorSection,
  sectionGivens,
  sectionSteps,
  sizeAsGiven,
} from "../../conductors/conductor-section.js";
import { numbersOf } from "../../conductors/conductor.js";
import { figureOf, inWordsOfRow, isGiven } from "../schedule-row.js";
import { CABLE_FIELDS, type CableSetting } from "./cable-setting.js";
import { Givens, type RowMaker } from "../table-row.js";

/** Several cores a pole have less: one pair's is the safe side for stability. */
export function inductanceCell(made: RowMaker, cable: CableSetting): void {
  const { row, size } = cable;
  const length = figureOf(row, "length");
  if (length === undefined) return;
  const perMetre = figureOf(row, "inductancePerMetre");
  if (perMetre !== undefined) {
    if (isGiven(row, "coreSpacing")) made.note("inductance as typed, not by Core spacing");
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
  const found = inWordsOfRow(row, CABLE_FIELDS, () => {
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
