import fc from "fast-check";
import type { FeedItem } from "../../src/network/feed-item.js";
import { feedItem } from "./feed.js";

/** One row of a random feed before it has a name, a place and figures that suit its place. */
interface Seed {
  readonly kind:
    "run" | "series" | "ratio" | "regulated" | "power load" | "current load" | "resistance load";
  readonly place: number;
  /** Numbers between 0 and 1, spent on the row's figures. */
  readonly chance: readonly number[];
}

/** Evenly spread: fast-check's own preference for extremes would leave most figures at their ends. */
const unit = fc.noBias(fc.integer({ min: 0, max: 1000 }).map((thousandths) => thousandths / 1000));

const seed: fc.Arbitrary<Seed> = fc.record({
  kind: fc.constantFrom<Seed["kind"][]>(
    "run",
    "run",
    "series",
    "ratio",
    "regulated",
    "power load",
    "power load",
    "current load",
    "resistance load",
  ),
  place: fc.nat(),
  chance: fc.array(unit, { minLength: 10, maxLength: 10 }),
});

interface Placed {
  readonly item: FeedItem;
  readonly voltage: number;
}

/** Feeds of every row and load kind with one or two supplies; every leaf is a load that draws something. */
export const randomFeed: fc.Arbitrary<readonly FeedItem[]> = fc
  .tuple(
    fc.array(fc.array(unit, { minLength: 2, maxLength: 2 }), {
      minLength: 1,
      maxLength: 2,
    }),
    fc.array(seed, { minLength: 3, maxLength: 24 }),
  )
  .map(([supplies, seeds]) => grown(supplies, seeds));

function grown(supplies: readonly (readonly number[])[], seeds: readonly Seed[]): FeedItem[] {
  const placed: Placed[] = supplies.map(([voltage = 0, resistance = 0], index) => ({
    voltage: 48 + 750 * voltage,
    item: feedItem(`s${index}`, undefined, "supply", {
      voltage: 48 + 750 * voltage,
      resistance: resistance < 0.2 ? undefined : resistance,
    }),
  }));
  seeds.forEach((one, index) => {
    const passing = placed.filter(({ item }) => !item.kind.endsWith("load"));
    placed.push(rowFrom(one, passing[one.place % passing.length]!, `x${index}`));
  });
  const fed = new Set(placed.map(({ item }) => item.fedFrom));
  const leaves = placed.filter(({ item }) => !item.kind.endsWith("load") && !fed.has(item.item));
  const loads = leaves.map(({ item }, index) =>
    feedItem(`leaf${index}`, item.item, "power load", { load: 1 + index }),
  );
  return [...placed.map(({ item }) => item), ...loads];
}

function rowFrom({ kind, chance }: Seed, feeding: Placed, name: string): Placed {
  const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0] = chance;
  const { voltage } = feeding;
  const inParallel = 1 + Math.floor(3 * e);
  // Of the order of what drops a hundredth of the voltage at a hundred watts.
  const resistance = ((voltage ** 2 / 100) * (0.2 + b)) / 100;
  const row = (figures: Partial<FeedItem>, at = voltage): Placed => ({
    item: feedItem(name, feeding.item.item, kind, { inParallel, ...figures }),
    voltage: at,
  });
  switch (kind) {
    case "run":
      return row({ resistance });
    case "series":
      return row({
        voltage: a < 0.3 ? undefined : 0.01 * a * voltage,
        resistance: c < 0.3 ? undefined : resistance / 10,
      });
    case "ratio": {
      const ratio = [1 / 2, 1 / 4, 1 / 8, 2][Math.floor(4 * a) % 4]!;
      const at = ratio * voltage;
      if (f < 0.2) return row({ ratio, efficiency: 0.8 + 0.19 * b }, at);
      const droop = (at ** 2 / 100) * 0.01 * b;
      return row(
        {
          ratio,
          resistance: droop,
          fixedLoss: c,
          linearLoss: 0.002 * at * d,
          quadraticLoss: droop * (1 + d),
        },
        at,
      );
    }
    case "regulated": {
      const at = 3 + 60 * a;
      const window = {
        lowestVoltage: voltage / 2,
        highestVoltage: voltage * 2,
        voltage: at,
      };
      if (f < 0.4)
        return row(
          {
            ...window,
            efficiency: 0.75 + 0.24 * b,
            resistance: 0.0001 * at ** 2 * c,
          },
          at,
        );
      const losses = {
        fixedLoss: c,
        linearLoss: 0.01 * at * d,
        quadraticLoss: 0.0002 * at ** 2 * b,
      };
      return row({ ...window, ...losses, resistance: 0.0001 * at ** 2 * c }, at);
    }
    case "power load":
      return row({ load: 1 + 100 * a });
    case "current load":
      return row({ load: (1 + 100 * a) / voltage });
    case "resistance load":
      return row({ load: voltage ** 2 / (1 + 100 * a) });
  }
}

/** Every load times `multiple`. */
export function withLoads(items: readonly FeedItem[], multiple: number): FeedItem[] {
  return items.map((item) => {
    if (item.load === undefined) return item;
    return {
      ...item,
      load: item.kind === "resistance load" ? item.load / multiple : item.load * multiple,
    };
  });
}
