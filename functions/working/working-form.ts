/**
 * Whether the steps of a call are the same formulas for other numbers. Some functions choose between formulas by what
 * they are given, and native formulas do not choose again: what was chosen has to be said to rest on its inputs.
 */
import {
  type Argument,
  type Cell,
  evaluate,
  isCellTable,
} from "../downfeed.js";
import type { Working } from "../downfeed.js";
import type { CallAnswer } from "./call-answer.js";

/** Other values that each number is tried at, as parts of its own. */
const FACTORS = [0.2, 0.5, 0.8, 0.95, 1.05, 1.25, 2, 5] as const;

/** More numbers than this belong to lists and tables, whose formulas have one term for each. */
const MOST_NUMBERS = 40;

/** One number changed at a time: a sample, not a proof. */
export function formVaries({ call, args, workings }: CallAnswer): boolean {
  const own = formOf(workings);
  return variations(args).some((varied) => {
    const outcome = evaluate(call.id, varied);
    return outcome.ok && formOf(outcome.working()) !== own;
  });
}

/** The steps without their values, but with those that come out of a table. */
export function formOf(workings: readonly Working[]): string {
  return JSON.stringify(
    workings.map(({ steps, values }) =>
      Object.entries(steps).map(([field, step]) => [
        field,
        step,
        step.kind === "lookup" ? values[field] : "",
      ]),
    ),
  );
}

function variations(args: readonly Argument[]): Argument[][] {
  const numbers = args.flatMap((argument, index) =>
    placesOf(argument).map((place) => ({ index, place })),
  );
  return numbers
    .slice(0, MOST_NUMBERS)
    .flatMap(({ index, place }) =>
      FACTORS.map((factor) =>
        args.map((argument, at) =>
          at === index ? scaled(argument, place, factor) : argument,
        ),
      ),
    );
}

/** Of every number but 0 in an argument, counted cell by cell. */
function placesOf(argument: Argument): number[] {
  return cellsOf(argument).flatMap((cell, place) =>
    typeof cell === "number" && cell !== 0 ? [place] : [],
  );
}

function cellsOf(argument: Argument): Cell[] {
  return isCellTable(argument) ? argument.flat() : [argument ?? null];
}

function scaled(argument: Argument, place: number, factor: number): Argument {
  if (!isCellTable(argument)) return Number(argument) * factor;
  let count = -1;
  return argument.map((row) =>
    row.map((cell) => {
      count += 1;
      return count === place ? Number(cell) * factor : cell;
    }),
  );
}
