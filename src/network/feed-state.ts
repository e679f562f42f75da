/** A feed as the solver reads it and leaves it: arrays by row. */

/** Parent of a row that nothing feeds. */
export const NO_PARENT = -1;

/** One array for each coefficient, of whole rows (n items in parallel as one), in SI. */
export interface FeedNumbers {
  /** Values of `EQUATION`. */
  readonly equation: Uint8Array;
  /** Open-circuit voltage, set point or forward drop, V. */
  readonly voltage: Float64Array;
  /** Output resistance of the whole row, Ω. */
  readonly resistance: Float64Array;
  readonly ratio: Float64Array;
  /** Loss drawn at the input: fixed + linear·I + quadratic·I², W, V, Ω; of a ratio row without what its resistance dissipates. */
  readonly fixedLoss: Float64Array;
  readonly linearLoss: Float64Array;
  readonly quadraticLoss: Float64Array;
  /** Output ÷ input power where losses are given so; 1 otherwise. */
  readonly efficiency: Float64Array;
  /** W, A or S of a load row. */
  readonly demand: Float64Array;
  /** Whether reverse flow is blocked. */
  readonly oneWay: Uint8Array;
}

/** Voltages, currents and, at the end, divisors by row. Reused from one solution to the next. */
export interface FeedState {
  /** Input voltages without load, where the search starts; no solution exceeds them. */
  readonly noLoadVoltage: Float64Array;
  readonly inputVoltage: Float64Array;
  readonly outputVoltage: Float64Array;
  readonly inputCurrent: Float64Array;
  /** 0 in load rows. */
  readonly outputCurrent: Float64Array;
  /** Line of each row's input current: α + β·Vin. */
  readonly alpha: Float64Array;
  readonly beta: Float64Array;
  /** The same, summed over what each row feeds. */
  readonly alphaFed: Float64Array;
  readonly betaFed: Float64Array;
  /** Whether any current flows through a row at all; a forward drop needs one. */
  readonly carries: Uint8Array;
  /** Whether its reverse flow is blocked and would flow, so that it carries nothing. */
  readonly blocked: Uint8Array;
  /** Of a bus or a tie that is fed from several, the current that it draws from each of them. */
  readonly shares: Map<number, readonly number[]>;
}

/** Arrays of one number for each row, cut from one piece: a small feed is set up often, and each piece has its price. */
export function rowArrays(count: number, arrays: number): () => Float64Array {
  const piece = new Float64Array(arrays * count);
  let next = 0;
  return () => {
    // An empty array would take what is written to it in silence.
    if (next + count > piece.length) throw new Error(`more than ${arrays} arrays`);
    return piece.subarray(next, (next += count));
  };
}
