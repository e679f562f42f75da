/** Extremes of an answer over the corners of its inputs' tolerances: every source at one end or the other. */
import {
  type Source,
  type UncertainFunction,
  type UncertainInput,
  nominalValues,
} from "./uncertain-input.js";
import type { FirstOrder } from "./first-order.js";

/** 4096 corners. */
const MOST_SOURCES = 12;

export interface Corners {
  /** NaN where no corner has an answer, and where the signs point to one that has none. */
  readonly lowest: number;
  readonly highest: number;
  /**
   * `all`: every corner was computed. `signs`: the two corners to which the signs of the sensitivities point, as there are
   * too many. `given`: the caller knows the extremes. An extreme within the tolerances, between corners, is none of these.
   */
  readonly found: "all" | "signs" | "given";
  /** Corners without an answer: the extremes are of the others. */
  readonly unanswered: number;
}

/** @param linear By the signs of its swings the two corners are chosen where there are too many to compute. */
export function cornersOf(
  f: UncertainFunction,
  inputs: readonly UncertainInput[],
  linear: FirstOrder,
): Corners {
  const sources = linear.parts.map(({ source }) => source);
  return sources.length <= MOST_SOURCES
    ? allCorners(f, inputs, sources)
    : cornersBySign(f, inputs, linear);
}

function allCorners(
  f: UncertainFunction,
  inputs: readonly UncertainInput[],
  sources: readonly Source[],
): Corners {
  const values = nominalValues(inputs);
  let lowest = Infinity;
  let highest = -Infinity;
  let unanswered = 0;
  const corners = 2 ** sources.length;
  for (let corner = 0; corner < corners; corner++) {
    sources.forEach((source, bit) => setEnd(values, source, inputs, (corner >>> bit) & 1 ? 1 : -1));
    const answer = f(values);
    if (Number.isFinite(answer)) {
      lowest = Math.min(lowest, answer);
      highest = Math.max(highest, answer);
    } else unanswered += 1;
  }
  const none = unanswered === corners;
  return {
    lowest: none ? Number.NaN : lowest,
    highest: none ? Number.NaN : highest,
    found: "all",
    unanswered,
  };
}

function cornersBySign(
  f: UncertainFunction,
  inputs: readonly UncertainInput[],
  { parts, worstCase }: FirstOrder,
): Corners {
  if (Number.isNaN(worstCase))
    return { lowest: Number.NaN, highest: Number.NaN, found: "signs", unanswered: 2 };
  const values = nominalValues(inputs);
  const answers = [-1, 1].map((side) => {
    for (const { source, swing } of parts) setEnd(values, source, inputs, side * Math.sign(swing));
    return f(values);
  });
  const unanswered = answers.filter((answer) => !Number.isFinite(answer)).length;
  return unanswered > 0
    ? { lowest: Number.NaN, highest: Number.NaN, found: "signs", unanswered }
    : { lowest: Math.min(...answers), highest: Math.max(...answers), found: "signs", unanswered };
}

/** @param end -1 or 1; 0 leaves the nominal value. */
function setEnd(
  values: Float64Array,
  source: Source,
  inputs: readonly UncertainInput[],
  end: number,
): void {
  for (const index of source.inputs) {
    const { value, halfWidth } = inputs[index]!;
    values[index] = value + end * halfWidth;
  }
}
