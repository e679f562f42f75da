/** Results that rest on more than voltages and currents: the mass and the price of a feed, and how hot a cable gets. */
import { cableSetting } from "../conductors/heat-balance.js";
import { conductorTemperature, type LoadedCable } from "../conductors/conductor-temperature.js";
import { summedFigure } from "../judgement/checks/summed-figure.js";
import { loadedCable, missingForHeat, otherSurroundings } from "../judgement/loaded-cable.js";
import type { CompiledFeed } from "../network/compiled-feed.js";
import { KINDS, type SummedField } from "../network/row-kinds.js";
import { InputError, NoAnswerError } from "../quantities/errors.js";
import { headerText, TABLE_COLUMNS } from "../schedules/columns.js";
import { detailsAt, isEntered, type MovableFeed } from "./movable-feed.js";
import { type OwnPartial, type QuantityFlows } from "./quantity-flows.js";

/** Of all rows that have the figure, or of one of them. @throws {InputError} for an item that has none. */
export function summedFlows(
  field: SummedField,
  movable: MovableFeed,
  row: number | undefined,
): QuantityFlows {
  const { rows: asked, missing } = summedFigure(movable, field);
  const known = asked.filter((one) => !missing.includes(one));
  if (row !== undefined && !known.includes(row))
    throw new InputError("item", movable.columns.item[row]!, `an item with a ${field}`);
  const rows = row === undefined ? known : [row];
  return {
    value: () =>
      rows.length === 0
        ? Number.NaN
        : rows.reduce((sum, one) => sum + movable.figures[field][one]!, 0),
    addPartials: () => undefined,
    ownPartials: () => rows.map((one) => ({ row: one, figure: field, slope: 1 })),
  };
}

/**
 * Temperature that the conductor of a cable settles at in still air, in the hottest air of its locations.
 * @throws {InputError} for an item that is no cable, or lacks what a heat balance needs.
 */
export function temperatureFlows(movable: MovableFeed, row: number): QuantityFlows {
  requireHeatFigures(movable, row);
  const cableAt = ({ columns, state }: CompiledFeed) =>
    loadedCable(
      detailsAt(movable, row),
      columns.figures.inParallel[row]!,
      state.outputCurrent[row]!,
    );
  return {
    value: (feed) => temperatureOf(cableAt(feed), movable.columns.item[row]!),
    addPartials(feed, partials) {
      const cable = cableAt(feed);
      // Of no current the heat goes with the square: none is added.
      if (!(cable.current > 0)) return;
      const part = cable.current / feed.state.outputCurrent[row]!;
      partials.outputCurrent[row]! += part * slopeWith(cable, "current");
    },
    ownPartials(feed) {
      const cable = cableAt(feed);
      return HEAT_FIGURES.filter(([figure]) => isEntered(movable, row, figure)).map(
        ([figure, field]): OwnPartial => ({ row, figure, slope: slopeWith(cable, field) }),
      );
    },
    check: () => {
      cableSetting(loadedCable(detailsAt(movable, row), 1, 0));
    },
  };
}

/** As it is typed, and as the heat balance calls it. */
const HEAT_FIGURES = [
  ["outerDiameter", "outerDiameter"],
  ["grouping", "grouping"],
  ["hottestC", "ambientC"],
  ["altitude", "altitude"],
  ["sun", "sun"],
] as const;

function requireHeatFigures({ columns, details }: MovableFeed, row: number): void {
  const item = columns.item[row]!;
  if (KINDS[columns.kind[row]!]!.builtOf !== "conductors")
    throw new InputError("item", item, "a cable");
  const elsewhere = otherSurroundings(details[row]!);
  if (elsewhere !== undefined)
    throw new InputError(
      "item",
      item,
      `a cable in still air: this one lies in ${elsewhere}, where its heat is not reckoned`,
    );
  const missing = missingForHeat(details[row]!).map((field) =>
    headerText(TABLE_COLUMNS.find((column) => column.field === field)!),
  );
  if (missing.length > 0) throw new InputError("item", item, `a cable with ${missing.join(", ")}`);
}

/** Without a current it is as warm as the air. @throws {NoAnswerError} naming the item. */
function temperatureOf(cable: LoadedCable, item: string): number {
  if (!(cable.current > 0)) return cable.ambientC;
  try {
    return conductorTemperature(cable).conductorTemperatureC;
  } catch (error) {
    if (!(error instanceof NoAnswerError)) throw error;
    throw new NoAnswerError("quantity", `${item}: ${error.message}`);
  }
}

type HeatField = "current" | (typeof HEAT_FIGURES)[number][1];

/** Small enough for a rule of the fourth order, large against the rounding of the balance. */
const STEPS: Readonly<Record<HeatField, (cable: LoadedCable) => number>> = {
  current: ({ current }) => 1e-3 * current,
  outerDiameter: ({ outerDiameter }) => 1e-3 * outerDiameter,
  // Downwards: it may be 1, and no more.
  grouping: ({ grouping }) => -1e-3 * grouping,
  ambientC: () => 0.1,
  altitude: () => 5,
  // Upwards: it may be 0, and no less.
  sun: () => 1,
};

/**
 * Change of the conductor's temperature with one figure of its balance, by five balances on one side of it. The weights
 * are those of the polynomial through them.
 */
function slopeWith(cable: LoadedCable, field: HeatField): number {
  if (!(cable.current > 0)) return field === "ambientC" ? 1 : 0;
  const step = STEPS[field](cable);
  const sum = [-25, 48, -36, 16, -3].reduce((total, weight, steps) => {
    const moved = { ...cable, [field]: cable[field] + steps * step };
    return total + weight * conductorTemperature(moved).conductorTemperatureC;
  }, 0);
  return sum / (12 * step);
}
