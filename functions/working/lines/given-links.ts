/** From the givens of a working back to the arguments that fill them, or to the lines that found them. */
import { fieldsOf } from "../../../src/quantities/formulas.js";
import { isBlank, isZeroReal } from "../../downfeed.js";
import type { Working } from "../../downfeed.js";
import {
  type ArgumentCell,
  type CallAnswer,
  cellAtPlace,
  type UsedArgument,
} from "./call-answer.js";
import { type GivenLink, argumentKey, lineKey } from "./working-lines.js";

/** Links of each working's givens, by field; `claimed` holds the argument cells they lead to, as `key.index`. */
export interface GivenLinks {
  readonly byWorking: readonly Readonly<Record<string, GivenLink>>[];
  readonly claimed: ReadonlySet<string>;
}

/** A cell of an argument, none where nothing was given. */
interface Filling {
  readonly argument: UsedArgument;
  readonly cell: ArgumentCell | undefined;
  readonly index: number;
}

export function givenLinks(answer: CallAnswer): GivenLinks {
  const { workings, used } = answer;
  const filled = new Map(used.flatMap(fillings));
  const claimed = new Set<string>();
  const byWorking = workings.map((working, index) =>
    Object.fromEntries(
      fieldsShown(working).map((field): [string, GivenLink] => {
        if (working.typed)
          return [
            field,
            typedLink(answer, working, field) ?? {
              kind: "default",
              origin: undefined,
            },
          ];
        const found = working.found?.[field];
        if (found) return [field, { kind: "line", line: lineKey(found.working, found.step) }];
        const filling = filled.get(field);
        if (!filling) return [field, unfilled(field, workings, index)];
        const link = linkTo(filling, working.values[field]);
        // A word that is read as a number is no line of its own: it is told beside them.
        if (link.kind !== "read") claimed.add(argumentKey(filling.argument.key, filling.index));
        return [field, link];
      }),
    ),
  );
  return { byWorking, claimed };
}

/** A given that stands in a cell of one of several ranges. */
function typedLink(
  answer: CallAnswer,
  { typed, values }: Working,
  field: string,
): GivenLink | undefined {
  const from = typed?.[field];
  const cell = from && cellAtPlace(answer, from.place);
  if (!from || !cell) return undefined;
  const { origin } = cell;
  if (typeof cell.value === "number" && typeof values[field] === "string")
    return { kind: "linked", origin, perUnit: 1, word: cell.value };
  if (typeof cell.value !== "string") return { kind: "linked", origin, perUnit: from.perUnit };
  return typeof values[field] === "number"
    ? { kind: "read", word: cell.value }
    : { kind: "linked", origin, perUnit: 1, word: cell.value.trim() };
}

/** Givens, and what the formulas read beside givens and steps. */
function fieldsShown({ givens, steps }: Working): string[] {
  const read = Object.values(steps).flatMap((step) => {
    if (step.kind === "lookup") return [];
    return fieldsOf(step.kind === "formula" ? step.formula : step.residual);
  });
  return [...new Set([...Object.keys(givens), ...read])].filter((field) => !(field in steps));
}

/** Each given that the argument fills, with the cell that does. */
function fillings(argument: UsedArgument): [string, Filling][] {
  const { key, parameter, cells } = argument;
  const fills = (field: string, index: number): [string, Filling] => [
    field,
    { argument, cell: cells[index], index },
  ];
  if (parameter.kind === "cells") return [];
  if (parameter.kind === "numbers") {
    const places = [...cells.keys()].filter(
      (place) => parameter.paired === true || !isBlank(cells[place]?.value),
    );
    return places.map((place, count) => fills(`${parameter.each}${count + 1}`, place));
  }
  if (parameter.kind === "choice or numbers" && cells.length > 1) return parameter.row.map(fills);
  return [fills(key, 0)];
}

function linkTo({ argument, cell }: Filling, value: unknown): GivenLink {
  const { parameter } = argument;
  if (!cell) return { kind: "default", origin: undefined };
  const { origin } = cell;
  const isReal = isZeroReal(parameter);
  const isList = parameter.kind === "numbers";
  // A 0 that the calculation does not have was read as not given.
  const isUnread = cell.value === 0 && value !== 0 && !isReal && !isList;
  if (isBlank(cell.value) || isUnread)
    return isReal ? { kind: "linked", origin, perUnit: 1 } : { kind: "default", origin };
  if (typeof cell.value === "string")
    return typeof value === "number"
      ? { kind: "read", word: cell.value }
      : { kind: "linked", origin, perUnit: 1, word: cell.value.trim() };
  const perUnit = "perUnit" in parameter ? (parameter.perUnit ?? 1) : 1;
  return { kind: "linked", origin, perUnit };
}

/** Where no argument fills it: what was solved for it, or what an earlier working found under the same name. */
function unfilled(field: string, workings: readonly Working[], at: number): GivenLink {
  const told = workings[at]?.frozen?.[field];
  if (told !== undefined) return { kind: "frozen", told };
  const index = workings.slice(0, at).findIndex(({ steps }) => field in steps);
  return index < 0 ? { kind: "taken" } : { kind: "line", line: lineKey(index, field) };
}
