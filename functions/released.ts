/**
 * What users' workbooks already rely on. Ids and arguments of released functions stay for ever: an argument may be added
 * behind the others if it is optional, a choice may be added, a function may be added, and nothing else may change.
 */
import { type Entry, isRepeating, type Parameter } from "./entry.js";

export interface ReleasedParameter {
  readonly name: string;
  readonly kind: string;
  readonly optional: boolean;
  readonly repeating: boolean;
  readonly choices: readonly string[];
}

export interface ReleasedFunction {
  readonly id: string;
  readonly parameters: readonly ReleasedParameter[];
}

export interface Released {
  /** The package's version at that release; 0.0.0 before the first. */
  readonly version: string;
  /** SHA-256 of functions.json at that release. */
  readonly functionsJson: string;
  readonly functions: readonly ReleasedFunction[];
}

export function releasedFunctions(catalogue: readonly Entry[]): readonly ReleasedFunction[] {
  return catalogue.map(({ id, parameters }) => ({
    id,
    parameters: Object.values(parameters).map(releasedParameter),
  }));
}

function releasedParameter(parameter: Parameter): ReleasedParameter {
  return {
    name: parameter.name,
    kind: parameter.kind,
    optional: parameter.optional === true,
    repeating: isRepeating(parameter),
    choices: "choices" in parameter ? parameter.choices : [],
  };
}

/** In sentences, what of `now` would break a workbook made with `released`. */
export function breakingChanges(
  released: readonly ReleasedFunction[],
  now: readonly ReleasedFunction[],
): readonly string[] {
  return released.flatMap((before) => {
    const after = now.find(({ id }) => id === before.id);
    return after ? functionChanges(before, after) : [`${before.id} is no longer there`];
  });
}

function functionChanges(
  { id, parameters: before }: ReleasedFunction,
  { parameters: after }: ReleasedFunction,
): readonly string[] {
  const appended = after.slice(before.length);
  return [
    ...before.flatMap((parameter, index) =>
      parameterChanges(`${id}, argument ${index + 1}`, parameter, after[index]),
    ),
    ...appended
      .filter(({ optional }) => !optional)
      .map(({ name }) => `${id}: the new argument ${name} is not optional`),
    ...(appended.length > 0 && before.at(-1)?.repeating
      ? [`${id}: nothing can stand behind a repeating argument`]
      : []),
  ];
}

function parameterChanges(
  where: string,
  before: ReleasedParameter,
  after: ReleasedParameter | undefined,
): readonly string[] {
  if (!after) return [`${where}: ${before.name} is no longer there`];
  const lost = before.choices.filter((choice) => !after.choices.includes(choice));
  return [
    ...(["name", "kind", "optional", "repeating"] as const)
      .filter((field) => before[field] !== after[field])
      .map((field) => `${where}: ${field} was ${before[field]}, is ${after[field]}`),
    ...lost.map((choice) => `${where}: the choice "${choice}" is gone`),
  ];
}

/** Whether `version` comes behind `other`, both as `1.2.3`. */
export function isLaterVersion(version: string, other: string): boolean {
  const [mine, theirs] = [version, other].map((text) => text.split(".").map(Number));
  for (const index of [0, 1, 2]) {
    const difference = (mine?.[index] ?? 0) - (theirs?.[index] ?? 0);
    if (difference !== 0) return difference > 0;
  }
  return false;
}
