/** What each kind of item needs and allows, checked before anything is computed from it. */
import {
  InputError,
  requireAbove,
  requireAtLeast,
  requireFraction,
  requireWhole,
} from "../quantities/errors.js";
import type { FeedItem, FeedKind } from "./feed-item.js";

/** @throws {InputError} naming a field of the item. */
export function requireFeedItem(item: FeedItem): void {
  requireWhole("inParallel", item.inParallel, 1);
  ifGiven(item, "lowestVoltage", (value) =>
    requireAbove("lowestVoltage", value, 0),
  );
  ifGiven(item, "highestVoltage", (value) =>
    requireAbove("highestVoltage", value, item.lowestVoltage ?? 0),
  );
  ifGiven(item, "ratedCurrent", (value) =>
    requireAbove("ratedCurrent", value, 0),
  );
  ifGiven(item, "tripVoltage", (value) =>
    requireAbove("tripVoltage", value, 0),
  );
  ifGiven(item, "tolerance", (value) => {
    if (!(value >= 0 && value < 1))
      throw new InputError(
        "tolerance",
        value,
        "0 or more and below 1, a fraction",
      );
  });
  CHECKS[item.kind](item);
}

const CHECKS: Readonly<Record<FeedKind, (item: FeedItem) => void>> = {
  supply(item) {
    requireAbove("voltage", given(item, "voltage"), 0);
    optionalAtLeastZero(item, "resistance");
    ifGiven(item, "lowestVoltage", (value) => {
      if (value > given(item, "voltage"))
        throw new InputError(
          "lowestVoltage",
          value,
          "at most the supply's voltage",
        );
    });
    ifGiven(item, "highestVoltage", (value) => {
      if (value < given(item, "voltage"))
        throw new InputError(
          "highestVoltage",
          value,
          "at least the supply's voltage",
        );
    });
  },
  run(item) {
    requireAbove("resistance", given(item, "resistance"), 0);
  },
  series(item) {
    optionalAtLeastZero(item, "voltage");
    optionalAtLeastZero(item, "resistance");
  },
  ratio(item) {
    requireAbove("ratio", given(item, "ratio"), 0);
    optionalAtLeastZero(item, "resistance");
    requireLosses(item);
    if (item.efficiency !== undefined && item.resistance !== undefined) {
      throw new InputError(
        "efficiency",
        item.efficiency,
        "blank on a ratio row that has a resistance",
      );
    }
    ifGiven(item, "quadraticLoss", (value) => {
      const droop = item.resistance ?? 0;
      if (value < droop)
        throw new InputError(
          "quadraticLoss",
          value,
          `at least the row's resistance ${droop}, which is part of it`,
        );
    });
  },
  regulated(item) {
    requireAbove("voltage", given(item, "voltage"), 0);
    given(item, "lowestVoltage");
    given(item, "highestVoltage");
    optionalAtLeastZero(item, "resistance");
    requireLosses(item);
  },
  "power load": requireLoad,
  "current load": requireLoad,
  "resistance load": requireLoad,
};

function requireLosses(item: FeedItem): void {
  for (const field of ["fixedLoss", "linearLoss", "quadraticLoss"] as const) {
    optionalAtLeastZero(item, field);
    if (item.efficiency !== undefined && item[field] !== undefined) {
      throw new InputError(
        "efficiency",
        item.efficiency,
        "blank where losses are given",
      );
    }
  }
  ifGiven(item, "efficiency", (value) => requireFraction("efficiency", value));
}

function requireLoad(item: FeedItem): void {
  for (const field of ["load", "lightLoad", "peakLoad"] as const) {
    ifGiven(item, field, (value) => {
      if (value < 0) {
        throw new InputError(
          field,
          value,
          "0 or more (regeneration is not modelled: enter the clamp voltage as Highest V and judge the band at it)",
        );
      }
      requireAtLeast(field, value, 0);
    });
  }
}

type NumberField = {
  [Field in keyof FeedItem]: FeedItem[Field] extends number | undefined
    ? Field
    : never;
}[keyof FeedItem];

function given(item: FeedItem, field: NumberField): number {
  const value = item[field];
  if (value === undefined)
    throw new InputError(field, null, `given for a ${item.kind} row`);
  return value;
}

function ifGiven(
  item: FeedItem,
  field: NumberField,
  check: (value: number) => void,
): void {
  const value = item[field];
  if (value !== undefined) check(value);
}

function optionalAtLeastZero(item: FeedItem, field: NumberField): void {
  ifGiven(item, field, (value) => requireAtLeast(field, value, 0));
}
