/**
 * Least squares with no coefficient below 0, for a handful of columns.
 *
 * At the answer some coefficients are above 0 and solve the plain problem of their own columns; the others are 0. Every
 * choice of columns is tried, and of those with no negative coefficient the one with the least sum of squares is the
 * answer: with three columns seven choices, exactly, without an iteration.
 */
export function leastSquaresNonNegative(
  columns: readonly (readonly number[])[],
  target: readonly number[],
): readonly number[] {
  let best = columns.map(() => 0);
  let least = squares(target);
  for (let choice = 1; choice < 2 ** columns.length; choice++) {
    const chosen = columns.map((_, at) => at).filter((at) => choice & (1 << at));
    const solved = leastSquares(
      chosen.map((at) => columns[at]!),
      target,
    );
    if (!solved || solved.some((coefficient) => coefficient < 0)) continue;
    const left = target.map((value, row) =>
      chosen.reduce((rest, at, index) => rest - solved[index]! * columns[at]![row]!, value),
    );
    const sum = squares(left);
    if (sum >= least) continue;
    least = sum;
    best = columns.map((_, at) => {
      const index = chosen.indexOf(at);
      return index < 0 ? 0 : solved[index]!;
    });
  }
  return best;
}

function squares(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value ** 2, 0);
}

/** By modified Gram-Schmidt, twice over, which keeps the digits that normal equations lose; undefined for dependent columns. */
function leastSquares(
  columns: readonly (readonly number[])[],
  target: readonly number[],
): number[] | undefined {
  const count = columns.length;
  const basis: number[][] = [];
  const upper = columns.map(() => new Array<number>(count).fill(0));
  for (const [at, column] of columns.entries()) {
    let rest = [...column];
    for (let pass = 0; pass < 2; pass++)
      for (const [earlier, direction] of basis.entries()) {
        const part = dot(direction, rest);
        upper[earlier]![at]! += part;
        rest = rest.map((value, row) => value - part * direction[row]!);
      }
    const length = Math.sqrt(squares(rest));
    if (!(length > DEPENDENT * Math.sqrt(squares(column)))) return undefined;
    upper[at]![at] = length;
    basis.push(rest.map((value) => value / length));
  }
  let left = [...target];
  const parts = basis.map((direction) => {
    const part = dot(direction, left);
    left = left.map((value, row) => value - part * direction[row]!);
    return part;
  });
  const solved = new Array<number>(count).fill(0);
  for (let row = count - 1; row >= 0; row--) {
    let value = parts[row]!;
    for (let at = row + 1; at < count; at++) value -= upper[row]![at]! * solved[at]!;
    solved[row] = value / upper[row]![row]!;
  }
  return solved;
}

/** Part of a column below which nothing of its own is left of it. */
const DEPENDENT = 1e-13;

function dot(one: readonly number[], other: readonly number[]): number {
  return one.reduce((sum, value, row) => sum + value * other[row]!, 0);
}
