/** From the givens of a working back to the arguments, or to other lines, that they are. */
import { fieldsOf } from "../../src/quantities/formulas.js";
import { isBlank, isZeroReal } from "../downfeed.js";
import type { Working } from "../downfeed.js";
import type { ArgumentCell, CallAnswer, UsedArgument } from "./call-answer.js";
import { type GivenLink, argumentKey, lineKey } from "./working-lines.js";

/** Of each working, by field; `claimed` holds the cells of arguments that a given is linked to, as `key.index`. */
export interface GivenLinks {
  readonly byWorking: readonly Readonly<Record<string, GivenLink>>[];
  readonly claimed: ReadonlySet<string>;
}

export function givenLinks({ workings, used }: CallAnswer): GivenLinks {
  const claimed = new Set<string>();
  const byWorking = workings.map((working, index) =>
    Object.fromEntries(
      fieldsShown(working).map((field): [string, GivenLink] => {
        const value = working.values[field];
        const link =
          ownArgument(field, value, used, claimed) ??
          ofList(field, value, used, claimed) ??
          ofSeveral(value, used, claimed) ??
          earlierLine(field, value, workings.slice(0, index));
        return [field, link ?? { kind: "taken" }];
      }),
    ),
  );
  return { byWorking, claimed };
}

/** Givens, and what the formulas read beside givens and steps. */
function fieldsShown({ givens, steps }: Working): string[] {
  const read = Object.values(steps).flatMap((step) => {
    if (step.kind === "lookup") return [];
    return fieldsOf(step.kind === "formula" ? step.formula : step.residual);
  });
  return [...new Set([...Object.keys(givens), ...read])].filter(
    (field) => !(field in steps),
  );
}

/** The argument of the same name. */
function ownArgument(
  field: string,
  value: unknown,
  used: readonly UsedArgument[],
  claimed: Set<string>,
): GivenLink | undefined {
  const argument = used.find(({ key }) => key === field);
  if (!argument || argument.cells.length > 1) return undefined;
  const [cell] = argument.cells;
  if (!cell || isNotGiven(cell, value, argument)) {
    claimed.add(argumentKey(field, 0));
    return value === 0 && cell && isZeroReal(argument.parameter)
      ? { kind: "linked", origin: cell.origin, perUnit: 1 }
      : { kind: "default", origin: cell?.origin };
  }
  if (typeof cell.value === "string" && typeof value === "number")
    return { kind: "read", word: cell.value };
  return linkTo(argument, 0, value, claimed);
}

/** A 0 that the calculation does not have was read as not given. */
function isNotGiven(
  cell: ArgumentCell,
  value: unknown,
  { parameter }: UsedArgument,
): boolean {
  if (cell.value !== 0) return isBlank(cell.value);
  return value !== 0 && !isZeroReal(parameter);
}

function linkTo(
  argument: UsedArgument,
  index: number,
  value: unknown,
  claimed: Set<string>,
): GivenLink | undefined {
  const { key, parameter, cells } = argument;
  const cell = cells[index];
  const perUnit = "perUnit" in parameter ? (parameter.perUnit ?? 1) : 1;
  const read =
    typeof cell?.value === "number" ? cell.value / perUnit : cell?.value;
  const same =
    typeof read === "string" && typeof value === "string"
      ? read.trim() === value
      : read === value;
  if (!cell || !same) return undefined;
  claimed.add(argumentKey(key, index));
  return { kind: "linked", origin: cell.origin, perUnit };
}

const NUMBERED = /^(.*?)(\d+)$/;

/** `setVoltage2` is the second of `setVoltages`. */
function ofList(
  field: string,
  value: unknown,
  used: readonly UsedArgument[],
  claimed: Set<string>,
): GivenLink | undefined {
  const [, stem, digits] = NUMBERED.exec(field) ?? [];
  if (stem === undefined) return undefined;
  const argument = used.find(
    ({ key, parameter }) =>
      parameter.kind === "numbers" && plurals(stem).includes(key),
  );
  if (!argument) return undefined;
  const paired =
    "paired" in argument.parameter && argument.parameter.paired === true;
  const places = [...argument.cells.keys()].filter(
    (place) => paired || !isBlank(argument.cells[place]?.value),
  );
  const place = places[Number(digits) - 1];
  if (place === undefined) return undefined;
  return linkTo(argument, place, value, claimed);
}

function plurals(stem: string): string[] {
  return [stem, `${stem}s`, `${stem}es`, stem.replace(/y$/, "ies")];
}

/** One number of a row that stands for a word: a material's own figures. */
function ofSeveral(
  value: unknown,
  used: readonly UsedArgument[],
  claimed: Set<string>,
): GivenLink | undefined {
  for (const argument of used) {
    const { key, parameter, cells } = argument;
    if (parameter.kind !== "choice or numbers") continue;
    const index = cells.findIndex(
      (cell, place) =>
        cell.value === value &&
        typeof value === "number" &&
        !claimed.has(argumentKey(key, place)),
    );
    if (index >= 0) return linkTo(argument, index, value, claimed);
  }
  return undefined;
}

function earlierLine(
  field: string,
  value: unknown,
  earlier: readonly Working[],
): GivenLink | undefined {
  const index = earlier.findIndex(
    ({ steps, values }) => field in steps && values[field] === value,
  );
  return index < 0 ? undefined : { kind: "line", line: lineKey(index, field) };
}
