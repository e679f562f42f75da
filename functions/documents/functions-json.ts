/** The catalogue as Excel reads it before it loads anything else: names, hints and shapes of every cell function. */
import { type Entry, isRepeating, type Parameter } from "../entry.js";
import { helpPath } from "./help-path.js";

/** Excel's dialog drops what stands behind a line break, and later hosts allow no more than this. */
export const MOST_CHARACTERS = 255;

export interface FunctionsJson {
  /** A cell that holds a rich value still gives its plain one. */
  readonly allowCustomDataForDataTypeAny: true;
  /** A table may hold errors: the runner passes them on by name, where Excel would not call at all. */
  readonly allowErrorForDataTypeAny: true;
  readonly functions: readonly FunctionJson[];
}

export interface FunctionJson {
  readonly id: string;
  readonly name: string;
  readonly description: string;
  /** Beside the file itself; the build puts the server's address before it, without which Excel cannot follow it. */
  readonly helpUrl: string;
  readonly parameters: readonly ParameterJson[];
  readonly result: {
    readonly type: "any";
    readonly dimensionality: Dimensionality;
  };
  readonly options: { readonly stream: false; readonly volatile: false };
}

export interface ParameterJson {
  readonly name: string;
  readonly description: string;
  readonly type: "any";
  readonly dimensionality: Dimensionality;
  readonly optional?: true;
  readonly repeating?: true;
}

type Dimensionality = "scalar" | "matrix";

/** @throws {RangeError} for a text that Excel would cut. */
export function functionsJson(catalogue: readonly Entry[]): FunctionsJson {
  return {
    allowCustomDataForDataTypeAny: true,
    allowErrorForDataTypeAny: true,
    functions: catalogue.map(functionJson),
  };
}

/** As the file is written. */
export function functionsJsonText(catalogue: readonly Entry[]): string {
  return `${JSON.stringify(functionsJson(catalogue), null, 2)}\n`;
}

function functionJson({ id, purpose, parameters, result }: Entry): FunctionJson {
  return {
    id,
    name: id,
    description: requireLine(`${id}: purpose`, purpose),
    helpUrl: helpPath(id),
    parameters: Object.values(parameters).map((parameter) => parameterJson(id, parameter)),
    result: {
      type: "any",
      dimensionality: result.shape === "row" || result.shape === "table" ? "matrix" : "scalar",
    },
    options: { stream: false, volatile: false },
  };
}

function parameterJson(id: string, parameter: Parameter): ParameterJson {
  const repeating = isRepeating(parameter);
  return {
    name: parameter.name,
    description: requireLine(`${id}: ${parameter.name}`, parameterDescription(parameter)),
    type: "any",
    dimensionality: dimensionality(parameter),
    // A repeating parameter counts as optional anyway.
    ...(parameter.optional && !repeating && { optional: true }),
    ...(repeating && { repeating: true }),
  };
}

/** The meaning with its unit; the choices too where there is room, since a refusal lists them in any case. */
function parameterDescription(parameter: Parameter): string {
  const { meaning, unit } = parameter;
  const told = unit === "" || unit === "1" ? meaning : `${meaning} (${unit})`;
  if (!("choices" in parameter)) return told;
  const untold = parameter.choices.some((choice) => !meaning.includes(choice));
  const listed = `${told}: ${parameter.choices.map((choice) => `"${choice}"`).join(", ")}`;
  return untold && listed.length <= MOST_CHARACTERS ? listed : told;
}

function dimensionality({ kind }: Parameter): Dimensionality {
  return kind === "cells" || kind === "numbers" || kind === "choice or numbers"
    ? "matrix"
    : "scalar";
}

function requireLine(what: string, text: string): string {
  if (text.length > MOST_CHARACTERS || /[\r\n]/.test(text))
    throw new RangeError(
      `${what} must be one line of at most ${MOST_CHARACTERS} characters, got ${text.length}`,
    );
  return text;
}
