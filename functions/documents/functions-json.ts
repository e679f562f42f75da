/** The catalogue as Excel reads it before it loads anything else: names, hints and shapes of every cell function. */
import { isRepeating, type Parameter, type Result } from "../entry.js";
import { helpPath } from "./help-path.js";
import type { DescribedEntry } from "./described.js";

/** Excel's dialog drops what stands behind a line break, and later hosts allow no more than this. */
export const MOST_CHARACTERS = 255;

export interface FunctionsJson {
  /** A cell that holds a rich value still gives its plain one. */
  readonly allowCustomDataForDataTypeAny: true;
  /** A table may hold errors: the runner passes them on by name, where Excel would not call at all. */
  readonly allowErrorForDataTypeAny: true;
  readonly functions: readonly FunctionJson[];
  /** Lists of words that Excel offers while a call is typed; versions before them pass this over. */
  readonly enums: readonly EnumJson[];
}

export interface EnumJson {
  readonly id: string;
  readonly type: "string";
  readonly values: readonly {
    readonly name: string;
    /** What stands in the formula, in every language. */
    readonly stringValue: string;
    readonly tooltip?: string;
  }[];
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
  /** `string` where nothing but one of a few words will do: documented so for a list of words. */
  readonly type: "any" | "string";
  readonly dimensionality: Dimensionality;
  readonly optional?: true;
  readonly repeating?: true;
  readonly customEnumId?: string;
}

type Dimensionality = "scalar" | "matrix";

/** The catalogue's texts in another language. Ids, names and the words that are typed stay as they are. */
export interface Translation {
  /** Translation of a purpose or a meaning. @throws {RangeError} for a text that has none. */
  readonly text: (english: string) => string;
  /** What a word means that is typed in English. */
  readonly word: (choice: string) => string | undefined;
  readonly resultIn: (unit: string) => string;
}

const ENGLISH: Translation = {
  text: (english) => english,
  word: () => undefined,
  resultIn: (unit) => `Result in ${unit}.`,
};

/** @throws {RangeError} for a text that Excel would cut. */
export function functionsJson(catalogue: readonly DescribedEntry[], told = ENGLISH): FunctionsJson {
  const enumIds = enumIdsOf(catalogue);
  return {
    allowCustomDataForDataTypeAny: true,
    allowErrorForDataTypeAny: true,
    functions: catalogue.map((entry) => functionJson(entry, enumIds, told)),
    enums: [...enumIds].map(([choices, id]) => enumJson(id, choices.split(PARTED), told)),
  };
}

/** As the file is written. */
export function functionsJsonText(catalogue: readonly DescribedEntry[], told = ENGLISH): string {
  return `${JSON.stringify(functionsJson(catalogue, told), null, 2)}\n`;
}

const PARTED = "\n";

function choicesKey({ choices }: { readonly choices: readonly string[] }): string {
  return choices.join(PARTED);
}

/** One list for all arguments that take the same words, named by the first of them. */
function enumIdsOf(catalogue: readonly DescribedEntry[]): ReadonlyMap<string, string> {
  const ids = new Map<string, string>();
  for (const { id, parameters } of catalogue)
    for (const parameter of Object.values(parameters)) {
      if (!("choices" in parameter) || ids.has(choicesKey(parameter))) continue;
      const name = parameter.name.toUpperCase().replace(/[^A-Z0-9]+/g, "_");
      ids.set(choicesKey(parameter), `${id}.${name}`);
    }
  return ids;
}

function enumJson(id: string, choices: readonly string[], { word }: Translation): EnumJson {
  const values = choices.map((choice) => {
    const tooltip = word(choice);
    return { name: choice, stringValue: choice, ...(tooltip !== undefined && { tooltip }) };
  });
  return { id, type: "string", values };
}

function functionJson(
  { id, purpose, parameters, result }: DescribedEntry,
  enumIds: ReadonlyMap<string, string>,
  told: Translation,
): FunctionJson {
  return {
    id,
    name: id,
    description: requireLine(`${id}: purpose`, functionDescription(purpose, result, told)),
    helpUrl: helpPath(id),
    parameters: Object.values(parameters).map((parameter) =>
      parameterJson(id, parameter, enumIds, told),
    ),
    result: {
      type: "any",
      dimensionality: result.shape === "row" || result.shape === "table" ? "matrix" : "scalar",
    },
    options: { stream: false, volatile: false },
  };
}

function parameterJson(
  id: string,
  parameter: Parameter,
  enumIds: ReadonlyMap<string, string>,
  told: Translation,
): ParameterJson {
  const repeating = isRepeating(parameter);
  const enumId = "choices" in parameter ? enumIds.get(choicesKey(parameter)) : undefined;
  return {
    name: parameter.name,
    description: requireLine(
      `${id}: ${parameter.name}`,
      parameterDescription({ ...parameter, meaning: told.text(parameter.meaning) }),
    ),
    type: parameter.kind === "choice" ? "string" : "any",
    dimensionality: dimensionality(parameter),
    // A repeating parameter counts as optional anyway.
    ...(parameter.optional && !repeating && { optional: true }),
    ...(repeating && { repeating: true }),
    ...(enumId !== undefined && { customEnumId: enumId }),
  };
}

/**
 * The unit is told here and not in the cell: a number that carries a format of its own takes it along through
 * calculations, and a product of volts and amperes would be shown in volts.
 */
function functionDescription(purpose: string, { shape, unit }: Result, told: Translation): string {
  const isUnit = shape === "number" && /^[^\s1]+$/.test(unit) && unit !== "money";
  return isUnit ? `${told.text(purpose)} ${told.resultIn(unit)}` : told.text(purpose);
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
