import fc from "fast-check";
import type { FeedItem } from "../../src/network/feed-item.js";
import { feedItem } from "./feed.js";

/** Numbers from 0 up to 1, one after the other. */
type Chance = () => number;

interface Point {
  readonly name: string;
  /** Outputs of one level stand at nearly one voltage, and may be joined. */
  readonly level: number;
  readonly voltage: number;
}

/**
 * Feeds in which some rows are fed from several: one to three supplies, buses, ties, one-way lines, ratio stages side by
 * side from different points, regulated stages on the way, loads of every kind, trees that hang on them. Their loads are
 * small; `withLoads` makes them what a test wants.
 */
export const randomMesh: fc.Arbitrary<readonly FeedItem[]> = fc
  .array(fc.noBias(fc.integer({ min: 0, max: 99_999 }).map((part) => part / 100_000)), {
    minLength: 600,
    maxLength: 600,
  })
  .map((numbers) => {
    let at = 0;
    return grown(() => numbers[at++ % numbers.length]!);
  });

function grown(chance: Chance): FeedItem[] {
  const items: FeedItem[] = [];
  const points: Point[] = [];
  const between = (low: number, high: number) => low + (high - low) * chance();
  const whole = (most: number) => Math.floor(most * chance());
  const pick = <T>(of: readonly T[]) => of[whole(of.length)]!;
  const add = (item: FeedItem, level: number, voltage: number): Point => {
    items.push(item);
    const point = { name: item.item, level, voltage };
    if (!item.kind.endsWith("load") && item.kind !== "tie") points.push(point);
    return point;
  };
  const name = () => `x${items.length}`;
  const run = (from: Point): Point =>
    add(
      feedItem(name(), from.name, "run", {
        resistance: between(0.01, 0.5),
        inParallel: chance() < 0.1 ? 2 : 1,
      }),
      from.level,
      from.voltage,
    );
  const oneWay = (from: Point): Point =>
    add(
      feedItem(name(), from.name, "series", {
        voltage: chance() < 0.5 ? 0.7 : undefined,
        resistance: between(0.01, 0.1),
        reverseFlow: "blocked",
      }),
      from.level,
      from.voltage,
    );
  const line = (from: Point) => (chance() < 0.15 ? oneWay(from) : run(from));
  const stage = (from: Point, ratio: number, level: number): Point =>
    add(
      feedItem(name(), from.name, "ratio", {
        ratio,
        resistance: between(0.01, 0.1),
        fixedLoss: between(0, 5),
        reverseFlow: chance() < 0.3 ? "allowed" : "blocked",
      }),
      level,
      from.voltage * ratio,
    );
  const supplies = 1 + whole(3);
  for (let supply = 0; supply < supplies; supply++)
    add(
      feedItem(name(), undefined, "supply", {
        voltage: between(390, 410),
        resistance: supply === 0 && chance() < 0.3 ? undefined : between(0.02, 0.3),
        reverseFlow: chance() < 0.3 ? "blocked" : "allowed",
      }),
      0,
      400,
    );
  const sources = [...points];
  const main = sources.map((source) => run(source));
  if (main.length > 1) add(feedItem(name(), main.map((one) => one.name).join("; "), "bus"), 0, 400);
  const size = 3 + whole(22);
  for (let step = 0; step < size; step++) line(pick(points.filter(({ level }) => level === 0)));
  const loops = 1 + whole(9);
  for (let loop = 0; loop < loops; loop++) {
    const free = points.filter(({ level, name: own }) => level === 0 && own !== sources[0]!.name);
    const [one, other] = [pick(free), pick(free)];
    if (one.name === other.name) continue;
    if (chance() < 0.4) {
      const feeders = [line(one), line(other)];
      add(feedItem(name(), feeders.map((feeder) => feeder.name).join(" ; "), "bus"), 0, 400);
    } else
      add(
        feedItem(name(), `${one.name};${other.name}`, "tie", { resistance: between(0.02, 0.4) }),
        0,
        400,
      );
  }
  if (chance() < 0.5) {
    const ratio = pick([0.125, 0.25, 0.5, 2]);
    const from = points.filter(({ level }) => level === 0);
    const stages = [stage(pick(from), ratio, 1), stage(pick(from), ratio * between(0.99, 1.01), 1)];
    add(feedItem(name(), stages.map((one) => one.name).join(";"), "bus"), 1, 400 * ratio);
    for (let step = whole(3); step > 0; step--)
      run(pick(points.filter(({ level }) => level === 1)));
  }
  if (chance() < 0.4) {
    const from = points.filter(({ level }) => level === 0);
    const regulated = [pick(from), pick(from)].map((one) =>
      add(
        feedItem(name(), one.name, "regulated", {
          voltage: 48,
          resistance: between(0.01, 0.05),
          fixedLoss: between(0, 5),
          linearLoss: between(0, 0.3),
          quadraticLoss: between(0, 0.02),
          lowestVoltage: 100,
          highestVoltage: 500,
          reverseFlow: "blocked",
        }),
        2,
        48,
      ),
    );
    add(feedItem(name(), regulated.map((one) => one.name).join(";"), "bus"), 2, 48);
  }
  // Trees that hang on the mesh, with stages whose losses follow their current.
  for (let tree = whole(3); tree > 0; tree--) {
    const from = pick(points.filter(({ level }) => level === 0));
    add(
      feedItem(name(), from.name, chance() < 0.5 ? "regulated" : "ratio", {
        voltage: 48,
        ratio: 0.125,
        resistance: between(0.005, 0.05),
        fixedLoss: between(0, 10),
        linearLoss: between(0, 0.5),
        quadraticLoss: between(0.06, 0.1),
        lowestVoltage: 100,
        highestVoltage: 500,
      }),
      3 + tree,
      48,
    );
  }
  const feeding = new Set(items.flatMap(({ fedFrom = "" }) => fedFrom.split(/\s*;\s*/)));
  for (const point of [...points])
    if (chance() < 0.45 || point.level >= 1 || !feeding.has(point.name)) {
      const kind = pick(["power load", "power load", "current load", "resistance load"] as const);
      const power = between(20, 400) * (point.level >= 1 ? 0.3 : 1);
      const load = { "power load": power, "current load": power / point.voltage }[kind as string];
      add(
        feedItem(name(), point.name, kind, {
          load: load ?? point.voltage ** 2 / power,
        }),
        point.level,
        0,
      );
    }
  return items;
}

/** The same with about a quarter of the power loads giving back up to twice what they drew. */
export function givingBack(items: readonly FeedItem[], seed: number): FeedItem[] {
  const chances = fc.sample(fc.noBias(fc.integer({ min: 0, max: 999 })), {
    numRuns: 2 * items.length,
    seed,
  });
  return items.map((item, at) => {
    if (item.kind !== "power load" || chances[2 * at]! >= 250) return item;
    return { ...item, load: -item.load! * (chances[2 * at + 1]! / 500) };
  });
}
