/**
 * L·D·Lᵀ of a symmetric sparse matrix without pivoting. The order of elimination and the places that fill are found once;
 * for other numbers in the same places only numbers change. The pivots are kept: of a matrix whose entries beside the
 * diagonal are 0 or less they are all above 0 exactly where it is an M-matrix, which is what proves an operating point.
 * [ldl-factorisation]
 */

/** Where a matrix of a given size has entries beside its diagonal, and how it is eliminated. */
export interface FactorPlan {
  readonly size: number;
  /** Unknowns in the order in which they are eliminated. */
  readonly order: Int32Array;
  /** Column of step k: entries `starts[k]` up to `starts[k + 1]`, their rows in `rows`. */
  readonly starts: Int32Array;
  readonly rows: Int32Array;
  /** Entry of each pair of `links`, by its place there. */
  readonly entryOf: Int32Array;
  /** Entry that each product of two entries of one column falls on, in the order in which they are made. */
  readonly targets: Int32Array;
}

export interface Factor {
  readonly plan: FactorPlan;
  /** Before `factorise` the diagonal, after it the pivots, by unknown. */
  readonly diagonal: Float64Array;
  /** Before `factorise` the matrix's entries, after it those of L. */
  readonly entries: Float64Array;
}

/** @param links Pairs of unknowns between which there is an entry, flat; a pair may stand more than once, either way round. */
export function factorPlan(size: number, links: Int32Array): FactorPlan {
  const { order, columns } = eliminated(size, links);
  const starts = new Int32Array(size + 1);
  order.forEach((unknown, step) => (starts[step + 1] = starts[step]! + columns[unknown]!.length));
  const rows = new Int32Array(starts[size]!);
  const stepOf = new Int32Array(size);
  order.forEach((unknown, step) => {
    stepOf[unknown] = step;
    rows.set(columns[unknown]!, starts[step]);
  });
  const entry = (one: number, other: number): number => {
    const [first, second] = stepOf[one]! < stepOf[other]! ? [one, other] : [other, one];
    const step = stepOf[first]!;
    for (let at = starts[step]!; at < starts[step + 1]!; at++) if (rows[at] === second) return at;
    throw new Error(`no entry for ${one}, ${other}`);
  };
  const targets: number[] = [];
  for (let step = 0; step < size; step++)
    for (let one = starts[step]!; one < starts[step + 1]!; one++)
      for (let other = starts[step]!; other < one; other++)
        targets.push(entry(rows[one]!, rows[other]!));
  return {
    size,
    order,
    starts,
    rows,
    entryOf: Int32Array.from({ length: links.length / 2 }, (_, at) =>
      entry(links[2 * at]!, links[2 * at + 1]!),
    ),
    targets: Int32Array.from(targets),
  };
}

/** Least neighbours first, so that little fills; what is eliminated links its neighbours with each other. */
function eliminated(size: number, links: Int32Array) {
  const neighbours = Array.from({ length: size }, () => new Set<number>());
  for (let at = 0; at < links.length; at += 2) {
    const [one, other] = [links[at]!, links[at + 1]!];
    neighbours[one]!.add(other);
    neighbours[other]!.add(one);
  }
  const byDegree: number[][] = [];
  const enter = (unknown: number) => (byDegree[neighbours[unknown]!.size] ??= []).push(unknown);
  for (let unknown = size - 1; unknown >= 0; unknown--) enter(unknown);
  const order = new Int32Array(size);
  const columns: number[][] = [];
  const done = new Uint8Array(size);
  let degree = 0;
  for (let step = 0; step < size;) {
    const unknown = byDegree[degree]?.pop();
    if (unknown === undefined) {
      degree++;
      continue;
    }
    // It stands under each number of neighbours that it ever had.
    if (done[unknown] || neighbours[unknown]!.size !== degree) continue;
    done[unknown] = 1;
    order[step++] = unknown;
    const column = [...neighbours[unknown]!];
    columns[unknown] = column;
    for (const one of column) {
      const own = neighbours[one]!;
      own.delete(unknown);
      for (const other of column) if (other !== one) own.add(other);
    }
    for (const one of column) enter(one);
    degree = Math.max(0, degree - 1);
  }
  return { order, columns };
}

export function emptyFactor(plan: FactorPlan): Factor {
  return {
    plan,
    diagonal: new Float64Array(plan.size),
    entries: new Float64Array(plan.rows.length),
  };
}

/** @returns the unknown whose pivot is not above 0; undefined where all are. */
export function factorise({ plan, diagonal, entries }: Factor): number | undefined {
  const { order, starts, rows, targets } = plan;
  let product = 0;
  for (let step = 0; step < order.length; step++) {
    const unknown = order[step]!;
    const pivot = diagonal[unknown]!;
    if (!(pivot > 0)) return unknown;
    const from = starts[step]!;
    const to = starts[step + 1]!;
    for (let one = from; one < to; one++) {
      const entry = entries[one]!;
      const part = entry / pivot;
      for (let other = from; other < one; other++)
        entries[targets[product++]!]! -= part * entries[other]!;
      diagonal[rows[one]!]! -= part * entry;
    }
    for (let one = from; one < to; one++) entries[one]! /= pivot;
  }
  return undefined;
}

/** Solves in place: `values` is the right side before and the answer after. */
export function solveFactored({ plan, diagonal, entries }: Factor, values: Float64Array): void {
  const { order, starts, rows } = plan;
  for (let step = 0; step < order.length; step++) {
    const value = values[order[step]!]!;
    for (let at = starts[step]!; at < starts[step + 1]!; at++)
      values[rows[at]!]! -= entries[at]! * value;
  }
  for (let step = order.length - 1; step >= 0; step--) {
    const unknown = order[step]!;
    let value = values[unknown]! / diagonal[unknown]!;
    for (let at = starts[step]!; at < starts[step + 1]!; at++)
      value -= entries[at]! * values[rows[at]!]!;
    values[unknown] = value;
  }
}
