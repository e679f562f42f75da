/** What a reader of a solved row should know beside its numbers. */
import { figure } from "../quantities/figures.js";
import type { Caveat } from "../quantities/steps.js";
import type { CompiledFeed } from "./compiled-feed.js";
import type { FeedColumns, FeedFigure } from "./feed-columns.js";
import { KINDS } from "./row-kinds.js";
import { loadingAt } from "./row-flow.js";

const NONE: readonly Caveat[] = [];

export function rowCaveats(feed: CompiledFeed, row: number): readonly Caveat[] {
  const { columns } = feed;
  // In the order in which they are read, before what is assumed.
  let caveats = withOne(NONE, windowCaveat(feed, row));
  caveats = withOne(caveats, latchCaveat(feed, row));
  caveats = withOne(caveats, littleLeftCaveat(feed, row));
  caveats = withOne(caveats, loadingCaveat(feed, row));
  caveats = withOne(caveats, sharingCaveat(columns, row));
  caveats = withOne(caveats, efficiencyCaveat(feed, row));
  const ideal = IDEAL_NOTES[columns.kind[row]!]!;
  for (let at = 0; at < ideal.length; at++) {
    const { without, caveat } = ideal[at]!;
    if (!isAnyGiven(columns.figures, without, row)) caveats = withOne(caveats, caveat);
  }
  return columns.zeros.size === 0 ? caveats : [...caveats, ...zeroCaveats(columns, row)];
}

/** Most rows have no note or one, and a large table has many: no list is made before a note, nor with room for more. */
function withOne(caveats: readonly Caveat[], caveat: Caveat | undefined): readonly Caveat[] {
  if (caveat === undefined) return caveats;
  return caveats.length === 0 ? [caveat] : [...caveats, caveat];
}

function windowCaveat({ columns, state }: CompiledFeed, row: number): Caveat | undefined {
  const { figures } = columns;
  const below = figures.lowestVoltage[row]! - state.inputVoltage[row]!;
  const above = state.inputVoltage[row]! - figures.highestVoltage[row]!;
  const field = "inputVoltage";
  const cite = "definition";
  if (below > 0) {
    const kind = KINDS[columns.kind[row]!]!;
    const consequence = kind.switchesOff ? ": would switch off" : "";
    const text = `${figure(below)} V below its window${consequence}`;
    return { code: "below-window", field, text, cite };
  }
  if (!(above > 0)) return undefined;
  const text = `${figure(above)} V above its window`;
  return { code: "above-window", field, text, cite };
}

/** A drop on the way to a row below this part of its voltage cannot hold it down. */
const NO_DROP = 1e-9;

/**
 * On the way up from no voltage a row that holds its power can stay at a lower root. On one node the two roots add up
 * to the voltage without load, V² − V₀·V + R·P = 0, so that the lower one is what all loads together drop; on a branched
 * feed that is a bound of it. A row whose Lowest V lies above it starts.
 */
function latchCaveat({ columns, state }: CompiledFeed, row: number): Caveat | undefined {
  if (!KINDS[columns.kind[row]!]!.holdsPower) return undefined;
  const noLoad = state.noLoadVoltage[row]!;
  const lowerRoot = noLoad - state.inputVoltage[row]!;
  const lowest = columns.figures.lowestVoltage[row]!;
  if (lowerRoot <= lowest || !(lowerRoot > NO_DROP * noLoad)) return undefined;
  const why = Number.isNaN(lowest) ? ": no Lowest V is given below which it draws nothing" : "";
  return {
    code: "latch",
    field: "inputVoltage",
    text: `may latch at ${figure(lowerRoot)} V on start${why}`,
    cite: "two-roots",
  };
}

/** Part of its voltage without load below which what is left is a difference of nearly equal figures. */
const LITTLE = 1e-7;

function littleLeftCaveat({ state }: CompiledFeed, row: number): Caveat | undefined {
  const left = state.inputVoltage[row]! / state.noLoadVoltage[row]!;
  if (left >= LITTLE) return undefined;
  return {
    code: "little-left",
    field: "inputVoltage",
    text: `only ${figure(left)} of its voltage without load is left`,
    cite: "definition",
  };
}

function loadingCaveat(feed: CompiledFeed, row: number): Caveat | undefined {
  const loading = loadingAt(feed, row);
  if (loading === undefined || loading <= 1) return undefined;
  return {
    code: "overloaded",
    field: "loading",
    text: `at ${figure(loading)} of its rated current`,
    cite: "definition",
  };
}

/** Units side by side never share evenly by themselves: their set voltages and resistances differ. */
export function sharingCaveat({ figures, kind }: FeedColumns, row: number): Caveat | undefined {
  const count = figures.inParallel[row]!;
  if (count <= 1 || !KINDS[kind[row]!]!.shares) return undefined;
  const text =
    figures.resistance[row]! > 0
      ? `${count} in parallel counted as sharing evenly`
      : `${count} in parallel without resistance: how they share is not determined, counted as even`;
  return { code: "even-sharing", field: "loading", text, cite: "definition" };
}

function efficiencyCaveat({ columns }: CompiledFeed, row: number): Caveat | undefined {
  if (Number.isNaN(columns.figures.efficiency[row]!)) return undefined;
  return KINDS[columns.kind[row]!]!.role === "stage" ? BY_EFFICIENCY : undefined;
}

const BY_EFFICIENCY: Caveat = {
  code: "efficiency",
  field: "loss",
  text: "by efficiency: light-load loss is not counted",
  cite: "definition",
};

/** What is taken as ideal unless a figure is given, by the place of the kind in `FEED_KINDS`. */
const IDEAL_NOTES = KINDS.map(({ ideal, role }) =>
  ideal.map(({ without, result, text }) => {
    const code =
      result === "loss" ? "ideal-losses" : role === "line" ? "ideal-series" : "ideal-resistance";
    const caveat: Caveat = { code, field: result, text, cite: "definition" };
    return { without, caveat };
  }),
);

function isAnyGiven(
  figures: FeedColumns["figures"],
  names: readonly FeedFigure[],
  row: number,
): boolean {
  for (let at = 0; at < names.length; at++)
    if (!Number.isNaN(figures[names[at]!][row]!)) return true;
  return false;
}

/** What a typed 0 is taken for where a figure cannot be 0. */
export function zeroCaveats({ zeros }: FeedColumns, row: number): readonly Caveat[] {
  const names = zeros.size === 0 ? undefined : zeros.get(row);
  return (names ?? []).map((name) => ({
    code: "zero-not-given",
    field: name,
    text: `${ZERO_WORDS[name] ?? name} is 0 and taken as not given`,
    cite: "definition",
  }));
}

/** As the feed table's headers call them. */
const ZERO_WORDS: Readonly<Partial<Record<FeedFigure, string>>> = {
  lowestVoltage: "Lowest V",
  highestVoltage: "Highest V",
  ratedCurrent: "Rated A",
  tolerance: "Tolerance",
  tripVoltage: "Trip V",
  efficiency: "Efficiency",
};
