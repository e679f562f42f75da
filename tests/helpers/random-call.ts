/** Random arguments that a cell function may take, from what its entry says of them and its example. */
import fc from "fast-check";
import type { Argument, Cell, Entry, Parameter } from "../../functions/downfeed.js";
import { isCellTable } from "../../functions/downfeed.js";

const SIZES: readonly Cell[] = [
  2.5,
  16,
  0.75,
  "4 mm²",
  "2.5 mm²",
  "95 mm²",
  "AWG 12",
  "2/0 AWG",
  "250 kcmil",
];

/** Evenly spread, unlike `fc.double`. */
function factor(least: number, most: number): fc.Arbitrary<number> {
  return fc
    .noBias(fc.integer({ min: 0, max: 1_000_000 }))
    .map((drawn) => least + ((most - least) * drawn) / 1_000_000);
}

/** Mostly near the example, where the answer exists; optional ones come and go. */
export function randomArguments(entry: Entry): fc.Arbitrary<readonly Argument[]> {
  const parameters = Object.values(entry.parameters);
  const repeating = parameters.at(-1);
  const count = Math.max(parameters.length, entry.example.args.length);
  return fc.tuple(
    ...Array.from({ length: count }, (_, index) =>
      randomArgument(parameters[index] ?? repeating!, entry.example.args[index]),
    ),
  );
}

function randomArgument(parameter: Parameter, example: Argument): fc.Arbitrary<Argument> {
  const given = givenArgument(parameter, example);
  if (!parameter.optional) return given;
  return fc.oneof(
    { weight: 3, arbitrary: given },
    { weight: 2, arbitrary: fc.constantFrom<Argument[]>(undefined, null) },
  );
}

function givenArgument(parameter: Parameter, example: Argument): fc.Arbitrary<Argument> {
  switch (parameter.kind) {
    case "choice":
    case "choice or numbers":
      return fc.constantFrom(
        ...parameter.choices,
        ...(typeof example === "string" ? [example] : []),
      );
    case "number or text":
      return fc.constantFrom(...SIZES);
    case "number or choice":
      return fc.oneof(near(example, parameter), fc.constantFrom(...parameter.choices));
    case "number":
      return near(example, parameter);
    case "numbers":
      return isCellTable(example)
        ? fc.tuple(
            ...example.map((row) =>
              fc.tuple(...row.map((cell) => near(cell, parameter) as fc.Arbitrary<Cell>)),
            ),
          )
        : near(example, parameter);
    default:
      return fc.constant(example);
  }
}

function near(example: Argument, parameter: Parameter): fc.Arbitrary<Argument> {
  if (typeof example === "string") return fc.constant(example);
  const middle = typeof example === "number" ? example : undefined;
  const isPart = middle !== undefined && middle > 0 && middle < 1;
  const isWhole = /whole|lengths/i.test(parameter.meaning);
  if (isWhole) return fc.integer({ min: 1, max: 3 });
  if (middle === undefined) return fc.oneof(factor(0.01, 1), factor(0.5, 20));
  if (isPart) return factor(0.7, 1.1).map((drawn) => middle * drawn);
  return fc.oneof(
    { weight: 3, arbitrary: factor(0.6, 1.6).map((drawn) => middle * drawn) },
    { weight: 1, arbitrary: fc.constant(middle) },
  );
}
