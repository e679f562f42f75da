/** What a reader of a solved row should know beside its numbers. */
import { figure } from "../quantities/figures.js";
import type { Note } from "../quantities/steps.js";
import type { CompiledFeed } from "./compiled-feed.js";
import type { FeedColumns, FeedFigure } from "./feed-columns.js";
import { KINDS } from "./row-kinds.js";
import { loadingAt } from "./row-flow.js";

const NONE: readonly Note[] = [];

export function rowNotes(feed: CompiledFeed, row: number): readonly Note[] {
  const notes: Note[] = [];
  windowNotes(feed, row, notes);
  latchNotes(feed, row, notes);
  littleLeftNotes(feed, row, notes);
  loadingNotes(feed, row, notes);
  sharingNotes(feed.columns, row, notes);
  assumptionNotes(feed.columns, row, notes);
  zeroNotes(feed.columns, row, notes);
  return notes.length === 0 ? NONE : notes;
}

function windowNotes(
  { columns, state }: CompiledFeed,
  row: number,
  notes: Note[],
): void {
  const { figures } = columns;
  const kind = KINDS[columns.kind[row]!]!;
  const below = figures.lowestVoltage[row]! - state.inputVoltage[row]!;
  const above = state.inputVoltage[row]! - figures.highestVoltage[row]!;
  const field = "inputVoltage";
  const cite = "definition";
  if (below > 0) {
    const consequence = kind.switchesOff ? ": would switch off" : "";
    const text = `${figure(below)} V below its window${consequence}`;
    notes.push({ code: "below-window", field, text, cite });
  } else if (above > 0) {
    const text = `${figure(above)} V above its window`;
    notes.push({ code: "above-window", field, text, cite });
  }
}

/** A drop on the way to a row below this part of its voltage cannot hold it down. */
const NO_DROP = 1e-9;

/**
 * On the way up from no voltage a row that holds its power can stay at a lower root. On one node the two roots add up
 * to the voltage without load, V² − V₀·V + R·P = 0, so that the lower one is what all loads together drop; on a branched
 * feed that is a bound of it. A row whose Lowest V lies above it starts.
 */
function latchNotes(
  { columns, state }: CompiledFeed,
  row: number,
  notes: Note[],
): void {
  if (!KINDS[columns.kind[row]!]!.holdsPower) return;
  const noLoad = state.noLoadVoltage[row]!;
  const lowerRoot = noLoad - state.inputVoltage[row]!;
  const lowest = columns.figures.lowestVoltage[row]!;
  if (lowerRoot <= lowest || !(lowerRoot > NO_DROP * noLoad)) return;
  const why = Number.isNaN(lowest)
    ? ": no Lowest V is given below which it draws nothing"
    : "";
  notes.push({
    code: "latch",
    field: "inputVoltage",
    text: `may latch at ${figure(lowerRoot)} V on start${why}`,
    cite: "two-roots",
  });
}

/** Part of its voltage without load below which what is left is a difference of nearly equal figures. */
const LITTLE = 1e-7;

function littleLeftNotes(
  { state }: CompiledFeed,
  row: number,
  notes: Note[],
): void {
  const left = state.inputVoltage[row]! / state.noLoadVoltage[row]!;
  if (left >= LITTLE) return;
  notes.push({
    code: "little-left",
    field: "inputVoltage",
    text: `only ${figure(left)} of its voltage without load is left`,
    cite: "definition",
  });
}

function loadingNotes(feed: CompiledFeed, row: number, notes: Note[]): void {
  const loading = loadingAt(feed, row);
  if (loading === undefined || loading <= 1) return;
  notes.push({
    code: "overloaded",
    field: "loading",
    text: `at ${figure(loading)} of its rated current`,
    cite: "definition",
  });
}

/** Units side by side never share evenly by themselves: their set voltages and resistances differ. */
export function sharingNotes(
  { figures, kind }: FeedColumns,
  row: number,
  notes: Note[],
): void {
  const count = figures.inParallel[row]!;
  if (count <= 1 || !KINDS[kind[row]!]!.shares) return;
  const text =
    figures.resistance[row]! > 0
      ? `${count} in parallel counted as sharing evenly`
      : `${count} in parallel without resistance: how they share is not determined, counted as even`;
  notes.push({
    code: "even-sharing",
    field: "loading",
    text,
    cite: "definition",
  });
}

function assumptionNotes(
  { figures, kind }: FeedColumns,
  row: number,
  notes: Note[],
): void {
  const { ideal, role } = KINDS[kind[row]!]!;
  const cite = "definition";
  for (const { without, result, text } of ideal) {
    if (without.some((name) => !Number.isNaN(figures[name][row]!))) continue;
    const code =
      result === "loss"
        ? "ideal-losses"
        : role === "line"
          ? "ideal-series"
          : "ideal-resistance";
    notes.push({ code, field: result, text, cite });
  }
  if (role === "stage" && !Number.isNaN(figures.efficiency[row]!))
    notes.push({
      code: "efficiency",
      field: "loss",
      text: "by efficiency: light-load loss is not counted",
      cite,
    });
}

/** What a typed 0 is taken for where a figure cannot be 0. */
export function zeroNotes(
  { zeros }: FeedColumns,
  row: number,
  notes: Note[],
): void {
  for (const name of zeros.get(row) ?? [])
    notes.push({
      code: "zero-not-given",
      field: name,
      text: `${ZERO_WORDS[name] ?? name} is 0 and taken as not given`,
      cite: "definition",
    });
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
