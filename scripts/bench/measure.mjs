/** Times and how they are printed. */
import { performance } from "node:perf_hooks";

/**
 * The value of a call by the runner of one version; a refusal is a fault here.
 * @param {{ evaluate: (id: string, args: unknown[]) => any }} runner
 * @returns {(id: string, args: unknown[]) => any}
 */
export function answersOf({ evaluate }) {
  return (id, args) => {
    const outcome = evaluate(id, args);
    if (!outcome.ok) throw new Error(`${id}: ${outcome.message}`);
    return outcome.value;
  };
}

/** Milliseconds, the median of many runs. @param {() => unknown} work @param {number} [warmUp] @param {number} [measured] */
export function median(work, warmUp = 1_000, measured = 2_000) {
  // For a time, not a count: what is short too is measured as compiled, and past a pause of the machine.
  timesOf(work, warmUp);
  return middle(timesOf(work, measured));
}

/** Medians of several pieces of work that take turns, so that a slow spell of the machine meets all of them. @param {readonly (() => unknown)[]} works @param {number} rounds */
export function mediansInTurn(works, rounds) {
  const times = works.map(() => /** @type {number[]} */ ([]));
  for (let round = 0; round < rounds; round++)
    works.forEach((work, at) => {
      const start = performance.now();
      work();
      times[at]?.push(performance.now() - start);
    });
  return times.map((measured) => middle(measured.slice(rounds >> 2)));
}

/** The same for work that is waited for. @param {() => Promise<unknown>} work @param {number} runs */
export async function medianOf(work, runs) {
  const times = [];
  for (let run = 0; run < runs; run++) {
    const start = performance.now();
    await work();
    times.push(performance.now() - start);
  }
  return middle(times);
}

/** @param {number[]} times */
function middle(times) {
  return [...times].sort((one, other) => one - other)[times.length >> 1] ?? 0;
}

/** @param {() => unknown} work @param {number} milliseconds In all. */
function timesOf(work, milliseconds) {
  const times = [];
  const end = performance.now() + milliseconds;
  do {
    const start = performance.now();
    work();
    times.push(performance.now() - start);
  } while (performance.now() < end);
  return times;
}

/** One line of columns, the first to the left. @param {string[]} cells @param {number[]} widths */
export function line(cells, widths) {
  console.log(
    cells
      .map((cell, at) => (at === 0 ? cell.padEnd(widths[0] ?? 0) : cell.padStart(widths[at] ?? 0)))
      .join(""),
  );
}
